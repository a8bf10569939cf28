package choice

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seatwise/valve"
)

// WithFailures is the case with each candidate followed by the same valve with one part failed, for every part that it has, in all its places. Such
// a variant is compared like any candidate and never recommended. The error wraps [ErrCase] or is that of a valve that cannot be made of its data.
func WithFailures(c *Case) (*Case, error) {
	if len(c.Scenarios) == 0 {
		return nil, fmt.Errorf("%w: there is no scenario", ErrCase)
	}
	out := *c
	out.Candidates = nil
	for _, spec := range c.Candidates {
		out.Candidates = append(out.Candidates, spec)
		in, err := Install(c, &c.Scenarios[0], spec)
		if err != nil {
			return nil, err
		}
		if in.Unfit != nil {
			continue // the run will say why
		}
		for _, f := range valve.Failures {
			if _, err := in.Valve().Failed(f); errors.Is(err, valve.ErrNoPart) {
				continue
			}
			bad := spec
			bad.Failure, bad.Of = f, spec.Name
			bad.Name = spec.Name + "-" + strings.ReplaceAll(f.String(), " ", "-")
			if slices.ContainsFunc(c.Candidates, func(s valve.Spec) bool { return strings.EqualFold(s.Name, bad.Name) }) {
				return nil, fmt.Errorf("%w: %s with a %s would be called %s, as another candidate is", ErrCase, spec.Name, f, bad.Name)
			}
			out.Candidates = append(out.Candidates, bad)
		}
	}
	return &out, nil
}

// tellFailures says of every variant what becomes of the candidate, beside what the sound one does.
func (c *Comparison) tellFailures(s Settings) {
	c.Failures = nil
	say := &reasons{Settings: s, Comparison: c}
	for i, spec := range c.Case.Candidates {
		sound := slices.IndexFunc(c.Case.Candidates, func(x valve.Spec) bool { return x.Name == spec.Of })
		if spec.Failure == valve.Sound || sound < 0 {
			continue
		}
		for k := range c.Scenarios {
			o := &c.Scenarios[k].Outcomes
			say.failure(spec, &(*o)[i], &(*o)[sound])
		}
	}
	if len(say.out) == 0 {
		return
	}
	c.Failures = append(say.out,
		"Broken spring: no preload and no rate, of two plates in the second. Stuck disc: it stays on its stop. "+
			fmt.Sprintf("Worn bearing: dry friction of hinge or guide more by %.0f %% of the force that closes the open disc (common practice). ", 100*valve.WornShare)+
			"The part has failed in every place where the candidate stands. These are no candidates: none is recommended.")
}

// failure is the sentence on one variant in one scenario.
func (r *reasons) failure(spec valve.Spec, bad, sound *Outcome) {
	who := fmt.Sprintf("%s with a %s%s", spec.Of, spec.Failure, r.in(bad.Scenario))
	if bad.Failed != "" {
		r.add("%s: no result: %s.", who, bad.Failed)
		return
	}
	var facts []string
	tell := func(keys ...string) {
		for _, key := range keys {
			m := measure(LiquidPump, key)
			x, was := m.Get(bad), m.Get(sound)
			if !exists(x) {
				continue
			}
			text := m.Label + " " + r.write(x.SI, m.Dimension)
			if exists(was) {
				if before := r.write(was.SI, m.Dimension); text != m.Label+" "+before {
					text += " instead of " + before
				} else {
					text += " as before"
				}
			}
			facts = append(facts, text)
		}
	}
	switch {
	case bad.Unseated != "":
		facts = append(facts, bad.Unseated)
		tell(keyMin)
	case spec.Failure == valve.StuckDisc:
		facts = append(facts, "the valve does not close")
		tell(keyReverseVolume, keyReverseSpeed, keyPeak)
	default:
		tell(keyReverse, keySlam, keyPeak, keyMin)
	}
	if len(facts) == 0 {
		facts = append(facts, nothingHappens)
	}
	var broken []string
	for _, v := range bad.Verdicts {
		if words := strings.TrimPrefix(v.Limit, "later: "); !v.Met && !slices.Contains(broken, words) {
			broken = append(broken, words)
		}
	}
	text := strings.Join(facts, ", ")
	switch {
	case len(broken) > 0:
		text += "; it breaks the limits: " + strings.Join(broken, ", ")
	case len(bad.Verdicts) > 0 && bad.Unseated == "":
		text += "; it meets every limit"
	}
	r.add("%s: %s.", who, text)
}
