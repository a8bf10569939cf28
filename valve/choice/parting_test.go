package choice

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
)

// With vapour cavities no run with more gas is made, and the warning says which model it was.
func TestVapourCavities(t *testing.T) {
	c := liftStation(t)
	c.Cavities = moc.VapourCavity
	r, err := Run(context.Background(), c, Settings{})
	require.NoError(t, err)
	swing, spring := &r.Scenarios[0].Outcomes[0], &r.Scenarios[0].Outcomes[1]
	require.Positive(t, swing.CavityMax.SI)
	require.Positive(t, swing.Spots[keyCavity].Time)
	require.True(t, swing.AtVapour)
	require.Nil(t, swing.GasErrors)
	require.Contains(t, swing.Numerics.Kernel, "vapour cavities in ")
	n := c.Scenarios[0].Network
	require.InDelta(t, n.Fluid.VapourPressure-n.Atmosphere, swing.MinPressure.SI, 1e-3, "held at vapour pressure")
	text := strings.Join(r.Warnings, "\n")
	require.Contains(t, text, "plain-swing: cavities form, modelled as vapour without gas; "+rejoining)
	require.NotContains(t, text, "free gas that is assumed")
	require.Equal(t, "no cavity formed", spring.CavityMax.Reason)
	require.False(t, spring.AtVapour)
}

// Of nodes that are equally low the one with the largest cavity is told, and the worst share of a reach.
func TestExtremesWithCavities(t *testing.T) {
	c := liftStation(t)
	n := c.Scenarios[0].Network
	hv := (n.Fluid.VapourPressure - n.Atmosphere) / (n.Fluid.Density * n.G())
	pipe := moc.PipeTrace{Name: "rising-main", From: "header", To: "tower", Bore: 0.5, Step: 2,
		Chainage: []float64{0, 2, 4, 6}, Elevation: []float64{1, 2, 3, 4}, Top: []float64{1, 2, 3, 4}, Bottom: []float64{1, 2, 3, 4},
		Steady: []float64{50, 50, 50, 50}, Max: []float64{60, 60, 60, 60},
		Min: []float64{1 + hv, 2 + hv + 1e-9, 3 + hv, 10}, MaxTime: make([]float64, 4), MinTime: []float64{1, 2, 3, 4},
		MaxCavity: []float64{1e-4, 0.06, 1e-14, 0}, MaxCavityTime: []float64{5, 6, 7, 8}}
	p := newPlaces(n, &moc.UnitTrace{Station: "lift", Unit: 1}, Settings{})
	e := p.extremes(n, []moc.PipeTrace{pipe}, nil)
	require.Equal(t, Spot{"rising-main at 2 m", 2}, e.lowSpot)
	require.True(t, e.atVapour)
	require.Equal(t, Spot{"rising-main at 2 m", 6}, e.cavitySpot)
	require.InEpsilon(t, 0.06/(area(0.5)*2), e.share, 1e-12)
	require.Equal(t, "a cavity grows to 60 l (rising-main at 2 m, 6 s): 15 % of the volume of a reach of the grid there, 0.393 m3; above 10 % the time at which it closes and the "+
		"pressure that follows are less sure, on a finer grid too", e.crowded(Settings{}))
	pipe.MaxCavity[1] = 0.6
	e = p.extremes(n, []moc.PipeTrace{pipe}, nil)
	require.Contains(t, e.crowded(Settings{}), ": 1.5 times the volume of a reach")
	pipe.MaxCavity = []float64{0, 0, 1e-14, 0}
	e = p.extremes(n, []moc.PipeTrace{pipe}, nil)
	require.False(t, e.cavities, "the rounding of a volume is no cavity")
	require.False(t, e.atVapour)
	require.Empty(t, e.crowded(Settings{}))
}
