package choice

import (
	"math"
	"seatwise/network/quantity"
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
		{"vapour margin", Limits{VapourMargin: some(2)}, 2, true, func(o *Outcome, v Value) { o.VapourMargin = v }},
		{"slam class none", Limits{SlamClass: SlamNone}, 0.15, false, func(o *Outcome, v Value) { o.MaxReverseVelocity = v }},
		{"slam class mild", Limits{SlamClass: SlamMild}, 0.30, false, func(o *Outcome, v Value) { o.MaxReverseVelocity = v }},
		{"slam class mild, later", Limits{SlamClass: SlamMild, SlamBounds: SlamBounds{0.1, 0.2}}, 0.2, false, func(o *Outcome, v Value) { o.LaterReverseVelocity = v }},
		{"head loss", Limits{HeadLoss: some(1.5)}, 1.5, false, func(o *Outcome, v Value) { o.HeadLoss = v }},
		{"anchor force", Limits{AnchorForce: some(4e5)}, 4e5, false, func(o *Outcome, v Value) { o.AnchorForce = v }},
	} {
		up, down := math.Nextafter(c.bound, math.Inf(1)), math.Nextafter(c.bound, math.Inf(-1))
		for x, met := range map[float64]bool{c.bound: true, up: c.least, down: !c.least} {
			v := one(t, silent(func(o *Outcome) { c.set(o, Value{SI: x}) }), c.limits)
			require.Equal(t, met, v.Met, "%s: %v against %v", c.name, x, c.bound)
			require.Equal(t, c.bound, v.Bound, c.name)
			require.Zero(t, v.Asked, c.name)
		}

		// with a margin asked for, the bound moves by that, while bound and margin stay those of the limit itself
		c.limits.Margin = 0.1
		asked := c.bound - 0.1*math.Abs(c.bound)
		if c.least {
			asked = c.bound + 0.1*math.Abs(c.bound)
		}
		up, down = math.Nextafter(asked, math.Inf(1)), math.Nextafter(asked, math.Inf(-1))
		for x, met := range map[float64]bool{asked: true, up: c.least, down: !c.least} {
			v := one(t, silent(func(o *Outcome) { c.set(o, Value{SI: x}) }), c.limits)
			require.Equal(t, met, v.Met, "%s with a margin: %v against %v", c.name, x, asked)
			require.Equal(t, c.bound, v.Bound, c.name)
			require.InDelta(t, 0.1*math.Abs(c.bound), v.Margin, 1e-9*math.Abs(c.bound), c.name)
			require.Positive(t, v.Margin, c.name)
		}
	}
}

// The allowances are those of the table of rules, widely quoted (ASME B31.4, AWWA C900 and M11, AWWA C906 for PE; all from memory).
func TestRulesAtTheirBounds(t *testing.T) {
	wanted := map[string]float64{"ASME B31.4": 8.8e5, "AWWA C900 recurring": 8e5, "AWWA C900 occasional": 12.8e5, "AWWA M11": 12e5, "PE recurring": 12e5, "PE occasional": 16e5}
	require.Len(t, RuleNames(), len(wanted)+2)
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
}

// The options of ASME B31.3, 302.2.4 (2002-2004 text, as quoted elsewhere) and of B31.1, 102.2.4 (as quoted elsewhere): the durations of an option are allowed themselves, and
// the next number above them leaves the next option, or none.
func TestTimedRulesAtTheirBounds(t *testing.T) {
	const h = 3600.0
	for _, c := range []struct {
		rule         string
		events, time float64 // a year, s
		allowance    float64
		above        float64 // allowance of the next longer time
	}{
		{"ASME B31.3", 1, 10 * h, 0.33, 0.20},
		{"ASME B31.3", 1, 50 * h, 0.20, 0},
		{"ASME B31.3", 64, 100 * h / 64, 0.33, 0.20},
		{"ASME B31.3", 64, 500 * h / 64, 0.20, 0},
		{"ASME B31.1", 1, 1 * h, 0.20, 0.15},
		{"ASME B31.1", 1, 8 * h, 0.15, 0},
		{"ASME B31.1", 128, 80 * h / 128, 0.20, 0.15},
		{"ASME B31.1", 128, 800 * h / 128, 0.15, 0},
	} {
		r, ok := FindRule(c.rule)
		require.True(t, ok)
		r.Events = c.events
		l := Limits{DesignPressure: some(8e5), SurgeAllowance: &r.Allowance, Rule: &r}
		judged := func(peak, time float64) Verdict {
			return one(t, silent(func(o *Outcome) { o.PeakPressure, o.TimeAbove = Value{SI: peak}, Value{SI: time} }), l)
		}
		for time, a := range map[float64]float64{c.time: c.allowance, math.Nextafter(c.time, 0): c.allowance, math.Nextafter(c.time, 1e9): c.above} {
			bound := 8e5 * (1 + a)
			require.Equal(t, bound, judged(8e5, time).Bound, "%s, %v s", c.rule, time)
			require.True(t, judged(bound, time).Met)
			require.True(t, judged(math.Nextafter(bound, 0), time).Met)
			require.False(t, judged(math.Nextafter(bound, 1e9), time).Met)
		}
		require.Contains(t, judged(9e5, c.time).Limit, " by "+c.rule+" (")
		require.Contains(t, judged(9e5, c.time).Limit, "check the edition in force")
	}
}

// A pressure that is still above the design pressure at the end has no time, and gets no allowance.
func TestTimedRuleWithoutATime(t *testing.T) {
	r, _ := FindRule("asme b31.3")
	r.Events = 1
	v := one(t, silent(func(o *Outcome) {
		o.PeakPressure, o.TimeAbove = Value{SI: 8.1e5}, none("still exceeded when the run ends at 3 s")
	}), Limits{DesignPressure: some(8e5), Rule: &r})
	require.False(t, v.Met)
	require.Equal(t, 8e5, v.Bound)
	require.Contains(t, v.Limit, "design pressure with no surge allowance, as it is still exceeded when the run ends at 3 s, by ASME B31.3")
}

func TestSlamClass(t *testing.T) {
	var b SlamBounds
	for v, class := range map[float64]string{0: SlamNone, 0.15: SlamNone, math.Nextafter(0.15, 1): SlamMild, 0.30: SlamMild, math.Nextafter(0.30, 1): SlamSevere} {
		require.Equal(t, class, b.Class(v), "%v m/s", v)
	}
	require.Equal(t, SlamSevere, SlamBounds{0.1, 0.2}.Class(0.25))
	o := silent(func(o *Outcome) { o.MaxReverseVelocity, o.LaterReverseVelocity = Value{SI: 0.1}, Value{SI: 0.2} })
	require.Equal(t, SlamMild, o.SlamClass(), "the later closing counts")
	sc := NewScale(quantity.Velocity, quantity.SI, 0.1, 0.2)
	require.Equal(t, "mild (later "+sc.With(0.2)+")", o.slamWords(sc), "the first closing alone would be none")
	o.LaterReverseVelocity = Value{SI: 0.12}
	require.Equal(t, SlamNone, o.slamWords(sc))
	require.Empty(t, silent(func(*Outcome) {}).SlamClass())
}
