package requirement

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve/choice"
)

// closesWithin is a run in which an ideal valve meets its limit up to a velocity, m/s, that depends on the settings.
func closesWithin(most func(choice.Settings) float64) func(context.Context, *choice.Case, choice.Settings) (*choice.Comparison, error) {
	return func(_ context.Context, c *choice.Case, s choice.Settings) (*choice.Comparison, error) {
		v, bound := c.Candidates[0].Set["closes at"], most(s)
		o := choice.Outcome{Verdicts: []choice.Verdict{{Value: v, Bound: bound, Margin: bound - v, Met: v <= bound}}}
		return &choice.Comparison{Case: c, Scenarios: []choice.ScenarioOutcomes{{Outcomes: []choice.Outcome{o}}}}, nil
	}
}

// TestNothingThatBreaksIsAllowed: where the fine time steps allow much less than the coarse ones, no velocity that breaks a limit is given out.
func TestNothingThatBreaksIsAllowed(t *testing.T) {
	for _, x := range []struct{ fine, want float64 }{{0.3, 0.3}, {0.1, 0}, {-1, -1}} {
		f := &finder{c: &choice.Case{}, size: 0.2, run: closesWithin(func(s choice.Settings) float64 {
			if s.GridsAtMost == 1 || s.GridsAtMost == 2 {
				return 0.3
			}
			return x.fine
		})}
		zero, err := f.try(t.Context(), 0, choice.Settings{GridsAtMost: 1})
		require.NoError(t, err)
		lo, _, err := f.confirm(t.Context(), zero, sample{v: 0.299}, sample{v: 0.301, fate: breaks})
		require.NoError(t, err)
		if x.want < 0 {
			require.Equal(t, breaks, lo.fate, "not even zero holds, and find says so")
			continue
		}
		require.Equal(t, meets, lo.fate)
		require.InDelta(t, x.want, lo.v, 0.01)
	}
}
