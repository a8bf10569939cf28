package moc

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve"
)

// known is a random network built from its solution: heads first, then flows, then the friction factors that make them true.
func known(seed uint64) (n *network.Network, heads map[string]float64, flows map[string]float64) {
	r := rand.New(rand.NewPCG(seed, 1))
	size := 3 + r.IntN(12)
	heads, flows = map[string]float64{}, map[string]float64{}
	n = &network.Network{Fluid: testFluid(), Atmosphere: 101325}
	name := func(i int) string { return fmt.Sprintf("n%d", i) }
	for i := range size {
		heads[name(i)] = 20 + 80*r.Float64()
	}
	out := map[string]float64{}
	add := func(i, j int) {
		if i == j {
			return
		}
		bore := 0.1 + 0.6*r.Float64()
		area := math.Pi / 4 * bore * bore
		a, b := name(i), name(j)
		dh := heads[a] - heads[b]
		q := math.Copysign(area*(0.3+2*r.Float64()), dh)
		length := 50 + 900*r.Float64()
		f := math.Abs(dh) / (q * q) * 2 * network.Gravity * area * area * bore / length
		p := flatPipe(fmt.Sprintf("p%d", len(n.Pipes)), a, b, length, bore, 1000, f)
		n.Pipes = append(n.Pipes, p)
		flows[p.Name] = q
		out[a] -= q
		out[b] += q
	}
	for i := 1; i < size; i++ { // a tree, then loops
		add(i, r.IntN(i))
	}
	for range r.IntN(size) {
		add(r.IntN(size), r.IntN(size))
	}
	fixed := 1 + r.IntN(2)
	for i := range size {
		if i < fixed {
			n.Reservoirs = append(n.Reservoirs, network.Reservoir{Name: name(i), Level: heads[name(i)]})
			continue
		}
		n.Demands = append(n.Demands, network.Demand{Node: name(i), Flow: out[name(i)]})
	}
	return n, heads, flows
}

func TestSteadyOfKnownNetworks(t *testing.T) {
	failed := 0
	for seed := range uint64(1000) {
		n, heads, flows := known(seed)
		s, err := SteadyState(Problem{Network: n})
		if err != nil {
			failed++
			t.Logf("seed %d: %v", seed, err)
			continue
		}
		for _, k := range s.Nodes {
			require.InDelta(t, heads[k.Name], k.Head, 1e-6, "seed %d", seed)
		}
		for _, p := range s.Pipes {
			require.InDelta(t, flows[p.Name], p.Flow, 1e-8, "seed %d", seed)
		}
	}
	require.LessOrEqual(t, failed, 5, "of 1000 networks")
}

// A station lifting into a loop of pipes: continuity and the loop's head losses close.
func TestSteadyStationWithLoop(t *testing.T) {
	n := liftStation(t, 0)
	twin := n.Pipes[0]
	twin.Name, twin.Bore = "twin", 0.4
	n.Pipes = append(n.Pipes, twin)
	s, err := SteadyState(tripOne(t, n, "swing", 1))
	require.NoError(t, err)
	var total, up float64
	loss := map[string]float64{}
	for _, p := range s.Pipes {
		if p.Name == "rising-main" || p.Name == "twin" {
			total += p.Flow
		} else {
			up += p.Flow
		}
		loss[p.Name] = p.HeadLoss
	}
	require.InDelta(t, up, total, 1e-12)
	require.InDelta(t, loss["rising-main"], loss["twin"], 1e-9)
	for _, u := range s.Units {
		require.InDelta(t, 1, u.Opening, 1e-12)
		require.Greater(t, u.Efficiency, 0.7)
	}
}

func TestNoSteadyState(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*network.Network, *Problem)
		want   string
	}{
		{"lift too high", func(n *network.Network, _ *Problem) { n.Reservoirs[1].Level = 170 }, "lift delivers nothing: the lift is too high, its shut-off head of 66.00 m"},
		{"nothing fixes a head", func(n *network.Network, p *Problem) {
			n.Reservoirs = nil
		}, "no reservoir fixes a head"},
		{"disc cannot open", func(n *network.Network, p *Problem) {
			p.Valves[0].Motion.(*valve.Law).Preload *= 400
		}, "cannot open"},
		{"too many trips", func(_ *network.Network, p *Problem) { p.Events[0].Units = 4 }, "is for more units of lift than run"},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := liftStation(t, 0)
			p := tripOne(t, n, "axial spring", 1)
			c.change(n, &p)
			_, err := SteadyState(p)
			require.ErrorContains(t, err, c.want)
		})
	}
}
