package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// AirVessel is a vessel with a cushion of gas. With q the flow into it, m3/s, V the gas volume, m3, z the elevation of the liquid surface, m,
//
//	dV/dt = -q                                              trapezoidal
//	p V^n = C                                               p absolute, Pa
//	ha = z(V) + (p - patm)/(rho g) + K q|q|/(2 g A^2)       K = K_in for q > 0, K_out for q < 0
//	z = z0 + (V0 - V)/A_v                                   constant when the plan area A_v is not given
//
// C is that of the steady state, in which q = 0. The inertia of the liquid in vessel and connection is left out. The exponent n stands for the heat that
// the gas takes up on the way, 1 for all of it and 1.4 for none (air).
//
// A vessel that has lost all its liquid lets gas into the line: z stays at its floor, the gas goes on by the same law, and the line itself is computed as
// full of liquid. Notes says so. Below a thousandth of V0 the gas law is continued by its tangent, for trials only: no liquid that enters can get there.
//
// Source: E. B. Wylie and V. L. Streeter, Fluid Transients in Systems, 1993 (polytropic law on absolute pressure, from memory).
type AirVessel struct {
	quiet
	Data       network.AirVessel
	Gamma      float64 // rho g, Pa/m
	Atmosphere float64 // Pa

	in, out          float64 // head loss per q|q|, s2/m5
	c                float64 // p V^n
	now, saved, next vessel
}

type vessel struct {
	v, q        float64 // gas, m3, and flow into the vessel, m3/s
	least, most float64 // gas since the start, m3
	mostAt      float64 // s
	empty       float64 // time of the last liquid, s; NaN: not yet
}

// NewAirVessel returns the device of an air vessel.
func NewAirVessel(d *network.AirVessel, gamma, g, atmosphere float64) *AirVessel {
	return &AirVessel{Data: *d, Gamma: gamma, Atmosphere: atmosphere, in: lossPerFlow(d.LossIn, d.Bore, g), out: lossPerFlow(d.LossOut, d.Bore, g)}
}

// level is the elevation of the liquid surface at gas volume v, and its slope.
func (d *AirVessel) level(v float64) (z, zv float64) {
	if d.Data.Area == 0 {
		return d.Data.Level, 0
	}
	if v > d.Data.Volume {
		v = d.Data.Volume
	} else {
		zv = -1 / d.Data.Area
	}
	return d.Data.Level + (d.Data.Gas-v)/d.Data.Area, zv
}

// pressure is the absolute pressure of the gas at volume v, Pa, and its slope.
func (d *AirVessel) pressure(v float64) (p, pv float64) {
	n := d.Data.Polytropic
	if least := 1e-3 * d.Data.Gas; v < least {
		p = d.c * math.Pow(least, -n)
		pv = -n * p / least
		return p + pv*(v-least), pv
	}
	p = d.c * math.Pow(v, -n)
	return p, -n * p / v
}

// absolute is the pressure of the gas in steady flow at head ha, Pa.
func (d *AirVessel) absolute(ha float64) float64 { return d.Gamma*(ha-d.Data.Level) + d.Atmosphere }

// Steady implements Device: nothing flows.
func (d *AirVessel) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a level that no gas pressure goes with.
func (d *AirVessel) Settled(ha, _ float64) error {
	if p := d.absolute(ha); !(p > 0) {
		return object("level", "lower the vessel, or check its level against the elevations of the line", "the head in steady flow, %v, is too far below the level of %v: the gas would have %v", quantity.Level(ha), quantity.Level(d.Data.Level), quantity.Of(p, quantity.AbsolutePressure))
	}
	return nil
}

// Start implements Device.
func (d *AirVessel) Start(_, ha, _ float64) {
	v := d.Data.Gas
	d.c = d.absolute(ha) * math.Pow(v, d.Data.Polytropic)
	d.now = vessel{v: v, least: v, most: v, empty: math.NaN()}
	d.next = d.now
}

// Try implements Device.
func (d *AirVessel) Try(_, h, q, ha, _ float64) Equation {
	v := d.now.v - h/2*(d.now.q+q)
	d.next.v, d.next.q = v, q
	z, zv := d.level(v)
	p, pv := d.pressure(v)
	k := d.in
	if q < 0 {
		k = d.out
	}
	head := z + (p-d.Atmosphere)/d.Gamma
	return Equation{ha - head - k*q*math.Abs(q), (zv+pv/d.Gamma)*h/2 - 2*k*math.Abs(q), 1, 0}
}

// Accept implements Device.
func (d *AirVessel) Accept(t, h, _, _, _ float64) {
	n := d.next
	n.least = math.Min(n.least, n.v)
	if n.v > n.most {
		n.most, n.mostAt = n.v, t+h
	}
	if n.v > d.Data.Volume {
		n.empty = first(n.empty, t+h)
	}
	d.now, d.next = n, n
}

// Save implements Device.
func (d *AirVessel) Save() { d.saved = d.now }

// Restore implements Device.
func (d *AirVessel) Restore() { d.now, d.next = d.saved, d.saved }

// Gas is the present gas volume, m3.
func (d *AirVessel) Gas() float64 { return d.now.v }

// Stored implements Store.
func (d *AirVessel) Stored() float64 { return -d.now.v }

// Range is the least and the greatest gas volume since the start, m3.
func (d *AirVessel) Range() (least, most float64) { return d.now.least, d.now.most }

// Notes tells whether the vessel has run empty, or below the liquid that is to stay in it.
func (d *AirVessel) Notes() []quantity.Sentence {
	left := d.Data.Volume - d.now.most
	switch {
	case left < 0:
		return []quantity.Sentence{quantity.Say("runs empty at %v and lets up to %v of gas into the line, which is computed as if full: do not rely on what follows", quantity.Of(d.now.empty, quantity.Time), quantity.Of(-left, quantity.Volume))}
	case left < d.Data.Least:
		return []quantity.Sentence{quantity.Say("has no more than %v of liquid at %v, less than the %v to be kept", quantity.Of(left, quantity.Volume), quantity.Of(d.now.mostAt, quantity.Time), quantity.Of(d.Data.Least, quantity.Volume))}
	}
	return nil
}

// Resume implements Store.
func (d *AirVessel) Resume(q float64) { d.now.q = q }
