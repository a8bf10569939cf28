package device

import (
	"seatwise/valve"
)

// CheckValve is a check valve by its motion: with the bore velocity v = q/A, m/s, and the pressure drop dp = rho g (ha - hb), Pa,
//
//	R(v, dp) = 0
//
// of valve.Step. Loss outside the valve proper (reducers) is a series loss on the bore's velocity head: dp less Extra rho/2 v|v| acts
// on the valve.
type CheckValve struct {
	Valve valve.Valve
	Gamma float64 // rho g, Pa/m
	Area  float64 // of the bore, m2
	Extra float64 // loss coefficient of reducers on the bore's velocity head

	// Shut holds the valve closed in the steady equation; the steady solver decides.
	Shut bool

	FailAt        float64 // s from which the disc stays where FailedOpening says; +Inf: never
	FailedOpening float64 // fraction of the travel

	now, saved valve.State
	next       valve.Step
	before     valve.State // at the event

	healthy     valve.Motion // the motion before the disc failed; nil: it has not
	savedFailed bool
}

// stuckShut is a disc that does not leave its seat.
type stuckShut struct{ valve.Motion }

// Advance implements valve.Motion.
func (stuckShut) Advance(s valve.State, _, v, _ float64) valve.Step {
	return valve.Step{State: s, R: v, RV: 1, Event: 1}
}

func (d *CheckValve) drop(v, ha, hb float64) (dp, dpv float64) {
	k := d.Extra * d.Valve.Density / 2
	dp = d.Gamma * (ha - hb)
	if v < 0 {
		return dp + k*v*v, 2 * k * v
	}
	return dp - k*v*v, -2 * k * v
}

// LeastFlow is the steady flow, m3/s, below which the valve counts as shut: a thousandth of the full-open velocity.
func (d *CheckValve) LeastFlow() float64 { return 1e-3 * max(d.Valve.FullOpenVelocity, 0.1) * d.Area }

// Steady implements Device. Below a thousandth of the full-open velocity the equilibrium is continued by its chord, so that the steady
// solver sees a monotone curve; a flow found there means a valve that does not open.
func (d *CheckValve) Steady(q, ha, hb float64) Equation {
	if d.Shut {
		return Equation{q, 1, 0, 0}
	}
	v := q / d.Area
	v0 := d.LeastFlow() / d.Area
	at := max(v, v0)
	e := d.Valve.Motion.Steady(at)
	x := d.Extra * d.Valve.Density / 2
	dp, slope := e.DP+x*at*at, e.Slope+2*x*at
	if v < v0 {
		slope = dp / v0
		dp += slope * (v - v0)
	}
	return Equation{ha - hb - dp/d.Gamma, -slope / d.Gamma / d.Area, 1, -1}
}

// Start implements Device.
func (d *CheckValve) Start(q, _, _ float64) {
	if d.Shut {
		d.now, _ = d.Valve.Motion.Shut()
		return
	}
	d.now = d.Valve.Motion.Steady(q / d.Area).State
}

// Try implements Device.
func (d *CheckValve) Try(_, h, q, ha, hb float64) Equation {
	v := q / d.Area
	dp, dpv := d.drop(v, ha, hb)
	s := d.Valve.Motion.Advance(d.now, h, v, dp)
	d.next = s
	return Equation{s.R, (s.RV + s.RP*dpv) / d.Area, s.RP * d.Gamma, -s.RP * d.Gamma}
}

// Event implements Device.
func (d *CheckValve) Event() float64 { return d.next.Event }

// Accept implements Device.
func (d *CheckValve) Accept(t, h, _, _, _ float64) {
	d.now = d.next.State
	if t+h >= d.FailAt && d.healthy == nil {
		d.fail()
	}
}

// fail puts the stuck disc in place of the moving one. An opening of 0 is a valve stuck shut.
func (d *CheckValve) fail() {
	d.healthy = d.Valve.Motion
	s, ok := stuckAt(d.healthy, d.FailedOpening)
	if !ok {
		d.Valve.Motion = stuckShut{d.healthy}
		d.now, _ = d.healthy.Shut()
		return
	}
	d.Valve.Motion = s
	d.now = valve.State{Y: s.At, Contact: valve.Stopped}
}

// stuckAt is the disc of a motion caught at an opening; false for one stuck shut. A valve without a disc is open or shut.
func stuckAt(m valve.Motion, opening float64) (*valve.Stuck, bool) {
	if !(opening > 0) {
		return nil, false
	}
	switch m := m.(type) {
	case interface {
		Stuck(opening float64) (*valve.Stuck, error)
	}:
		s, err := m.Stuck(min(opening, 1))
		return s, err == nil
	case *valve.Ideal:
		return &valve.Stuck{At: 1, Loss: m.Loss, Density: m.Density}, true
	case *valve.Measured:
		return &valve.Stuck{At: 1, Loss: m.Loss, Density: m.Density}, true
	case *valve.Stuck:
		return m, true
	}
	panic("device: a motion that cannot be held open")
}

// Rest implements Device.
func (d *CheckValve) Rest() {
	d.before = d.now
	d.now = d.Valve.Motion.Rest(d.now)
}

// Touch implements Device.
func (d *CheckValve) Touch(q, ha, hb float64) {
	dp, _ := d.drop(q/d.Area, ha, hb)
	d.now = d.Valve.Motion.Touch(d.before, dp)
}

// SubSteps implements Device.
func (d *CheckValve) SubSteps(h float64) int { return d.Valve.Motion.SubSteps(d.now, h) }

// Save implements Device.
func (d *CheckValve) Save() { d.saved, d.savedFailed = d.now, d.healthy != nil }

// Restore implements Device.
func (d *CheckValve) Restore() {
	d.now = d.saved
	if d.healthy != nil && !d.savedFailed {
		d.Valve.Motion, d.healthy = d.healthy, nil
	}
}

// Opening is the present fraction of travel.
func (d *CheckValve) Opening() float64 { return min(max(d.Valve.Motion.Opening(d.now), 0), 1) }

// State is the present state of the disc.
func (d *CheckValve) State() valve.State { return d.now }
