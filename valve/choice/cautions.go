package choice

import (
	"slices"
	"strings"

	"seatwise/valve"
)

// Cautions belong on every report.
func Cautions() []string {
	return []string{
		"This output is an aid to a qualified engineer: check it against the codes in force and the maker's tested data.",
		"Generic valve data are common practice, ±40 %.",
		notConservative,
		"Surge protection of hazardous services needs an independent review by licensed practice.",
	}
}

const notConservative = "Single-valued results are not conservative: published comparisons find that static coefficients under-predict the closing time."

// Cautions are those of every report and, where valve data are generic, one on the defaults that make a valve look better than it may be.
func (c *Comparison) Cautions() []string {
	all := Cautions()
	var valves []valve.Valve
	for i := range c.Scenarios {
		for k := range c.Scenarios[i].Outcomes {
			valves = append(valves, c.Scenarios[i].Outcomes[k].Valve)
		}
	}
	var on []string
	if slices.ContainsFunc(valves, frictionless) {
		on = append(on, "no dry friction at hinge or guide")
	}
	if slices.ContainsFunc(valves, func(v valve.Valve) bool { return slices.ContainsFunc(v.Data, moving) }) {
		on = append(on, "the same loss and force coefficients in reverse flow as in forward flow")
	}
	if len(on) > 0 {
		all = slices.Insert(all, 2, "Defaults of the generic data that are on the optimistic side: "+strings.Join(on, "; ")+".")
	}
	if slices.ContainsFunc(c.Scenarios, func(s ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o Outcome) bool { return len(o.Runs) > 0 })
	}) {
		all = slices.Insert(all, len(all)-1, "Anchor forces are those of the liquid on each straight run in total, with the pipe held rigid: a load that comes at once can strain pipe and supports up to twice as much.")
	}
	return all
}

// frictionless tells whether the dry friction of a disc is zero because nobody gave it.
func frictionless(v valve.Valve) bool {
	return slices.ContainsFunc(v.Data, func(d valve.Datum) bool {
		return strings.HasSuffix(d.Key, " friction") && d.Origin == valve.Default && d.Value == 0
	})
}

// moving tells whether a datum is a generic one of a moving disc.
func moving(d valve.Datum) bool { return d.Key == "loss when open" && generic(d) }
