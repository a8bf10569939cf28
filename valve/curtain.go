package valve

import "math"

// Curtain is the conductance g = 1/sqrt(zeta) of a disc whose flow passes the gap round its edge and then the body:
//
//	zeta = zeta_open + (1/u - 1/u_max)^2,   u = Cc alpha = Cc Rate y
//
// alpha is the gap area over the bore area, Cc the contraction of the jet: the second term is the loss of the sudden expansion from
// the jet to the full bore. u_max is u at the stop, at most 1, where the jet fills the bore, so that the loss at the stop is zeta_open.
// Written for g it has no singularity: g = u/sqrt(zeta_open u^2 + (1 - u/u_max)^2), g'(0) = Cc Rate.
type Curtain struct {
	Open float64 // zeta_open > 0
	Rate float64 // Cc d(alpha)/dy > 0, 1/m or 1/rad
	Max  float64 // u_max > 0
}

// NewCurtain returns the curtain of a gap whose area ratio grows by slope per unit y over the given travel.
func NewCurtain(open, contraction, slope, travel float64) Curtain {
	return Curtain{Open: open, Rate: contraction * slope, Max: math.Min(1, contraction*slope*travel)}
}

// At returns the conductance and its derivative; it is 0 behind the seat.
func (c Curtain) At(y float64) (g, dg float64) {
	u := c.Rate * y
	if u < 0 {
		return 0, 0
	}
	if u >= c.Max {
		return 1 / math.Sqrt(c.Open), 0
	}
	rest := 1 - u/c.Max
	d := c.Open*u*u + rest*rest
	root := math.Sqrt(d)
	return u / root, rest / (d * root) * c.Rate
}

// GapLoad is the load ratio kappa of a disc that bears the whole pressure drop of its gap besides the form force of the open disc:
//
//	C = C_form(y) + (zeta - zeta_open),   kappa = C/zeta = 1 + (C_form - zeta_open) g^2
//
// It is 1 on the seat, whatever C_form, and C_form/zeta_open where the gap costs nothing.
type GapLoad struct {
	Form        Func    // C_form, on the velocity head of the bore and the seat area
	Open        float64 // zeta_open
	Conductance Func
}

// At returns the load ratio and its derivative.
func (l GapLoad) At(y float64) (kappa, dkappa float64) {
	g, dg := l.Conductance.At(y)
	c, dc := l.Form.At(y)
	c -= l.Open
	return 1 + c*g*g, dc*g*g + 2*c*g*dg
}
