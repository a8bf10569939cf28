package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/fluid"
)

func testFluid() fluid.Fluid {
	return fluid.Fluid{Name: "test liquid", Temperature: 293.15, Density: 998.2, BulkModulus: 2.19e9, Viscosity: 1.002e-3, VapourPressure: 2339}
}

// flatPipe is a level pipe at height 0 with a Darcy factor; friction 0 means none.
func flatPipe(name, from, to string, length, bore, a, friction float64) network.Pipe {
	if friction == 0 {
		friction = 1e-300
	}
	return network.Pipe{Name: name, From: from, To: to, Bore: bore, WaveSpeed: a, FrictionFactor: friction,
		Profile: []network.Point{{}, {Chainage: length}}}
}

func solve(t *testing.T, n *network.Network, until float64, s Settings) *Result {
	t.Helper()
	s.Liquid = true
	r, err := Solve(context.Background(), Problem{Network: n, Until: until}, s)
	require.NoError(t, err)
	return r
}

func headAt(r *Result, node string, t float64) float64 {
	for _, n := range r.Nodes {
		if n.Name == node {
			k := int(math.Round(t / r.Numerics.Step))
			return n.Head[k]
		}
	}
	return math.NaN()
}

// Allievi's chain, verification case A4b: linear closure of the effective area, rho* = 1, theta = 4.
func TestAllievi(t *testing.T) {
	v0, a, l, h0 := 1.96133, 1000.0, 500.0, 100.0
	d := 0.5
	zeta := h0 * 2 * network.Gravity / (v0 * v0)
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: h0}, {Name: "down", Level: 0}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", l, d, a, 0)},
		Throttles: []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: d, Loss: zeta,
			Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 4, Fraction: 0}}}}}
	r := solve(t, n, 8, Settings{})
	for i, want := range []float64{1.293812, 1.280697, 1.284339, 1.282305, 0.717695, 1.282305} {
		require.InDelta(t, want, headAt(r, "end", float64(i+1))/h0, 1e-6)
	}
}
