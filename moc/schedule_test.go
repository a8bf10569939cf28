package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

func runEvents(t *testing.T, n *network.Network, typ string, until float64, events ...network.Event) *Result {
	t.Helper()
	p := tripOne(t, n, typ, until)
	p.Events = events
	r, err := Solve(context.Background(), p, Settings{})
	require.NoError(t, err)
	return r
}

// A standing unit started against its shut valve: the valve stays shut until the pump's head is above that of the header, and in the end all units
// share the flow of the steady state with one more unit.
func TestStartOfAUnit(t *testing.T) {
	n := liftStation(t, 0)
	all, err := SteadyState(tripOne(t, n, "swing", 1))
	require.NoError(t, err)
	n.Stations[0].Stopped = 1
	r := runEvents(t, n, "swing", 40, network.Event{Kind: network.Start, Target: "lift", Units: 1, Time: 1, Over: 4})
	u := r.Units[2]
	require.Zero(t, u.Flow[0])
	require.Zero(t, u.Opening[0])
	require.Zero(t, u.Speed[0])
	opened := 0
	for i, y := range u.Opening {
		if y > 0 {
			opened = i
			break
		}
	}
	// The shut-off head goes with the square of the speed; the valve opens when it passes the head behind it.
	pump := n.Stations[0].Pump
	w := u.Speed[opened] / pump.Speed
	require.InEpsilon(t, u.HeadDown[opened]-101.5, 66*w*w, 0.01)
	require.InDelta(t, 1+4*w, r.Time[opened], 0.01)
	last := len(r.Time) - 1
	for _, x := range r.Units {
		require.InEpsilon(t, all.Units[0].Flow, x.Flow[last], 2e-3)
	}
}

// A check valve that fails open: the flow goes back through the pump, which runs as a turbine.
func TestFailedCheckValve(t *testing.T) {
	n := liftStation(t, 2)
	healthy := runEvents(t, n, "swing", 12, network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1})
	failed := runEvents(t, n, "swing", 12, network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1},
		network.Event{Kind: network.Fail, Target: "lift", Units: 1, Time: 0.5, To: 1})
	last := len(failed.Time) - 1
	u := failed.Units[0]
	require.Empty(t, u.Seatings)
	require.Equal(t, 1.0, u.Opening[last])
	require.Less(t, u.Flow[last], -0.05)
	require.Less(t, u.Speed[last], -50.0)
	require.InDelta(t, 0, healthy.Units[0].Flow[last], 0.01)
	require.Greater(t, healthy.Units[0].Speed[last], -1.0)
	// Stuck shut from the start of the trip: no reverse flow at all.
	shut := runEvents(t, n, "swing", 4, network.Event{Kind: network.Fail, Target: "lift", Units: 1, Time: 1, To: 0},
		network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1})
	for i, q := range shut.Units[0].Flow {
		if shut.Time[i] > 1.001 {
			require.Zero(t, q)
		}
	}
}

// A stroke is a schedule: Allievi's chain A4b again.
func TestStroke(t *testing.T) {
	v0, h0 := 1.96133, 100.0
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: h0}, {Name: "down", Level: 0}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", 500, 0.5, 1000, 0)},
		Throttles:  []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.5, Loss: h0 * 2 * network.Gravity / (v0 * v0)}}}
	r, err := Solve(context.Background(), Problem{Network: n, Until: 4, Events: []network.Event{{Kind: network.Stroke, Target: "gate", Over: 4, To: 0}}}, Settings{Liquid: true})
	require.NoError(t, err)
	for i, want := range []float64{1.293812, 1.280697, 1.284339} {
		require.InDelta(t, want, headAt(r, "end", float64(i+1))/h0, 1e-6)
	}
	_, err = Solve(context.Background(), Problem{Network: n, Until: 4, Events: []network.Event{{Kind: network.Stroke, Target: "gat"}}}, Settings{Liquid: true})
	require.ErrorIs(t, err, ErrProblem)
}

// Events apply to the units that run at their time, whatever their order in the list.
func TestEventsInOrderOfTime(t *testing.T) {
	r := runEvents(t, liftStation(t, 0), "axial spring", 3,
		network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 2}, network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1})
	require.Equal(t, 1.0, r.Units[0].Tripped)
	require.Equal(t, 2.0, r.Units[1].Tripped)
	require.Less(t, r.Units[2].Tripped, 0.0)
	require.False(t, math.IsNaN(r.Numerics.VolumeResidual))
}

// An ideal valve that fails stays open as a swing valve does; the steady duty told is that before the failure.
func TestFailedIdealValve(t *testing.T) {
	events := []network.Event{{Kind: network.Fail, Target: "lift", Units: 1, Time: 0.5, To: 1}, {Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}
	ideal := runEvents(t, liftStation(t, 2), "ideal", 8, events...)
	swing := runEvents(t, liftStation(t, 2), "swing", 8, events...)
	last := len(ideal.Time) - 1
	require.InEpsilon(t, swing.Units[0].Flow[last], ideal.Units[0].Flow[last], 0.1)
	require.Less(t, ideal.Units[0].Flow[last], -0.05)

	p := tripOne(t, liftStation(t, 2), "swing", 4)
	p.Events = []network.Event{{Kind: network.Fail, Target: "lift", Units: 1, Time: 0.5, To: 0.3}}
	r, err := Solve(context.Background(), p, Settings{})
	require.NoError(t, err)
	require.InDelta(t, 1, r.Steady.Units[0].Opening, 1e-9)
	require.InDelta(t, 0.3, r.Units[0].Opening[len(r.Time)-1], 1e-12)
}
