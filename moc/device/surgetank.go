package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// SurgeTank is a surge tank or standpipe, open to the atmosphere. With q the flow into it, m3/s, v its liquid, m3, and z(v) its level, m,
//
//	dv/dt = q                              trapezoidal
//	ha = z(v) + K q|q|/(2 g A^2)           K = K_in for q > 0, K_out for q < 0, A of the connection's bore, m2
//
// In steady flow q = 0 and z = ha. The inertia of the liquid in tank and connection is left out; a long connection is a pipe of the network
// with the tank at its end.
//
// At the crest the level stays and what comes more is spilled: v is at most full. At the floor the level stays and air enters the line in the
// liquid's place: v below zero is less that volume, at atmospheric pressure, which leaves again through the tank before its level rises. The
// line itself is computed as full of liquid, so that a run in which a tank empties is no more than a first sight of what follows; Notes says so.
//
// Sources: E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993 (tank at a node, from memory); the rest is continuity.
type SurgeTank struct {
	quiet
	Data network.SurgeTank

	in, out          float64 // head loss per q|q|, s2/m5
	basin            basin
	now, next, saved tank
}

type tank struct {
	v, q                  float64 // liquid, m3, and flow into the tank, m3/s
	spilled, air          float64 // m3; air is the most that has entered
	spills, drains, feeds float64 // times at which it first spills, lets air in, feeds the line, s; NaN: not yet
}

// still is a tank with the liquid v in which nothing has happened.
func still(v float64) tank {
	never := math.NaN()
	return tank{v: v, spills: never, drains: never, feeds: never}
}

// NewSurgeTank returns the device of a surge tank.
func NewSurgeTank(d *network.SurgeTank, g float64) *SurgeTank {
	return &SurgeTank{Data: *d, in: lossPerFlow(d.LossIn, d.Bore, g), out: lossPerFlow(d.LossOut, d.Bore, g), basin: newBasin(d.Bottom, d.Overflow, d.Rows())}
}

// lossPerFlow is the head loss per q|q|, s2/m5, of a loss coefficient on a bore's velocity head.
func lossPerFlow(k, bore, g float64) float64 {
	a := math.Pi / 4 * bore * bore
	return k / (2 * g * a * a)
}

// Steady implements Device: nothing flows.
func (d *SurgeTank) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a steady head at which the tank would spill or be empty.
func (d *SurgeTank) Settled(ha, _ float64) error {
	switch {
	case ha > d.Data.Overflow:
		return object("overflow level", "let it reach above the head in steady flow", "the head in steady flow, %v, is above the overflow level of %v: the tank spills all the time", quantity.Level(ha), quantity.Level(d.Data.Overflow))
	case ha < d.Data.Bottom:
		return object("bottom level", "let it reach below the head in steady flow", "the head in steady flow, %v, is below the bottom level of %v: the tank is empty", quantity.Level(ha), quantity.Level(d.Data.Bottom))
	}
	return nil
}

// Start implements Device.
func (d *SurgeTank) Start(_, ha, _ float64) {
	d.now = still(d.basin.volume(ha))
	d.next = d.now
}

// Try implements Device.
func (d *SurgeTank) Try(_, h, q, ha, _ float64) Equation {
	d.next.v, d.next.q = d.now.v+h/2*(d.now.q+q), q
	z, zv := d.basin.level(d.next.v)
	k := d.in
	if q < 0 {
		k = d.out
	}
	return Equation{ha - z - k*q*math.Abs(q), -zv*h/2 - 2*k*math.Abs(q), 1, 0}
}

// Accept implements Device.
func (d *SurgeTank) Accept(t, h, _, _, _ float64) {
	d.now = d.next.filled(d.basin.full, t+h)
	d.next = d.now
}

// filled is the tank at time t with what stands above the crest spilled.
func (k tank) filled(full, t float64) tank {
	if over := k.v - full; over > 0 {
		k.v = full
		k.spilled += over
		k.spills = first(k.spills, t)
	}
	if k.v < 0 {
		k.air = math.Max(k.air, -k.v)
		k.drains = first(k.drains, t)
	}
	return k
}

// first keeps the earlier time; NaN is never.
func first(then, now float64) float64 {
	if math.IsNaN(then) {
		return now
	}
	return then
}

// Save implements Device.
func (d *SurgeTank) Save() { d.saved = d.now }

// Restore implements Device.
func (d *SurgeTank) Restore() { d.now, d.next = d.saved, d.saved }

// Level is the present level, m.
func (d *SurgeTank) Level() float64 {
	z, _ := d.basin.level(d.now.v)
	return z
}

// Stored implements Store.
func (d *SurgeTank) Stored() float64 { return d.now.v + d.now.spilled }

// Spilled is the volume that has gone over the crest, m3.
func (d *SurgeTank) Spilled() float64 { return d.now.spilled }

// Notes tells whether the tank has spilled or run empty.
func (d *SurgeTank) Notes() []quantity.Sentence {
	var notes []quantity.Sentence
	if d.now.spilled > 0 {
		notes = append(notes, quantity.Say("spills from %v on, %v in all", quantity.Of(d.now.spills, quantity.Time), quantity.Of(d.now.spilled, quantity.Volume)))
	}
	return append(notes, d.now.emptied()...)
}

// Resume implements Store.
func (d *SurgeTank) Resume(q float64) { d.now.q = q }

// emptied is the note of a tank that has let air in.
func (k tank) emptied() []quantity.Sentence {
	if !(k.air > 0) {
		return nil
	}
	return []quantity.Sentence{quantity.Say("runs empty at %v and lets %v of air into the line, which is computed as if full: do not rely on what follows", quantity.Of(k.drains, quantity.Time), quantity.Of(k.air, quantity.Volume))}
}
