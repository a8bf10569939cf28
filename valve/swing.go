package valve

import (
	"fmt"
	"math"
)

// Swing is a disc on a hinge above the bore, closed by its weight; y is its angle from the seat.
//
//	M = m (L^2 + D_d^2/16) + m_l L^2 + m_w L_w^2,   disc, liquid, counterweight
//	closing moment = [m g (1 - rho/rho_s) L + m_w g L_w] sin(y + beta + phi) + T_0 + k y
//	A_s = pi D_d^2/4,   seat moment = dp A_s L,   sweep = A_s L/A,   gap area ratio = 4 L y/D
//	C = C_form(y + beta) + (zeta - zeta_open),   C_form: Plate;   zeta: EdgeJet
//
// The normal of the disc makes y with that of its seat and y + beta with the axis of the bore: the seat leans by beta, its lower edge
// downstream, so that the hinge above lets the weight press the shut disc. Of the two, the gap and the swept volume begin on the
// seat and go with y; the stream comes along the axis and meets the disc at the angle pi/2 - (y + beta), and the weight hangs from the vertical, so
// that C_form and weight go with y + beta. A hinge that stands upstream of an upright seat has the same phase in its weight but none in C_form: it is
// not described here.
//
// The counterweight hangs outside: its inertia counts and no liquid carries it. The whole area A_s of the disc bears the pressure
// drop and displaces the liquid.
//
// C_form on the stop follows from the balance of moments there at the full-open velocity, its shape from the force on an inclined
// plate; the drop across the gap is added (GapLoad), so that the moment tends to dp A_s L on the seat. In a duct the axial force on the
// disc, C cos(y + beta) velocity heads, balances the pressure drop, zeta heads, but for the thrust of the body. A C_form that grows with cos^2 (y + beta)
// (velocity normal to the plate, squared) holds the disc up longer and closes later; a constant one closes earlier. Neither is
// excluded by a measurement that could be read: the shape belongs to the ±40 %. A load table replaces it.
//
// Pipe rising by phi adds to the closing angle. In vertical downflow the weight opens the disc: an error.
type Swing struct {
	Body
	DiscDiameter float64 // D_d, m
	DiscMass     float64 // m, kg
	DiscDensity  float64 // rho_s, kg/m3
	LiquidMass   float64 // m_l, kg: liquid that moves with the disc, as a mass at its centre
	Arm          float64 // L, hinge to disc centre, m
	Travel       float64 // y_max, rad
	SeatAngle    float64 // beta, rad: inclination of the seat that lets the weight press the shut disc

	Counterweight    float64 // m_w, kg, outside the liquid
	CounterweightArm float64 // L_w, m, positive where it helps to close
	Preload          float64 // T_0, N·m
	SpringRate       float64 // k, N·m/rad

	FullOpenVelocity float64 // m/s; when 0, LoadOpen is used
	LoadOpen         float64 // C_open, on velocity head and area of the bore
}

// SwingLiquidMass is the added mass, kg, of a thin disc of diameter d, m, at arm l, m, in unbounded liquid of density rho:
// rho (16/45 R^5 + 8/3 R^3 L^2) / L^2 (H. Lamb, Hydrodynamics, from memory). Inside a body it is 1 to 1.5 times that (common practice).
func SwingLiquidMass(rho, d, l float64) float64 {
	r := d / 2
	return rho * (16./45*math.Pow(r, 5)/(l*l) + 8./3*r*r*r)
}

// Inertia is M, kg·m2.
func (s Swing) Inertia() float64 {
	return s.DiscMass*(s.Arm*s.Arm+s.DiscDiameter*s.DiscDiameter/16) + s.LiquidMass*s.Arm*s.Arm +
		s.Counterweight*s.CounterweightArm*s.CounterweightArm
}

func (s Swing) weight() Sine {
	return Sine{
		Amplitude: s.Gravity * (s.DiscMass*s.submerged(s.DiscDensity)*s.Arm + s.Counterweight*s.CounterweightArm),
		Phase:     s.SeatAngle + s.Slope,
	}
}

// LoadCoefficient is C_open, from the balance of moments on the stop at the full-open velocity unless given.
func (s Swing) LoadCoefficient() float64 {
	if s.FullOpenVelocity == 0 {
		return s.LoadOpen
	}
	return s.hinged().loadAt(s.FullOpenVelocity)
}

func (s Swing) hinged() hinged {
	return hinged{
		Body:       s.Body,
		inertia:    s.Inertia(),
		seat:       s.DiscDiameter * s.DiscDiameter / (s.Bore * s.Bore),
		arm:        s.Arm,
		gap:        4 * s.Arm / s.Bore,
		travel:     s.Travel,
		lean:       s.SeatAngle,
		weight:     s.weight(),
		preload:    s.Preload,
		springRate: s.SpringRate,
	}
}

// Law is the swing disc's law of motion.
func (s Swing) Law() (*Law, error) {
	if !(s.DiscDensity > s.Density) {
		return nil, fmt.Errorf("%w: the disc, %g kg/m3, floats in the fluid, %g kg/m3", ErrLaw, s.DiscDensity, s.Density)
	}
	h := s.hinged()
	h.load = s.LoadCoefficient()
	return h.law("swing disc")
}
