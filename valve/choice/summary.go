package choice

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/valve"
)

// govern names the worst scenario of every candidate and measure that has a better and a worse.
func (c *Comparison) govern() {
	for i, spec := range c.Case.Candidates {
		for _, m := range Measures(c.Service) {
			if m.Better == Neither {
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

// warn gathers the warnings of all outcomes, each once. One that a single candidate gives carries its name.
func (c *Comparison) warn() {
	c.Warnings = unique(c.Case.Warnings)
	from := map[string][]string{}
	var order []string
	for _, sc := range c.Scenarios {
		for _, o := range sc.Outcomes {
			texts := o.Warnings
			if o.Failed != "" {
				texts = append(slices.Clone(texts), fmt.Sprintf("no result in scenario %s: %s", sc.Name, o.Failed))
			}
			for _, w := range texts {
				if from[w] == nil {
					order = append(order, w)
				}
				if !slices.Contains(from[w], o.Candidate) {
					from[w] = append(from[w], o.Candidate)
				}
			}
		}
	}
	for _, w := range order {
		if names := from[w]; len(names) == 1 && len(c.Case.Candidates) > 1 && !strings.HasPrefix(w, names[0]+":") {
			w = names[0] + ": " + w
		}
		if !slices.Contains(c.Warnings, w) {
			c.Warnings = append(c.Warnings, w)
		}
	}
}

// assume lists what the comparison takes for granted: the reader's defaults and the valve data that nobody gave.
func (c *Comparison) assume() {
	c.Assumptions = slices.Clone(c.Case.Assumptions)
	for i, spec := range c.Case.Candidates {
		var generic []string
		for _, d := range c.Scenarios[0].Outcomes[i].Valve.Data {
			if d.Key != "slope" && (d.Origin == valve.Catalogue || d.Origin == valve.Estimated) {
				generic = append(generic, d.Key)
			}
		}
		if len(generic) > 0 {
			c.Assumptions = append(c.Assumptions, fmt.Sprintf("%s: generic data of the type %s (common practice, ±40 %%) for %s", spec.Name, spec.Type, strings.Join(generic, ", ")))
		}
	}
}
