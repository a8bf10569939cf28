package moc

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// root is where a falling function is zero, by bisection.
func root(low, high float64, f func(float64) float64) float64 {
	for range 200 {
		if m := (low + high) / 2; f(m) > 0 {
			low = m
		} else {
			high = m
		}
	}
	return (low + high) / 2
}

// fixedLoss is a valve that takes loss on the velocity head of its bore and shuts at zero velocity.
func fixedLoss(bore, loss float64) valve.Valve {
	rho := testFluid().Density
	return valve.Valve{Name: "ideal", Bore: bore, Density: rho, Motion: &valve.Ideal{Loss: loss, Density: rho}, Travel: 1}
}

// lossOf is the head that a loss coefficient takes at flow q through a bore, m.
func lossOf(k, q, bore float64) float64 {
	a := math.Pi / 4 * bore * bore
	return k * q * math.Abs(q) / (2 * network.Gravity * a * a)
}

// duty is a pump that delivers flow at head when new, by its four-quadrant data alone.
func duty(flow, head, rpm, inertia float64) pump.Spec {
	return pump.Spec{Flow: flow, Head: head, Speed: rpm * math.Pi / 30, Efficiency: 0.8, Inertia: inertia, SpecificSpeed: 25}
}

func headOf(t *testing.T, s pump.Spec, q float64) float64 {
	p, err := pump.New(s, testFluid().Density, network.Gravity)
	require.NoError(t, err)
	h, _, _ := p.Head(q, s.Speed)
	return h
}

const mainLoss = 0.02*400/0.3 + 1 // friction and exit

// sideBySide are two unequal stations that lift 30 m into one main: a pump of 0.08 m3/s and a pair of half the flow with a flatter curve.
func sideBySide() (*network.Network, []valve.Valve) {
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "sump", Level: 2}, {Name: "tower", Level: 32}},
		Stations: []network.Station{
			{Name: "large", From: "sump", To: "header", Units: 1, Pump: duty(0.08, 36, 1480, 2)},
			{Name: "small", From: "sump", To: "header", Units: 2, Pump: duty(0.03, 38, 2950, 0.1),
				Branch: &network.Branch{Length: 4, Bore: 0.15, WaveSpeed: 1000, FrictionFactor: 0.02}}},
		Pipes: []network.Pipe{flatPipe("main", "header", "tower", 400, 0.3, 1000, 0.02)}}
	n.Pipes[0].MinorLoss = 1
	return n, []valve.Valve{fixedLoss(0.25, 0.8), fixedLoss(0.15, 1.2)}
}

// Unequal stations between the same nodes share the head of the header: each runs at the flow that its curve, less its own losses, has there, and the
// flows add up to what the main takes. Found apart from the solver, by bisection on the header's head.
func TestUnequalStationsSideBySide(t *testing.T) {
	n, valves := sideBySide()
	large, small := n.Stations[0].Pump, n.Stations[1].Pump
	atHead := func(s pump.Spec, loss func(q float64) float64, header float64) float64 {
		return root(0, 3*s.Flow, func(q float64) float64 { return 2 + headOf(t, s, q) - loss(q) - header })
	}
	flows := func(header float64) (a, b float64) {
		a = atHead(large, func(q float64) float64 { return lossOf(0.8, q, 0.25) }, header)
		b = atHead(small, func(q float64) float64 { return lossOf(1.2+0.02*4/0.15, q, 0.15) }, header)
		return a, b
	}
	header := root(32, 60, func(h float64) float64 {
		a, b := flows(h)
		return a + 2*b - root(0, 1, func(q float64) float64 { return h - 32 - lossOf(mainLoss, q, 0.3) })
	})
	a, b := flows(header)
	r, err := Solve(context.Background(), Problem{Network: n, Valves: valves, Until: 15,
		Events: []network.Event{{Kind: network.Trip, Target: "small", Units: 2, Time: 1}}}, Settings{ReachesAtValve: 2})
	require.NoError(t, err)
	require.InEpsilon(t, a, r.Steady.Units[0].Flow, 1e-6)
	require.InEpsilon(t, b, r.Steady.Units[1].Flow, 1e-6)
	require.InEpsilon(t, b, r.Steady.Units[2].Flow, 1e-6)
	require.InDelta(t, header, headAt(r, "header", 0), 1e-5)

	// The small pumps trip: their valves shut, and the large one goes on to its point against the main alone.
	last := len(r.Time) - 1
	alone := atHead(large, func(q float64) float64 { return lossOf(0.8, q, 0.25) + lossOf(mainLoss, q, 0.3) }, 32)
	require.Greater(t, alone, 1.05*a)
	require.InEpsilon(t, alone, r.Units[0].Flow[last], 1e-3)
	for _, u := range r.Units[1:] {
		require.NotEmpty(t, u.Seatings)
		require.Zero(t, u.Flow[last])
	}
	require.Empty(t, r.Units[0].Seatings)
}

