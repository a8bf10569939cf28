package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/valve"
)

// The measures do not know how few steps the histories hold: every step counts. The branch is long enough for the window of the deceleration to outlast the
// steps that histories keep whole around a reversal.
func TestMeasuresOfThinnedHistories(t *testing.T) {
	c := quick(t, set(spec("lively", "swing"), map[string]float64{"restitution": 0.6}), spec("spring", "axial spring"))
	c.Until = 15
	c.Scenarios[0].Network.Stations[0].Branch.Length = 40
	c.Limits = Limits{DesignPressure: some(5.2e5), ReverseVelocity: some(0.05), MinimumPressure: some(3e5)}
	c.Scenarios[0].Network.Stations[0].Units = 2
	c.Scenarios[0].Network.Pipes[0].Bends = []float64{133, 415}
	c.Limits.AnchorForce = some(2e3)
	c.Limits.Rule = &Rule{Name: "own", Options: []Option{{0.2, hour, hour}}, Events: 1}
	ts, err := trials(c, Settings{})
	require.NoError(t, err)
	told := 0
	for _, tr := range ts {
		solved := func(samples int) (Outcome, evidence, *moc.Result) {
			w, observer := tr.watch()
			r, err := moc.Solve(t.Context(), tr.problem, moc.Settings{Halvings: 2, Samples: samples, Observer: observer})
			require.NoError(t, err)
			o, e := tr.measured(r, w)
			o.judge(tr.limits)
			o.Valve = valve.Valve{} // functions
			return o, e, r
		}
		full, fullEvidence, all := solved(0)
		few, fewEvidence, some := solved(1) // the least there is
		require.Zero(t, all.Bin)
		require.Len(t, all.Time, all.Numerics.Steps+1)
		require.Positive(t, few.Numerics.HistoryBin)
		require.Greater(t, len(all.Time), 4*len(some.Time), "the histories hold a part of the steps only")

		few.Numerics.HistoryBin = 0
		require.Equal(t, full, few)
		require.Equal(t, fullEvidence, fewEvidence)

		u := tr.leading(some.Units)
		if thin := follow(some.Time, u, 1); math.Abs(thin.backflow.volume/full.ReverseVolume.SI-1) > 1e-6 {
			told++
		}
	}
	require.Positive(t, told, "a story told from the histories alone is another one")
}

// Vapour sends the run back to its last checkpoint: what was told until there is not told twice.
func TestWatchGoesBack(t *testing.T) {
	c := quick(t, spec("plain", "swing"))
	c.Scenarios[0].Network.Pipes[0].Profile[2].Elevation = 145 // a summit near the gradient line
	c.Scenarios[0].Events[0].Units = 3
	ts, err := trials(c, Settings{})
	require.NoError(t, err)
	w := &counted{watch: &watch{of: ts[0]}}
	r, err := moc.Solve(t.Context(), ts[0].problem, moc.Settings{Observer: w})
	require.NoError(t, err)
	require.Positive(t, w.restored)
	u := ts[0].leading(r.Units)
	got, want := w.closing(u), follow(r.Time, u, 1)
	require.Equal(t, r.Numerics.Steps+1, got.steps)
	require.InEpsilon(t, want.backflow.volume, got.backflow.volume, 1e-12)
	require.Equal(t, []float64{want.zero, want.greatest.v, want.later.v, want.slam().SI}, []float64{got.zero, got.greatest.v, got.later.v, got.slam().SI})
	require.Equal(t, want.reopenings(), got.reopenings())
}

type counted struct {
	*watch
	restored int
}

func (c *counted) Restore() { c.restored++; c.watch.Restore() }
