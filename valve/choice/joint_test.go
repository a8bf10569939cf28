package choice

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve"
)

// oneOf is a comparison of two candidates with a reverse velocity and a bound on it in each of its scenarios.
func oneOf(name string, bound float64, size float64, plain, spring []float64) *Comparison {
	c := &Comparison{Service: LiquidPump, Case: &Case{Name: name, Limits: Limits{ReverseVelocity: &bound}, Candidates: []valve.Spec{{Name: "plain", Type: "swing", Size: size},
		{Name: "spring", Type: "axial spring", Size: 0.2}}}}
	for i := range plain {
		sc := ScenarioOutcomes{Name: []string{"base", "all-trip"}[i]}
		for k, v := range []float64{plain[i], spring[i]} {
			o := Outcome{Candidate: c.Case.Candidates[k].Name, MaxReverseVelocity: Value{SI: v}, PriceRatio: Value{SI: 1 + float64(k)}}
			met := v <= bound
			o.Verdicts = []Verdict{{Measure: keyReverse, Limit: "reverse velocity", Value: v, Bound: bound, Met: met, Margin: bound - v}}
			o.LimitsMet = &met
			sc.Outcomes = append(sc.Outcomes, o)
		}
		c.Scenarios = append(c.Scenarios, sc)
	}
	return c
}

func TestJointNamesTheWorst(t *testing.T) {
	a := oneOf("north", 0.3, 0.2, []float64{0.1, 0.28}, []float64{0.05, 0.06})
	b := oneOf("south", 0.2, 0.25, []float64{0.22}, []float64{0.12})
	j := Join(a, b)
	plain, spring := j.Candidates[0], j.Candidates[1]
	require.Equal(t, Worst{keyReverse, "north", "all-trip", 0.28}, *plain.worst(keyReverse), "the greatest value")
	v := plain.verdict(keyReverse)
	require.Equal(t, "south", v.Case, "not the greatest value, but the one beyond its limit")
	require.Equal(t, "base", v.Verdict.Scenario)
	require.False(t, v.Met)
	require.Equal(t, []string{"north"}, plain.Meets)
	require.False(t, plain.Met)
	require.True(t, spring.Met)
	require.Equal(t, "spring", j.Recommended, "the cheaper one does not meet every limit")
	require.Equal(t, []string{"size DN200 in north, DN250 in south"}, plain.Differences)
	require.Empty(t, spring.Differences)
	require.Contains(t, j.Reasons, "plain does not meet the limits of south: it fails the limit on reverse velocity, furthest in south.")

	// Where both meet, the cheaper one; where a case lacks one, it cannot be for all.
	c := oneOf("west", 0.3, 0.2, []float64{0.2}, []float64{0.1})
	require.Equal(t, "plain", Join(a, c).Recommended)
	c.Case.Candidates[0].Name, c.Scenarios[0].Outcomes[0].Candidate = "other", "other"
	j = Join(a, c)
	require.Equal(t, "spring", j.Recommended)
	require.Equal(t, []string{"west"}, j.Candidates[0].Missing)
	require.Equal(t, "other", j.Candidates[2].Name)

	// The order of the cases does not change the answer.
	require.Equal(t, Join(a, b).Recommended, Join(b, a).Recommended)

	// One comparison alone: its scenarios.
	rows := Join(a).Rows(quantity.SI)
	var texts []string
	for _, r := range rows {
		texts = append(texts, r.Label+": "+r.Cells[0].Text)
	}
	require.Contains(t, texts, "in: all-trip")
}

func TestJointByPresentValue(t *testing.T) {
	a, b := oneOf("north", 0.3, 0.2, []float64{0.1}, []float64{0.05}), oneOf("south", 0.3, 0.2, []float64{0.1}, []float64{0.05})
	for i, c := range []*Comparison{a, b} {
		c.Case.Economics = &Economics{}
		c.Case.Economics.Currency = "EUR"
		c.Costs = []Costing{{Candidate: "plain"}, {Candidate: "spring"}}
		c.Costs[0].Present, c.Costs[1].Present = []float64{10, 60}[i], []float64{30, 20}[i]
	}
	j := Join(a, b)
	require.Equal(t, 70.0, j.Candidates[0].Weight.SI)
	require.Equal(t, "spring", j.Recommended, "the sum of the present values decides")
	b.Case.Economics.Currency = "USD"
	require.Equal(t, "plain", Join(a, b).Recommended, "two currencies have no sum: the price ratio decides")
}

// TestJointWeighsTheMarginAskedFor: of two cases with the same value and limit, the one that asks for a margin which is not there is the worse, in
// whichever order; a case that fails comes before one that meets with less to spare.
func TestJointWeighsTheMarginAskedFor(t *testing.T) {
	a, b := oneOf("north", 0.3, 0.2, []float64{0.2}, []float64{0.01}), oneOf("south", 0.3, 0.2, []float64{0.1}, []float64{0.01})
	for k := range b.Scenarios[0].Outcomes {
		o := &b.Scenarios[0].Outcomes[k]
		v := &o.Verdicts[0]
		v.Asked = 0.8 * v.Bound
		v.Met = v.Spare() >= 0
		o.LimitsMet = &v.Met
	}
	for _, j := range []*Joint{Join(a, b), Join(b, a)} {
		v := j.Candidates[0].verdict(keyReverse)
		require.Equal(t, "south", v.Case)
		require.False(t, v.Met)
		require.Contains(t, strings.Join(j.Reasons, "\n"), "plain does not meet the limits of south: it fails the limit on reverse velocity, furthest in south.")
		var limit Row
		for _, r := range j.Rows(quantity.SI) {
			if r.Label == "limit" {
				limit = r
			}
		}
		require.Contains(t, limit.Cells[0].Text, "too little to spare")
		require.True(t, limit.Cells[0].Alarm)
		require.Contains(t, limit.Cells[1].Text, "meets")
	}
}
