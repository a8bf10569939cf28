package choice

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve"
)

func tried(t *testing.T, a *Advice, name string) Attempt {
	for _, x := range a.Tried {
		if x.Name == name {
			return x
		}
	}
	t.Fatal("no step of that name: " + name)
	return Attempt{}
}

// What helps a plain swing disc that slams: a rotor that runs down more slowly, and a valve that closes at zero velocity, which passes; a disc without a spring has
// none to be stronger. The case is left as it was, and the same question has the same answer whatever the number of workers.
func TestAdvise(t *testing.T) {
	c := quick(t)
	c.Limits = Limits{DesignPressure: some(8e5), SurgeAllowance: some(0.1), ReverseVelocity: some(0.3)}
	before, err := json.Marshal(c)
	require.NoError(t, err)
	r := compare(t, c)
	var all []*Advice
	for _, workers := range []int{1, 4} {
		a, err := Advise(t.Context(), r, Settings{Workers: workers})
		require.NoError(t, err)
		all = append(all, a)
	}
	require.Equal(t, all[0], all[1], "the number of workers shows")
	after, err := json.Marshal(c)
	require.NoError(t, err)
	require.Equal(t, string(before), string(after), "the case was written to")

	a := all[0]
	require.Equal(t, "plain-swing", a.Candidate, "the spring disc meets its limits")
	require.Equal(t, keyReverse, a.Governing.Measure)
	require.Len(t, a.Tried, len(variants))
	require.Equal(t, "the valve has no spring", tried(t, a, "stronger spring").Reason)
	inertia := tried(t, a, "more pump inertia")
	require.Equal(t, Improved, inertia.Effect)
	require.Less(t, inertia.After.Value, a.Governing.Value)
	require.Equal(t, "pump and motor times 2, 4.4 kg·m2", inertia.Change)
	slamsAsTold(t, r, a)
	require.Equal(t, "DN300 in place of DN250", tried(t, a, "next size up").Change)
	ideal := tried(t, a, idealValve)
	require.True(t, ideal.Meets)
	require.InDelta(t, 0, ideal.After.Value, 1e-3)
	require.Contains(t, a.Reasons, "A valve that closes at zero velocity meets every limit: a faster valve is a way.")

	// every row has as many cells as the head
	for _, row := range a.Rows(0) {
		require.Len(t, row.Cells, len(a.Head(0)))
	}
}

// slamsAsTold holds what another size does by the reverse velocity on the bore now against the rise of pressure in the branch of a run with that size.
func slamsAsTold(t *testing.T, r *Comparison, a *Advice) {
	base := only(r.Case, a.Candidate)
	was := r.Scenarios[0].Outcomes[slices.IndexFunc(r.Case.Candidates, func(s valve.Spec) bool { return s.Name == a.Candidate })]
	for name, step := range map[string]int{"next size down": -1, "next size up": 1} {
		x := tried(t, a, name)
		next, _, err := nextSize(base, step)
		require.NoError(t, err)
		is := compare(t, next).Scenarios[0].Outcomes[0]
		slams := is.SlamPressureRise.SI / was.SlamPressureRise.SI
		bores := math.Pow(is.Valve.Bore/was.Valve.Bore, 2)
		require.InEpsilon(t, x.After.Value*bores, x.Alike, 1e-9, name)
		require.InDelta(t, slams, x.Alike/a.Governing.Value, 0.03, name)
		require.Equal(t, is.OpenMargin, x.Margin, name)
		switch x.Effect {
		case Improved:
			require.Less(t, slams, 1.0, name)
		case Worsened:
			require.Greater(t, slams, 1.0, name)
		default:
			require.InDelta(t, 1, slams, 0.02, name)
		}
	}
}

// A step that meets every limit with a disc that floats, or with a harder slam in the branch, is not praised without a word; a difference within the target of accuracy is none.
func TestAdviceTellsWhatNoLimitShows(t *testing.T) {
	steady := Attempt{Name: idealValve, Meets: true, Margin: none("")}
	a := &Advice{Candidate: "disc", Governing: Verdict{Measure: keyReverse, Value: 0.2}, Margin: Value{SI: 1.2}, Tried: []Attempt{
		{Name: "next size up", Meets: true, After: Verdict{Value: 0.1}, Alike: 0.25, Effect: Worsened, Margin: Value{SI: 0.9}}, {Name: "more pump inertia", Meets: true, Margin: Value{SI: 1.2}}, steady}}
	a.conclude()
	require.Equal(t, "With one of these alone disc would meet every limit: next size up (but the slam in the branch is harder and its disc then floats), more pump inertia.", a.Reasons[0])
	require.Contains(t, a.Reasons[1], "the velocity times the area of the bore")
	o := silent(func(o *Outcome) {
		o.MaxReverseVelocity, o.PeakPressure, o.swing.rise = Value{SI: 0.08}, Value{SI: 9e5}, 4e5
	})
	require.InDelta(t, 5e-3, o.target(keyReverse), 1e-15)
	require.InDelta(t, 4e3, o.target(keyPeak), 1e-9)
	require.InDelta(t, 0.288, (&present{Verdict: Verdict{Measure: keyReverse}, bore: 0.25}).onBore(0.2, 0.3), 1e-12)
	require.InDelta(t, 0.2, (&present{Verdict: Verdict{Measure: keyHeadLoss}, bore: 0.25}).onBore(0.2, 0.3), 0)
}

