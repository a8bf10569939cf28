package choice

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
)

// A figure that converges as f + K h^q, q from 0.5 to 2.5, is estimated on the safe side from three steps, and its order is found; from two steps
// for q from 1.
func TestEstimateBoundsTheError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, k := rapid.Float64Range(-10, 10).Draw(t, "f"), rapid.Float64Range(0.1, 10).Draw(t, "K")
		q := rapid.Float64Range(0.51, 2.49).Draw(t, "q")
		at := func(h float64) float64 { return f + k*math.Pow(h, q) }
		e, order := estimate([]float64{at(1), at(0.5), at(0.25)})
		require.InDelta(t, q, order, 1e-6)
		require.GreaterOrEqual(t, e, math.Abs(at(0.25)-f)*(1-1e-6))
		if q >= 1 {
			e, order = estimate([]float64{at(1), at(0.5)})
			require.GreaterOrEqual(t, e, math.Abs(at(0.5)-f)*(1-1e-6))
			require.Zero(t, order)
		}
	})
}

func TestEstimateWithoutOrder(t *testing.T) {
	for _, c := range []struct {
		f      [3]float64
		factor float64
	}{{[3]float64{1, 2, 1.5}, 2}, {[3]float64{1, 2, 2.9}, 2}, {[3]float64{1, 2, 2.0001}, 1.25}} { // swings, too slow, too fast
		e, order := estimate(c.f[:])
		require.InDelta(t, c.factor*math.Abs(c.f[2]-c.f[1]), e, 1e-12)
		require.Zero(t, order)
	}
	e, order := estimate([]float64{3, 3, 3})
	require.Zero(t, e)
	require.Zero(t, order)
}

// The targets that call for a third step.
func TestDoubts(t *testing.T) {
	trial := func(peak, reverse, seated float64, reopened int) grid {
		o := Outcome{EventTime: 1, PeakPressure: Value{SI: peak}, MaxReverseVelocity: Value{SI: reverse}, Seated: Value{SI: seated}, Deceleration: Value{SI: 6}}
		return grid{o, evidence{rise: 5e5, reopenings: reopened}}
	}
	base := trial(1e6, 0.6, 1.5, 0)
	ask := func(g grid) []string {
		grids := []grid{g, base}
		weigh(grids)
		return doubts(grids, Settings{})
	}
	require.Empty(t, ask(trial(1e6+3900, 0.6-0.0047, 1.5+0.0039, 0))) // 1.25 times the differences is below 5 kPa, 6 mm/s and 5 ms
	require.Equal(t, []string{"the time step leaves the highest pressure uncertain by 0.051 bar (target 0.05 bar)"}, ask(trial(1e6+4100, 0.6, 1.5, 0)))
	require.Equal(t, []string{"the time step leaves the highest pressure uncertain by 1.2 bar (target 0.05 bar)"}, ask(trial(1e6+0.96e5, 0.6, 1.5, 0)))
	require.Len(t, ask(trial(1e6, 0.605, 1.5, 0)), 1)
	require.Len(t, ask(trial(1e6, 0.6, 1.505, 0)), 1)
	require.Equal(t, []string{"the number of reopenings depends on the time step (1 and 0)"}, ask(trial(1e6, 0.6, 1.5, 1)))
	g := trial(1e6, 0.6, 1.5, 0)
	g.outcome.Seated = none("the disc does not seat")
	require.Equal(t, []string{"whether the disc seats depends on the time step"}, ask(g))
	g.outcome.Failed = "lost"
	require.Len(t, ask(g), 1)
	base.outcome.LaterReverseVelocity = Value{SI: 0.4}
	g = trial(1e6, 0.6, 1.5, 0)
	g.outcome.LaterReverseVelocity = Value{SI: 0.415} // 5 % of 0.4 m/s is 20 mm/s
	require.Empty(t, ask(g))
	g.outcome.LaterReverseVelocity = Value{SI: 0.418}
	require.Equal(t, []string{"the time step leaves the later reverse velocity uncertain by 0.022 m/s (target 0.02 m/s)"}, ask(g))
}

func TestMeasuresAreWellFormed(t *testing.T) {
	require.Nil(t, Measures("no such service"))
	seen := map[string]bool{}
	for _, m := range Measures(LiquidPump) {
		require.False(t, seen[m.Key], m.Key)
		seen[m.Key] = true
		require.NotEmpty(t, m.Label)
		require.NotEmpty(t, m.Meaning)
		require.NotNil(t, m.Get)
	}
	require.Greater(t, len(seen), 30)
	m := measure(LiquidPump, keyReverseSpeed)
	require.InDelta(t, 1480, m.InKey(1480*math.Pi/30), 1e-9) // the key is in rpm
	require.Equal(t, 2.0, measure(LiquidPump, keyPeak).InKey(2))
	require.Equal(t, quantity.Rotation, m.Dimension)
	require.Len(t, Cautions(), 4)
	for _, m := range Measures(LiquidPump) {
		require.False(t, strings.HasSuffix(m.Meaning, "."), m.Key)
	}
}
