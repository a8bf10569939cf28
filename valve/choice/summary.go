package choice

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/valve"
)

// govern names the worst scenario of every candidate and measure that has a better and a worse, of the candidates that were finished in all.
func (c *Comparison) govern() {
	for i, spec := range c.Case.Candidates {
		for _, m := range Measures(c.Service) {
			if m.Better == Neither {
				continue
			}
			if c.short(spec.Name) {
				continue
			}
			g := Governing{Candidate: spec.Name, Measure: m.Key}
			for _, sc := range c.Scenarios {
				v := m.Get(&sc.Outcomes[i])
				if exists(v) && (g.Scenario == "" || m.Better == Lower && v.SI > g.Value || m.Better == Higher && v.SI < g.Value) {
					g.Scenario, g.Value = sc.Name, v.SI
				}
			}
			if g.Scenario != "" {
				c.Governing = append(c.Governing, g)
			}
		}
	}
}

// warn gathers the warnings of all outcomes, each once, with the candidates and the scenarios that it is of unless it is of all. What differs by its figures
// alone from scenario to scenario is one warning, whose figures are ranges.
func (c *Comparison) warn() {
	c.Warnings = Unique(append(c.Case.unsuited(), c.Case.Warnings...))
	from := map[string]*warning{}
	var order []*warning
	for _, sc := range c.Scenarios {
		for _, o := range sc.Outcomes {
			texts := o.Warnings
			if o.Failed != "" && !c.missed(o.Candidate, sc.Name) {
				texts = append(slices.Clone(texts), "no result: "+o.Failed)
			}
			for _, w := range texts {
				if from[w] == nil {
					from[w] = &warning{texts: []string{w}}
					order = append(order, from[w])
				}
				s := from[w]
				s.candidates, s.scenarios = Unique(append(s.candidates, o.Candidate)), Unique(append(s.scenarios, sc.Name))
			}
		}
	}
	for _, s := range gathered(order) {
		text := ranged(s.texts)
		var of []string
		if len(s.candidates) < len(c.Case.Candidates) && !strings.HasPrefix(text, s.candidates[0]+":") {
			of = append(of, strings.Join(s.candidates, " and "))
		}
		if len(s.scenarios) < len(c.Scenarios) {
			of = append(of, "scenario "+strings.Join(s.scenarios, " and "))
		}
		if len(of) > 0 {
			text = strings.Join(of, ", ") + ": " + text
		}
		if !slices.Contains(c.Warnings, text) {
			c.Warnings = append(c.Warnings, text)
		}
	}
}

// warning is a text of some candidates in some scenarios, or several that differ by their figures.
type warning struct{ texts, candidates, scenarios []string }

// gathered are the warnings of which those of the same candidates and the same frame are one.
func gathered(all []*warning) []*warning {
	first := map[string]*warning{}
	var out []*warning
	for _, w := range all {
		frame, _ := cut(w.texts[0])
		key := strings.Join(w.candidates, "\n") + "\n" + frame
		if to := first[key]; to != nil && !overlap(to.scenarios, w.scenarios) {
			to.texts, to.scenarios = append(to.texts, w.texts...), append(to.scenarios, w.scenarios...)
			continue
		}
		first[key] = w
		out = append(out, w)
	}
	return out
}

// overlap tells whether two lists have a text in common.
func overlap(a, b []string) bool {
	return slices.ContainsFunc(a, func(x string) bool { return slices.Contains(b, x) })
}

// generic tells whether a datum is of a type of valve rather than of the valve.
func generic(d valve.Datum) bool { return d.Origin == valve.Catalogue || d.Origin == valve.Estimated }

// assume lists what the comparison takes for granted: the reader's defaults and the valve data that nobody gave.
func (c *Comparison) assume() {
	c.Assumptions = slices.Clone(c.Case.Assumptions)
	for i, spec := range c.Case.Candidates {
		if spec.Failure != valve.Sound {
			continue
		}
		var keys []string
		for _, d := range c.Scenarios[0].Outcomes[i].Valve.Data {
			if d.Key != "slope" && generic(d) {
				keys = append(keys, d.Key)
			}
		}
		if len(keys) > 0 {
			c.Assumptions = append(c.Assumptions, fmt.Sprintf("%s: generic data of the type %s (common practice, ±40 %%) for %s", spec.Name, spec.Type, strings.Join(keys, ", ")))
		}
	}
}
