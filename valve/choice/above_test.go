package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/fluid"
)

// A gate that shuts at once at the end of a frictionless pipe of length L: at the distance s from the reservoir the head is dH = a v/g above the
// static one from (L - s)/a to (L + s)/a after the closure, and so again in every period 4 L/a; between, it is as much below it (N. Joukowsky, 1898;
// textbook). So the time above half of dH in n periods is n 2 s/a.
func TestTimeAboveInAPipe(t *testing.T) {
	const length, a, until = 1000.0, 1000.0, 8.0
	water := fluid.Fluid{Name: "test liquid", Density: 1000, BulkModulus: 2e9, Viscosity: 1e-6, VapourPressure: 2e3}
	n := &network.Network{Fluid: water, Atmosphere: 101325, Gravity: 10,
		Reservoirs: []network.Reservoir{{Name: "up", Level: 150}, {Name: "down", Level: 100}},
		Pipes:      []network.Pipe{{Name: "line", From: "up", To: "end", Bore: 0.5, WaveSpeed: a, FrictionFactor: 1e-300, Profile: []network.Point{{}, {Chainage: length}}}},
		Throttles:  []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.5, Loss: 1000, Schedule: []network.Opening{{Fraction: 1}, {Time: 1e-6, Fraction: 0}}}}}
	v := 1.0 // 50 m of head over a loss of 1000 v^2/2g with g = 10
	jump := a * v / 10
	tr := &trial{scenario: &Scenario{Network: n, Events: []network.Event{{Kind: network.Stroke, Target: "gate"}}}}
	for _, bound := range []struct{ head, periods float64 }{{150 + jump/2, until / (4 * length / a)}, {150 + 1.01*jump, 0}} {
		w := &above{watch: &watch{of: tr}, event: 0, bound: bound.head * 1e4, gamma: 1e4}
		r, err := moc.Solve(t.Context(), moc.Problem{Network: n, Until: until}, moc.Settings{Liquid: true, Observer: w})
		require.NoError(t, err)
		for k, s := range r.Pipes[0].Chainage {
			sharp := 1e-6
			if s == length { // where the head goes from dH above to dH below in one step
				sharp = r.Numerics.Step
			}
			require.InDelta(t, bound.periods*2*s/a, w.since[0][k], sharp, "at %v m", s)
		}
		most := w.longest(newPlaces(n, nil, Settings{}))
		require.InDelta(t, bound.periods*2*length/a, most.time, r.Numerics.Step)
		if bound.periods > 0 {
			require.Equal(t, "end", most.spot.Place)
		}
	}
}

// Within a step the head is a straight line; the moment before the event does not count; what is gone back over counts once.
func TestTimeAboveStepByStep(t *testing.T) {
	run := func(back bool) *above {
		w := &above{watch: &watch{of: &trial{scenario: &Scenario{Network: &network.Network{}}}}, event: 1, gamma: 1}
		w.Along([]moc.PipeTrace{{Bottom: []float64{0, -5}}})
		step := func(now float64, heads ...float64) {
			w.Step(now, nil, nil)
			w.Heads(now, 0, heads)
		}
		step(0, 1, 1)
		step(1, 3, -6)
		w.Save()
		if back {
			step(2, 100, 100)
			step(3, 100, 100)
			w.Restore()
		}
		step(2, -1, -4)
		step(3, 0, -5)
		step(4, 1, -5)
		return w
	}
	for _, back := range []bool{false, true} {
		w := run(back)
		require.InDeltaSlice(t, []float64{0.75 + 1, 0.5 + 1}, w.since[0], 1e-12)
		require.InDelta(t, 4, w.at, 0)
	}
	w, heads := run(true), []float64{1, -5}
	require.Zero(t, testing.AllocsPerRun(10, func() { w.Heads(4, 0, heads) }))
	require.Equal(t, "still exceeded when the run ends at 4 s", func() string {
		var o Outcome
		o.above(w, newPlaces(&network.Network{}, nil, Settings{}), Settings{})
		return o.TimeAbove.Reason
	}())
}

// The time above the design pressure of a plain swing disc at the pump station is a few passages of the branch, by which ASME B31.3 allows its greatest
// allowance; that of the spring disc is none. A station that stands above it for good gets none.
func TestTimedRuleInAComparison(t *testing.T) {
	c := quick(t)
	r, _ := FindRule("ASME B31.3")
	r.Events = 6
	c.Limits = Limits{DesignPressure: some(8e5), SurgeAllowance: &r.Allowance, Rule: &r}
	got := compare(t, c)
	swing, spring := &got.Scenarios[0].Outcomes[0], &got.Scenarios[0].Outcomes[1]
	require.Greater(t, swing.PeakPressure.SI, 8e5)
	require.Less(t, spring.PeakPressure.SI, 8e5)
	require.Zero(t, spring.TimeAbove.SI)
	passage := 2 * 6 / c.Scenarios[0].Network.Stations[0].Branch.WaveSpeed
	require.Greater(t, swing.TimeAbove.SI, passage/2)
	require.Less(t, swing.TimeAbove.SI, 100*passage)
	require.InEpsilon(t, 6*swing.TimeAbove.SI, swing.TimeAboveYear.SI, 1e-12)
	require.NotEmpty(t, swing.Spots[keyAbove].Place)
	for _, o := range []*Outcome{swing, spring} {
		require.Equal(t, 8e5*1.33, o.Verdicts[0].Bound)
		require.Equal(t, "design pressure with 33 % surge allowance by ASME B31.3 (302.2.4 of 2002-2004 as quoted elsewhere; check the edition in force)", o.Verdicts[0].Limit)
	}
	require.Contains(t, got.text(), "by 33 % for at most 10 h at a time and 100 h a year, or by 20 % for at most 50 h at a time and 500 h a year; 6 events a year are reckoned with, each counted as one variation. "+
		"It allows 1000 of them in the life of the line, which are reached after 167 years.")
	require.Contains(t, got.text(), "It asks besides, which is not judged here: the owner's approval")

	r.Options = []Option{{0.33, swing.TimeAbove.SI / 2, hour}, {0.1, swing.TimeAbove.SI, 6.5 * swing.TimeAbove.SI}}
	again := *swing
	again.judge(c.Limits.list())
	require.InEpsilon(t, 8.8e5, again.Verdicts[0].Bound, 1e-12, "the second option")
	require.Equal(t, math.Signbit(again.Verdicts[0].Margin), !again.Verdicts[0].Met)
}
