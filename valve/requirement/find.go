package requirement

import (
	"context"
	"math"

	"seatwise/valve"
	"seatwise/valve/choice"
)

// Tolerance is how near the ends of the last bracket are to each other, relative, and finest the least width of interest, m/s.
const (
	Tolerance = 0.005
	finest    = 2e-4
)

const (
	firstTry = 0.05 // m/s, of the search upwards, each twice the one before
	topSpeed = 20.0 // m/s, beyond which no ideal valve is made
	coarse   = 0.02 // relative width of the bracket at one time step
)

// finder looks for the greatest reverse velocity at which an ideal valve meets all limits.
type finder struct {
	c        *choice.Case
	run      func(context.Context, *choice.Case, choice.Settings) (*choice.Comparison, error)
	size     float64 // m
	fullOpen float64 // m/s; 0: not known
	settings choice.Settings
	done     func(float64)
	runs     int
	work     float64 // of the runs made, in runs at one time step
}

// sample is what an ideal valve that shuts at v, m/s, leads to.
type sample struct {
	v      float64
	fate   fate
	margin float64 // the least over its bound, of all verdicts; negative: a limit is broken
	broken []choice.Verdict
	c      *choice.Comparison
}

type fate uint8

const (
	meets  fate = iota
	breaks      // a limit
	stays       // open: the reverse flow does not get so far
)

// find brackets the velocity at one time step and then with all of them.
func (f *finder) find(ctx context.Context) (Allowed, *choice.Comparison, error) {
	one := f.settings
	one.GridsAtMost = 1
	zero, err := f.try(ctx, 0, one)
	if err != nil {
		return Allowed{}, nil, err
	}
	limit := f.c.Limits.Reverse()
	reason := ""
	switch {
	case !happens(f.c):
		reason = "nothing happens in this case, so that the valve does not close: give events"
	case zero.fate == stays:
		reason = "the flow does not reverse at the valve before the run ends"
	case limit == nil && !judged(zero.c):
		reason = "no limits are given that the closing of the valve decides: give limits"
	case zero.fate == breaks:
		if zero, err = f.try(ctx, 0, f.settings); err != nil {
			return Allowed{}, nil, err
		}
		if zero.fate == breaks {
			reason = "even a valve that shuts at zero velocity does not meet the limits: no valve alone does"
		}
	}
	if reason != "" {
		return Allowed{Velocity: choice.Value{Reason: reason}, Broken: zero.broken, Runs: f.runs}, zero.c, nil
	}
	lo, hi, again, err := f.search(ctx, zero, one)
	if err != nil {
		return Allowed{}, nil, err
	}
	if lo, hi, err = f.confirm(ctx, zero, lo, hi); err != nil {
		return Allowed{}, nil, err
	}
	if lo.fate != meets {
		return Allowed{Velocity: choice.Value{Reason: "no velocity is found that holds at the finer time steps: the limits are met only at a coarse one"}, Broken: lo.broken, Runs: f.runs}, lo.c, nil
	}
	a := Allowed{Velocity: choice.Value{SI: fourDigits(lo.v)}, Again: again, Runs: f.runs}
	switch {
	case hi.fate == breaks:
		a.Above, a.Binding = hi.v, hi.broken
	case hi.fate == meets && limit != nil && lo.v >= *limit:
		a.Velocity.SI, a.Given = lo.v, true
	default:
		a.Velocity, a.Unbound = choice.Value{Reason: "no limit is broken by the closing of the valve, whatever the reverse velocity"}, lo.v
	}
	if f.done != nil {
		f.done(1)
	}
	return a, lo.c, nil
}

// fourDigits is a number rounded down to four digits, as the sheet shows it.
func fourDigits(x float64) float64 {
	if x <= 0 {
		return 0
	}
	places := 3 - int(math.Floor(math.Log10(x)))
	unit := math.Pow10(places)
	return math.Floor(x*unit) / unit // a quotient of whole numbers: the nearest to what is written
}

// top is the greatest velocity of interest, m/s: the limit of the case with its margin kept, which the ideal valve meets just there, or what no valve does.
func (f *finder) top() float64 {
	if l := f.c.Limits.Reverse(); l != nil {
		return math.Min(*l, topSpeed)
	}
	return topSpeed
}

// search finds a bracket at one time step: upwards by doubling, then between, then at parts of what was found. Its upper end meets all limits where the
// greatest velocity of interest does.
func (f *finder) search(ctx context.Context, zero sample, s choice.Settings) (lo, hi sample, again bool, err error) {
	lo, hi = zero, zero
	for v := math.Min(firstTry, f.top()); hi.fate == meets && lo.v < f.top(); v = math.Min(2*v, f.top()) {
		if hi, err = f.try(ctx, v, s); err != nil {
			return lo, hi, false, err
		}
		if hi.fate == meets {
			lo = hi
		}
	}
	if hi.fate != meets {
		if lo, hi, err = f.narrow(ctx, lo, hi, coarse, s); err != nil {
			return lo, hi, false, err
		}
	}
	below := zero
	for _, part := range []float64{0.25, 0.5, 0.75} {
		x, err := f.try(ctx, part*lo.v, s)
		if err != nil {
			return lo, hi, false, err
		}
		if x.fate != meets {
			lo, hi, err = f.narrow(ctx, below, x, coarse, s)
			return lo, hi, true, err
		}
		below = x
	}
	return lo, hi, false, nil
}

