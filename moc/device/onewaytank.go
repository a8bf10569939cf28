package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// OneWayTank feeds the line through a check valve of its own. With q the flow into the tank, m3/s, never above zero, v its liquid, m3, and z its level, m,
//
//	q = 0                              while ha >= z
//	ha = z(v) - K q^2/(2 g A^2)        while ha < z, A of the connection's bore, m2
//	dv/dt = q                          trapezoidal
//
// Both branches meet at q = 0, ha = z. A trial is on the first only when it has both ha >= z and q >= 0: on the second the flow then stays
// out of the tank from one trial to the next, so that Newton's method does not go to and fro between the branches. The disc of the tank's
// check valve is without inertia and tight. Once empty the tank lets air in, see [SurgeTank]. The equation is the orifice's, the rest continuity.
type OneWayTank struct {
	quiet
	Data network.OneWayTank

	out, back        float64 // head loss per q|q| out of the tank, and the least of a trial into it, s2/m5
	basin            basin
	now, next, saved tank
}

// NewOneWayTank returns the device of a one-way tank.
func NewOneWayTank(d *network.OneWayTank, g float64) *OneWayTank {
	return &OneWayTank{Data: *d, out: lossPerFlow(d.LossOut, d.Bore, g), back: lossPerFlow(1, d.Bore, g),
		basin: newBasin(d.Bottom, d.Level, []network.LevelArea{{Level: d.Bottom, Area: d.Area}})}
}

// leastFlow is a velocity in the connection, m/s, that counts as none.
const leastFlow = 1e-12

// Steady implements Device: nothing flows.
func (d *OneWayTank) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a steady head at which the tank would feed the line.
func (d *OneWayTank) Settled(ha, _ float64) error {
	if ha < d.Data.Level-1e-6 {
		return object("level", "give a level below the head in steady flow", "the head in steady flow, %v, is below the level of %v: the tank feeds the line all the time", quantity.Level(ha), quantity.Level(d.Data.Level))
	}
	return nil
}

// Start implements Device.
func (d *OneWayTank) Start(_, _, _ float64) {
	d.now = still(d.basin.full)
	d.next = d.now
}

// Try implements Device.
func (d *OneWayTank) Try(_, h, q, ha, _ float64) Equation {
	v := d.now.v + h/2*d.now.q // the liquid if nothing flows at the end of the step
	d.next.v, d.next.q = v+h/2*q, q
	z, _ := d.basin.level(v)
	least := leastFlow * math.Pi / 4 * d.Data.Bore * d.Data.Bore
	if ha >= z && q >= -least {
		return Equation{q, 1, 0, 0}
	}
	z, zv := d.basin.level(d.next.v)
	k := d.out
	if q > 0 { // no solution lies here, not even where level and head do not depend on q
		k = math.Max(k, d.back)
	}
	return Equation{ha - z - k*q*math.Abs(q), -zv*h/2 - 2*k*math.Abs(q), 1, 0}
}

// Accept implements Device.
func (d *OneWayTank) Accept(t, h, _, _, _ float64) {
	d.now = d.next.filled(math.Inf(1), t+h)
	if d.now.v < d.basin.full*(1-1e-9) {
		d.now.feeds = first(d.now.feeds, t+h)
	}
	d.next = d.now
}

// Save implements Device.
func (d *OneWayTank) Save() { d.saved = d.now }

// Restore implements Device.
func (d *OneWayTank) Restore() { d.now, d.next = d.saved, d.saved }

// Level is the present level, m.
func (d *OneWayTank) Level() float64 {
	z, _ := d.basin.level(d.now.v)
	return z
}

// Stored implements Store.
func (d *OneWayTank) Stored() float64 { return d.now.v }

// Fed is the volume given to the line, m3.
func (d *OneWayTank) Fed() float64 { return d.basin.full - d.now.v }

// Notes tells whether the tank has fed the line and whether it has run empty.
func (d *OneWayTank) Notes() []quantity.Sentence {
	var notes []quantity.Sentence
	if !math.IsNaN(d.now.feeds) {
		notes = append(notes, quantity.Say("feeds the line from %v on, %v in all", quantity.Of(d.now.feeds, quantity.Time), quantity.Of(d.Fed(), quantity.Volume)))
	}
	return append(notes, d.now.emptied()...)
}

// Resume implements Store.
func (d *OneWayTank) Resume(q float64) { d.now.q = q }
