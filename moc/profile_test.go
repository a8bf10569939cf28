package moc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

// Whatever the profile and the grid, no point of the profile is above or below all that the nodes around it stand for, and what does not stick out
// changes nothing.
func TestProfileOnGridMissesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := conduit{profile: []network.Point{{Elevation: rapid.Float64Range(-20, 20).Draw(t, "start")}}}
		for range rapid.IntRange(1, 12).Draw(t, "vertices") {
			c.length += rapid.Float64Range(0.5, 60).Draw(t, "stretch")
			c.profile = append(c.profile, network.Point{Chainage: c.length, Elevation: rapid.Float64Range(-20, 20).Draw(t, "elevation")})
		}
		n := rapid.IntRange(2, 40).Draw(t, "reaches")
		p := c.profileOn(n)
		highest, lowest := math.Inf(-1), math.Inf(1)
		for k := range n + 1 {
			z := c.elevationAt(float64(k) / float64(n))
			require.GreaterOrEqual(t, p.top[k], z)
			require.LessOrEqual(t, p.bottom[k], z)
			require.True(t, p.elevation[k] == p.top[k] || p.elevation[k] == p.bottom[k])
			require.InDelta(t, c.elevationAt(p.chainage[k]/c.length), p.elevation[k], 1e-9, "the point shown lies on the profile")
			if k > 0 {
				require.Greater(t, p.chainage[k], p.chainage[k-1])
			}
			highest, lowest = math.Max(highest, p.top[k]), math.Min(lowest, p.bottom[k])
		}
		require.Equal(t, []float64{0, c.length}, []float64{p.chainage[0], p.chainage[n]})
		for _, v := range c.profile {
			at := v.Chainage / c.length * float64(n)
			above, below := math.Inf(-1), math.Inf(1)
			for k := max(int(math.Ceil(at-1-1e-9)), 0); k <= min(int(at+1+1e-9), n); k++ {
				above, below = math.Max(above, p.top[k]), math.Min(below, p.bottom[k])
			}
			require.GreaterOrEqual(t, above, v.Elevation-1e-9)
			require.LessOrEqual(t, below, v.Elevation+1e-9)
		}
	})
}

// A summit halfway between two nodes of a coarse grid: a closure upstream lowers the head there to vapour pressure, which none of the nodes at their own
// elevations would see. The coarse grid finds what a fine one with a node on the summit finds.
func TestSummitBetweenNodes(t *testing.T) {
	const summit = 450.0
	solve := func(drop float64, reaches int) *Result {
		n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
			Reservoirs: []network.Reservoir{{Name: "up", Level: 40, Levels: []network.Level{{Head: 40}, {Time: 0.01, Head: 40 - drop}}}, {Name: "down", Level: 40}},
			Pipes:      []network.Pipe{flatPipe("line", "up", "down", 1000, 0.5, 1000, 0.02)}}
		n.Pipes[0].Profile = []network.Point{{}, {Chainage: summit - 30}, {Chainage: summit, Elevation: 25}, {Chainage: summit + 30}, {Chainage: 1000}}
		r, err := Solve(t.Context(), Problem{Network: n, Until: 1.8}, Settings{ReachesInLongest: reaches})
		require.NoError(t, err)
		return r
	}
	least := func(p PipeTrace, z []float64) (p0 float64, at int) {
		p0 = math.Inf(1)
		for k := range z {
			if x := p.Min[k] - z[k]; x < p0 {
				p0, at = x, k
			}
		}
		return p0, at
	}

	// Without vapour: the head falls by 10 m everywhere, so that 5 m are left at the summit.
	coarse, fine := solve(10, 10).Pipes[0], solve(10, 100).Pipes[0]
	a, k := least(coarse, coarse.Top)
	b, _ := least(fine, fine.Top)
	require.InDelta(t, 5, b, 0.01)
	require.InDelta(t, b, a, 0.01)
	require.Equal(t, []float64{summit, 25}, []float64{coarse.Chainage[k], coarse.Elevation[k]})
	missed, _ := least(coarse, make([]float64, 11)) // the elevation of every node of the coarse grid
	require.Greater(t, missed, 29.0, "the nodes at their own elevations see nothing of it")

	// With vapour: both grids form a cavity at the summit, at vapour pressure.
	for _, reaches := range []int{10, 100} {
		r := solve(33, reaches)
		p := r.Pipes[0]
		require.GreaterOrEqual(t, r.Numerics.CavityFrom, 0.0)
		x, k := least(p, p.Top)
		require.InDelta(t, (testFluid().VapourPressure-101325)/testGamma, x, 0.01)
		require.Equal(t, summit, p.Chainage[k])
		require.Positive(t, p.MaxCavity[k])
	}
}

// A summit that steady flow just fills starts no cavity by itself, wherever the node that stands for it lies.
func TestFilledSummitStaysFilled(t *testing.T) {
	hv := (testFluid().VapourPressure - 101325) / testGamma
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: 40}, {Name: "down", Level: 10}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "down", 1000, 0.5, 1000, 0.02)}}
	n.Pipes[0].Profile = []network.Point{{}, {Chainage: 420}, {Chainage: 460, Elevation: 40 - 0.46*30 - hv - 0.02}, {Chainage: 480}, {Chainage: 1000}}
	r, err := Solve(t.Context(), Problem{Network: n, Until: 3}, Settings{ReachesInLongest: 10})
	require.NoError(t, err)
	p := r.Pipes[0]
	for k := range p.Steady {
		require.InDelta(t, p.Steady[k], p.Min[k], 0.02)
		require.InDelta(t, p.Steady[k], p.Max[k], 0.02)
	}
}
