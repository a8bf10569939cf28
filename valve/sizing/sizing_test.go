package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRuleOf(t *testing.T) {
	c, ok := RuleOf("tilting disc")
	require.True(t, ok)
	require.Equal(t, 80.0, c)
	_, ok = RuleOf("axial spring")
	require.False(t, ok)
}

// Every class at its edge, just above it and just below it.
func TestMarginWords(t *testing.T) {
	for _, c := range []struct {
		edge         float64
		below, above string
	}{{Good, "close", "good"}, {Held, "flutters", "close"}, {Severe, "flutters severely", "flutters"}} {
		require.Equal(t, c.above, Margin(c.edge).Words(), "at %g", c.edge)
		require.Equal(t, c.above, Margin(math.Nextafter(c.edge, 9)).Words(), "above %g", c.edge)
		require.Equal(t, c.below, Margin(math.Nextafter(c.edge, 0)).Words(), "below %g", c.edge)
	}
	require.Equal(t, "flutters severely", Margin(0).Words())
}

func TestHighestVelocity(t *testing.T) {
	r, ok := HighestVelocity("dual plate")
	require.True(t, ok)
	require.InDelta(t, 16*0.3048, r.To, 0.03, "16 ft/s")
	r, ok = HighestVelocity("swing")
	require.True(t, ok)
	require.Equal(t, []float64{2.5, 3}, []float64{r.From, r.To})
	_, ok = HighestVelocity("nozzle")
	require.False(t, ok)
}

func TestNeededMargin(t *testing.T) {
	bend, ok := FittingOf("bend")
	require.True(t, ok)
	for x, n := range map[float64]float64{0: 1.5, 2.5: 1.35, 5: 1, 50: 1} {
		require.InDelta(t, n, bend.Needed(x), 1e-15, "%g bores", x)
	}
	require.InDelta(t, 1.2, bend.Needed(math.Nextafter(5, 0)), 1e-12)
	pump, ok := FittingOf("pump")
	require.True(t, ok)
	require.InDelta(t, 1.35, pump.Needed(5), 1e-15, "ten bores are wanted behind a pump")
	_, ok = FittingOf("elbow grease")
	require.False(t, ok)
	for _, f := range Fittings() {
		for x := 0.0; x < 12; x += 0.1 {
			require.GreaterOrEqual(t, f.Needed(x), f.Needed(x+0.1), "%s", f.Name)
		}
	}
}

func TestSeparation(t *testing.T) {
	const damped, free = "close, but the flow damps it", CloseToResonance
	require.Equal(t, free, Separation(0.8, 0.1))
	require.Equal(t, free, Separation(1.25, 0.1))
	require.Equal(t, damped, Separation(1, NoResonance))
	require.Equal(t, free, Separation(1, math.Nextafter(NoResonance, 0)))
	require.Contains(t, Separation(math.Nextafter(0.8, 0), 0.1), "follows")
	require.Contains(t, Separation(math.Nextafter(1.25, 2), 0.1), "lags")
}

func TestResponse(t *testing.T) {
	require.InEpsilon(t, 1, Response(0, 0.3), 1e-12, "slow")
	require.InEpsilon(t, 1/(2*0.2), Response(1, 0.2), 1e-12, "at resonance 1/(2 d)")
	require.InEpsilon(t, 50, Response(1, 0), 1e-12, "finite at resonance without damping")
	require.InEpsilon(t, 1./3, Response(2, 0), 1e-12, "undamped 1/(r^2 - 1)")
	for r := 0.01; r < 3; r += 0.01 {
		require.LessOrEqual(t, Response(r, NoResonance), 1+1e-12, "nothing grows")
	}
}

func TestRipple(t *testing.T) {
	require.Equal(t, Resting, Ripple(1.25+1e-9, 0.2))
	require.Equal(t, Tapping, Ripple(1.25, 0.2), "it must hold through the trough: the edge does not")
	require.Equal(t, Tapping, Ripple(0.9, 0.2))
	require.Equal(t, Floating, Ripple(1/1.2-1e-9, 0.2))
	require.Equal(t, Resting, Ripple(1.01, 0))
	require.Equal(t, Floating, Ripple(1, 0))
	require.Equal(t, Tapping, Ripple(5, 1))
	for _, r := range []Rest{Resting, Tapping, Floating} {
		require.NotEmpty(t, r.String())
	}
}

// Amplitude 5 % of the travel at 2 Hz for 6000 h: 4 x 0.05 x 2 x 6000 x 3600 of travel, half of it in strokes from seat to stop and back.
func TestStrokes(t *testing.T) {
	require.InEpsilon(t, 4*0.05*2*6000*3600/2, Strokes(Shake{0.05, 2, 6000 * 3600}), 1e-12)
	require.InEpsilon(t, 2*Strokes(Shake{0.1, 1, 3600}), Strokes(Shake{0.1, 1, 3600}, Shake{0.2, 1, 1800}), 1e-12)
	require.Zero(t, Strokes())
	require.InEpsilon(t, math.Pi, Rate(0.25, 2), 1e-12)
}
