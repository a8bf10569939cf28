package main

import (
	"context"
	"io/fs"
	"path"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/valve"
	"seatwise/valve/choice"
)

func exampleCase(t *testing.T, name string) *choice.Case {
	t.Helper()
	src, err := examples.Files.ReadFile(name + ".yaml")
	require.NoError(t, err)
	doc, err := casefile.Read(name+".yaml", src, func(p string) ([]byte, error) { return fs.ReadFile(examples.Files, path.Clean(p)) })
	require.NoError(t, err)
	c, err := doc.Case()
	require.NoError(t, err)
	return c
}

func compared(t *testing.T, c *choice.Case) *choice.Comparison {
	t.Helper()
	r, err := choice.Run(context.Background(), c, choice.Settings{GridsAtMost: 1})
	require.NoError(t, err)
	return r
}

// What the trade knows (common practice, no source): with an air vessel near the header the flow turns back harder, and the same valve closes
// against a greater reverse velocity than without it.
func TestAirVesselDrivesTheFlowBack(t *testing.T) {
	with := exampleCase(t, "air-vessel")
	with.Scenarios = with.Scenarios[1:] // all units trip: the vessel alone holds the header
	without := exampleCase(t, "air-vessel")
	without.Scenarios = without.Scenarios[1:]
	bare := *without.Scenarios[0].Network
	bare.Devices = nil
	without.Scenarios[0].Network = &bare
	a, b := compared(t, with), compared(t, without)
	for i := range with.Candidates {
		x, y := a.Scenarios[0].Outcomes[i], b.Scenarios[0].Outcomes[i]
		require.Empty(t, x.MaxReverseVelocity.Reason+y.MaxReverseVelocity.Reason)
		require.Greater(t, x.MaxReverseVelocity.SI, 1.2*y.MaxReverseVelocity.SI, x.Candidate)
	}
	require.Equal(t, "spring-disc", a.Recommended)
}

// The further the vessel stands from the header, the softer it drives the flow back.
func TestAirVesselDistance(t *testing.T) {
	last := 1e9
	for _, distance := range []float64{0, 40, 160} {
		c := exampleCase(t, "air-vessel")
		c.Candidates = c.Candidates[:1]
		c.Scenarios = c.Scenarios[1:]
		n := *c.Scenarios[0].Network
		if distance > 0 {
			main := n.Pipes[0]
			tie := main
			tie.Name, tie.To = "tie", "vessel-node"
			tie.Profile = []network.Point{main.Profile[0], {Chainage: distance, Elevation: main.Profile[0].Elevation}}
			tie.Bore = 0.3
			n.Pipes = append([]network.Pipe{tie}, n.Pipes...)
			v := *n.Devices[0].(*network.AirVessel)
			v.Node = "vessel-node"
			n.Devices = []network.Device{&v}
		}
		c.Scenarios[0].Network = &n
		v := compared(t, c).Scenarios[0].Outcomes[0].MaxReverseVelocity
		require.Empty(t, v.Reason)
		require.Less(t, v.SI, last, "at %g m", distance)
		last = v.SI
	}
}

// At the high point the column parts for every candidate: no check valve mends that, and none is recommended.
func TestHighPointPartsWhateverTheValve(t *testing.T) {
	r := compared(t, exampleCase(t, "high-point"))
	for _, o := range r.Scenarios[0].Outcomes {
		require.Empty(t, o.CavityMax.Reason)
		require.Greater(t, o.CavityMax.SI, 0.02, o.Candidate)
		require.Contains(t, o.Spots["cavity_max_m3"].Place, "rising-main")
	}
	require.Empty(t, r.Recommended)
}

// The recommendation of each example, by its installation and limits: no datum of a valve is set in any of them.
func TestExamplesRecommend(t *testing.T) {
	for name, want := range map[string]string{"lift-station": "spring-disc", "short-high-head": "spring-disc", "gentle-main": "plain-swing", "air-vessel": "spring-disc", "high-point": ""} {
		c := exampleCase(t, name)
		for _, spec := range c.Candidates {
			require.Equal(t, valve.Spec{Name: spec.Name, Type: spec.Type, Size: spec.Size, Set: map[string]float64{}, Tables: map[string]valve.Points{}}, spec, name)
		}
		require.Equal(t, want, compared(t, c).Recommended, name)
	}
}
