package moc

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc/kernel"
	"seatwise/network"
)

// suddenStop is the copper line of A. Bergant, A. R. Simpson, J. Vitkovsky, Developments in unsteady pipe flow friction modelling, J. Hydraul. Res. 39 (2001)
// 249-257, data from memory: 37.23 m, 22.1 mm, 1319 m/s, tank head 32 m, 0.2 m/s, stopped at once; water at 15.4 °C.
func suddenStop(t *testing.T, f Friction) *Result {
	fl := testFluid()
	fl.Density, fl.Viscosity = 999, 1.13e-3
	d, v := 0.0221, 0.2
	n := &network.Network{Fluid: fl, Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "tank", Level: 32}, {Name: "drain", Level: 0}},
		Pipes: []network.Pipe{{Name: "line", From: "tank", To: "end", Bore: d, WaveSpeed: 1319, Roughness: 1e-6,
			Profile: []network.Point{{Elevation: -2}, {Chainage: 37.23}}}},
		Throttles: []network.Throttle{{Name: "valve", From: "end", To: "drain", Bore: d, Loss: 31.5 * 2 * network.Gravity / (v * v),
			Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 0, Fraction: 0}}}}}
	r, err := Solve(context.Background(), Problem{Network: n, Until: 1.2}, Settings{Friction: f})
	require.NoError(t, err)
	return r
}

// swing is the root mean square of the head at the valve about the tank's over the k-th period 4L/a.
func swing(r *Result, k int) float64 {
	period := 4 * 37.23 / 1319
	sum, n := 0.0, 0
	for _, node := range r.Nodes {
		if node.Name != "end" {
			continue
		}
		for i, t := range r.Time {
			if t > float64(k)*period && t <= float64(k+1)*period {
				sum += (node.Head[i] - 32) * (node.Head[i] - 32)
				n++
			}
		}
	}
	return math.Sqrt(sum / float64(n))
}

// Unsteady friction changes neither the steady state nor the first rise, and damps what follows: by quasi-steady friction alone the line is
// clearly under-damped after three or four periods (the same source). The shear layer at the wall takes sqrt(nu omega/2)/R = 0.51 1/s off the fundamental
// (classical boundary-layer theory, laminar), 0.73 of it left after five periods and a half; a turbulent one is of the same order.
func TestUnsteadyFrictionDamps(t *testing.T) {
	quasi := suddenStop(t, QuasiSteady)
	for _, f := range []Friction{Weighted, Accelerated} {
		r := suddenStop(t, f)
		require.InDelta(t, quasi.Steady.Pipes[0].Flow, r.Steady.Pipes[0].Flow, 1e-15)
		require.InEpsilon(t, swing(quasi, 0), swing(r, 0), 0.06, f)
		require.Less(t, swing(r, 5), 0.85*swing(quasi, 5), f)
		require.Greater(t, swing(r, 5), 0.6*swing(quasi, 5), f)
		require.Less(t, r.Numerics.VolumeResidual, volumeBound)
	}
}

// Steady flow stays steady whatever the friction.
func TestUnsteadyFrictionKeepsSteadyFlow(t *testing.T) {
	for _, f := range Frictions() {
		p := tripOne(t, liftStation(t, 2), "swing", 5)
		p.Events = nil
		r := started(t, p, Settings{Friction: f})
		before := append([]float64(nil), r.heads...)
		for range int(5 / r.grid.dt) {
			require.NoError(t, r.advance())
		}
		require.InDeltaSlice(t, before, r.heads, 1e-7, f)
	}
}

// A pipe that only trickles in steady flow is frozen with the friction of a flow, by every form; a laminar one keeps its own.
func TestTrickleIsNoLaminarPipe(t *testing.T) {
	c := &conduit{bore: 0.3, area: 0.0707, length: 100, rough: 1e-4}
	const water, oil, g = 1.1e-6, 2e-4, 9.81
	same := func(want, is kernel.Friction) { require.Equal(t, fmt.Sprintf("%+v", want), fmt.Sprintf("%+v", is)) }
	fast := c.lossAt(c.area, water, g)
	for _, v := range []float64{1e-9, 1e-5, 1e-3, 0.01} {
		loss := c.lossAt(v*c.area, water, g)
		require.True(t, loss >= fast && loss < 3*fast, "%g m/s: %g times that at 1 m/s", v, loss/fast)
		same(kernel.VardyBrown(water, c.bore, math.Max(4000, v*c.bore/water)), c.unsteady(Weighted, math.Max(v, 1e-5)*c.area, water))
		thick := math.Max(v, 1e-3) // a Reynolds number above 1
		require.InEpsilon(t, 64*oil/(thick*c.bore)*c.length/c.bore/(2*g*c.area*c.area), c.lossAt(thick*c.area, oil, g), 1e-9)
		same(kernel.Zielke(oil, c.bore), c.unsteady(Weighted, math.Max(v, 1e-5)*c.area, oil))
	}
}
