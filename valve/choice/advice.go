package choice

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"
)

// Advice is what single steps away from a case do for one candidate that does not meet all limits.
type Advice struct {
	Candidate string    // the one closest to its limits; "": Reasons say why there is none
	Governing Verdict   // of its limits the one that is broken most
	Broken    []Verdict // all that are broken, the worst of each limit
	Tried     []Attempt // in a fixed order
	Reasons   []string  // what it comes to
	Margin    Value     // full-open margin of the candidate as it is, the least of all scenarios
}

// Attempt is one step.
type Attempt struct {
	Name   string  // "stronger spring"
	Change string  // what was changed, in words
	Reason string  // why there is no result; "": there is
	After  Verdict // on the limit that governs the candidate, in the scenario that is worst now; without a Measure: not judged any more
	Effect Effect  // on the value that governs
	Alike  float64 // After in the unit of the value that governs, fit to be compared with it: see [onBore]
	Meets  bool    // every limit
	Margin Value   // full-open margin, the least of all scenarios
	Breaks []Verdict
}

// Effect is what a step does to a value.
type Effect string

// Effects. What is within twice the numerical error of the comparison, as attempts run at the default time step, or within the target of its accuracy, is no difference.
const (
	Improved Effect = "better"
	Worsened Effect = "worse"
	Alike    Effect = "no difference"
)

