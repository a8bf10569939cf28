package moc

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// Whatever the station, a run ends with a finite answer or one of the named errors.
func TestAnyStation(t *testing.T) {
	base := liftStation(t, 0)
	rapid.Check(t, func(t *rapid.T) {
		n := *base
		s := base.Stations[0]
		branch := *s.Branch
		s.Branch = &branch
		s.Column.Length = rapid.SampledFrom([]float64{0, 0.5, 2, 10}).Draw(t, "column")
		s.Pump.Inertia = math.Pow(10, rapid.Float64Range(-2, 2).Draw(t, "log inertia"))
		s.Pump.Ratchet = rapid.Bool().Draw(t, "ratchet")
		branch.Length = rapid.Float64Range(0.5, 60).Draw(t, "branch")
		branch.WaveSpeed = rapid.Float64Range(200, 1400).Draw(t, "wave speed")
		if rapid.Bool().Draw(t, "no branch") {
			s.Branch = nil
		} else {
			s.Branch = &branch
		}
		n.Stations = []network.Station{s}
		n.Reservoirs = []network.Reservoir{base.Reservoirs[0], {Name: "tower", Level: rapid.Float64Range(138, 165).Draw(t, "level")}}
		main := base.Pipes[0]
		main.Profile = []network.Point{{Elevation: 102}, {Chainage: 30, Elevation: 118}, {Chainage: 60, Elevation: 137}} // short, to be quick
		main.FrictionFactor = rapid.Float64Range(0.005, 0.1).Draw(t, "friction")
		main.Bore = rapid.Float64Range(0.25, 1).Draw(t, "bore")
		n.Pipes = []network.Pipe{main}
		typ := rapid.SampledFrom([]string{"swing", "axial spring", "nozzle", "dual plate", "ideal"}).Draw(t, "type")
		set := map[string]float64{}
		if typ != "ideal" {
			set["restitution"] = rapid.Float64Range(0, 0.9).Draw(t, "restitution")
			if rapid.Bool().Draw(t, "dry friction") {
				key := map[string]string{"swing": "hinge friction", "dual plate": "hinge friction"}[typ]
				if key == "" {
					key = "guide friction"
				}
				set[key] = rapid.Float64Range(0, 5).Draw(t, key)
			}
			if typ == "dual plate" {
				set["second plate preload"] = rapid.SampledFrom([]float64{0, 0.7, 1}).Draw(t, "second plate")
			}
		}
		v, err := catalogue.Complete(valve.Spec{Name: "v", Type: typ, Size: rapid.SampledFrom([]float64{0.15, 0.25, 0.4}).Draw(t, "size"), Set: set},
			catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
		require.NoError(t, err)
		units := rapid.IntRange(1, 3).Draw(t, "units")
		r, err := Solve(context.Background(), Problem{Network: &n, Valves: []valve.Valve{v}, Until: 1.5,
			Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: units, Time: 0.5}}}, Settings{ReachesInLongest: 30, Cavities: rapid.SampledFrom(CavityForms()).Draw(t, "cavities")})
		if err != nil {
			if errors.Is(err, ErrNoSteady) || errors.Is(err, ErrGrid) {
				return
			}
			t.Fatal(err)
		}
		for _, u := range r.Units {
			for _, s := range [][]float64{u.Flow, u.HeadUp, u.HeadDown, u.Opening, u.Speed} {
				for _, x := range s {
					require.False(t, math.IsNaN(x) || math.IsInf(x, 0))
				}
			}
			for i, y := range u.Opening {
				require.True(t, y >= 0 && y <= 1, "opening %g", y)
				if y == 0 {
					require.InDelta(t, 0, u.Flow[i], 1e-7, "no flow through a seated valve")
				}
			}
		}
	})
}

// A valve that shuts at zero velocity, at the very instant at which its pressure drop is next to nothing, lets nothing through: found by TestAnyStation.
func TestShutAtTheKink(t *testing.T) {
	n := liftStation(t, 10)
	s := &n.Stations[0]
	s.Pump.Inertia, s.Pump.Ratchet = 1, true
	s.Branch.Length, s.Branch.WaveSpeed = 0.65625, 1252.545654296875
	n.Reservoirs[1].Level = 140.81122438423336
	main := &n.Pipes[0]
	main.FrictionFactor, main.Bore = 0.02551468461751938, 0.6555314064025879
	main.Profile = []network.Point{{Elevation: 102}, {Chainage: 30, Elevation: 118}, {Chainage: 60, Elevation: 137}}
	v, err := catalogue.Complete(valve.Spec{Name: "v", Type: "ideal", Size: 0.4}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
	require.NoError(t, err)
	r, err := Solve(context.Background(), Problem{Network: n, Valves: []valve.Valve{v}, Until: 1.5,
		Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 0.5}}}, Settings{ReachesInLongest: 30, ReachesAtValve: 4})
	require.NoError(t, err)
	for i, y := range r.Units[0].Opening {
		if y == 0 {
			require.InDelta(t, 0, r.Units[0].Flow[i], 1e-7)
		}
	}
}
