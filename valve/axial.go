package valve

import (
	"fmt"
	"math"
)

// axial is a body that lifts along a straight path, a disc or a ball; y is its lift.
//
//	closing force = weight + F_0 + k y,   weight = m g (1 - rho/rho_s) sin(psi + phi)
//	seat force = dp A_s,   sweep = A_s/A
//	F_0 + k s + weight + friction = C_F rho/2 V_open^2 A
//
// psi is the angle of the path to the pipe, 0 along its axis, and phi the slope of the pipe. C_F is the force coefficient of the open
// disc on the bore (drop and momentum, 1.5-3 for a disc on the axis, common practice). The load coefficient on the seat area is
// C_F A/A_s at the stop and everywhere that of the open disc plus the drop across the gap (GapLoad): the flow round the open disc
// changes little with lift, the gap's share grows as 1/y^2.
type axial struct {
	Body
	seat        float64 // A_s/A
	mass        float64 // m, kg
	density     float64 // rho_s, kg/m3
	inertia     float64 // M, kg
	path        float64 // psi, rad
	travel      float64 // s, m
	spring      Spring
	force       float64 // C_F
	conductance Func    // unless a loss table is given
	name        string  // of what moves
	needs       string  // what makes a closing force
}

// Weight is the force, N, with which a body of the given mass, kg, and density, kg/m3, closes on a path at the angle psi, rad, to the pipe.
func (b Body) Weight(mass, density, psi float64) float64 {
	sin := math.Sin(psi + b.Slope)
	if math.Abs(sin) < 1e-12 { // across the vertical
		sin = 0
	}
	return mass * b.Gravity * b.submerged(density) * sin
}

// disc is a disc, or a ring of inner over outer diameter beta, that lifts along the axis of its seat:
//
//	M = m + m_l,   A_s = (1 - beta^2) A,   curtain area ratio = 4 (1 + beta) y/D
//
// an outer edge and, in a ring, an inner one.
func disc(b Body, beta, mass, density, liquid, travel float64, s Spring, force float64) axial {
	return axial{
		Body: b, seat: 1 - beta*beta, mass: mass, density: density, inertia: mass + liquid, travel: travel, spring: s, force: force,
		conductance: NewCurtain(b.LossOpen, b.Contraction, 4*(1+beta)/b.Bore, travel),
		name:        "disc",
		needs:       "a stronger spring",
	}
}

// longest is the longest travel over the bore: the gap of a disc is as wide as the bore at a quarter of it, a ball goes one bore aside.
const longest = 1.5

func (a axial) law() (*Law, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	if !(a.seat > 0 && a.seat <= 1) {
		return nil, fmt.Errorf("%w: seat area over bore area = %g must be above 0 and at most 1", ErrLaw, a.seat)
	}
	if !(a.density > 0) || !(a.mass > 0) {
		return nil, fmt.Errorf("%w: moving mass %g kg and density %g kg/m3 must be above zero", ErrLaw, a.mass, a.density)
	}
	if a.travel > longest*a.Bore {
		return nil, fmt.Errorf("%w: travel of a %s = %.4g mm is more than %g times the bore of %.4g mm", ErrLaw, a.name, 1e3*a.travel, longest, 1e3*a.Bore)
	}
	weight := a.Weight(a.mass, a.density, a.path)
	if err := a.closes(weight); err != nil {
		return nil, err
	}
	conductance, err := a.Body.conductance(a.conductance, a.travel)
	if err != nil {
		return nil, err
	}
	load, err := a.load(Constant(a.force/a.seat), conductance, a.travel, a.seat)
	if err != nil {
		return nil, err
	}
	l := &Law{
		Travel:      a.travel,
		Inertia:     a.inertia,
		Area:        a.seat * a.area(),
		Arm:         1,
		Density:     a.Density,
		Conductance: conductance,
		Load:        load,
		Sweep:       Constant(a.seat),
		Weight:      Constant(weight),
		Preload:     a.spring.Preload,
		SpringRate:  a.spring.Rate,
		Damper:      a.Damper,
		Friction:    a.Friction,
		Leak:        a.Leak,
		Restitution: a.Restitution,
	}
	return l, l.Check()
}

// closes says why a disc does not close, and what would make it.
func (a axial) closes(weight float64) error {
	preload := a.spring.Preload
	switch {
	case preload+weight > 0 && preload+a.spring.Rate*a.travel+weight > 0:
		return nil
	case a.density < a.Density && weight < 0 && preload == 0:
		return fmt.Errorf("%w: the %s, %.4g kg/m3, floats in the fluid, %.4g kg/m3, and does not close; it needs %s", ErrLaw, a.name, a.density, a.Density, a.needs)
	case preload == 0:
		return fmt.Errorf("%w: nothing closes the %s: its weight does not press it on its seat in this pipe; it needs %s", ErrLaw, a.name, a.needs)
	case weight >= 0:
		return fmt.Errorf("%w: nothing closes the %s: the preload of its spring is %.3g N; it needs %s", ErrLaw, a.name, preload, a.needs)
	}
	return fmt.Errorf("%w: the spring, %.3g N on the seat, does not carry the weight of the %s, %.3g N, in this falling pipe: it does not close; it needs %s",
		ErrLaw, preload, a.name, -weight, a.needs)
}

// Spring is the closing spring of a lifting disc, N and N/m.
type Spring struct {
	Preload float64
	Rate    float64
}

// SpringFor is the spring with which a rising flow brings the disc to its stop at the full-open velocity v, m/s:
//
//	C_F rho/2 v^2 A = F_0 + k s + weight + friction
//
// Share of its force on the stop is preload, 0.3-0.6 (common practice); in a falling pipe the preload carries the weight as well.
func SpringFor(b Body, force, v, travel, share, weight float64) Spring {
	full := force * b.Density / 2 * v * v * b.area()
	spring := full - b.Friction - math.Max(0, weight)
	return Spring{Preload: share*spring - math.Min(0, weight), Rate: (1 - share) * spring / travel}
}

// DiscLiquidMass is the added mass, kg, of a thin disc of diameter d, m, moving broadside in unbounded liquid of density rho:
// 8/3 rho R^3 (H. Lamb, Hydrodynamics, from memory). A ring has less.
func DiscLiquidMass(rho, d float64) float64 { return rho * d * d * d / 3 }