// inSeries are two unequal pumps, the second fed by the first through a pipe of 50 m, that lift 60 m.
func inSeries() (*network.Network, []valve.Valve) {
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "sump", Level: 2}, {Name: "tower", Level: 62}},
		Stations: []network.Station{
			{Name: "feed", From: "sump", To: "between", Units: 1, Pump: duty(0.05, 25, 1480, 1)},
			{Name: "lift", From: "suction", To: "header", Units: 1, Pump: duty(0.05, 45, 2950, 0.4)}},
		Pipes: []network.Pipe{flatPipe("link", "between", "suction", 50, 0.2, 1000, 0.02), flatPipe("main", "header", "tower", 400, 0.3, 1000, 0.02)}}
	n.Pipes[1].MinorLoss = 1
	return n, []valve.Valve{fixedLoss(0.2, 0.8), fixedLoss(0.2, 0.8)}
}

// Pumps in series carry one flow, at which their heads add up to the lift and all losses.
func TestPumpsInSeries(t *testing.T) {
	n, valves := inSeries()
	feed, lift := n.Stations[0].Pump, n.Stations[1].Pump
	link := 0.02 * 50 / 0.2
	q := root(0, 0.15, func(q float64) float64 {
		return headOf(t, feed, q) + headOf(t, lift, q) - 60 - lossOf(0.8+link+0.8, q, 0.2) - lossOf(mainLoss, q, 0.3)
	})
	between := 2 + headOf(t, feed, q) - lossOf(0.8, q, 0.2)
	r, err := Solve(context.Background(), Problem{Network: n, Valves: valves, Until: 12,
		Events: []network.Event{{Kind: network.Trip, Target: "feed", Units: 1, Time: 1}, {Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}}, Settings{})
	require.NoError(t, err)
	for _, u := range r.Steady.Units {
		require.InEpsilon(t, q, u.Flow, 1e-6)
	}
	require.InDelta(t, between, headAt(r, "between", 0), 1e-5)
	require.InDelta(t, between-lossOf(link, q, 0.2), headAt(r, "suction", 0), 1e-5)
	require.InDelta(t, 62+lossOf(mainLoss, q, 0.3), headAt(r, "header", 0), 1e-5)
	last := len(r.Time) - 1
	for _, u := range r.Units { // both discs seat, and hold the liquid in link and main
		require.NotEmpty(t, u.Seatings)
		require.Zero(t, u.Flow[last])
	}

	// At equal heads of the reservoirs and no losses but those of the pumps, one of two equal pumps in series has half the head of both.
	n.Reservoirs[1].Level, n.Stations[1].Pump = 2, feed
	two, err := SteadyState(Problem{Network: n, Valves: valves})
	require.NoError(t, err)
	require.InEpsilon(t, two.Units[0].PumpHead, two.Units[1].PumpHead, 1e-9)
}

// quadrants is head and torque over rated ones, divided by alpha^2 + v^2, at the angle atan2(alpha, v), from the file of the data itself.
func quadrants(t *testing.T) func(theta float64) (head, torque float64) {
	raw, err := os.ReadFile("../network/pump/data/pump-25.csv")
	require.NoError(t, err)
	in := csv.NewReader(strings.NewReader(string(raw)))
	in.Comment = '#'
	rows, err := in.ReadAll()
	require.NoError(t, err)
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return x
	}
	return func(theta float64) (float64, float64) {
		for i := 2; i < len(rows); i++ {
			a, b := number(rows[i-1][0]), number(rows[i][0])
			if deg := theta * 180 / math.Pi; deg <= b {
				f := (deg - a) / (b - a)
				at := func(c int) float64 { return number(rows[i-1][c]) + f*(number(rows[i][c])-number(rows[i-1][c])) }
				return at(1), at(2)
			}
		}
		panic("beyond the table")
	}
}

// runaway is a pump below a tower, 40 m under it, with a valve that does not close.
func runaway(ratchet bool) (*network.Network, []valve.Valve) {
	const level = 40.0
	p := duty(0.06, 44, 1480, 0.8)
	p.Ratchet = ratchet
	rho := testFluid().Density
	return &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "sump", Level: 2}, {Name: "tower", Level: 2 + level}},
		Stations:   []network.Station{{Name: "lift", From: "sump", To: "header", Units: 1, Pump: p}},
		Pipes:      []network.Pipe{flatPipe("main", "header", "tower", 100, 0.3, 1000, 0.02)}}, []valve.Valve{{Name: "stuck", Bore: 0.25, Density: rho, Motion: &valve.Stuck{At: 1, Loss: 0.9, Density: rho}, Travel: 1}}
}

