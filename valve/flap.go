package valve

import (
	"fmt"
	"math"
)

// Flap is a light flap of reinforced rubber on a seat cut obliquely through the bore, so that a short stroke opens it; it bends beside
// its clamped edge, and y is the angle of the flap from the seat.
//
//	M = m (L^2 + a^2/4) + m_l L^2,   a = D/(2 cos beta)
//	closing moment = m g (1 - rho/rho_s) L sin(y + beta + phi) + T_0 + k y
//	A_s = A/cos beta,   seat moment = dp A_s L,   sweep = A_s L/A
//	gap area ratio = L P/A y,   P the perimeter of the seat
//	C = C_form(y + beta) + (zeta - zeta_open),   C_form: Plate;   zeta: EdgeJet
//
// The seat is an ellipse with the half axes D/2 and a, whose mean lift over its perimeter is L y (P by S. Ramanujan, "Modular equations
// and approximations to pi", 1914, from memory). One degree of freedom: the flap turns as a whole, and the strip of rubber of width b,
// thickness t and length l that bends beside its clamp is a spring, k = E b t^3/(12 l), of a beam with a moment at its end.
type Flap struct {
	Body
	FlapMass    float64 // m, kg
	FlapDensity float64 // rho_s, kg/m3: mean of rubber and reinforcement
	LiquidMass  float64 // m_l, kg: liquid that moves with the flap, as a mass at its centre
	Arm         float64 // L, m: clamped edge to the centre of the seat
	Travel      float64 // y_max, rad
	SeatAngle   float64 // beta, rad: inclination of the seat from the perpendicular
	Preload     float64 // T_0, N·m
	SpringRate  float64 // k, N·m/rad
	LoadOpen    float64 // C_open, on velocity head and area of the bore and the arm L

	FullOpenVelocity float64 // m/s; when 0, LoadOpen is used
}

// RubberRate is k of a strip of modulus e, Pa, and width, thickness and length in m, N·m/rad.
func RubberRate(e, width, thickness, length float64) float64 {
	return e * width * thickness * thickness * thickness / (12 * length)
}

// Inertia is M, kg·m2.
func (f Flap) Inertia() float64 {
	a := f.long()
	return f.FlapMass*(f.Arm*f.Arm+a*a/4) + f.LiquidMass*f.Arm*f.Arm
}

// long is the half axis of the seat across its hinge, m.
func (f Flap) long() float64 { return f.Bore / 2 / math.Cos(f.SeatAngle) }

// perimeter is that of the seat, m.
func (f Flap) perimeter() float64 {
	a, b := f.long(), f.Bore/2
	h := (a - b) * (a - b) / ((a + b) * (a + b))
	return math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
}

// LoadCoefficient is C_open, from the balance of moments on the stop at the full-open velocity unless given.
func (f Flap) LoadCoefficient() float64 {
	if f.FullOpenVelocity == 0 {
		return f.LoadOpen
	}
	return f.hinged().loadAt(f.FullOpenVelocity)
}

func (f Flap) hinged() hinged {
	return hinged{
		Body:    f.Body,
		inertia: f.Inertia(),
		seat:    1 / math.Cos(f.SeatAngle),
		arm:     f.Arm,
		gap:     f.Arm * f.perimeter() / f.area(),
		travel:  f.Travel,
		lean:    f.SeatAngle,
		weight: Sine{
			Amplitude: f.Gravity * f.FlapMass * f.submerged(f.FlapDensity) * f.Arm,
			Phase:     f.SeatAngle + f.Slope,
		},
		preload:    f.Preload,
		springRate: f.SpringRate,
	}
}

// Law is the flap's law of motion.
func (f Flap) Law() (*Law, error) {
	if !(f.FlapDensity > 0) {
		return nil, fmt.Errorf("%w: density of the flap = %g kg/m3 must be above zero", ErrLaw, f.FlapDensity)
	}
	if !(f.SeatAngle >= 0 && f.SeatAngle < 80*math.Pi/180) {
		return nil, fmt.Errorf("%w: inclination of the seat = %.1f° must be from 0 to below 80°", ErrLaw, f.SeatAngle*180/math.Pi)
	}
	h := f.hinged()
	h.load = f.LoadCoefficient()
	return h.law("flap")
}
