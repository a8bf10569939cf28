package choice

import (
	"cmp"
	"math"

	"seatwise/valve"
)

// pressed is the pressure that holds a disc on its seat, Pa, as a mean over the time since it last came down, s.
type pressed struct {
	sum, over float64 // Pa·s, s
}

// take goes on with a step, the pressure drop being linear over it. A disc off its seat begins anew.
func (p *pressed) take(last, now moment) {
	if last.Opening > 0 || now.Opening > 0 {
		*p = pressed{}
		return
	}
	h := now.t - last.t
	p.sum -= h * (last.Drop + now.Drop) / 2
	p.over += h
}

// leak is the flow back through the shut seat at that pressure, m3/s, on the bore area: v = g sqrt(2 dp/rho), g the conductance of the seat.
func (p *pressed) leak(v valve.Valve, open bool) Value {
	reason := ""
	switch {
	case v.SeatLeak < 0:
		reason = "not known of a valve without a seat of its own data"
	case open || p.over == 0:
		reason = "the disc is off its seat at the end of the run"
	}
	if reason != "" {
		return none(reason)
	}
	dp := math.Max(0, p.sum/p.over)
	return Value{SI: v.SeatLeak * area(v.Bore) * math.Sqrt(2*dp/cmp.Or(v.Density, math.Inf(1)))}
}
