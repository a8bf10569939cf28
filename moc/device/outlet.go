package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// mouth is the way out to the atmosphere through a loss: with z the elevation of the open end, m, and x the part of the area that is open,
//
//	k q|q| = x^2 max(ha - z, 0)
//
// No liquid comes back: below z nothing flows.
type mouth struct {
	loss square
	z    float64
}

// at is the equation at the open part x.
func (m mouth) at(x, q, ha float64) Equation {
	if x == 0 {
		return Equation{q, 1, 0, 0}
	}
	h, hq := m.loss.at(q)
	if ha <= m.z {
		return Equation{h, hq, 0, 0}
	}
	return Equation{h - x*x*(ha-m.z), hq, -x * x, 0}
}

// flow is the flow at the open part x, m3/s.
func (m mouth) flow(x, ha float64) float64 { return m.loss.flow(x * x * max(ha-m.z, 0)) }

// trial is the equation of at, solved for the flow where the trial's is far from it.
func (m mouth) trial(x, q, ha float64) Equation {
	f := m.flow(x, ha)
	if f == 0 || !far(q, f) {
		return m.at(x, q, ha)
	}
	_, fq := m.loss.at(f)
	return Equation{q - f, 1, -x * x / fq, 0}
}

// part is the open part that goes with flow and head; any will do below the mouth.
func (m mouth) part(q, ha float64) float64 {
	if ha <= m.z {
		return 1
	}
	h, _ := m.loss.at(q)
	return math.Sqrt(max(h, 0) / (ha - m.z))
}

// rising is a curve of flow against head: the mouth with parts[0] of its area up to heads[0], parts[1] from there up to heads[1], and so on; at heads[j]
// the flow is anything between those of parts[j] and parts[j+1], see holds. Its pieces are counted from 0: even ones are orifices, odd ones constant heads.
//
// A trial is judged by one piece, and moves to the next one when it lies beyond the end of it. Where a falling line cuts the extension of a piece
// beyond its end, it cuts the rising curve beyond that end too: so Newton's method does not go to and fro, whatever the scales of flow and head.
type rising struct {
	mouth        mouth
	parts, heads []float64 // no head below the mouth
}

// follow is the equation of a trial that was last on the given piece, the piece it is on now, and its open part.
func (c *rising) follow(piece int, q, ha float64) (e Equation, now int, part float64) {
	piece += c.beyond(piece, q, ha)
	if c.empty(piece) {
		piece++
		if ha < c.heads[piece/2-1] {
			piece -= 2
		}
	}
	j := piece / 2
	if piece%2 == 0 {
		return c.mouth.trial(c.parts[j], q, ha), piece, c.parts[j]
	}
	return c.holds(j, q, ha), piece, min(max(c.mouth.part(q, c.heads[j]), c.parts[j]), c.parts[j+1])
}

// beyond is 1 for a trial beyond the upper end of a piece, -1 for one beyond the lower.
func (c *rising) beyond(piece int, q, ha float64) int {
	j := piece / 2
	if piece%2 == 1 {
		switch {
		case q > c.mouth.flow(c.parts[j+1], c.heads[j]):
			return 1
		case q < c.mouth.flow(c.parts[j], c.heads[j]):
			return -1
		}
		return 0
	}
	switch {
	case j < len(c.heads) && ha > c.heads[j]:
		return 1
	case j > 0 && ha < c.heads[j-1]:
		return -1
	}
	return 0
}

// empty tells whether a piece of constant head joins two equal orifices.
func (c *rising) empty(piece int) bool {
	return piece%2 == 1 && c.parts[piece/2] == c.parts[piece/2+1]
}

// holds is the equation ha = heads[j], as a residual that falls with ha as that of a mouth does. The head rises with the flow by a ten-thousandth of its
// height above the mouth over the mouth's whole flow, and by 1 mm for each m3/s: far below what any valve keeps to, and enough to tell apart the
// flows of two devices that hold one node.
func (c *rising) holds(j int, q, ha float64) Equation {
	h := c.heads[j]
	rise := 1e-4*(h-c.mouth.z)/(c.mouth.flow(1, h)+c.mouth.loss.q0) + 1e-3
	return Equation{h + rise*(q-c.mouth.flow(c.parts[j], h)) - ha, rise, -1, 0}
}

// Outlet lets liquid out to the atmosphere. With z the elevation of its mouth, m, q0 the flow at the pressure head h0, m, and hs the
// sustained pressure head, m,
//
//	q = 0                          while ha < z + hs
//	0 <= q <= q0 sqrt(hs/h0)       at    ha = z + hs
//	q = q0 sqrt((ha - z)/h0)       while ha > z + hs
//
// One curve, rising in ha; with hs = 0 it is the orifice's. It has no inertia and no memory: the same in steady and unsteady flow.
type Outlet struct {
	quiet
	curve rising
	piece int
	flow  float64 // of the last steady trial, m3/s
	dry   bool    // nothing flows in steady flow
}

// NewOutlet returns the device of an outlet; gamma is rho g, Pa/m.
func NewOutlet(d *network.Outlet, gamma float64) *Outlet {
	m := mouth{square{k: d.Pressure / gamma / (d.Flow * d.Flow), q0: 1e-6 * d.Flow}, d.Elevation}
	return &Outlet{curve: rising{m, []float64{0, 1}, []float64{d.Elevation + d.Sustained/gamma}}, piece: 2}
}

// Steady implements Device. The steady solver compares residuals of many trials: here the outlet stays on its piece of the curve until Turn.
func (d *Outlet) Steady(q, ha, _ float64) Equation {
	d.flow = q
	switch d.piece {
	case 0:
		return Equation{q, 1, 0, 0}
	case 1:
		return d.curve.holds(0, q, ha)
	}
	h, hq := d.curve.mouth.loss.at(q)
	return Equation{h + d.curve.mouth.z - ha, hq, -1, 0}
}

// Turn moves to the next piece of the curve when the steady state found on the present one lies beyond its end, and tells whether it did.
func (d *Outlet) Turn(q, ha, _ float64) bool {
	by := d.curve.beyond(d.piece, q, ha)
	d.piece += by
	return by != 0
}

// Settled finds a steady state that is not on the curve.
func (d *Outlet) Settled(ha, _ float64) error {
	if d.curve.beyond(d.piece, d.flow, ha) != 0 {
		return object("elevation", "lower the outlet, or take less sustained pressure", "the head in steady flow, %v, is below the %v at which the outlet gives anything", quantity.Level(ha), quantity.Level(d.curve.heads[0]))
	}
	return nil
}

// Start implements Device.
func (d *Outlet) Start(_, _, _ float64) { d.dry = d.piece == 0 }

// Try implements Device.
func (d *Outlet) Try(_, _, q, ha, _ float64) (e Equation) {
	e, d.piece, _ = d.curve.follow(d.piece, q, ha)
	return e
}

// Accept implements Device.
func (d *Outlet) Accept(_, _, _, _, _ float64) {}

// Save implements Device.
func (d *Outlet) Save() {}

// Restore implements Device.
func (d *Outlet) Restore() {}

// Notes tells of an outlet above the gradient line.
func (d *Outlet) Notes() []quantity.Sentence {
	if d.dry {
		return []quantity.Sentence{quantity.Say("gives nothing in steady flow: the head is too low")}
	}
	return nil
}
