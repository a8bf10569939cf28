package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// RuptureDisc bursts once, at the instant at which the gauge pressure at it reaches pb, Pa; with zd its elevation and z that of the mouth, m,
//
//	q = 0                                            before
//	q = C A sqrt(2 g max(ha - z, 0))                 after the first ha = zd + pb/(rho g)
//
// The instant is found inside the step; the head jumps there, and a rarefaction runs into the pipes. Opening takes no time: a disc opens within
// a few milliseconds (common practice).
type RuptureDisc struct {
	Data  network.RuptureDisc
	gamma float64 // Pa/m

	mouth            mouth
	burst            float64 // head, m
	event            float64
	now, next, saved ruptured
}

type ruptured struct {
	open bool
	t    float64 // s, of the end of the last step; of the burst once open
	q    float64 // m3/s
	most float64 // greatest flow, m3/s
	out  float64 // volume let out, m3
}

// NewRuptureDisc returns the device of a rupture disc; gamma is rho g, Pa/m.
func NewRuptureDisc(d *network.RuptureDisc, gamma, g float64) *RuptureDisc {
	return &RuptureDisc{Data: *d, gamma: gamma, mouth: mouth{ofArea(d.Coefficient*d.Area, g), d.Elevation + d.Rise}, burst: d.Elevation + d.Burst/gamma}
}

// Steady implements Device: nothing flows.
func (d *RuptureDisc) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a steady pressure that bursts the disc.
func (d *RuptureDisc) Settled(ha, _ float64) error {
	if ha >= d.burst {
		return object("burst pressure", "let it burst above the working pressure", "in steady flow the pressure at the disc is %v, not below the %v at which it bursts",
			quantity.Of(d.gamma*(ha-d.Data.Elevation), quantity.Pressure), quantity.Of(d.Data.Burst, quantity.Pressure))
	}
	return nil
}

// Start implements Device.
func (d *RuptureDisc) Start(_, _, _ float64) { d.now, d.next, d.event = ruptured{}, ruptured{}, 1 }

// Try implements Device.
func (d *RuptureDisc) Try(t, h, q, ha, _ float64) Equation {
	d.next = d.now
	d.next.q = q
	if d.now.open {
		d.event = 1
		d.next.out += h / 2 * (d.now.q + q)
		d.next.most = math.Max(d.now.most, q)
		return d.mouth.trial(1, q, ha)
	}
	d.event = (d.burst - ha) / (1 + math.Abs(d.burst))
	d.next.t = t + h
	return Equation{q, 1, 0, 0}
}

// Event implements Device.
func (d *RuptureDisc) Event() float64 { return d.event }

// Accept implements Device.
func (d *RuptureDisc) Accept(_, _, _, _, _ float64) { d.now = d.next }

// Rest implements Device: the disc bursts.
func (d *RuptureDisc) Rest() { d.now.open = true }

// Touch implements Device.
func (d *RuptureDisc) Touch(q, _, _ float64) { d.now.q, d.now.most = q, math.Max(d.now.most, q) }

// SubSteps implements Device.
func (d *RuptureDisc) SubSteps(_ float64) int { return 1 }

// Save implements Device.
func (d *RuptureDisc) Save() { d.saved = d.now }

// Restore implements Device.
func (d *RuptureDisc) Restore() { d.now, d.next = d.saved, d.saved }

// Burst is the time of the burst, s, NaN while the disc is whole.
func (d *RuptureDisc) Burst() float64 {
	if !d.now.open {
		return math.NaN()
	}
	return d.now.t
}

// Notes tells of the burst.
func (d *RuptureDisc) Notes() []quantity.Sentence {
	if !d.now.open {
		return nil
	}
	return []quantity.Sentence{quantity.Say("bursts at %v, lets out at most %v, %v in all", quantity.Of(d.now.t, quantity.Time), quantity.Of(d.now.most, quantity.Flow), quantity.Of(d.now.out, quantity.Volume))}
}
