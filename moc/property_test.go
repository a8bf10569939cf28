package moc

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/valve"
)

const propertyStep = 0.01 // s

// randomNetwork draws a tree of pipes below a reservoir, with dead ends, demands and moving throttling valves, and with loops when asked.
// Every pipe is a whole number of reaches.
func randomNetwork(t *rapid.T, loops bool, friction float64) *network.Network {
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "n0", Level: rapid.Float64Range(20, 100).Draw(t, "level")}, {Name: "sink", Level: 0}}}
	node := func(i int) string { return fmt.Sprintf("n%d", i) }
	pipe := func(from, to int) {
		a := rapid.Float64Range(300, 1300).Draw(t, "wave speed")
		reaches := rapid.IntRange(2, 8).Draw(t, "reaches")
		n.Pipes = append(n.Pipes, flatPipe(fmt.Sprintf("p%d", len(n.Pipes)), node(from), node(to), a*propertyStep*float64(reaches),
			rapid.Float64Range(0.05, 0.6).Draw(t, "bore"), a, friction))
	}
	nodes := rapid.IntRange(1, 6).Draw(t, "nodes")
	ends := make([]int, nodes+1)
	for i := 1; i <= nodes; i++ {
		parent := rapid.IntRange(0, i-1).Draw(t, "parent")
		pipe(parent, i)
		ends[parent]++
		ends[i]++
	}
	if loops && nodes > 1 {
		for range rapid.IntRange(1, 3).Draw(t, "loops") {
			from := rapid.IntRange(0, nodes-1).Draw(t, "loop from")
			to := rapid.IntRange(from+1, nodes).Draw(t, "loop to")
			pipe(from, to)
			ends[from]++
			ends[to]++
		}
	}
	for i := 1; i <= nodes; i++ {
		kind := rapid.SampledFrom([]string{"none", "demand", "gate"}).Draw(t, "outlet")
		switch {
		case i == nodes || kind == "gate":
			gate := network.Throttle{Name: fmt.Sprintf("g%d", i), From: node(i), To: "sink", Bore: 0.1, Loss: rapid.Float64Range(20, 5000).Draw(t, "loss")}
			for k, at := 0, 0.0; k < 4; k++ {
				gate.Schedule = append(gate.Schedule, network.Opening{Time: at, Fraction: rapid.SampledFrom([]float64{1, 0.6, 0.2, 0}).Draw(t, "area")})
				at += rapid.SampledFrom([]float64{0, 0.013, 0.1, 0.3}).Draw(t, "wait")
			}
			gate.Schedule[0].Fraction = 1
			n.Throttles = append(n.Throttles, gate)
		case kind == "demand":
			n.Demands = append(n.Demands, network.Demand{Node: node(i), Flow: rapid.Float64Range(0, 0.002).Draw(t, "demand")})
		case ends[i] == 1:
			n.DeadEnds = append(n.DeadEnds, node(i))
		}
	}
	return n
}

func propertySettings() Settings {
	return Settings{Step: propertyStep, ReachesInLongest: 1, ReachesAtValve: 2, Liquid: true}
}

func solveRandom(t *rapid.T, n *network.Network, valves ...valve.Valve) *Result {
	r, err := Solve(context.Background(), Problem{Network: n, Valves: valves, Until: 1.5}, propertySettings())
	require.NoError(t, err)
	return r
}

// TestVolumeBalance: what flows in is stored, to 1e-9 of the volume passed, in trees and in networks with loops.
func TestVolumeBalance(t *testing.T) {
	for _, c := range []struct {
		name     string
		loops    bool
		friction float64
	}{{"tree without friction", false, 0}, {"tree", false, 0.02}, {"loops", true, 0.02}} {
		t.Run(c.name, rapid.MakeCheck(func(t *rapid.T) {
			r := solveRandom(t, randomNetwork(t, c.loops, c.friction))
			require.Less(t, r.Numerics.VolumeResidual, 1e-9)
		}))
	}
}

// TestVolumeBalanceWithCavities: the same where the liquid column parts.
func TestVolumeBalanceWithCavities(t *testing.T) {
	parted := map[Cavities]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
			Reservoirs: []network.Reservoir{{Name: "up", Level: rapid.Float64Range(5, 40).Draw(t, "level")}, {Name: "down", Level: -5}},
			Pipes: []network.Pipe{
				flatPipe("line", "up", "middle", 1000*propertyStep*float64(rapid.IntRange(2, 12).Draw(t, "reaches")), 0.2, 1000, 0.02),
				flatPipe("rest", "middle", "end", 1000*propertyStep*float64(rapid.IntRange(2, 12).Draw(t, "more reaches")), rapid.Float64Range(0.15, 0.3).Draw(t, "bore"), 1000, 0.02)},
			Throttles: []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.2, Loss: rapid.Float64Range(20, 1000).Draw(t, "loss"),
				Schedule: []network.Opening{{Fraction: 1}, {Time: rapid.Float64Range(0, 0.2).Draw(t, "closure"), Fraction: 0}}}}}
		s := propertySettings()
		s.Liquid, s.Cavities = false, rapid.SampledFrom(CavityForms()).Draw(t, "cavities")
		r, err := Solve(context.Background(), Problem{Network: n, Until: 1.5}, s)
		require.NoError(t, err)
		require.Less(t, r.Numerics.VolumeResidual, 1e-9)
		if r.Numerics.CavityFrom >= 0 {
			parted[s.Cavities]++
		}
	})
	if !testing.Short() { // which draws too few to be sure of one
		require.Len(t, parted, 2)
	}
}

