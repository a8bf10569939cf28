package moc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

// partedNetwork is a line over a summit whose column parts there, at the gate that shuts, and at the node between its two pipes; a branch ends blind.
func partedNetwork(t *rapid.T) *network.Network {
	reaches := func(name string) float64 { return 1000 * propertyStep * float64(rapid.IntRange(2, 10).Draw(t, name)) }
	summit := rapid.Float64Range(-5, 12).Draw(t, "summit")
	first, rest := flatPipe("first", "up", "middle", reaches("reaches"), 0.3, 1000, 0.02), flatPipe("rest", "middle", "end", reaches("more reaches"), rapid.Float64Range(0.15, 0.4).Draw(t, "bore"), 1000, 0.02)
	first.Profile[1].Elevation, rest.Profile[0].Elevation = summit, summit
	blind := flatPipe("blind", "middle", "flange", reaches("blind reaches"), 0.2, 1000, 0.02)
	blind.Profile[0].Elevation, blind.Profile[1].Elevation = summit, summit
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325, DeadEnds: []string{"flange"},
		Reservoirs: []network.Reservoir{{Name: "up", Level: 30}, {Name: "down", Level: -5}},
		Pipes:      []network.Pipe{first, rest, blind},
		Throttles: []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.2, Loss: rapid.Float64Range(20, 1000).Draw(t, "loss"),
			Schedule: []network.Opening{{Fraction: 1}, {Time: rapid.Float64Range(0, 0.2).Draw(t, "closure"), Fraction: rapid.SampledFrom([]float64{0, 0.1}).Draw(t, "left")}, {Time: 1, Fraction: 0}}}}}
	for k, at := 0, 0.0; k < 6; k++ {
		level := network.Level{Time: at, Head: 30}
		if k > 0 {
			level.Head = rapid.Float64Range(0, 60).Draw(t, "level")
		}
		n.Reservoirs[0].Levels = append(n.Reservoirs[0].Levels, level)
		at += rapid.SampledFrom([]float64{0, 0.05, 0.3}).Draw(t, "wait")
	}
	return n
}

// Whatever the heads of the reservoir do, no node of a network is below vapour head but by a cavity, and no cavity has a negative volume or stands at a
// higher head.
func TestVapourHeadHolds(t *testing.T) {
	inside, atNodes := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := started(t, Problem{Network: partedNetwork(t), Until: 2}, Settings{Step: propertyStep, ReachesInLongest: 1, Cavities: VapourCavity})
		hv := r.vapour
		for r.step < 150 {
			if r.low() {
				r.cavitate()
			}
			require.NoError(t, r.advance())
			if r.low() {
				continue
			}
			for i, l := range r.lines {
				for k := range l.N + 1 {
					if over := l.Head(k) - hv[i][k]; !(over >= -1e-12) {
						t.Fatalf("%s, node %d: %g m above vapour head", r.m.pipes[i].name, k, over)
					}
					v, at := l.LargestCavity(k)
					if v > 0 && at == r.step {
						inside++
					}
				}
				for _, right := range []bool{false, true} {
					if !l.HasCavities() {
						break
					}
					_, vapour, v := l.EndCavity(right)
					h := l.Left.H
					if right {
						h = l.Right.H
					}
					if v < 0 || v > 0 && !(math.Abs(h-vapour) < 1e-12) {
						t.Fatalf("%s: a cavity of %g m3 at %g m above vapour head", r.m.pipes[i].name, v, h-vapour)
					}
					if v > 0 {
						atNodes++
					}
				}
			}
		}
		require.NoError(t, r.audit.check(r))
	})
	require.Greater(t, inside, 100)
	require.Greater(t, atNodes, 100)
}

// With cavities, too, the same problem gives the same bits.
func TestDeterminismWithCavities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{Network: partedNetwork(t), Until: 1.5}
		s := Settings{Step: propertyStep, ReachesInLongest: 1, Cavities: rapid.SampledFrom(CavityForms()).Draw(t, "cavities")}
		a, err := Solve(t.Context(), p, s)
		require.NoError(t, err)
		b, err := Solve(t.Context(), p, s)
		require.NoError(t, err)
		require.Equal(t, a, b)
	})
}