// With the valve stuck open the pump runs away backwards until the liquid turns it without torque: beta = 0 in the third quadrant of the four-quadrant
// data, at an angle theta. There v = R cos theta, alpha = R sin theta, and R is that at which the head of the pump is the lift less the losses:
//
//	H_R R^2 WH(theta) = H - K (Q_R R cos theta)^2
//
// A ratchet holds the rotor: alpha = 0, theta = 180 degrees, and the liquid passes a pump at rest.
func TestRunawayWithValveStuckOpen(t *testing.T) {
	data := quadrants(t)
	free := root(math.Pi, 1.5*math.Pi, func(theta float64) float64 {
		_, torque := data(theta)
		return torque // falls from the locked rotor's to below zero where the rotor outruns the liquid
	})
	for _, c := range []struct {
		name    string
		ratchet bool
		theta   float64
	}{{"free rotor", false, free}, {"ratchet", true, math.Pi}} {
		t.Run(c.name, func(t *testing.T) {
			n, valves := runaway(c.ratchet)
			p := n.Stations[0].Pump
			wh, _ := data(c.theta)
			k := lossOf(0.9, 1, 0.25) + lossOf(0.02*100/0.3, 1, 0.3)
			v := p.Flow * math.Cos(c.theta)
			r2 := 40 / (p.Head*wh + k*v*v)
			r, err := Solve(context.Background(), Problem{Network: n, Valves: valves, Until: 40,
				Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}}, Settings{})
			require.NoError(t, err)
			u, last := r.Units[0], len(r.Time)-1
			require.InEpsilon(t, math.Sqrt(r2)*v, u.Flow[last], 1e-4)
			require.InDelta(t, math.Sqrt(r2)*p.Speed*math.Sin(c.theta), u.Speed[last], 1e-4*p.Speed)
			if c.ratchet {
				for _, w := range u.Speed {
					require.GreaterOrEqual(t, w, 0.0)
				}
				return
			}
			require.Less(t, u.Speed[last], -p.Speed, "a run-away pump of low specific speed turns faster than rated at this head")
		})
	}
}

// booster is a pair of pumps that adds 25 m to a line which falls from one reservoir to another, with or without a bypass.
func booster(t *testing.T, bypass bool) Problem {
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "lake", Level: 40}, {Name: "works", Level: 36}},
		Stations: []network.Station{{Name: "boost", From: "suction", To: "discharge", Units: 2, Elevation: 5, Pump: duty(0.11, 24, 1480, 1.2),
			Branch: &network.Branch{Length: 8, Bore: 0.25, WaveSpeed: 1000, FrictionFactor: 0.02}}},
		Pipes: []network.Pipe{flatPipe("upper", "lake", "suction", 600, 0.5, 1000, 0.018), flatPipe("lower", "discharge", "works", 1000, 0.5, 1000, 0.018)}}
	disc := func(size float64) valve.Valve {
		v, err := catalogue.Complete(valve.Spec{Name: "disc", Type: "swing", Size: size}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
		require.NoError(t, err)
		return v
	}
	p := Problem{Network: n, Valves: []valve.Valve{disc(0.25)}, Until: 90, Events: []network.Event{{Kind: network.Trip, Target: "boost", Units: 2, Time: 1}}}
	if bypass {
		n.CheckValves = []network.CheckValve{{Name: "bypass", From: "suction", To: "discharge", Elevation: 5}}
		p.Valves = append(p.Valves, disc(0.4))
	}
	return p
}

// A check valve in a bypass round a booster opens when a trip of all pumps lets the head behind them fall below that before them: the fall is shared by the
// lines on both sides, so that the least head is higher, and liquid goes on flowing past the pumps.
func TestBypassOfABooster(t *testing.T) {
	least := func(r *Result, node string) float64 {
		low := math.Inf(1)
		for _, n := range r.Nodes {
			if n.Name == node {
				for _, h := range n.Head {
					low = math.Min(low, h)
				}
			}
		}
		return low
	}
	without, err := Solve(context.Background(), booster(t, false), Settings{ReachesAtValve: 2})
	require.NoError(t, err)
	with, err := Solve(context.Background(), booster(t, true), Settings{ReachesAtValve: 2})
	require.NoError(t, err)
	require.InEpsilon(t, without.Steady.Units[0].Flow, with.Steady.Units[0].Flow, 1e-9, "the bypass is shut while the pumps run")
	require.True(t, with.Steady.Units[2].Shut)
	require.Greater(t, least(with, "discharge"), least(without, "discharge")+3)
	u, last := with.Units[2], len(with.Time)-1
	require.Zero(t, u.Opening[0])
	require.Greater(t, u.Flow[last], 3*with.Units[0].Flow[last], "most of the flow goes past the pumps at rest")

	// In the end the lake feeds the works through the bypass: with the loss of the disc as it hangs, and next to nothing through the pumps.
	through := with.Units[0].Flow[last] + with.Units[1].Flow[last] + u.Flow[last]
	want := root(0, 1, func(q float64) float64 {
		return 4 - lossOf(0.018*1600/0.5, q, 0.5) - u.Drop[last]/(testFluid().Density*network.Gravity)
	})
	require.InEpsilon(t, want, through, 0.02)
	require.Less(t, without.Units[0].Flow[last]+without.Units[1].Flow[last], through)
}
