package pump

import (
	"errors"
	"fmt"
	"math"
)

// ErrSpec is wrapped by every error about a pump that cannot be.
var ErrSpec = errors.New("pump: bad specification")

// Bounds that keep every later quotient finite; they are far outside any pump.
const (
	least, most     = 1e-9, 1e9 // of any positive quantity in SI
	leastEfficiency = 1e-3
	reach           = 10.0 // of the curve, over the rated point
	leastStep       = 1e-6 // between curve flows, over the rated flow
)

// validate joins every fault of s.
func validate(s Spec, density, gravity float64) error {
	var faults []error
	fault := func(format string, args ...any) {
		faults = append(faults, fmt.Errorf("%w: "+format, append([]any{ErrSpec}, args...)...))
	}
	positive := func(name string, value float64, hint string) {
		if !(value >= least && value <= most) {
			fault("%s is %g (%s)", name, value, hint)
		}
	}
	positive("rated flow", s.Flow, "give m3/s, above zero")
	positive("rated head", s.Head, "give m, above zero")
	positive("rated speed", s.Speed, "give rad/s, above zero")
	positive("density", density, "give kg/m3, above zero")
	positive("gravity", gravity, "give m/s2, above zero")
	if !(s.Efficiency >= leastEfficiency && s.Efficiency <= 1) {
		fault("rated efficiency is %g (give a fraction in %g..1)", s.Efficiency, leastEfficiency)
	}
	for _, c := range []struct {
		name  string
		value float64
	}{{"specific speed", s.SpecificSpeed}, {"inertia", s.Inertia}} {
		if c.value != 0 && !(c.value >= least && c.value <= most) {
			fault("%s is %g (give it above zero, or leave it at zero to have it estimated)", c.name, c.value)
		}
	}
	if len(s.Curve) == 1 {
		fault("the curve has a single point (give two or more, or none)")
	}
	for i, c := range s.Curve {
		if !(c.Flow >= 0 && c.Flow <= reach*s.Flow) {
			fault("curve point %d: flow is %g (give m3/s, from zero to %g times the rated flow)", i+1, c.Flow, reach)
		}
		if !(c.Head >= 0 && c.Head <= reach*s.Head) {
			fault("curve point %d: head is %g (give m, from zero to %g times the rated head)", i+1, c.Head, reach)
		}
		if c.Efficiency != 0 && !(c.Efficiency >= leastEfficiency && c.Efficiency <= 1) {
			fault("curve point %d: efficiency is %g (give a fraction in %g..1, zero when unknown)", i+1, c.Efficiency, leastEfficiency)
		}
		if i > 0 && !(c.Flow-s.Curve[i-1].Flow >= leastStep*s.Flow) {
			fault("curve point %d: flow %g does not follow %g (flows must increase)", i+1, c.Flow, s.Curve[i-1].Flow)
		}
	}
	return errors.Join(faults...)
}

// doubt adds the warnings that the finished pump calls for.
func (p *Pump) doubt() {
	s := p.Spec
	for i := 1; i < len(s.Curve); i++ {
		if a, b := s.Curve[i-1], s.Curve[i]; b.Head > a.Head {
			p.warn("head rises along the curve between %.4g and %.4g m3/s: parallel units may hunt there", a.Flow, b.Flow)
		}
	}
	h, _, _ := p.Head(s.Flow, s.Speed)
	if d := h/s.Head - 1; math.Abs(d) > 0.02 {
		p.warn("head at rated flow is %.4g m, %+.1f %% from the rated head", h, 100*d)
	}
	if len(s.Curve) > 0 && p.end < 1 {
		p.warn("the curve ends at %.0f %% of rated flow; four-quadrant data take over there", 100*p.end)
	}
	for i := range 101 {
		if q := s.Flow * max(p.end, 1) * float64(i) / 100; p.Efficiency(q) > 1 {
			p.warn("head and torque imply an efficiency above 1 at %.4g m3/s: check flows, heads and efficiencies", q)
			break
		}
	}
	if n, set := p.SpecificSpeed, p.Set.SpecificSpeed; n < set/1.5 || n > set*1.5 {
		p.warn("specific speed %.3g is far from the nearest four-quadrant set, %s", n, p.Set.Name)
	}
}
