package choice

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pipe"
	"seatwise/network/pump"
	"seatwise/valve"
)

// liftStation is the built-in example as data: three units lift water to a tower, one trips at 1 s.
func liftStation(t testing.TB, candidates ...valve.Spec) *Case {
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
			Column: network.Suction{Length: 2, Bore: 0.25, WaveSpeed: a(0.25, 0.0063)},
			Branch: &network.Branch{Length: 6, Bore: 0.25, WaveSpeed: a(0.25, 0.0063), Roughness: 0.045e-3}}},
	}
	if len(candidates) == 0 {
		candidates = []valve.Spec{spec("plain-swing", "swing"), spec("spring-disc", "axial spring")}
	}
	return &Case{Name: "lift", Candidates: candidates, Until: 11,
		Scenarios: []Scenario{{Name: "base", Network: n, Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}}},
		Limits:    Limits{DesignPressure: some(8e5), SurgeAllowance: some(0.1), MinimumPressure: some(-0.5e5), ReverseVelocity: some(0.3)}}
}

func spec(name, typ string) valve.Spec { return valve.Spec{Name: name, Type: typ, Size: 0.25} }

func some(x float64) *float64 { return &x }

func compare(t testing.TB, c *Case) *Comparison {
	r, err := Run(context.Background(), c, Settings{})
	require.NoError(t, err)
	return r
}

// quick is the lift station without the column before the valve, which would ask for a small step, over 3 s.
func quick(t testing.TB, candidates ...valve.Spec) *Case {
	c := liftStation(t, candidates...)
	c.Scenarios[0].Network.Stations[0].Column.Length = 0
	c.Until = 3
	return c
}

// set is a candidate with data of its own.
func set(s valve.Spec, data map[string]float64) valve.Spec {
	s.Set = data
	return s
}

func (c *Comparison) text() string { return strings.Join(c.Reasons, "\n") }
