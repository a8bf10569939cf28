package verify

import (
	"context"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestChecks runs every case; each check is a subtest that prints its deviation.
func TestChecks(t *testing.T) {
	begin := time.Now()
	checks, err := Run(context.Background(), "")
	t.Logf("%d checks in %v", len(checks), time.Since(begin).Round(time.Millisecond))
	system := 0
	for _, c := range checks {
		t.Run(c.ID, func(t *testing.T) {
			kind := "gate"
			if !c.Gate {
				kind = "comparison"
			}
			t.Logf("%s, %s: %s: expected %.9g %s, got %.9g, deviation %.3g, tolerance %.3g", kind, c.Layer, c.Quantity, c.Expected, c.Unit, c.Got, c.Deviation, c.Tolerance)
			require.True(t, c.Pass || !c.Gate, "%s is %.9g %s, not %.9g: deviation %.3g beyond %.3g (%s)", c.Quantity, c.Got, c.Unit, c.Expected, c.Deviation, c.Tolerance, c.Source)
		})
		if c.Layer == System {
			system++
		}
	}
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(checks), 60)
	require.GreaterOrEqual(t, 2*system, len(checks), "half of the checks go through a whole run")
}

// TestCases holds what the list promises: names once, a layer and a source each.
func TestCases(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range All() {
		require.False(t, seen[c.ID], "%s twice", c.ID)
		seen[c.ID] = true
		require.Contains(t, []Layer{Formula, Disc, Solver, System}, c.Layer, c.ID)
		require.NotEmpty(t, c.Source, c.ID)
	}
}

// TestPeaks: the heads that laboratories report are comparisons, in metres, each in a series with its source; friction does not change what they say of a first plateau.
func TestPeaks(t *testing.T) {
	checks, err := Run(context.Background(), "E")
	require.NoError(t, err)
	series := map[string]int{}
	for _, c := range checks {
		if c.Peak == "" {
			continue
		}
		series[c.Peak]++
		require.False(t, c.Gate, c.ID)
		require.True(t, c.Relative, c.ID)
		require.Equal(t, "m", c.Unit, c.ID)
		require.Contains(t, c.Source, "from memory", c.ID)
	}
	require.Len(t, series, 4)
	require.Equal(t, 9, series["Bergant, Simpson, Vitkovsky 2001: first plateau, 2 %"], "three velocities, three forms of friction")
}

func TestFilter(t *testing.T) {
	ctx := context.Background()
	one, err := Run(ctx, " a4B ")
	require.NoError(t, err)
	require.Len(t, one, 6)
	require.Equal(t, "A4b.1", one[0].ID)
	formulas, err := Run(ctx, "formula")
	require.NoError(t, err)
	require.False(t, slices.ContainsFunc(formulas, func(c Check) bool { return c.Layer != Formula }))
	_, err = Run(ctx, "Z9")
	require.ErrorIs(t, err, ErrNoCase)
	require.ErrorContains(t, err, "beginning of an id")
}

// TestOrder: the same checks come in the same order with the same values, whatever the number of workers does.
func TestOrder(t *testing.T) {
	a, err := Run(context.Background(), "A")
	require.NoError(t, err)
	b, err := Run(context.Background(), "A")
	require.NoError(t, err)
	require.Equal(t, a, b)
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Run(ctx, "A2")
	require.ErrorIs(t, err, context.Canceled)
}

// TestJudgement: a check fails beyond its tolerance and on what is not a number.
func TestJudgement(t *testing.T) {
	require.True(t, within("x", "m", 2, 2.1, 0.11).Pass)
	require.False(t, within("x", "m", 2, 2.1, 0.09).Pass)
	require.False(t, within("x", "m", 2, math.NaN(), 1).Pass)
	require.True(t, ratio("x", "m", -2, -2.1, 0.06).Pass)
	require.False(t, ratio("x", "m", -2, -2.1, 0.04).Pass)
	require.False(t, ratio("x", "m", -2, 2, 0.5).Pass)
	require.False(t, ratio("x", "m", 0, 0, 0.5).Pass)
	require.False(t, compared(within("x", "m", 0, 1, 2)).Gate)
}

func TestKeys(t *testing.T) {
	raw, err := json.Marshal(within("head", "m", 1, 1, 1))
	require.NoError(t, err)
	for _, key := range strings.Fields("id layer source quantity unit expected got deviation tolerance relative pass gate") {
		require.Contains(t, string(raw), `"`+key+`":`)
	}
}

// FuzzFilter: no filter panics or runs nothing without saying so.
func FuzzFilter(f *testing.F) {
	f.Add("")
	f.Add("W1")
	f.Add("formula")
	f.Add("\x00")
	f.Fuzz(func(t *testing.T, filter string) {
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		checks, err := Run(ctx, filter)
		require.True(t, len(checks) > 0 || err != nil)
	})
}
