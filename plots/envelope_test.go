package plots

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// A line of pressure becomes a head line p/(rho g) over the profile: 8 bar of water of 999.1 kg/m3 is 81.65 m.
func TestHeadLimits(t *testing.T) {
	c := synthetic(1, 1)
	b := newBook(c, quantity.SI)
	heads := b.headLimits(0)
	require.InDelta(t, 81.65, heads[0].over, 0.005)
	require.InDelta(t, 89.82, heads[1].over, 0.005)
	require.InDelta(t, -5.10, heads[2].over, 0.005)
	require.InDelta(t, -10.17, heads[3].over, 0.005) // (1705 - 101300)/(999.1 * 9.80665)
}

// A limit near the heads is drawn and one far from them is named with its distance; none goes without a word.
func TestFarLimits(t *testing.T) {
	c := synthetic(2, 1)
	design := 60e5
	c.Case.Limits.DesignPressure = &design
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	text := svgText(t, figs[3])
	// 60 bar is 612.4 m over the pipe, at least 490 m above all that is drawn
	require.Regexp(t, "Not shown: design pressure 60 bar, at least (49|5)[0-9]*", text)
	require.Contains(t, text, "Not shown: design pressure + 10 %: 66 bar, at least")
	require.Contains(t, text, ">minimum pressure \u22120.5 bar<")
	require.Contains(t, text, ">vapour pressure<")

	// lines that keep far above the pipe: the lower limits are 55 and 60 m below the lowest head
	c = synthetic(1, 1)
	c.Scenarios[0].Outcomes[0].Route = []choice.Profile{{Chainage: []float64{0, 100}, Elevation: []float64{0, 1},
		Lowest: []float64{50, 51}, Steady: []float64{50, 51}, Highest: []float64{52, 52}}}
	b := newBook(c, quantity.SI)
	outs := []*choice.Outcome{&c.Scenarios[0].Outcomes[0]}
	shown, notes := b.within(outs, b.headLimits(0))
	require.Len(t, shown, 4)
	require.Empty(t, notes)
	c.Scenarios[0].Outcomes[0].Route[0].Elevation = []float64{49, 49}
	shown, notes = b.within(outs, b.headLimits(0))
	require.Empty(t, shown)
	require.Len(t, notes, 4)
	require.Equal(t, "Not shown: minimum pressure \u22120.5 bar, at least 6.1\u00a0m below the lowest head.", notes[2])

	// a limit that is passed somewhere is drawn however far it leads
	c.Scenarios[0].Outcomes[0].Route[0].Lowest = []float64{40, 51}
	shown, _ = b.within(outs, b.headLimits(0))
	require.Contains(t, fmt.Sprint(shown), "minimum pressure")
}

// The word for the lowest head stands at the least of all candidates, whose grids differ.
func TestHeadBetweenPoints(t *testing.T) {
	x, y := []float64{0, 1, 1, 3}, []float64{5, 7, 9, 1}
	for at, want := range map[float64]float64{-1: 5, 0: 5, 0.5: 6, 1: 7, 2: 5, 3: 1, 4: 1} {
		require.InDelta(t, want, between(x, y, at), 1e-12, at)
	}
}

// A branch that would be a line at the axis has a panel of its own; every point of the route is in one of the parts, and the parts share the width.
func TestShortBranch(t *testing.T) {
	c := synthetic(2, 1)
	b := newBook(c, quantity.US)
	outs := []*choice.Outcome{&c.Scenarios[0].Outcomes[0], &c.Scenarios[0].Outcomes[1]}
	parts := b.stretches(outs)
	require.Len(t, parts, 2)
	require.Equal(t, "Branch", parts[0].head)
	require.InDelta(t, 6/0.3048, parts[0].to, 1e-9)
	require.Equal(t, parts[0].to, parts[1].from)
	require.InDelta(t, 606/0.3048, parts[1].to, 1e-9)
	require.InDelta(t, 1, parts[0].share+parts[1].share, 1e-12)

	f, ok := b.envelope(0)
	require.True(t, ok)
	row := f.page.body.(grid).rows[0]
	require.Len(t, row, 2)
	require.Equal(t, row[0].y.max, row[1].y.max, "one scale of heads")
	require.Less(t, row[0].x.max, 1.1*6/0.3048)

	outs[1].Route = outs[1].Route[1:] // another route
	require.Len(t, b.stretches(outs), 1)
	long := synthetic(1, 1)
	long.Scenarios[0].Outcomes[0].Route = long.Scenarios[0].Outcomes[0].Route[1:]
	require.Len(t, newBook(long, quantity.SI).stretches([]*choice.Outcome{&long.Scenarios[0].Outcomes[0]}), 1)
}
