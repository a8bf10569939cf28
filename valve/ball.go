package valve

import (
	"fmt"
	"math"
)

// Ball is a ball that rolls up an inclined side path out of the flow and back by its weight. It is wider than its
// seat, a circle of the bore across the path; y is its way along the path.
//
//	M = m (1 + j) + m_l,   m = rho_b pi d^3/6,   m_l = rho/2 pi d^3/6
//	closing force = m g (1 - rho/rho_b) sin(psi + phi) + F_0 + k y
//	seat force = dp A,   sweep = 1
//
// m_l is the added mass of a sphere, half the liquid that it displaces (potential flow, H. Lamb, Hydrodynamics, from memory; exact in
// unbounded liquid). j is the share of a ball that rolls without slip, 2/5 of a solid one, 2/3 of a shell, 0 of one that slides. The
// gap is SphereGap; its jet expands as that of any curtain (Curtain).
type Ball struct {
	Body
	Diameter   float64 // d, m
	BallMass   float64 // m, kg
	LiquidMass float64 // m_l, kg
	Rolling    float64 // j
	PathAngle  float64 // psi, rad
	Travel     float64 // m
	Spring     Spring  // seldom fitted
	Force      float64 // C_F of the open ball
}

// SphereVolume is pi d^3/6.
func SphereVolume(d float64) float64 { return math.Pi / 6 * d * d * d }

// Motion is the ball's law of motion. Little denser than the liquid, it goes with it when the flow is slowed down: M_c = (rho pi d^3/6 + m_l)
// cos psi (Carried). The liquid of the side path takes part in the pressure gradient of the pipe.
func (b Ball) Motion() (*Carried, error) {
	l, err := b.law()
	if err != nil {
		return nil, err
	}
	liquid := (b.Density*SphereVolume(b.Diameter) + b.LiquidMass) * math.Cos(b.PathAngle)
	if !(liquid < l.Inertia) {
		return nil, fmt.Errorf("%w: the acceleration of %.4g kg of liquid moves a ball of %.4g kg with its liquid: it is too light to obey this law", ErrLaw, liquid, l.Inertia)
	}
	return &Carried{Law: l, Liquid: Constant(liquid)}, nil
}

func (b Ball) law() (*Law, error) {
	if !(b.Diameter > 1.001*b.Bore) {
		return nil, fmt.Errorf("%w: a ball of %.4g m does not rest on a seat of %.4g m: it must be greater", ErrLaw, b.Diameter, b.Bore)
	}
	if !(b.Rolling >= 0 && b.Rolling <= 1) {
		return nil, fmt.Errorf("%w: rolling inertia = %g of the mass must be from 0 to 1", ErrLaw, b.Rolling)
	}
	gap := SphereGap{Bore: b.Bore, Ball: b.Diameter, Contraction: b.Contraction}
	most, _ := gap.At(b.Travel)
	return axial{
		Body: b.Body, seat: 1, mass: b.BallMass, density: b.BallMass / SphereVolume(b.Diameter), inertia: b.BallMass*(1+b.Rolling) + b.LiquidMass,
		path: b.PathAngle, travel: b.Travel, spring: b.Spring, force: b.Force,
		conductance: Through{Outer: Curtain{Open: b.LossOpen, Rate: 1, Max: math.Min(1, most)}, Inner: gap},
		name:        "ball",
		needs:       "a heavier ball, or a level or rising pipe",
	}.law()
}

// SphereGap is the contracted gap area between a ball of radius r and the edge of its seat, radius R, over the area of the seat:
//
//	u = Cc (s^2 - r^2)/(R s),   s^2 = R^2 + (h + y)^2,   h^2 = r^2 - R^2
//
// the frustum of a cone between the edge and the nearest circle of the ball, pi (s - r)(R + R r/s) over pi R^2; s is the distance from
// the edge to the centre. On the seat u = 0 and du/dy = Cc 2 h/(R r): a ball opens slower than a disc, 2/R.
type SphereGap struct {
	Bore        float64 // 2 R, m
	Ball        float64 // 2 r, m
	Contraction float64 // Cc
}

// At returns u and its derivative; it is 0 behind the seat.
func (g SphereGap) At(y float64) (u, du float64) {
	if y < 0 {
		return 0, 0
	}
	edge, r := g.Bore/2, g.Ball/2
	h := math.Sqrt(r*r - edge*edge)
	above := h + y
	s := math.Hypot(edge, above)
	way := y * (2*h + y) // s^2 - r^2
	k := g.Contraction / edge
	return k * way / s, k * above / s * (2 - way/(s*s))
}
