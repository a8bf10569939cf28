package fit_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
	"seatwise/valve/fit"
)

var bench = catalogue.Setting{Density: 998.2, Gravity: 9.80665}

// tests are those of a valve with the data of truth, with normal noise of sigma m/s.
func tests(t testing.TB, kind string, size float64, truth map[string]float64, sigma float64, seed uint64, decelerations ...float64) []valve.TestPoint {
	t.Helper()
	v, err := catalogue.Complete(valve.Spec{Type: kind, Size: size, Set: truth}, bench)
	require.NoError(t, err)
	noise := rand.New(rand.NewPCG(seed, 1))
	var points []valve.TestPoint
	for _, a := range decelerations {
		p := characteristic.At(v, a, characteristic.Settings{})
		require.Equal(t, characteristic.Seats, p.Outcome)
		points = append(points, valve.TestPoint{Deceleration: a, ReverseVelocity: math.Max(0, p.ReverseVelocity+sigma*noise.NormFloat64())})
	}
	return points
}

// Five tests without noise give the data of the valve back to 1 %: here of some families, and once, by the same search for full-open velocity and
// moving mass, of all with a disc; the dashpot alone hides them: there it was 0.9 % and not 1e-6.
func TestRecovers(t *testing.T) {
	type set = map[string]float64
	for _, c := range []struct {
		kind          string
		truth, given  set
		fitted        []string
		decelerations []float64
	}{
		{"swing", set{"moving mass": 14, "full-open velocity": 1.8}, set{"added mass": 9.5}, []string{"full-open velocity", "moving mass"}, []float64{4, 6, 9, 14, 20}},
		{"swing heavy", set{"moving mass": 20}, set{"cracking pressure": 400, "full-open velocity": 3.2, "added mass": 9}, []string{"moving mass"}, []float64{5, 7, 10, 16, 24}},
		{"axial spring", set{"preload": 130, "moving mass": 3.4}, set{"kv": 0.4, "full-open velocity": 2.4, "added mass": 1.4}, []string{"preload", "moving mass"}, []float64{4, 8, 16, 32, 60}},
		{"dual plate", set{"moving mass": 2.6, "full-open velocity": 1.7, "spring rate": 1.2}, set{"preload": 2}, []string{"full-open velocity", "moving mass", "spring rate"}, []float64{6, 10, 16, 26, 40}},
		{"nozzle", set{"moving mass": 6, "full-open velocity": 1.8}, set{"preload": 55, "added mass": 5}, []string{"full-open velocity", "moving mass"}, []float64{4, 8, 14, 24, 40}},
	} {
		t.Run(c.kind, func(t *testing.T) {
			if testing.Short() && c.kind == "swing heavy" {
				t.Skip("slow, and like the swing")
			}
			for k, x := range c.given {
				c.truth[k] = x
			}
			spec := valve.Spec{Name: "sheet", Type: c.kind, Size: 0.25, Set: c.given, Tests: tests(t, c.kind, 0.25, c.truth, 0, 0, c.decelerations...)}
			r, err := fit.Fit(t.Context(), spec, bench, fit.Settings{})
			require.NoError(t, err)
			require.Len(t, r.Fitted, len(c.fitted))
			for i, p := range r.Fitted {
				t.Logf("%s: %.4g (generic %.4g) spread %.2g", p.Key, p.Value, p.Generic, p.Spread)
				require.Equal(t, c.fitted[i], p.Key)
				require.InEpsilon(t, c.truth[p.Key], p.Value, 0.01, p.Key)
				require.False(t, p.AtBound)
				require.Less(t, p.Spread, 0.01, "exact tests leave no spread")
			}
			require.Less(t, r.Deviation, 1e-3)
			require.Greater(t, r.Before, 10*r.Deviation)
			require.Len(t, r.Residuals, 5)
			require.Empty(t, r.Spec.Tests)
			for k, x := range c.given {
				require.Equal(t, x, r.Spec.Set[k], "what was given stays")
			}
			// The completed spec makes the fitted valve.
			v, err := catalogue.Complete(r.Spec, bench)
			require.NoError(t, err)
			p := characteristic.At(v, 8, characteristic.Settings{})
			q := characteristic.At(r.Valve, 8, characteristic.Settings{})
			require.Equal(t, p, q)
		})
	}
}

// Searching ends with the context.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	spec := valve.Spec{Type: "nozzle", Size: 0.25, Tests: []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.2}, {Deceleration: 10, ReverseVelocity: 0.9}}}
	for _, keys := range [][]string{{"moving mass"}, nil} {
		_, err := fit.Fit(ctx, spec, bench, fit.Settings{Keys: keys})
		require.ErrorIs(t, err, context.Canceled)
	}
}