// confirm moves the ends of a bracket apart until they hold at two time steps, narrows it again, and sees that its lower end holds at all time steps that a
// comparison would take. Where nothing near does, the lower end is zero velocity, whatever its fate.
func (f *finder) confirm(ctx context.Context, zero, lo, hi sample) (sample, sample, error) {
	two := f.settings
	two.GridsAtMost = 2
	low, high, sure := lo.v, hi.v, false // sure: the upper end is known to hold
	if hi.fate == meets {
		x, err := f.try(ctx, high, f.settings)
		if err != nil || x.fate == meets {
			return x, x, err
		}
		hi, sure = x, true
	}
	if hi.fate == stays { // how far the flow gets needs no narrow bracket
		x, err := f.try(ctx, low, f.settings)
		if err != nil || x.fate == meets {
			return x, hi, err
		}
		hi, sure = x, true
	}
	var err error
	for away := 0.25 * coarse; ; away *= 2 {
		if away > 0.3 {
			lo = zero
			break
		}
		if lo, err = f.try(ctx, low*(1-away), two); err != nil {
			return lo, hi, err
		}
		if lo.fate == meets {
			break
		}
		hi, sure = lo, true
	}
	for away := 0.25 * coarse; !sure; away *= 2 {
		x, err := f.try(ctx, math.Min(high*(1+away), f.top()), two)
		if err != nil {
			return lo, hi, err
		}
		if sure = x.fate != meets; sure {
			hi = x
		} else if lo = x; x.v >= f.top() {
			return lo, x, nil
		}
	}
	if lo, hi, err = f.narrow(ctx, lo, hi, Tolerance, two); err != nil {
		return lo, hi, err
	}
	for away := 0.0; lo.v > 0 && away < 0.1; away += Tolerance {
		x, err := f.try(ctx, lo.v*(1-away), f.settings)
		if err != nil || x.fate == meets {
			return x, hi, err
		}
		hi = x
	}
	lo, err = f.try(ctx, 0, f.settings)
	return lo, hi, err
}

// narrow brings the ends of a bracket within a relative tolerance: it aims at the zero of the margin, a little to the side of the end that is
// farther off, so that both ends come near, and halves where that has not helped.
func (f *finder) narrow(ctx context.Context, lo, hi sample, tolerance float64, s choice.Settings) (sample, sample, error) {
	for n := 1; hi.v-lo.v > math.Max(tolerance*hi.v, finest); n++ {
		width := hi.v - lo.v
		next := lo.v + width/2
		if n%3 != 0 && hi.fate == breaks && lo.margin > 0 {
			zero := lo.v + width*lo.margin/(lo.margin-hi.margin)
			aside := 0.3 * tolerance * zero
			if zero-lo.v > hi.v-zero {
				aside = -aside
			}
			next = math.Min(math.Max(zero+aside, lo.v+0.02*width), hi.v-0.02*width)
		}
		x, err := f.try(ctx, next, s)
		if err != nil {
			return lo, hi, err
		}
		if x.fate == meets {
			lo = x
		} else {
			hi = x
		}
	}
	return lo, hi, nil
}

// expected is the usual work of a search, in runs at one time step, for a line of progress; several is that of a run at several of them.
const (
	expected = 50.0
	several  = 4.0
)

// try compares the case with an ideal valve that shuts at v, m/s.
func (f *finder) try(ctx context.Context, v float64, s choice.Settings) (sample, error) {
	c := *f.c
	c.Candidates = []valve.Spec{ideal(f.size, v, f.fullOpen)}
	c.Limits.HeadLoss, c.Limits.ReverseVelocity, c.Limits.SlamClass = nil, nil, "" // those on the velocity bound the search
	c.Economics = nil
	r, err := f.run(ctx, &c, s)
	if err != nil {
		return sample{}, err
	}
	f.runs++
	f.work++
	switch s.GridsAtMost {
	case 1:
	case 2:
		f.work += several
	default:
		f.work += several * several
	}
	if f.done != nil {
		f.done(1 - math.Exp(-2*f.work/expected)) // how much is left is not known
	}
	x := sample{v: v, c: r, margin: math.Inf(1)}
	for i := range r.Scenarios {
		o := &r.Scenarios[i].Outcomes[0]
		switch {
		case o.Failed != "":
			x.fate, x.margin = breaks, math.Inf(-1)
		case o.Unseated != "" && x.fate == meets:
			x.fate = stays
		}
		for _, d := range o.Verdicts {
			x.margin = math.Min(x.margin, relative(d))
			if !d.Met {
				x.fate, x.broken = breaks, append(x.broken, d)
			}
		}
	}
	if math.IsInf(x.margin, 0) {
		x.margin = 0 // nothing to aim by
	}
	return x, nil
}

// relative is what is to spare over the bound.
func relative(v choice.Verdict) float64 {
	scale := math.Max(math.Abs(v.Bound), math.Abs(v.Value))
	if scale == 0 {
		return 0
	}
	return v.Spare() / scale
}

// happens tells whether anything does in any scenario.
func happens(c *choice.Case) bool {
	for i := range c.Scenarios {
		if len(c.Scenarios[i].Events) > 0 {
			return true
		}
	}
	return false
}

// judged tells whether there is a verdict at all.
func judged(c *choice.Comparison) bool {
	for i := range c.Scenarios {
		if len(c.Scenarios[i].Outcomes[0].Verdicts) > 0 {
			return true
		}
	}
	return false
}
