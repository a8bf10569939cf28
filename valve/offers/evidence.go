package offers

import (
	"fmt"
	"slices"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// testedKey is the key of the reverse velocity that a maker's test gives.
const testedKey = "tested_reverse_velocity_m_s"

// evidence holds the maker's test against the limit on the reverse velocity or that of the slam class, with the margin asked for: the reverse velocity of its curve at the installation's own deceleration,
// the hardest of all scenarios, at which the valve is held open. It stands beside the run of the disc and does not replace it, as makers define the
// deceleration in different ways. A valve of the type measured is run by its test, and needs no such row.
func (a *Assessment) evidence(c *choice.Comparison, system quantity.System) {
	bound := c.Case.Limits.Reverse()
	if _, runs := a.Valve.Motion.(*valve.Measured); runs || bound == nil || len(a.Spec.Tests) == 0 {
		return
	}
	hardest, scenario := 0.0, ""
	for _, s := range c.Scenarios {
		if s.Own.Reason == "" && s.Own.SI > hardest {
			hardest, scenario = s.Own.SI, s.Name
		}
	}
	if scenario == "" {
		return
	}
	out := Compliance{Limit: "reverse velocity", Measure: choice.Measure{Key: testedKey, Label: "reverse velocity by the maker's test", Dimension: quantity.Velocity}}
	points := slices.SortedFunc(slices.Values(a.Spec.Tests), func(x, y valve.TestPoint) int {
		if x.Deceleration < y.Deceleration {
			return -1
		}
		return 1
	})
	curve, err := valve.NewReverseCurve(points, valve.Similar{Size: 1, Velocity: 1})
	if err != nil {
		out.Word, out.Because = Open, "the test points make no curve: two or more are needed, the reverse velocity not falling while the deceleration grows"
		a.Limits = append(a.Limits, out)
		return
	}
	v := curve.At(hardest)
	whole, spare := *bound, c.Case.Limits.Margin
	if spare < 1 { // what is kept to spare is part of the limit
		whole /= 1 - spare
	}
	out.Verdict = &choice.Verdict{Measure: testedKey, Limit: out.Limit, Scenario: scenario, Value: v, Bound: whole, Margin: whole - v, Asked: whole - *bound, Met: v <= *bound, Time: -1}
	at := choice.NewScale(quantity.Acceleration, system, hardest)
	out.Because = "at " + at.With(hardest) + ", the installation's own deceleration"
	if least, most := curve.Range(); hardest > most {
		out.Because += fmt.Sprintf(", beyond the greatest tested, %s: extrapolated", at.With(most))
	} else if hardest < least {
		out.Because += fmt.Sprintf(", below the least tested, %s: in proportion", at.With(least))
	}
	if !out.Verdict.Met {
		out.Word = Fails
	}
	a.Limits = append(a.Limits, out)
}
