package plots

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// A later closing that governs is within the time shown when it comes soon, and told in words with its time.
func TestLaterClosing(t *testing.T) {
	motion := func(later, at float64) (Figure, *choice.Outcome) {
		c := synthetic(1, 1)
		o := &c.Scenarios[0].Outcomes[0]
		o.LaterReverseVelocity, o.Spots = choice.Value{SI: later}, map[string]choice.Spot{laterKey: {Time: at}}
		o.PeakTime = choice.Value{SI: at + 0.1}
		figs, err := Figures(c, quantity.SI)
		require.NoError(t, err)
		return figs[2], o
	}
	window := func(f Figure) axis { return f.page.body.(grid).rows[0][0].x }
	plain, o := motion(0.2, 2)
	require.Less(t, window(plain).max, 2.0)
	require.NotContains(t, svgText(t, plain), "later")

	near, _ := motion(0.85, 2)
	require.Greater(t, window(near).max, 2.1)
	require.Contains(t, svgText(t, near), "plain-swing, 0.64 m/s, later 0.85 m/s")
	require.Contains(t, svgText(t, near), ">0.85 m/s<")
	require.Equal(t, "plain-swing: greatest reverse velocity 0.85\u00a0m/s at 2\u00a0s, after the first seating; highest pressure on the line 11.91\u00a0bar at 2.1\u00a0s.",
		near.page.notes[1])

	far, _ := motion(0.85, 9)
	require.Equal(t, window(plain), window(far))
	require.Contains(t, far.page.notes[1], "0.85\u00a0m/s at 9\u00a0s, after the first seating and after the time shown")

	// within the numerical error nothing governs
	o.LaterReverseVelocity.SI, o.ReverseVelocityError = o.MaxReverseVelocity.SI+0.02, choice.Value{SI: 0.03}
	_, ok := laterGoverns(o)
	require.False(t, ok)
}

// The closing begins at the trip of the unit watched, and every event in the time shown has its word.
func TestEvents(t *testing.T) {
	draw := func(events ...network.Event) (motion, history Figure) {
		c := synthetic(2, 1)
		c.Case.Scenarios[0].Events = events
		for i := range c.Scenarios[0].Outcomes {
			c.Scenarios[0].Outcomes[i].EventTime = events[0].Time
		}
		figs, err := Figures(c, quantity.SI)
		require.NoError(t, err)
		return figs[2], figs[1]
	}
	trip := network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}
	stroke := network.Event{Kind: network.Stroke, Target: "gate", Time: 0.2, Over: 0.1}
	fail := network.Event{Kind: network.Fail, Target: "lift", Units: 1, Time: 1}

	alone, _ := draw(trip)
	motion, history := draw(stroke, trip, fail)
	from := func(f Figure) axis { return f.page.body.(grid).rows[0][0].x }
	require.Equal(t, from(alone), from(motion))
	require.Contains(t, svgText(t, motion), ">trip, fail<")
	require.NotContains(t, svgText(t, motion), ">stroke<", "before the time shown")
	require.Contains(t, svgText(t, history), ">stroke<")

	elsewhere, _ := draw(stroke, network.Event{Kind: network.Trip, Target: "other", Units: 1, Time: 1})
	require.Less(t, from(elsewhere).min, 0.2, "the valve watched has no trip of its own")
	require.Contains(t, svgText(t, elsewhere), ">stroke<")
	require.Contains(t, svgText(t, elsewhere), ">trip<")
}

// The time of a highest pressure that is judged but comes after the time shown is told.
func TestPeakBeyondTheTimeShown(t *testing.T) {
	c := synthetic(2, 1)
	notes := func() []string {
		figs, err := Figures(c, quantity.SI)
		require.NoError(t, err)
		return figs[2].page.notes
	}
	require.Len(t, notes(), 1)
	c.Scenarios[0].Outcomes[1].PeakTime.SI = 8.25
	require.Contains(t, notes(), "Highest pressure on the line, outside of the time shown: spring-disc 5.41 bar at 8.25 s.")
	c.Scenarios[0].Outcomes[1].Verdicts = nil
	require.Len(t, notes(), 1)
}