// A run with open cavities that goes back to a checkpoint goes on as before.
func TestCheckpointWithCavities(t *testing.T) {
	for _, form := range CavityForms() {
		r := started(t, tripOne(t, liftStation(t, 2), "swing", 20), Settings{Cavities: form})
		open := func() bool {
			for _, l := range r.lines {
				for k := range l.N + 1 {
					if v, at := l.LargestCavity(k); v > 1e-6 && at == r.step {
						return true
					}
				}
			}
			return false
		}
		changed := false
		step := func() {
			if r.low() {
				r.cavitate()
				changed = true
			}
			require.NoError(t, r.advance())
			if !r.low() {
				r.rec.record(r)
			}
		}
		for !open() {
			step()
			require.Less(t, r.step, 20_000)
		}
		r.keep()
		ahead := func() []float64 {
			var all []float64
			for range 800 {
				step()
				all = append(all, r.heads...)
			}
			return append(all, r.audit.residual(r), float64(len(r.rec.time)))
		}
		first := ahead()
		for changed { // another pipe began to part on the way, and the checkpoint is a new one
			changed = false
			r.restore()
			first = ahead()
		}
		r.restore()
		require.Equal(t, first, ahead(), form)
	}
}

// A junction of pipes below a falling reservoir against the same line as one pipe: the cavity at the node that is a junction is the one at the inner node.
// There is next to no friction, which an end takes by the flow of the step before; what differs is that an inner node has a cavity for each of the two
// staggered grids, and what follows the collapse scatters.
func TestJunctionPartsLikeAnInnerNode(t *testing.T) {
	build := func(split bool) *network.Network {
		n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
			Reservoirs: []network.Reservoir{{Name: "up", Level: 20, Levels: []network.Level{{Head: 20}, {Time: 0.1, Head: 20}, {Time: 0.1, Head: -5}, {Time: 2, Head: 30}}}, {Name: "down", Level: 20}},
			Pipes: []network.Pipe{{Name: "line", From: "up", To: "down", Bore: 0.3, WaveSpeed: 1000, FrictionFactor: 1e-8,
				Profile: []network.Point{{Elevation: 0}, {Chainage: 400, Elevation: 16}, {Chainage: 1000, Elevation: 2}}}}}
		if split {
			n.Pipes = []network.Pipe{
				{Name: "a", From: "up", To: "top", Bore: 0.3, WaveSpeed: 1000, FrictionFactor: 1e-8, Profile: []network.Point{{Elevation: 0}, {Chainage: 400, Elevation: 16}}},
				{Name: "b", From: "top", To: "down", Bore: 0.3, WaveSpeed: 1000, FrictionFactor: 1e-8, Profile: []network.Point{{Elevation: 16}, {Chainage: 600, Elevation: 2}}}}
		}
		return n
	}
	for _, form := range CavityForms() {
		solved := func(split bool) *Result {
			r, err := Solve(t.Context(), Problem{Network: build(split), Until: 8}, Settings{Step: 0.01, Cavities: form})
			require.NoError(t, err)
			require.GreaterOrEqual(t, r.Numerics.CavityFrom, 0.0)
			return r
		}
		one, two := solved(false), solved(true)
		inner := one.Pipes[0].MaxCavity[40]
		last := len(two.Pipes[0].MaxCavity) - 1
		require.Greater(t, inner, 1e-3)
		require.InEpsilon(t, inner, two.Pipes[0].MaxCavity[last]+two.Pipes[1].MaxCavity[0], 1e-3, form)
		require.InDelta(t, one.Pipes[0].MaxCavityTime[40], two.Pipes[0].MaxCavityTime[last], 1e-9)
	}
}

// No gas is needed for the vapour that a pump leaves behind: the whole station with vapour cavities, against the one with little gas.
func TestVapourInAStation(t *testing.T) {
	solved := func(s Settings) *Result {
		r, err := Solve(t.Context(), tripOne(t, liftStation(t, 2), "swing", 2), s)
		require.NoError(t, err)
		return r
	}
	gas, vapour := solved(Settings{GasFraction: 1e-9}), solved(Settings{Cavities: VapourCavity})
	require.Contains(t, vapour.Numerics.Kernel, "vapour cavities in ")
	a, b := gas.Units[0].Seatings[0], vapour.Units[0].Seatings[0]
	require.InDelta(t, a.Time, b.Time, 1e-4)
	require.InEpsilon(t, a.Rise, b.Rise, 1e-2)
	largest := func(r *Result) (v float64) {
		for _, p := range r.Pipes {
			for _, x := range p.MaxCavity {
				v = math.Max(v, x)
			}
		}
		return v
	}
	require.InEpsilon(t, largest(gas), largest(vapour), 0.05)
}
