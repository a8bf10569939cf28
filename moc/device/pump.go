package device

import (
	"math"

	"seatwise/network/pump"
)

// Pump is a pump with its rotor.
//
//	hb - ha = Hp(q, w)                      head, m, of the four-quadrant pump at speed w, rad/s
//	I dw/dt = -T(q, w)   once tripped       I inertia, kg m2, T shaft torque, N m; constant speed before
//	w = wr min((t - Starts)/Over, 1)        for a pump that stands at first, from its start on: the drive imposes the speed, wr rated
//
// The rotor is advanced by the trapezoidal rule, w eliminated by Newton; where that fails the residual is not a number, and the cluster cuts its step.
// A ratchet keeps w at or above zero.
type Pump struct {
	quiet
	P      *pump.Pump
	Trip   float64 // s; +Inf: never
	Stands bool    // at rest at the start of the run
	Starts float64 // s, of a pump that stands; +Inf: never
	Over   float64 // s, from rest to rated speed

	now, saved, next rotor
}

type rotor struct {
	w      float64 // rad/s
	torque float64 // at the end of the last step, N m
	flow   float64
}

// NewPump returns a running pump that never trips.
func NewPump(p *pump.Pump) *Pump { return &Pump{P: p, Trip: math.Inf(1), Starts: math.Inf(1)} }

// Steady implements Device.
func (d *Pump) Steady(q, ha, hb float64) Equation {
	h, hq, _ := d.P.Head(q, d.Driven(0))
	return Equation{hb - ha - h, -hq, -1, 1}
}

// Driven is the speed that the drive imposes at time t, rad/s.
func (d *Pump) Driven(t float64) float64 {
	w := d.P.Spec.Speed
	switch {
	case !d.Stands || t >= d.Starts+d.Over && t > 0:
		return w
	case t <= d.Starts:
		return 0
	}
	return w * (t - d.Starts) / d.Over
}

// Start implements Device.
func (d *Pump) Start(q, _, _ float64) {
	w := d.Driven(0)
	t, _, _ := d.P.Torque(q, w)
	d.now = rotor{w, t, q}
}

// Try implements Device.
func (d *Pump) Try(t, h, q, ha, hb float64) Equation {
	free := math.Min(h, t+h-d.Trip) // the part of the step without power
	if !(free > 0) {
		w := d.Driven(t + h)
		hp, hq, _, tq, _, _ := d.P.At(q, w)
		d.next = rotor{w, tq, q}
		return Equation{hb - ha - hp, -hq, -1, 1}
	}
	w, wq, hp, hq, hw, torque := d.speed(free, q)
	d.next = rotor{w, torque, q}
	return Equation{hb - ha - hp, -(hq + hw*wq), -1, 1}
}

// speed is the rotor's speed after free seconds without power, its derivative by the flow, and the pump at that speed.
func (d *Pump) speed(free, q float64) (w, wq, hp, hq, hw, torque float64) {
	k := free / (2 * d.P.Inertia)
	w = d.now.w
	done := false
	for range 50 {
		var t, tq, tw float64
		hp, hq, hw, t, tq, tw = d.P.At(q, w)
		g := w - d.now.w + k*(d.now.torque+t)
		slope := 1 + k*tw
		if slope < 0.5 {
			slope = 0.5
		}
		dw := -g / slope
		w += dw
		wq = -k * tq / slope
		torque = t
		if math.Abs(dw) <= 1e-12*d.P.Spec.Speed {
			done = true
			break
		}
	}
	if !done {
		hp = math.NaN()
	}
	if d.P.Spec.Ratchet && w < 0 {
		hp, hq, hw, _, _, _ = d.P.At(q, 0) // the ratchet carries the torque
		return 0, 0, hp, hq, hw, 0
	}
	return w, wq, hp, hq, hw, torque
}

// Accept implements Device.
func (d *Pump) Accept(_, _, _, _, _ float64) { d.now = d.next }

// Save implements Device.
func (d *Pump) Save() { d.saved = d.now }

// Restore implements Device.
func (d *Pump) Restore() { d.now = d.saved }

// Speed is the present speed, rad/s.
func (d *Pump) Speed() float64 { return d.now.w }

// Flow is the present flow, m3/s.
func (d *Pump) Flow() float64 { return d.now.flow }

// Power is the present shaft power, W.
func (d *Pump) Power() float64 { return d.now.torque * d.now.w }
