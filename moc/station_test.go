package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pipe"
	"seatwise/network/pump"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// liftStation is the built-in example as data, with a column of the given length, m, between pump and check valve.
func liftStation(t testing.TB, column float64) *network.Network {
	water, err := fluid.Water(288.15, 101300)
	require.NoError(t, err)
	steel, _ := pipe.Lookup("carbon steel")
	a := func(bore, wall float64) float64 {
		return pipe.WaveSpeed(water, bore, wall, steel, pipe.AnchoredThroughout, pipe.GasContent{})
	}
	h := 1.0 / 3600
	n := &network.Network{Fluid: water, Atmosphere: 101300,
		Reservoirs: []network.Reservoir{{Name: "sump", Level: 101.5}, {Name: "tower", Level: 151.5}},
		Pipes: []network.Pipe{{Name: "rising-main", From: "header", To: "tower", Bore: 0.7, WaveSpeed: a(0.7, 0.0095), Roughness: 1e-4,
			Profile: []network.Point{{Elevation: 102}, {Chainage: 133, Elevation: 108}, {Chainage: 415, Elevation: 118}, {Chainage: 600, Elevation: 140}}}},
		Stations: []network.Station{{Name: "lift", From: "sump", To: "header", Units: 3, Elevation: 102,
			Pump: pump.Spec{Flow: 430 * h, Head: 52, Speed: 1480 * math.Pi / 30, Efficiency: 0.81, Inertia: 2.2,
				Curve: []pump.Point{{Head: 66}, {Flow: 215 * h, Head: 62}, {Flow: 430 * h, Head: 52}, {Flow: 600 * h, Head: 39}}},
			Column: network.Suction{Length: column, Bore: 0.25, WaveSpeed: a(0.25, 0.0063)},
			Branch: &network.Branch{Length: 6, Bore: 0.25, WaveSpeed: a(0.25, 0.0063), Roughness: 5e-5}}},
	}
	return n
}

// tripOne is one of three units tripping at 1 s.
func tripOne(t testing.TB, n *network.Network, typ string, until float64) Problem {
	v, err := catalogue.Complete(valve.Spec{Name: typ, Type: typ, Size: 0.25}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
	require.NoError(t, err)
	return Problem{Network: n, Valves: []valve.Valve{v}, Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}, Until: until}
}

// started is a run ready to advance.
func started(t require.TestingT, p Problem, s Settings) *run {
	m, err := compile(p)
	require.NoError(t, err)
	st, err := m.steady(s.Liquid)
	require.NoError(t, err)
	st.freeze()
	g, err := m.grid(s, p.Until)
	require.NoError(t, err)
	r := start(m, st, g, p.Until, s)
	r.keep()
	return r
}

// A pump run of 100 s without an event changes no head by more than 1e-6 m, for discs on their stop and floating alike.
func TestSteadyStaysSteady(t *testing.T) {
	for _, c := range []struct {
		typ  string
		size float64
	}{{"swing", 0.25}, {"axial spring", 0.25}, {"nozzle", 0.35}, {"ideal", 0.25}} {
		n := liftStation(t, 2)
		p := tripOne(t, n, c.typ, 100)
		p.Valves[0], _ = catalogue.Complete(valve.Spec{Name: c.typ, Type: c.typ, Size: c.size}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
		p.Events = nil
		r := started(t, p, Settings{})
		before := append([]float64(nil), r.heads...)
		for range int(100 / r.grid.dt) {
			require.NoError(t, r.advance())
		}
		for i := range before {
			require.InDelta(t, before[i], r.heads[i], 1e-6, "%s at %s", c.typ, r.m.nodes[i].name)
		}
	}
}

// The time loop allocates nothing: steps, records, checkpoints and audits, through the trip, the slam and the cavities after it.
func TestNoAllocation(t *testing.T) {
	for _, form := range CavityForms() {
		t.Run("cavities="+form.String(), func(t *testing.T) { testNoAllocation(t, form) })
	}
}

func testNoAllocation(t *testing.T, form Cavities) {
	r := started(t, tripOne(t, liftStation(t, 2), "swing", 20), Settings{Cavities: form})
	step := func() {
		if r.low() {
			r.cavitate()
		}
		if r.step%checkpointEvery == 0 {
			require.NoError(t, r.audit.check(r))
			r.keep()
		}
		if err := r.advance(); err != nil {
			t.Fatal(err)
		}
		r.rec.record(r)
	}
	for float64(r.step)*r.grid.dt < 1.6 { // past the change of kernel, which allocates once
		step()
	}
	require.NotEmpty(t, r.rec.units[0].Seatings)
	require.Zero(t, testing.AllocsPerRun(3000, step))
}

// One step of the built-in example, as node updates per second: pipes, clusters, discs, rotor and records.
func BenchmarkStep(b *testing.B) {
	for _, c := range []struct {
		typ  string
		form Cavities
	}{{"swing", GasCavity}, {"swing", VapourCavity}, {"axial spring", GasCavity}} {
		b.Run("case=lift-station/valve="+c.typ+"/cavities="+c.form.String(), func(b *testing.B) {
			p := tripOne(b, liftStation(b, 2), c.typ, 11)
			r := started(b, p, Settings{Cavities: c.form})
			b.ReportAllocs()
			for b.Loop() {
				if r.low() {
					r.cavitate()
				}
				if float64(r.step)*r.grid.dt > 11 {
					b.StopTimer()
					r = started(b, p, Settings{Cavities: c.form})
					b.StartTimer()
				}
				if err := r.advance(); err != nil {
					b.Fatal(err)
				}
				r.rec.record(r)
			}
			nodes := numerics(r.m, r.grid).Nodes
			b.ReportMetric(float64(nodes)*float64(b.N)/b.Elapsed().Seconds(), "nodes/s")
		})
	}
}

// The slam is the Joukowsky head of the reverse velocity, on the pipe's bore, whether or not vapour cavities follow.
func TestSlamIsJoukowsky(t *testing.T) {
	for _, column := range []float64{0, 2} {
		for _, typ := range []string{"swing", "axial spring", "nozzle", "dual plate"} {
			n := liftStation(t, column)
			r, err := Solve(context.Background(), tripOne(t, n, typ, 2), Settings{})
			require.NoError(t, err)
			u := r.Units[0]
			s := u.Seatings[0]
			v := s.Velocity * u.Bore * u.Bore / (u.PipeBore * u.PipeBore)
			require.Less(t, v, -0.05)
			require.InEpsilon(t, -u.PipeWaveSpeed*v/network.Gravity, s.Rise, 0.01, "%s, column %g m", typ, column)
		}
	}
}
