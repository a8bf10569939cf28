package pump

import (
	"errors"
	"fmt"
	"math"
	"strings"
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

// Fault is one value of a Spec that cannot be. It wraps ErrSpec.
type Fault struct {
	Path string // where: "inertia", "rated.flow", "curve[2][1]" (row and column from 1); "" is the pump as a whole
	What string // name of the value
	Unit string // SI; "" for ratios and counts
	Hint string // what to give
	SI   float64
}

// Error gives the value and the hint.
func (f *Fault) Error() string {
	return strings.TrimSpace(fmt.Sprintf("%v: %s is %.4g %s", ErrSpec, f.What, f.SI, f.Unit)) + " (" + f.Hint + ")"
}

// Unwrap is ErrSpec.
func (f *Fault) Unwrap() error { return ErrSpec }

// validate joins every fault of s.
func validate(s Spec, density, gravity float64) error {
	var faults []error
	fault := func(path, what, unit string, si float64, hint string) {
		faults = append(faults, &Fault{path, what, unit, hint, si})
	}
	within := func(path, what, unit string, si, low, high float64, otherwise string) {
		if !(si >= low && si <= high) {
			fault(path, what, unit, si, strings.TrimSpace(fmt.Sprintf("give %s to %s %s", plainly(low), plainly(high), unit))+otherwise)
		}
	}
	within("rated.flow", "rated flow", "m3/s", s.Flow, least, most, "")
	within("rated.head", "rated head", "m", s.Head, least, most, "")
	within("rated.speed", "rated speed", "rad/s", s.Speed, least, most, "")
	within("", "density", "kg/m3", density, least, most, "")
	within("", "gravity", "m/s2", gravity, least, most, "")
	within("rated.efficiency", "rated efficiency", "", s.Efficiency, leastEfficiency, 1, "")
	if s.SpecificSpeed != 0 {
		within("specific speed", "specific speed", "", s.SpecificSpeed, least, most, ", or leave it out to have it from the rated point")
	}
	if s.Inertia != 0 {
		within("inertia", "inertia", "kg·m2", s.Inertia, least, most, ", or leave it out to have it estimated")
	}
	if len(s.Curve) == 1 {
		fault("curve", "the number of rows", "", 1, "give two or more, or leave the curve out")
	}
	for i, c := range s.Curve {
		row := fmt.Sprintf("curve[%d]", i+1)
		within(row+"[1]", "flow", "m3/s", c.Flow, 0, reach*s.Flow, fmt.Sprintf(", %g times the rated flow at most", reach))
		within(row+"[2]", "head", "m", c.Head, 0, reach*s.Head, fmt.Sprintf(", %g times the rated head at most", reach))
		if c.Efficiency != 0 {
			within(row+"[3]", "efficiency", "", c.Efficiency, leastEfficiency, 1, ", or zero where it is not known")
		}
		if i > 0 && !(c.Flow-s.Curve[i-1].Flow >= leastStep*s.Flow) {
			fault(row, "the step in flow from the row before", "m3/s", c.Flow-s.Curve[i-1].Flow, fmt.Sprintf("flows must increase, by %s m3/s at least", plainly(leastStep*s.Flow)))
		}
	}
	return errors.Join(faults...)
}

// plainly writes a bound; a power of ten without the zero in front of its exponent.
func plainly(x float64) string {
	return strings.NewReplacer("e-0", "e-", "e+0", "e").Replace(fmt.Sprintf("%.4g", x))
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
