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

// A limit that a valve meets only by less than what generic data leave open is met narrowly: of the pressures the slam is what counts.
func TestMetNarrowly(t *testing.T) {
	narrow := func(l Limits, set func(*Outcome)) bool {
		v := one(t, silent(func(o *Outcome) {
			o.SlamPressureRise, o.Spots = Value{SI: 2e5}, map[string]Spot{keyPeak: {"valve outlet", 2}, keyMin: {"header", 2}}
			set(o)
		}), l)
		require.True(t, v.Met)
		return v.Narrow
	}
	require.True(t, narrow(Limits{ReverseVelocity: some(0.3)}, func(o *Outcome) { o.MaxReverseVelocity = Value{SI: 0.22} }))
	require.False(t, narrow(Limits{ReverseVelocity: some(0.3)}, func(o *Outcome) { o.MaxReverseVelocity = Value{SI: 0.21} }))
	peak := func(x float64) func(*Outcome) { return func(o *Outcome) { o.PeakPressure = Value{SI: x} } }
	require.True(t, narrow(Limits{DesignPressure: some(8e5)}, peak(7.3e5)), "0.4 times 2 bar is 0.8 bar")
	require.False(t, narrow(Limits{DesignPressure: some(8e5)}, peak(7.1e5)))
	require.False(t, narrow(Limits{DesignPressure: some(8e5)}, func(o *Outcome) {
		o.PeakPressure, o.Spots[keyPeak] = Value{SI: 7.9e5}, Spot{"valve outlet", -1}
	}), "the steady pressure does not depend on the slam")
	require.True(t, narrow(Limits{MinimumPressure: some(-0.5e5)}, func(o *Outcome) { o.MinPressure = Value{SI: 0.2e5} }))
	require.False(t, narrow(Limits{HeadLoss: some(1)}, func(o *Outcome) { o.HeadLoss = Value{SI: 0.99} }))
}

// A disc that never opens again meets the limit on later closings; an empty cell would read as not judged.
func TestNoLaterReverseVelocityMeets(t *testing.T) {
	v := one(t, silent(func(o *Outcome) { o.LaterReverseVelocity = Value{} }), Limits{ReverseVelocity: some(0.3)})
	require.True(t, v.Met)
	require.Equal(t, "later: reverse velocity", v.Limit)
}

// A limit is broken late when neither the pressure at the valve nor the extreme breaks it within four wave periods of the first seating.
func TestBrokenLate(t *testing.T) {
	outcome := func(valve, extreme float64) *Outcome {
		return silent(func(o *Outcome) {
			o.PeakPressure, o.Seated, o.Reopenings, o.EventTime, o.settling = Value{SI: 12e5}, Value{SI: 2}, Value{SI: 7}, 1, 10
			o.Spots, o.exceeded = map[string]Spot{keyPeak: {"main at 3 m", extreme}}, map[string]float64{keyPeak: valve}
		})
	}
	l := Limits{DesignPressure: some(10e5)}
	require.InDelta(t, 65, one(t, outcome(67, 80), l).Late, 1e-12)
	require.InDelta(t, 78, one(t, outcome(-1, 80), l).Late, 1e-12, "never at the valve")
	require.Zero(t, one(t, outcome(5, 80), l).Late, "broken at once at the valve")
	require.Zero(t, one(t, outcome(-1, 11), l).Late, "and elsewhere")
	o := outcome(67, 80)
	o.Seated = none("the disc does not seat")
	require.Zero(t, one(t, o, l).Late)

	o = outcome(67, 80)
	r := &reasons{Comparison: &Comparison{Scenarios: []ScenarioOutcomes{{Name: "base", Outcomes: []Outcome{*o}}}}}
	r.Scenarios[0].Outcomes[0].judge(l.list())
	require.Equal(t, "the highest pressure of 12.0 bar is 2.0 bar above the design pressure of 10.0 bar (main at 3 m, 80 s), late: after 65 s of repeated opening and closing "+
		"(7 reopenings)", r.margin(r.Scenarios[0].Outcomes[0].Verdicts[0]))
	require.False(t, r.Scenarios[0].Outcomes[0].Verdicts[0].Met, "the verdict stays")
}
