package choice

import (
	"errors"
	"slices"
	"strings"
)

// Missing is what an interrupted comparison has no results of.
type Missing struct {
	Scenario   string
	Candidates []string
}

// unfinished is why something has no result in an interrupted comparison.
const unfinished = "not finished, as the comparison was interrupted"

var errUnfinished = errors.New(unfinished)

// missing is the outcome of a trial that was not finished: what its runs had shown until then is dropped, as without all of them there is no error estimate.
func (t *trial) missing() Outcome {
	o := t.outcome
	if o.Failed == "" {
		o.fail(errUnfinished)
	}
	return o
}

// missed tells whether a candidate was not finished in a scenario.
func (c *Comparison) missed(candidate, scenario string) bool {
	return slices.ContainsFunc(c.Missing, func(m Missing) bool { return m.Scenario == scenario && slices.Contains(m.Candidates, candidate) })
}

// short tells whether a candidate was not finished in some scenario.
func (c *Comparison) short(candidate string) bool {
	return slices.ContainsFunc(c.Missing, func(m Missing) bool { return slices.Contains(m.Candidates, candidate) })
}

func (c *Comparison) miss(scenario, candidate string) {
	if n := len(c.Missing); n > 0 && c.Missing[n-1].Scenario == scenario {
		c.Missing[n-1].Candidates = append(c.Missing[n-1].Candidates, candidate)
		return
	}
	c.Missing = append(c.Missing, Missing{scenario, []string{candidate}})
}

// trim leaves out the last scenarios of which nothing was finished.
func (c *Comparison) trim() {
	for n := len(c.Scenarios); n > 1; n-- {
		sc := &c.Scenarios[n-1]
		for i := range sc.Outcomes {
			if !c.missed(sc.Outcomes[i].Candidate, sc.Name) {
				return
			}
		}
		c.Scenarios = c.Scenarios[:n-1]
	}
}

// Lacks says in words what an interrupted comparison has no results of; "" when it has all.
func (c *Comparison) Lacks() string {
	var parts []string
	for _, m := range c.Missing {
		text := strings.Join(m.Candidates, " and ")
		if len(c.Case.Scenarios) > 1 {
			text += " in scenario " + m.Scenario
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// soFar gives no recommendation, but what is known of the candidates.
func (r *reasons) soFar(all []*standing) {
	if lacks := r.Lacks(); lacks != "" {
		r.add("No valve is recommended: the comparison was interrupted, and there are no results of %s.", lacks)
	} else {
		r.add("No valve is recommended: the comparison was interrupted.")
	}
	for _, x := range all {
		done := 0
		for _, o := range x.outcomes {
			if !r.missed(x.name, o.Scenario) {
				done++
			}
		}
		switch f := r.faults(x); {
		case done == 0:
		case len(r.limits) == 0:
			r.facts(x)
		case len(f) > 0:
			r.add("%s (%s) fails: %s.", x.name, r.price(x), strings.Join(f, "; "))
		case x.met:
			r.add("%s (%s) meets every limit%s: %s.", x.name, r.price(x), x.closely(", "), strings.Join(r.margins(x), "; "))
		case x.judged:
			r.add("%s (%s) meets every limit%s in what was finished: %s.", x.name, r.price(x), x.closely(", "), strings.Join(r.margins(x), "; "))
		}
	}
}
