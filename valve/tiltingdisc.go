package valve

import (
	"fmt"
	"math"
)

// TiltingDisc is a disc whose pin crosses the bore at the distance e from its centre, so that its lower, larger part swings with the
// flow and its upper part against it; y is its angle from the seat.
//
//	M = (m + m_l) (D_d^2/16 + e^2)
//	closing moment = m g (1 - rho/rho_s) e sin(y + beta + phi) + T_0 + k y
//	A_1 r_1 - A_2 r_2 = A_s e,   A_s = pi D_d^2/4
//	seat moment = dp A_s e,   sweep = A_s e/A
//	gap area ratio = (4/pi) (E asin E + sqrt(1 - E^2)) y,   E = 2 e/D
//	C = C_form(y + beta) + (zeta - zeta_open),   C_form: Plate;   zeta: EdgeJet
//
// A_1, A_2 are the areas and r_1, r_2 the arms of the centroids of the two parts: about any line the first moment of the whole disc is
// its area times the distance of its centre, so that the drop on the larger part less that on the smaller, and what the one displaces
// less the other, are both A_s e. The gap opens on both sides of the pin and leaves two passages with the same drop, whose areas add:
// the lift of the edge at the polar angle p is |e + R cos p| y, and its mean over the edge is the bracket above. It is 2 for a hinge at
// the edge (E = 1, a swing disc) and 4/pi for one in the centre.
//
// The path of the centre, e y, is short: little liquid is carried along, and the disc is late by less than one that swings. Pressure on
// an open disc is greatest near its leading edge, which takes from the opening moment; the coefficient on the stop, from the balance of
// moments at the full-open velocity, contains that, the shape between does not.
type TiltingDisc struct {
	Body
	DiscDiameter float64 // D_d, m
	DiscMass     float64 // m, kg
	DiscDensity  float64 // rho_s, kg/m3
	LiquidMass   float64 // m_l, kg: liquid that turns with the disc, as a mass spread like the disc
	Eccentricity float64 // e, m, 0.1-0.2 D (common practice)
	Travel       float64 // y_max, rad
	SeatAngle    float64 // beta, rad: inclination of the seat from the perpendicular
	Preload      float64 // T_0, N·m
	SpringRate   float64 // k, N·m/rad
	RotationDrag float64 // C_r

	FullOpenVelocity float64 // m/s; when 0, LoadOpen is used
	LoadOpen         float64 // C_open, on velocity head and area of the bore and the arm e
}

// TiltingLiquidMass is the added mass, kg, of a thin disc of diameter d, m, that turns about a line at the distance e, m, from its
// centre in unbounded liquid: rho (16/45 R^5 + 8/3 R^3 e^2)/(R^2/4 + e^2) (H. Lamb, Hydrodynamics, from memory).
func TiltingLiquidMass(rho, d, e float64) float64 {
	r := d / 2
	return rho * (16./45*math.Pow(r, 5) + 8./3*r*r*r*e*e) / (r*r/4 + e*e)
}

// Inertia is M, kg·m2.
func (t TiltingDisc) Inertia() float64 {
	return (t.DiscMass + t.LiquidMass) * (t.DiscDiameter*t.DiscDiameter/16 + t.Eccentricity*t.Eccentricity)
}

// LoadCoefficient is C_open, from the balance of moments on the stop at the full-open velocity unless given.
func (t TiltingDisc) LoadCoefficient() float64 {
	if t.FullOpenVelocity == 0 {
		return t.LoadOpen
	}
	return t.hinged().loadAt(t.FullOpenVelocity)
}

func (t TiltingDisc) hinged() hinged {
	e := 2 * t.Eccentricity / t.Bore
	return hinged{
		Body:    t.Body,
		inertia: t.Inertia(),
		seat:    t.DiscDiameter * t.DiscDiameter / (t.Bore * t.Bore),
		arm:     t.Eccentricity,
		gap:     4 / math.Pi * (e*math.Asin(e) + math.Sqrt(1-e*e)),
		travel:  t.Travel,
		lean:    t.SeatAngle,
		weight: Sine{
			Amplitude: t.Gravity * t.DiscMass * t.submerged(t.DiscDensity) * t.Eccentricity,
			Phase:     t.SeatAngle + t.Slope,
		},
		preload:    t.Preload,
		springRate: t.SpringRate,
		drag:       t.RotationDrag * t.Density / 2 * 8 / 15 * math.Pow(t.DiscDiameter/2, 5),
	}
}

// Law is the tilting disc's law of motion.
func (t TiltingDisc) Law() (*Law, error) {
	if !(t.DiscDensity > t.Density) {
		return nil, fmt.Errorf("%w: the disc, %g kg/m3, floats in the fluid, %g kg/m3", ErrLaw, t.DiscDensity, t.Density)
	}
	if !(t.Eccentricity > 0 && t.Eccentricity < t.Bore/2) {
		return nil, fmt.Errorf("%w: the pin is %.4g m from the centre of the disc: it must lie between the centre and the edge of the bore, %.4g m", ErrLaw, t.Eccentricity, t.Bore/2)
	}
	h := t.hinged()
	h.load = t.LoadCoefficient()
	return h.law("tilting disc")
}
