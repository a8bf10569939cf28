package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

// A8: small oscillation of an air vessel at one end of a frictionless line, a reservoir at the other: T = 59.909 s elastic (rigid 59.661 s).
func TestAirVesselOscillation(t *testing.T) {
	// L = 1500, D = 0.4, a = 1000, H* = 45 m abs, n = 1.2, Vg = 4 m3.
	f := testFluid()
	gamma := f.Density * network.Gravity
	atm := 101325.0
	h := 45 - atm/gamma // gauge head at the vessel
	n := &network.Network{Fluid: f, Atmosphere: atm,
		Reservoirs: []network.Reservoir{{Name: "up", Levels: []network.Level{{Time: 0, Head: h}, {Time: 0, Head: h + 0.02}}}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", 1500, 0.4, 1000, 0)},
		Devices:    []network.Device{&network.AirVessel{Name: "vessel", Node: "end", Volume: 8, Gas: 4, Polytropic: 1.2, Bore: 0.4}}}
	r, err := Solve(context.Background(), Problem{Network: n, Until: 300}, Settings{Liquid: true, Step: 0.05})
	require.NoError(t, err)
	var up []float64
	var head []float64
	for _, x := range r.Nodes {
		if x.Name == "end" {
			head = x.Head
		}
	}
	for k := 1; k < len(head); k++ {
		if a, b := head[k-1]-h-0.02, head[k]-h-0.02; a < 0 && b >= 0 {
			up = append(up, r.Time[k-1]+(r.Time[k]-r.Time[k-1])*(-a)/(b-a))
		}
	}
	require.GreaterOrEqual(t, len(up), 4)
	period := (up[len(up)-1] - up[0]) / float64(len(up)-1)
	require.InEpsilon(t, 59.909, period, 3e-3)
	require.False(t, math.IsNaN(period))
}