// Advise tries single steps away from the case of a comparison (see package comment) with the candidate that comes closest to its limits of those that do not
// meet them: each is a case of its own that is run like any other, at the default time step. The error is that of the context.
func Advise(ctx context.Context, c *Comparison, s Settings) (*Advice, error) {
	x := c.closest()
	if x == nil {
		return &Advice{Reasons: []string{c.nothingToAdvise()}}, nil
	}
	a := &Advice{Candidate: x.name, Governing: most(x.worst(failing)), Broken: x.worst(failing), Tried: make([]Attempt, len(variants))}
	base := only(c.Case, x.name)
	a.Margin = x.leastMargin()
	now := present{Verdict: a.Governing, bore: x.outcomes[0].Valve.Bore}
	for _, o := range x.outcomes {
		now.error = math.Max(now.error, math.Max(2*o.Errors[a.Governing.Measure], o.target(a.Governing.Measure)))
	}
	var g errgroup.Group
	g.SetLimit(s.workers())
	alone := s
	alone.Workers, alone.GridsAtMost, alone.Progress = 1, 1, nil
	var told sync.Mutex
	done := 0.0
	for i, v := range variants {
		g.Go(func() error {
			a.Tried[i] = v.attempt(ctx, base, now, alone)
			told.Lock()
			defer told.Unlock()
			if done++; s.Progress != nil {
				s.Progress(done / float64(len(variants)))
			}
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	a.conclude()
	return a, nil
}

// present is what the steps are held against.
type present struct {
	Verdict         // the one that governs
	bore    float64 // of the candidate, m
	error   float64 // difference below which two values are alike
}

// onBore is a value with another bore D', m, as it compares with one of the bore D of the candidate. A reverse velocity V_r that is stopped raises the pressure in the
// branch, of bore D_b and wave speed a, by
//
//	dp = rho a V_r (D/D_b)^2
//
// (Joukowsky, with continuity from the bore of the valve to the branch), so that what compares is V_r' (D'/D)^2, m/s. Every other measure stays as it is.
func (p *present) onBore(value, bore float64) float64 {
	if (p.Measure == keyReverse || p.Measure == keyLater) && bore > 0 && p.bore > 0 {
		return value * (bore / p.bore) * (bore / p.bore)
	}
	return value
}

// leastMargin is the full-open margin of a candidate, the least of all scenarios.
func (x *standing) leastMargin() Value {
	least := x.outcomes[0].OpenMargin
	for _, o := range x.outcomes {
		if m := o.OpenMargin; exists(m) && (!exists(least) || m.SI < least.SI) {
			least = m
		}
	}
	return least
}

// floats tells whether the flow before the event does not hold the disc on its stop.
func floats(margin Value) bool { return exists(margin) && margin.SI < 1 }

// target is the accuracy that is aimed at for a measure, see [doubts], in its unit; of one of the steady flow, or without a target, what three digits show.
func (o *Outcome) target(key string) float64 {
	v := measure(LiquidPump, key).Get(o).SI
	switch key {
	case keyReverse:
		return math.Max(0.01*v, 5e-3)
	case keyLater:
		return math.Max(0.05*v, 5e-3)
	case keyPeak:
		return math.Max(0.01*o.swing.rise, still)
	case keyMin:
		return math.Max(0.01*o.swing.fall, still)
	case keyVapour:
		return o.target(keyMin) / o.gamma
	case keyAnchor:
		return 0.05 * v
	}
	return 1e-3 * math.Abs(v)
}

// attempt runs one step.
func (v variant) attempt(ctx context.Context, base *Case, now present, s Settings) Attempt {
	governing := now.Verdict
	out := Attempt{Name: v.name}
	next, change, err := v.change(base, s)
	if err != nil {
		out.Reason = bare(err)
		return out
	}
	out.Change = change
	r, err := Run(ctx, next, s)
	if err != nil {
		out.Reason = "no result: " + bare(s.Said(err))
		return out
	}
	x := r.standings()[0]
	for _, o := range x.outcomes {
		if reason := cmp.Or(o.Failed, o.Unseated); reason != "" {
			out.Reason = "no result: " + reason
			return out
		}
	}
	out.Meets, out.Breaks, out.Margin = x.met, x.worst(failing), x.leastMargin()
	same := x.worst(func(d Verdict) bool {
		return d.Measure == governing.Measure && sortOf(d.Limit) == sortOf(governing.Limit)
	})
	if len(same) == 0 {
		out.Reason = "the limit does not apply any more"
		return out
	}
	out.After = most(same)
	out.Alike = now.onBore(out.After.Value, x.outcomes[0].Valve.Bore)
	gain := governing.Value - out.Alike
	if measure(LiquidPump, governing.Measure).Better == Higher {
		gain = -gain
	}
	switch {
	case gain > now.error:
		out.Effect = Improved
	case gain < -now.error:
		out.Effect = Worsened
	default:
		out.Effect = Alike
	}
	return out
}

// fewer tells whether a step leaves some of the broken limits broken and none else.
func (t *Attempt) fewer(before []Verdict) bool {
	was, is := broken(before), broken(t.Breaks)
	return len(is) < len(was) && !slices.ContainsFunc(is, func(limit string) bool { return !slices.Contains(was, limit) })
}

// broken are limits in short, each once.
func broken(all []Verdict) []string {
	var out []string
	for _, v := range all {
		out = append(out, sortOf(strings.TrimPrefix(v.Limit, "later: ")))
	}
	return Unique(out)
}

// sortOf is the words of a limit without the allowance, which by some rules depends on the outcome.
func sortOf(limit string) string {
	before, _, _ := strings.Cut(limit, " with ")
	return before
}

// shortfall is by how much of its bound a verdict is broken, with the margin that is asked for; negative: it is met.
func (v Verdict) shortfall() float64 {
	scale := math.Abs(v.Bound)
	if scale == 0 {
		scale = math.Max(math.Abs(v.Value), math.SmallestNonzeroFloat64)
	}
	return (v.Asked - v.Margin) / scale
}

// most is the verdict that is broken most.
func most(all []Verdict) Verdict {
	return slices.MaxFunc(all, func(a, b Verdict) int { return cmp.Compare(a.shortfall(), b.shortfall()) })
}

// closest is the candidate that misses its limits by least, of those that were judged and miss them; nil: there is none.
func (c *Comparison) closest() *standing {
	var best *standing
	for _, x := range c.standings() {
		if x.open != nil || slices.ContainsFunc(x.outcomes, func(o *Outcome) bool { return o.Failed != "" }) || len(x.worst(failing)) == 0 {
			continue
		}
		if best == nil || most(x.worst(failing)).shortfall() < most(best.worst(failing)).shortfall() {
			best = x
		}
	}
	return best
}

func (c *Comparison) nothingToAdvise() string {
	all := c.standings()
	switch {
	case !c.Case.Limits.Any():
		return "There is nothing to advise on, as no limits are given."
	case len(all) > 0 && !slices.ContainsFunc(all, func(x *standing) bool { return !x.met }):
		return "There is nothing to advise on: every candidate meets every limit."
	}
	return "There is nothing to advise on: of no candidate that misses a limit is the whole closing known."
}

// but is what a step costs that no limit shows.
func (a *Advice) but(t *Attempt) string {
	var out []string
	if t.Meets && t.Effect == Worsened {
		out = append(out, "the slam in the branch is harder")
	}
	switch {
	case floats(t.Margin) && floats(a.Margin):
		out = append(out, "its disc still floats")
	case floats(t.Margin):
		out = append(out, "its disc then floats")
	}
	if len(out) == 0 {
		return ""
	}
	return " (but " + strings.Join(out, " and ") + ")"
}

// conclude says what the attempts come to.
func (a *Advice) conclude() {
	say := func(format string, args ...any) { a.Reasons = append(a.Reasons, fmt.Sprintf(format, args...)) }
	var meets, helps, mends []string
	for _, t := range a.Tried {
		switch {
		case t.Name == idealValve || t.Reason != "":
		case t.Meets:
			meets = append(meets, t.Name+a.but(&t))
		case t.Effect == Improved:
			helps = append(helps, t.Name+a.but(&t))
		case t.Effect == Alike && t.fewer(a.Broken):
			mends = append(mends, t.Name+a.but(&t))
		}
	}
	ideal := a.Tried[slices.IndexFunc(a.Tried, func(t Attempt) bool { return t.Name == idealValve })]
	switch {
	case len(meets) > 0:
		say("With one of these alone %s would meet every limit: %s.", a.Candidate, strings.Join(meets, ", "))
	case len(helps) > 0:
		say("None of these alone is enough for %s; better for the %s: %s.", a.Candidate, measure(LiquidPump, a.Governing.Measure).Label, strings.Join(helps, ", "))
	case len(mends) == 0:
		say("None of these helps %s.", a.Candidate)
	default:
		say("None of these is better for the %s of %s.", measure(LiquidPump, a.Governing.Measure).Label, a.Candidate)
	}
	if slices.ContainsFunc(a.Tried, func(t Attempt) bool { return t.Reason == "" && t.Alike != t.After.Value }) {
		say("A limit on the reverse velocity, or on the slam class, is judged on the bore of the valve as it is written. Whether another size is better goes by the velocity times the area of the bore: " +
			"that is what the slam in the branch grows with.")
	}
	if len(mends) > 0 {
		say("With one of these at least fewer limits are broken: %s.", strings.Join(mends, ", "))
	}
	switch {
	case ideal.Reason != "":
		say("What the best valve could do is not known: %s.", ideal.Reason)
	case ideal.Meets:
		say("A valve that closes at zero velocity meets every limit: a faster valve is a way.")
	default:
		var limits []string
		for _, v := range ideal.Breaks {
			if v.Measure != keyHeadLoss { // which is that of the candidate
				limits = append(limits, strings.TrimPrefix(v.Limit, "later: "))
			}
		}
		if len(limits) == 0 {
			say("A valve that closes at zero velocity meets every limit but the head loss: that asks for another size or body.")
		} else {
			say("Even a valve that closes at zero velocity does not meet every limit (%s): for that the valve is not the cause.", strings.Join(Unique(limits), ", "))
		}
	}
	say("Each is one step from the case, run at the default time step; none is laid out or priced. A bypass or a vessel is at the level of the valves.")
}