// Where the limits are beyond any valve, the ideal one says so.
func TestAdviseWhereTheValveIsNotTheCause(t *testing.T) {
	c := quick(t, set(spec("spring", "axial spring"), map[string]float64{"restitution": 0.1}))
	c.Limits = Limits{MinimumPressure: some(3e5)}
	c.Scenarios[0].Events[0].Units = 3
	a, err := Advise(t.Context(), compare(t, c), Settings{})
	require.NoError(t, err)
	require.Contains(t, a.Reasons, "Even a valve that closes at zero velocity does not meet every limit (minimum pressure): for that the valve is not the cause.")
	require.Equal(t, "data are given for the candidate that hold for its own size", tried(t, a, "next size up").Reason)
	require.NotEmpty(t, tried(t, a, "stronger spring").Change)
	require.Equal(t, Improved, tried(t, a, "small air vessel").Effect, "it keeps up the pressure of the line")
}

// With nothing to mend there is no advice, and it is said why.
func TestNothingToAdvise(t *testing.T) {
	r := compare(t, quick(t, spec("spring", "axial spring")))
	a, err := Advise(t.Context(), r, Settings{})
	require.NoError(t, err)
	require.Equal(t, &Advice{Reasons: []string{"There is nothing to advise on: every candidate meets every limit."}}, a)
	r = again(r, Limits{})
	a, err = Advise(t.Context(), r, Settings{})
	require.NoError(t, err)
	require.Equal(t, []string{"There is nothing to advise on, as no limits are given."}, a.Reasons)
}

func TestAdviseInterrupted(t *testing.T) {
	c := quick(t, spec("plain", "swing"))
	r := compare(t, c)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	a, err := Advise(ctx, r, Settings{})
	require.ErrorIs(t, err, context.Canceled)
	require.Nil(t, a)
}

// Each step changes what it says and nothing else; one that has no sense in the case says why.
func TestSteps(t *testing.T) {
	c := only(quick(t), "plain-swing")
	n := func(c *Case) *network.Network { return c.Scenarios[0].Network }

	got, _, err := moreInertia(c, Settings{})
	require.NoError(t, err)
	require.InEpsilon(t, 4.4, n(got).Stations[0].Pump.Inertia, 1e-12)
	require.InEpsilon(t, 2.2, n(c).Stations[0].Pump.Inertia, 1e-12)

	got, _, err = bypass(c, Settings{})
	require.NoError(t, err)
	require.Equal(t, []network.CheckValve{{Name: "bypass of lift", From: "sump", To: "header", Elevation: 102, CheckValve: bypassName}}, n(got).CheckValves)
	require.Equal(t, valve.Spec{Name: bypassName, Type: "swing", Size: 0.25}, got.Valves[bypassName])
	require.Empty(t, n(c).CheckValves)
	require.Empty(t, c.Valves)
	_, _, err = bypass(got, Settings{})
	require.ErrorContains(t, err, "already")

	got, words, err := airVessel(c, Settings{})
	require.NoError(t, err)
	gas := 2 * 3 * 430.0 / 3600
	require.Equal(t, &network.AirVessel{Name: "vessel at header", Node: "header", Level: 102, Volume: 2 * gas, Gas: gas, Polytropic: 1.2, Bore: 0.35, LossIn: 1, LossOut: 0.5}, n(got).Devices[0])
	require.Equal(t, "1.43 m3, half of it gas: 2 s of the rated flow", words)
	require.Empty(t, n(c).Devices)
	_, _, err = airVessel(got, Settings{})
	require.ErrorContains(t, err, "already")

	large := *c
	large.Candidates = []valve.Spec{{Name: "large", Type: "swing", Size: 0.9}}
	_, _, err = nextSize(&large, 1)
	require.ErrorContains(t, err, "no such size")
	got, words, err = nextSize(&large, -1)
	require.NoError(t, err)
	require.Equal(t, "DN800 in place of DN900", words)
	require.InDelta(t, 0.8, got.Candidates[0].Size, 1e-12)

	still := *c
	still.Scenarios = []Scenario{{Name: "base", Network: n(c)}}
	for _, step := range []func(*Case, Settings) (*Case, string, error){moreInertia, bypass, airVessel} {
		_, _, err := step(&still, Settings{})
		require.ErrorIs(t, err, errNoTrip)
	}
}