// The 95 % interval of noisy tests holds the truth about as often as it says, and narrows with better tests. Of seeds 0 to 29 it held each of the two
// data in 28. Of the two seeds here one may miss, with both data, which go together.
func TestSpread(t *testing.T) {
	truth := map[string]float64{"moving mass": 6, "full-open velocity": 1.8, "preload": 55, "added mass": 5}
	given := map[string]float64{"preload": 55, "added mass": 5}
	decelerations := []float64{5, 8, 12, 18, 25, 32, 40}
	seeds, least := uint64(2), 2
	if testing.Short() {
		t.Skip("slow")
	}
	inside := 0
	var wide, square float64
	for seed := range seeds {
		spec := valve.Spec{Name: "sheet", Type: "nozzle", Size: 0.25, Set: given, Tests: tests(t, "nozzle", 0.25, truth, 0.01, seed, decelerations...)}
		r, err := fit.Fit(t.Context(), spec, bench, fit.Settings{Keys: []string{"full-open velocity", "moving mass"}})
		require.NoError(t, err)
		for _, p := range r.Fitted {
			t.Logf("%s: %.4g ±%.0f %%", p.Key, p.Value, 100*p.Spread)
			if math.Abs(p.Value/truth[p.Key]-1) <= p.Spread {
				inside++
			}
			require.True(t, p.Spread > 0.003 && p.Spread < 0.6)
		}
		square += r.Deviation * r.Deviation * 7 / (7 - 2) / float64(seeds)
		wide = r.Fitted[0].Spread
	}
	require.GreaterOrEqual(t, inside, least, "of %d", 2*seeds)
	require.InEpsilon(t, 0.01, math.Sqrt(square), 0.5, "the noise is found")
	spec := valve.Spec{Name: "sheet", Type: "nozzle", Size: 0.25, Set: given, Tests: tests(t, "nozzle", 0.25, truth, 0.001, seeds-1, decelerations...)}
	r, err := fit.Fit(t.Context(), spec, bench, fit.Settings{})
	require.NoError(t, err)
	require.InEpsilon(t, wide/10, r.Fitted[0].Spread, 0.5, "the same noise, a tenth of it")
}

// Points at which the test valve shut in forward flow count where the model does not; as many data as points leave the spread unknown.
func TestForwardAndFew(t *testing.T) {
	spec := valve.Spec{Name: "sheet", Type: "nozzle", Size: 0.25, Set: map[string]float64{"full-open velocity": 1.5, "moving mass": 4.7},
		Tests: []valve.TestPoint{{Deceleration: 5, ReverseVelocity: 0.21}}}
	r, err := fit.Fit(t.Context(), spec, bench, fit.Settings{Keys: []string{"preload"}})
	require.NoError(t, err)
	require.InDelta(t, 0.21, r.Residuals[0].Model, 1e-3)
	require.True(t, math.IsNaN(r.Fitted[0].Spread))

	// Shut at no reverse velocity at 5 m/s2: beyond what a spring below the force on the stop can do.
	spec.Tests[0].ReverseVelocity = 0
	r, err = fit.Fit(t.Context(), spec, bench, fit.Settings{Keys: []string{"preload"}})
	require.NoError(t, err)
	require.True(t, r.Fitted[0].AtBound)
	require.NotEmpty(t, r.Warnings)
}

func TestRefusals(t *testing.T) {
	type set = map[string]float64
	points := []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.2}, {Deceleration: 10, ReverseVelocity: 0.9}}
	for words, c := range map[string]struct {
		spec valve.Spec
		keys []string
	}{
		"no test points":              {valve.Spec{Type: "swing"}, nil},
		`type "ideal" has no disc`:    {valve.Spec{Type: "ideal", Tests: points}, nil},
		`has no "colour"`:             {valve.Spec{Type: "swing", Tests: points}, []string{"colour"}},
		"given by the kv":             {valve.Spec{Type: "swing", Set: set{"kv": 1}, Tests: points}, []string{"loss when open"}},
		"given by the cracking press": {valve.Spec{Type: "nozzle", Set: set{"cracking pressure": 1500}, Tests: points}, []string{"preload"}},
		"by the moving mass":          {valve.Spec{Type: "swing", Set: set{"moving mass": 9}, Tests: points}, []string{"moving mass"}},
		"by the full-open velocity":   {valve.Spec{Type: "nozzle", Set: set{"full-open velocity": 2}, Tests: points}, []string{"spring rate"}},
		"by the spring rate and full": {valve.Spec{Type: "nozzle", Set: set{"full-open velocity": 2, "spring rate": 2000}, Tests: points}, []string{"preload"}},
		"by the spring rate and prel": {valve.Spec{Type: "nozzle", Set: set{"preload": 60, "spring rate": 2000}, Tests: points}, []string{"full-open velocity"}},
		"preload is zero":             {valve.Spec{Type: "swing", Tests: points}, []string{"preload"}},
		"twice":                       {valve.Spec{Type: "swing", Tests: points}, []string{"moving mass", "moving mass"}},
		"3 data are asked for":        {valve.Spec{Type: "swing", Tests: points}, []string{"moving mass", "added mass", "full-open velocity"}},
		"none is left":                {valve.Spec{Type: "nozzle", Set: set{"preload": 60, "spring rate": 2000, "moving mass": 4, "added mass": 4}, Tests: points}, nil},
	} {
		c.spec.Size = 0.25
		_, err := fit.Fit(t.Context(), c.spec, bench, fit.Settings{Keys: c.keys})
		require.ErrorIs(t, err, fit.ErrFit, words)
		require.ErrorContains(t, err, words)
	}
	_, err := fit.Fit(t.Context(), valve.Spec{Type: "swing", Size: 0.25, Set: set{"colour": 1}, Tests: points}, bench, fit.Settings{})
	require.ErrorIs(t, err, catalogue.ErrKey)
}