// propertyValve is a small disc on a spring.
func propertyValve(t *rapid.T) valve.Valve {
	const bore, travel = 0.2, 0.03
	area := math.Pi / 4 * bore * bore
	law := &valve.Law{
		Travel: travel, Inertia: rapid.Float64Range(0.5, 20).Draw(t, "mass"), Area: 0.7 * area, Arm: 1, Density: testFluid().Density,
		Conductance: valve.NewCurtain(2, 0.65, 4/bore, travel), Load: valve.Constant(1), Sweep: valve.Constant(0.7), Weight: valve.Constant(0),
		Preload: rapid.Float64Range(5, 80).Draw(t, "preload"), SpringRate: rapid.Float64Range(0, 3000).Draw(t, "rate"),
		Restitution: rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "restitution"),
	}
	require.NoError(t, law.Check())
	return valve.Valve{Name: "disc", Bore: bore, Density: law.Density, Motion: law, Travel: travel, FullOpenVelocity: law.FullOpenVelocity()}
}

// propertyLine is reservoir, check valve, pipe, reservoir; the upstream head falls and comes back.
func propertyLine(t *rapid.T) *network.Network {
	top := rapid.Float64Range(0.5, 5).Draw(t, "head before")
	low := rapid.Float64Range(-30, 0.2).Draw(t, "head after")
	fall := rapid.Float64Range(0, 0.4).Draw(t, "fall")
	return &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{
			{Name: "up", Level: 100 + top, Levels: []network.Level{{Head: 100 + top}, {Time: fall, Head: 100 + low}, {Time: 1, Head: 100 + low}, {Time: 1.1, Head: 100 + top}}},
			{Name: "down", Level: 100}},
		CheckValves: []network.CheckValve{{Name: "check-valve", From: "up", To: "outlet"}},
		Pipes:       []network.Pipe{flatPipe("line", "outlet", "down", 1000*propertyStep*float64(rapid.IntRange(2, 12).Draw(t, "reaches")), 0.2, 1000, 0.02)}}
}

// TestSeatedValveIsTight: nothing flows through a disc on its seat.
func TestSeatedValveIsTight(t *testing.T) {
	seated := 0
	rapid.Check(t, func(t *rapid.T) {
		r := solveRandom(t, propertyLine(t), propertyValve(t))
		u := r.Units[0]
		for i, y := range u.Opening {
			if y == 0 {
				require.InDelta(t, 0, u.Flow[i], 1e-12)
			}
		}
		seated += len(u.Seatings)
	})
	if !testing.Short() { // which draws too few to be sure of one
		require.Positive(t, seated)
	}
}

// TestEnergyStays: once every outlet is shut, kinetic and strain energy of a frictionless network below one reservoir stay. With H' the head
// above the reservoir's,
//
//	E = rho g/2 dt sum(H'^2/B + B Q^2)      trapezoidal over the nodes of every pipe
//
// which is exact at Courant number 1.
func TestEnergyStays(t *testing.T) {
	energy := func(r *run, h0 float64) float64 {
		e := 0.0
		for _, l := range r.lines {
			for i := range l.N + 1 {
				w := 1.0
				if i == 0 || i == l.N {
					w = 0.5
				}
				h, q := l.Head(i)-h0, l.Flow(i)
				e += w * l.Dt * (h*h/l.B + l.B*q*q)
			}
		}
		return e
	}
	rapid.Check(t, func(t *rapid.T) {
		n := randomNetwork(t, false, 0)
		n.Demands = nil
		for i := range n.Throttles {
			n.Throttles[i].Schedule = []network.Opening{{Fraction: 1}, {Time: rapid.Float64Range(0, 0.3).Draw(t, "closure"), Fraction: 0}}
		}
		m, err := compile(Problem{Network: n})
		require.NoError(t, err)
		st, err := m.steady(false)
		require.NoError(t, err)
		st.freeze()
		g, err := m.grid(propertySettings(), 1)
		require.NoError(t, err)
		r := start(m, st, g, 1, propertySettings())
		first := 0.0
		for k := range 150 {
			require.NoError(t, r.advance())
			switch now := energy(r, n.Reservoirs[0].Level); {
			case float64(k)*propertyStep < 0.31:
			case first == 0:
				first = now
			default:
				require.InEpsilon(t, first+1e-9, now+1e-9, 1e-10)
			}
		}
	})
}

// TestMirror: with the ends of every pipe and throttling valve exchanged the heads are the same.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := randomNetwork(t, true, 0.02)
		mirrored := *n
		mirrored.Pipes, mirrored.Throttles = slices.Clone(n.Pipes), slices.Clone(n.Throttles)
		for i := range mirrored.Pipes {
			p := &mirrored.Pipes[i]
			p.From, p.To = p.To, p.From
		}
		for i := range mirrored.Throttles {
			g := &mirrored.Throttles[i]
			g.From, g.To = g.To, g.From
		}
		a, b := solveRandom(t, n), solveRandom(t, &mirrored)
		require.Equal(t, a.Numerics.Step, b.Numerics.Step)
		for _, x := range a.Nodes {
			i := slices.IndexFunc(b.Nodes, func(y NodeTrace) bool { return y.Name == x.Name })
			require.InDeltaSlice(t, x.Head, b.Nodes[i].Head, 1e-6, x.Name)
		}
		for i, p := range a.Steady.Pipes {
			require.InDelta(t, p.Flow, -b.Steady.Pipes[i].Flow, 1e-9)
		}
	})
}

// TestDeterminism: the same problem gives the same bits.
func TestDeterminism(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := randomNetwork(t, true, 0.02)
		require.Equal(t, solveRandom(t, n), solveRandom(t, n))
		line, disc := propertyLine(t), propertyValve(t)
		require.Equal(t, solveRandom(t, line, disc), solveRandom(t, line, disc))
	})
}
