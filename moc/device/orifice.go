package device

import (
	"math"

	"seatwise/network"
)

// square is a head loss that goes with the square of the flow, h = k q|q|, k in s2/m5. It is written without singularity at q = 0 as
//
//	h = k q sqrt(q^2 + q0^2),   q0 so small, m3/s, that it is of no account
type square struct{ k, q0 float64 }

// at is the loss at flow q, m, and its slope.
func (s square) at(q float64) (h, hq float64) {
	root := math.Sqrt(q*q + s.q0*s.q0)
	return s.k * q * root, s.k * (root + q*q/root)
}

// flow is the flow at the loss h, m3/s: at solved for q.
func (s square) flow(h float64) float64 {
	y, c := h/s.k, s.q0*s.q0
	return y * math.Sqrt(2/(c+math.Sqrt(c*c+4*y*y)))
}

// far tells of a trial q so far from the flow f that the square would throw the next one as far to the other side; f itself then makes the better
// residual, q - f.
func far(q, f float64) bool { return f == 0 || q/f < 0.5 || q/f > 2 }

// ofArea is the loss of an orifice of effective area (discharge coefficient times area) ca, m2: h = q|q|/(2 g ca^2).
func ofArea(ca, g float64) square { return square{k: 1 / (2 * g * ca * ca), q0: 1e-6 * ca} }

// Orifice is a loss that does not change:
//
//	ha - hb = K q|q|/(2 g A^2)
//
// with A the area of the pipe's bore D, m2, and K given or that of a sharp-edged plate of bore d, see [PlateLoss].
type Orifice struct {
	quiet
	loss square
}

// NewOrifice returns the device of an orifice.
func NewOrifice(d *network.Orifice, g float64) *Orifice {
	k := d.Loss
	if d.Bore > 0 {
		k = PlateLoss(d.Bore / d.PipeBore)
	}
	area := math.Pi / 4 * d.PipeBore * d.PipeBore
	return &Orifice{loss: square{k: k / (2 * g * area * area), q0: 1e-6 * area}}
}

// PlateLoss is the loss coefficient, on the pipe's velocity head, of a sharp-edged orifice plate of bore ratio b = d/D:
//
//	K = (sqrt(1 - b^4 (1 - C^2))/(C b^2) - 1)^2
//	C = 0.5961 + 0.0261 b^2 - 0.216 b^8
//
// C is the discharge coefficient with corner tappings at great Reynolds numbers, in pipes of 71 mm and more; b from 0.1 to 0.75. Source: ISO
// 5167-2, Measurement of fluid flow by means of pressure differential devices, Orifice plates, 2003 (from memory).
func PlateLoss(b float64) float64 {
	b2 := b * b
	b4 := b2 * b2
	c := 0.5961 + 0.0261*b2 - 0.216*b4*b4
	root := math.Sqrt(1-b4*(1-c*c))/(c*b2) - 1
	return root * root
}

// Steady implements Device.
func (d *Orifice) Steady(q, ha, hb float64) Equation {
	h, hq := d.loss.at(q)
	return Equation{ha - hb - h, -hq, 1, -1}
}

// Start implements Device.
func (d *Orifice) Start(_, _, _ float64) {}

// Try implements Device.
func (d *Orifice) Try(_, _, q, ha, hb float64) Equation { return d.Steady(q, ha, hb) }

// Accept implements Device.
func (d *Orifice) Accept(_, _, _, _, _ float64) {}

// Save implements Device.
func (d *Orifice) Save() {}

// Restore implements Device.
func (d *Orifice) Restore() {}
