package valve

import (
	"fmt"
	"math"
)

// axial is a disc that lifts along the axis of the bore against a spring; y is its lift.
//
//	M = m + m_l,   seat area A_s = (1 - beta^2) A,   sweep = A_s/A
//	curtain area ratio = 4 (1 + beta) y/D,   an outer edge and, in a ring of inner over outer diameter beta, an inner one
//	F_open = F_0 + k s + weight = C_F rho/2 V_open^2 A
//	weight = m g (1 - rho/rho_s) sin(phi)
//
// C_F is the force coefficient of the open disc on the bore (drop and momentum, 1.5-3, common practice). The load coefficient on the
// seat area is C_F A/A_s at the stop and everywhere that of the open disc plus the drop across the gap (GapLoad): the flow
// round the open disc changes little with lift, the gap's share grows as 1/y^2.
type axial struct {
	Body
	beta       float64
	discMass   float64
	density    float64 // of the disc
	liquidMass float64
	travel     float64
	preload    float64
	rate       float64
	force      float64 // C_F
}

func (a axial) weight() float64 {
	return a.discMass * a.Gravity * a.submerged(a.density) * math.Sin(a.Slope)
}

func (a axial) law() (*Law, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	if !(a.beta >= 0 && a.beta < 1) {
		return nil, fmt.Errorf("%w: ratio of ring diameters = %g must be from 0 to below 1", ErrLaw, a.beta)
	}
	if !(a.density > 0) || !(a.discMass > 0) {
		return nil, fmt.Errorf("%w: moving mass %g kg and disc density %g kg/m3 must be above zero", ErrLaw, a.discMass, a.density)
	}
	if !(a.preload+a.weight() > 0) || !(a.preload+a.rate*a.travel+a.weight() > 0) {
		if a.weight() >= 0 {
			return nil, fmt.Errorf("%w: nothing closes the disc: the preload of its spring is %.3g N and its weight does not press it on its seat in this pipe", ErrLaw, a.preload)
		}
		return nil, fmt.Errorf("%w: the spring, %.3g N on the seat, does not carry the weight of the disc, %.3g N, in this falling pipe: the disc does not close",
			ErrLaw, a.preload, -a.weight())
	}
	ratio := 1 - a.beta*a.beta
	conductance, err := a.conductance(NewCurtain(a.LossOpen, a.Contraction, 4*(1+a.beta)/a.Bore, a.travel), a.travel)
	if err != nil {
		return nil, err
	}
	load, err := a.load(Constant(a.force/ratio), conductance, a.travel, ratio)
	if err != nil {
		return nil, err
	}
	l := &Law{
		Travel:      a.travel,
		Inertia:     a.discMass + a.liquidMass,
		Area:        ratio * a.area(),
		Arm:         1,
		Density:     a.Density,
		Conductance: conductance,
		Load:        load,
		Sweep:       Constant(ratio),
		Weight:      Constant(a.weight()),
		Preload:     a.preload,
		SpringRate:  a.rate,
		Damper:      a.Damper,
		Friction:    a.Friction,
		Leak:        a.Leak,
		Restitution: a.Restitution,
	}
	return l, l.Check()
}

// Spring is the closing spring of a lifting disc, N and N/m.
type Spring struct {
	Preload float64
	Rate    float64
}

// SpringFor is the spring that holds the disc just on its stop at the full-open velocity v, m/s: C_F rho/2 v^2 A = F_0 + k s + weight.
// Share of its force on the stop is preload, 0.3-0.6 (common practice); in a falling pipe the preload carries the weight as well.
func SpringFor(b Body, force, v, travel, share, weight float64) Spring {
	full := force * b.Density / 2 * v * v * b.area()
	spring := full - math.Max(0, weight)
	return Spring{Preload: share*spring - math.Min(0, weight), Rate: (1 - share) * spring / travel}
}

// DiscLiquidMass is the added mass, kg, of a thin disc of diameter d, m, moving broadside in unbounded liquid of density rho:
// 8/3 rho R^3 (H. Lamb, Hydrodynamics, from memory). A ring has less.
func DiscLiquidMass(rho, d float64) float64 { return rho * d * d * d / 3 }
