package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func one(t require.TestingT, o *Outcome, l Limits) Verdict {
	o.judge(l.list())
	require.Len(t, o.Verdicts, 1)
	return o.Verdicts[0]
}

// silent is an outcome without any figure but those set.
func silent(set func(*Outcome)) *Outcome {
	o := &Outcome{Scenario: "base"}
	for _, v := range o.values() {
		*v = none("not measured")
	}
	set(o)
	return o
}

func TestVerdictAtTheLimit(t *testing.T) {
	limit := 0.3
	o := silent(func(o *Outcome) { o.MaxReverseVelocity = Value{SI: limit} })
	v := one(t, o, Limits{ReverseVelocity: &limit})
	require.True(t, v.Met, "exactly at the limit")
	require.Zero(t, v.Margin)
	require.True(t, *o.LimitsMet)

	o.MaxReverseVelocity.SI = math.Nextafter(limit, 1)
	require.False(t, one(t, o, Limits{ReverseVelocity: &limit}).Met, "just above")
	require.False(t, *o.LimitsMet)

	o.MaxReverseVelocity.SI = math.Nextafter(limit, 0)
	require.True(t, one(t, o, Limits{ReverseVelocity: &limit}).Met, "just below")

	low := -5e4
	o = silent(func(o *Outcome) { o.MinPressure = Value{SI: low} })
	require.True(t, one(t, o, Limits{MinimumPressure: &low}).Met)
	o.MinPressure.SI = math.Nextafter(low, -1e9)
	v = one(t, o, Limits{MinimumPressure: &low})
	require.False(t, v.Met)
	require.Negative(t, v.Margin)
}

func TestVerdictProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bound, value := rapid.Float64Range(0, 2).Draw(t, "bound"), rapid.Float64Range(0, 2).Draw(t, "value")
		e := rapid.Float64Range(0, 1).Draw(t, "error")
		o := silent(func(o *Outcome) { o.MaxReverseVelocity, o.Errors = Value{SI: value}, map[string]float64{keyReverse: e} })
		v := one(t, o, Limits{ReverseVelocity: &bound})
		require.Equal(t, value <= bound, v.Met)
		require.InDelta(t, bound-value, v.Margin, 0)
		require.Equal(t, math.Abs(bound-value) < e, v.Unsure)
	})
}

// The surge allowance is for the surge; the steady pressure keeps to the design pressure itself.
func TestDesignPressureAndAllowance(t *testing.T) {
	l := Limits{DesignPressure: some(8e5), SurgeAllowance: some(0.1)}
	o := silent(func(o *Outcome) { o.PeakPressure, o.SteadyPressure = Value{SI: 8.5e5}, Value{SI: 8.1e5} })
	o.judge(l.list())
	require.Len(t, o.Verdicts, 2)
	require.Equal(t, "design pressure with 10 % surge allowance", o.Verdicts[0].Limit)
	require.True(t, o.Verdicts[0].Met)
	require.InDelta(t, 8.8e5, o.Verdicts[0].Bound, 1e-6)
	require.Equal(t, keySteadyPressure, o.Verdicts[1].Measure)
	require.False(t, o.Verdicts[1].Met)
	require.False(t, *o.LimitsMet)

	l.SurgeAllowance = nil
	o.judge(l.list())
	require.False(t, o.Verdicts[0].Met)
}

func TestNoLimitsNoVerdict(t *testing.T) {
	o := silent(func(o *Outcome) { o.MaxReverseVelocity = Value{SI: 1} })
	o.judge((&Limits{}).list())
	require.Empty(t, o.Verdicts)
	require.Nil(t, o.LimitsMet)
	o.judge((&Limits{HeadLoss: some(1)}).list())
	require.Nil(t, o.LimitsMet, "the limit concerns nothing that was measured")
}

// A valve that closes softly at first and hard on a later closing breaks the limit.
func TestLaterClosingIsJudged(t *testing.T) {
	o := silent(func(o *Outcome) { o.MaxReverseVelocity, o.LaterReverseVelocity = Value{SI: 0.1}, Value{SI: 0.4} })
	o.judge((&Limits{ReverseVelocity: some(0.3)}).list())
	require.Len(t, o.Verdicts, 2)
	require.False(t, *o.LimitsMet)
}
