package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every limit is met at its bound and on the good side of it, and broken by the next number on the other side.
func TestEveryLimitAtItsBound(t *testing.T) {
	allowance := 0.1
	for _, c := range []struct {
		name   string
		limits Limits
		bound  float64
		least  bool
		set    func(*Outcome, Value)
	}{
		{"design pressure", Limits{DesignPressure: some(8e5)}, 8e5, false, func(o *Outcome, v Value) { o.PeakPressure = v }},
		{"steady pressure", Limits{DesignPressure: some(8e5), SurgeAllowance: &allowance}, 8e5, false, func(o *Outcome, v Value) { o.SteadyPressure = v }},
		{"surge", Limits{DesignPressure: some(8e5), SurgeAllowance: &allowance}, 8e5 * (1 + allowance), false, func(o *Outcome, v Value) { o.PeakPressure = v }},
		{"minimum pressure", Limits{MinimumPressure: some(-5e4)}, -5e4, true, func(o *Outcome, v Value) { o.MinPressure = v }},
		{"reverse velocity", Limits{ReverseVelocity: some(0.3)}, 0.3, false, func(o *Outcome, v Value) { o.MaxReverseVelocity = v }},
		{"later reverse velocity", Limits{ReverseVelocity: some(0.3)}, 0.3, false, func(o *Outcome, v Value) { o.LaterReverseVelocity = v }},
		{"pump reverse speed", Limits{PumpReverseSpeed: some(188.5)}, 188.5, false, func(o *Outcome, v Value) { o.MaxReverseSpeed = v }},
		{"reverse volume", Limits{ReverseVolume: some(0.05)}, 0.05, false, func(o *Outcome, v Value) { o.ReverseVolume = v }},
		{"head loss", Limits{HeadLoss: some(1.5)}, 1.5, false, func(o *Outcome, v Value) { o.HeadLoss = v }},
		{"anchor force", Limits{AnchorForce: some(4e5)}, 4e5, false, func(o *Outcome, v Value) { o.AnchorForce = v }},
	} {
		up, down := math.Nextafter(c.bound, math.Inf(1)), math.Nextafter(c.bound, math.Inf(-1))
		for x, met := range map[float64]bool{c.bound: true, up: c.least, down: !c.least} {
			v := one(t, silent(func(o *Outcome) { c.set(o, Value{SI: x}) }), c.limits)
			require.Equal(t, met, v.Met, "%s: %v against %v", c.name, x, c.bound)
			require.Equal(t, c.bound, v.Bound, c.name)
		}
	}
}

// The allowances are those of the table of rules, widely quoted (ASME B31.4, AWWA C900 and M11, AWWA C906 for PE; all from memory).
func TestRulesAtTheirBounds(t *testing.T) {
	wanted := map[string]float64{"ASME B31.4": 8.8e5, "AWWA C900 recurring": 8e5, "AWWA C900 occasional": 12.8e5, "AWWA M11": 12e5, "PE recurring": 12e5, "PE occasional": 16e5}
	require.Len(t, RuleNames(), len(wanted))
	for name, bound := range wanted {
		r, ok := FindRule(name)
		require.True(t, ok, name)
		l := Limits{DesignPressure: some(8e5), SurgeAllowance: &r.Allowance, Rule: &r}
		judged := func(x float64) Verdict { return one(t, silent(func(o *Outcome) { o.PeakPressure = Value{SI: x} }), l) }
		require.InEpsilon(t, bound, judged(8e5).Bound, 1e-12, name)
		exact := judged(8e5).Bound
		require.True(t, judged(exact).Met, name)
		require.True(t, judged(math.Nextafter(exact, 0)).Met, name)
		require.False(t, judged(math.Nextafter(exact, 1e9)).Met, name)
		require.Contains(t, judged(exact).Limit, " by "+name+" (from memory; check the edition in force)")
	}
	_, ok := FindRule("ASME B31.3")
	require.False(t, ok, "it needs durations")
	require.True(t, TimedRule("asme b31.3"))
}
