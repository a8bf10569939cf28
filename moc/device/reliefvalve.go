package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// ReliefValve is a relief valve of lift x, from 0 shut to 1 full. With hs the head at which it opens and hc the one below which it closes, m,
// To and Tc the times of a full stroke, s, and z the elevation of its mouth, m,
//
//	dx/dt = 1/To                   while ha > hs
//	0 <= dx/dt <= 1/To             at    ha = hs
//	x stays                        while hc < ha < hs
//	-1/Tc <= dx/dt <= 0            at    ha = hc
//	dx/dt = -1/Tc                  while ha < hc
//	q = x C A sqrt(2 g max(ha - z, 0))
//
// x stays within 0 and 1. At the end of a step that begins at the lift x0 the lift lies between x- = max(x0 - h/Tc, 0) and x+ = min(x0 + h/To, 1),
// and flow and head lie on one rising curve: the orifice of x- up to hc, of x0 up to hs, of x+ beyond, joined by the constant heads hc and hs.
// So a valve that is fast and large enough holds its set pressure, as a spring without blow-down would; a slow one opens late.
// The step is implicit, of first order in h where To or Tc counts. The rule is common practice for surge calculations; the orifice is
// Torricelli's, and C A = Kv sqrt(rho0/2e5)/3600 with rho0 = 1000 kg/m3 follows from the definition of Kv (IEC 60534-1).
type ReliefValve struct {
	quiet
	Data  network.ReliefValve
	gamma float64 // Pa/m

	curve            rising // x-, x0, x+ with hc, hs between
	now, next, saved relief
}

type relief struct {
	x, q           float64
	piece          int     // of the curve
	opened, seated float64 // s, NaN: not yet
	lift, flow     float64 // greatest
	head           float64 // greatest, m
	out            float64 // m3
}

// NewReliefValve returns the device of a relief valve; gamma is rho g, Pa/m.
func NewReliefValve(d *network.ReliefValve, gamma, g float64) *ReliefValve {
	ca := d.Coefficient * d.Area
	if d.Kv > 0 {
		ca = d.Kv / 3600 * math.Sqrt(1000/2e5)
	}
	m := mouth{ofArea(ca, g), d.Elevation + d.Rise}
	hc, hs := d.Elevation+d.Set*(1-d.BlowDown)/gamma, d.Elevation+d.Set/gamma
	return &ReliefValve{Data: *d, gamma: gamma, curve: rising{m, make([]float64, 3), []float64{math.Max(hc, m.z), math.Max(hs, m.z)}}}
}

// pressure is the gauge pressure at the valve.
func (d *ReliefValve) pressure(h float64) quantity.Amount {
	return quantity.Of(d.gamma*(h-d.Data.Elevation), quantity.Pressure)
}

// opens is the head at which the valve opens, m.
func (d *ReliefValve) opens() float64 { return d.curve.heads[1] }

// Steady implements Device: nothing flows.
func (d *ReliefValve) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a steady pressure at which the valve would stand open.
func (d *ReliefValve) Settled(ha, _ float64) error {
	if ha > d.opens() {
		return object("set pressure", "set it above the working pressure", "in steady flow the pressure at the valve is %v, above the %v at which it opens", d.pressure(ha), d.pressure(d.opens()))
	}
	return nil
}

// Start implements Device.
func (d *ReliefValve) Start(_, ha, _ float64) {
	d.now = relief{opened: math.NaN(), seated: math.NaN(), head: ha}
	d.next = d.now
}

// stroke is the lift after h seconds at the greatest rate; a time of 0 is no hindrance.
func stroke(h, time float64) float64 {
	if time == 0 {
		return 1
	}
	return h / time
}

// Try implements Device.
func (d *ReliefValve) Try(_, h, q, ha, _ float64) (e Equation) {
	x := d.now.x
	d.curve.parts[0] = math.Max(x-stroke(h, d.Data.Closing), 0)
	d.curve.parts[1] = x
	d.curve.parts[2] = math.Min(x+stroke(h, d.Data.Opening), 1)
	e, d.next.piece, d.next.x = d.curve.follow(d.next.piece, q, ha)
	return e
}

// Accept implements Device.
func (d *ReliefValve) Accept(t, h, q, ha, _ float64) {
	n := d.now
	n.x, n.q, n.piece = d.next.x, q, d.next.piece
	if n.x > 0 && math.IsNaN(n.opened) {
		n.opened = t + h
	}
	if n.x == 0 && d.now.x > 0 {
		n.seated = t + h
	}
	n.lift, n.flow, n.head = math.Max(n.lift, n.x), math.Max(n.flow, q), math.Max(n.head, ha)
	n.out += h / 2 * (d.now.q + q)
	d.now, d.next = n, n
}

// Save implements Device.
func (d *ReliefValve) Save() { d.saved = d.now }

// Restore implements Device.
func (d *ReliefValve) Restore() { d.now, d.next = d.saved, d.saved }

// Lift is the present lift, fraction.
func (d *ReliefValve) Lift() float64 { return d.now.x }

// Out is the volume let out, m3.
func (d *ReliefValve) Out() float64 { return d.now.out }

// Notes tells what the valve did.
func (d *ReliefValve) Notes() []quantity.Sentence {
	n := d.now
	if math.IsNaN(n.opened) {
		return nil
	}
	end := quantity.Say("open at the end of the run")
	if n.x == 0 {
		end = quantity.Say("last shut at %v", quantity.Of(n.seated, quantity.Time))
	}
	return []quantity.Sentence{quantity.Say("opens at %v to %.0f %% of its lift, lets out at most %v, %v in all; the pressure reaches %v, it opens at %v; it is %v",
		quantity.Of(n.opened, quantity.Time), 100*n.lift, quantity.Of(n.flow, quantity.Flow), quantity.Of(n.out, quantity.Volume), d.pressure(n.head), d.pressure(d.opens()), end)}
}
