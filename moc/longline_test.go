package moc

import (
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// longLine is three pumps that lift water through 100 km of pipe to a tower, in an hour with events: one unit trips, the valve at the tower
// is throttled and opened again, another unit trips.
func longLine(t testing.TB) Problem {
	const size = 0.35
	n := liftStation(t, 0)
	n.Reservoirs = []network.Reservoir{{Name: "sump", Level: 2}, {Name: "tower", Level: 40}}
	n.Pipes = []network.Pipe{{Name: "line", From: "header", To: "end", Bore: 0.8, WaveSpeed: 1000, Roughness: 1e-4,
		Profile: []network.Point{{}, {Chainage: 50e3, Elevation: 15}, {Chainage: 100e3, Elevation: 20}}, Bends: []float64{12e3, 12.5e3, 60e3}}}
	n.Throttles = []network.Throttle{{Name: "gate", From: "end", To: "tower", Bore: 0.8, Elevation: 20, Loss: 5}}
	s := &n.Stations[0]
	s.Elevation, s.Branch = 0, nil
	s.Pump = pump.Spec{Flow: 0.16, Head: 170, Speed: 1480 * math.Pi / 30, Efficiency: 0.8, Inertia: 15}
	v, err := catalogue.Complete(valve.Spec{Name: "swing", Type: "swing", Size: size}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
	require.NoError(t, err)
	return Problem{Network: n, Valves: []valve.Valve{v}, Until: 3600, Events: []network.Event{
		{Kind: network.Trip, Target: "lift", Units: 1, Time: 60},
		{Kind: network.Stroke, Target: "gate", Time: 900, Over: 120, To: 0.2},
		{Kind: network.Stroke, Target: "gate", Time: 1800, Over: 60, To: 1},
		{Kind: network.Trip, Target: "lift", Units: 1, Time: 2400},
	}}
}

// An hour of a long line within its samples, with the figures of the full record: a tenth of the nodes and of the samples that the benchmark has.
func TestLongLine(t *testing.T) {
	p := longLine(t)
	full, err := Solve(t.Context(), p, Settings{ReachesInLongest: 1000})
	require.NoError(t, err)
	few, err := Solve(t.Context(), p, Settings{ReachesInLongest: 1000, Samples: 6000})
	require.NoError(t, err)
	require.InDelta(t, 36000, full.Numerics.Steps, 100)
	require.Len(t, full.Time, full.Numerics.Steps+1)
	require.LessOrEqual(t, len(few.Time), 6000)
	require.Equal(t, full.Pipes, few.Pipes)
	require.NotEmpty(t, few.Units[0].Seatings)
	for i, u := range full.Units {
		require.Equal(t, u.Seatings, few.Units[i].Seatings)
		require.Equal(t, bounds(u.Flow), bounds(few.Units[i].Flow))
		require.Equal(t, bounds(u.HeadDown), bounds(few.Units[i].HeadDown))
	}
	require.Len(t, few.Forces, 4)
	for i, f := range full.Forces {
		require.Equal(t, bounds(f.Force), bounds(few.Forces[i].Force))
		require.Equal(t, [2]float64{f.Min, f.Max}, bounds(few.Forces[i].Force))
		require.Equal(t, f.MaxImpulse, few.Forces[i].MaxImpulse)
	}
}

// However long the pipes are, the step that is chosen follows the discs: at the step of a hundred reaches, a second here, the reverse velocity would be
// a guess. Half the step gives the same.
func TestLongPipesDoNotSetTheStepOfDiscs(t *testing.T) {
	p := longLine(t)
	p.Until, p.Events = 4, p.Events[:1]
	p.Events[0].Time = 1
	reverse := func(s Settings) float64 {
		r, err := Solve(t.Context(), p, s)
		require.NoError(t, err)
		return -r.Units[0].Seatings[0].Velocity
	}
	g, err := Plan(p, Settings{})
	require.NoError(t, err)
	require.Equal(t, "check valves", g.StepFrom)
	require.InEpsilon(t, 0.010, g.Step, 0.01)
	once, half, coarse := reverse(Settings{}), reverse(Settings{Halvings: 1}), reverse(Settings{ReachesInLongest: 100})
	t.Logf("%.4f m/s, at half the step %.4f m/s, in 100 reaches %.4f m/s", once, half, coarse)
	require.InDelta(t, half, once, 0.005)
	require.Greater(t, math.Abs(coarse-half), 0.01)
	require.Empty(t, g.Short)
}

// A short pipe beside a long one is whole in its reaches and named, or refused when it would have to change too much.
func TestShortPipeBesideALongOne(t *testing.T) {
	plan := func(short float64, more ...network.Pipe) (*Numerics, error) {
		n := &network.Network{Fluid: testFluid(), Atmosphere: 101325, Reservoirs: []network.Reservoir{{Name: "up", Level: 40}, {Name: "down", Level: 40}},
			Pipes: []network.Pipe{flatPipe("stub", "up", "middle", short, 0.5, 1000, 0.02), flatPipe("line", "middle", "down", 1000, 0.5, 1000, 0.02)}}
		n.Pipes = append(n.Pipes, more...)
		return Plan(Problem{Network: n, Until: 1}, Settings{})
	}
	for short, reaches := range map[float64]int{30: 3, 10: 1, 9.5: 1, 4: 1, 1: 1} { // the longest in 100 reaches of 10 m, or finer
		g, err := plan(short)
		require.NoError(t, err, "%g m", short)
		require.LessOrEqual(t, g.LengthChangeMax, 0.01)
		require.Equal(t, reaches, g.Reaches["stub"], "%g m", short)
		if reaches == 1 {
			require.Equal(t, []string{"stub"}, g.Short)
		} else {
			require.Empty(t, g.Short)
		}
	}
	g, err := plan(0.1) // at a price
	require.NoError(t, err)
	require.Equal(t, 10000, g.Reaches["line"])
	require.Equal(t, "whole reaches of stub, the shortest pipe", g.StepFrom)
	_, err = plan(0.1, flatPipe("link", "up", "middle", 0.137, 0.5, 1000, 0.02))
	require.ErrorIs(t, err, ErrGrid)
	require.ErrorContains(t, err, "link would change its length by 27 % to make whole reaches of 0.0001 s")
	require.ErrorContains(t, err, "merge it with its neighbour")
}

// A run four times as long takes no more memory: what is allocated in all is the grid, the histories up to their bound, and the checkpoint.
func TestMemoryDoesNotGrowWithTheRun(t *testing.T) {
	allocated := func(until float64) float64 {
		p := longLine(t)
		p.Until, p.Events = until, p.Events[:1]
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r, err := Solve(t.Context(), p, Settings{ReachesInLongest: 200, Samples: 3000})
		require.NoError(t, err)
		runtime.ReadMemStats(&after)
		require.Greater(t, r.Numerics.Steps, 6000, "more steps than samples")
		require.LessOrEqual(t, len(r.Time), 3000)
		return float64(after.TotalAlloc - before.TotalAlloc)
	}
	once, fourfold := allocated(3600), allocated(4*3600)
	t.Logf("%.2f MB and %.2f MB", once/1e6, fourfold/1e6)
	require.InEpsilon(t, once, fourfold, 0.01)
	require.Less(t, once, 3e6)
}

// The whole of it: 100 km in 10 000 reaches, an hour in steps of 10 ms. Reported are the wall time, all that was allocated, and what is kept at the end.
func BenchmarkLongLine(b *testing.B) {
	for _, c := range []struct {
		name  string
		bends []float64
	}{{"plain", nil}, {"bends", longLine(b).Network.Pipes[0].Bends}} {
		b.Run("forces="+c.name, func(b *testing.B) {
			p := longLine(b)
			p.Network.Pipes[0].Bends = c.bends
			b.ReportAllocs()
			var r *Result
			var err error
			for b.Loop() {
				r, err = Solve(b.Context(), p, Settings{ReachesInLongest: 10000})
				require.NoError(b, err)
			}
			var m runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.HeapAlloc)/1e6, "MB-kept")
			b.ReportMetric(float64(len(r.Time)), "samples")
			b.ReportMetric(float64(r.Numerics.Nodes)*float64(r.Numerics.Steps)*float64(b.N)/b.Elapsed().Seconds(), "nodes/s")
			runtime.KeepAlive(r)
		})
	}
}
