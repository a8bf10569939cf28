package moc

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/pipe"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// branching is a sound installation, another for each seed: a station lifts from a sump into a main of random pipes on which demands hang, and a tower
// stands at its end.
type branching struct {
	*rand.Rand
	Problem
	main []string // nodes from the station to the tower
	side []string // ends of branches, with a demand each
}

const sumpLevel = 10.0

func branchingOf(t *testing.T, seed uint64) *branching {
	b := &branching{Rand: rand.New(rand.NewPCG(seed, 42))}
	steel, _ := pipe.Lookup("carbon steel")
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325}
	b.Network = n
	between := func(low, high float64) float64 { return low + (high-low)*b.Float64() }
	line := func(from, to string, bore float64) {
		a := pipe.WaveSpeed(n.Fluid, bore, 0.008, steel, pipe.AnchoredThroughout, pipe.GasContent{})
		n.Pipes = append(n.Pipes, flatPipe(fmt.Sprintf("p%d", len(n.Pipes)), from, to, between(50, 600), bore, a, between(0.012, 0.03)))
	}
	b.main = []string{"header"}
	for range 2 + b.IntN(4) {
		node := fmt.Sprintf("m%d", len(b.main))
		line(b.main[len(b.main)-1], node, between(0.3, 0.5))
		b.main = append(b.main, node)
	}
	line(b.main[len(b.main)-1], "tower", between(0.3, 0.5))
	for i := range 1 + b.IntN(3) {
		end := fmt.Sprintf("d%d", i)
		line(b.pick(b.main), end, between(0.2, 0.3))
		b.side = append(b.side, end)
		n.Demands = append(n.Demands, network.Demand{Node: end, Flow: between(0.002, 0.01)})
	}
	n.Reservoirs = []network.Reservoir{{Name: "sump", Level: sumpLevel}, {Name: "tower", Level: sumpLevel + between(25, 38)}}
	lift := liftStation(t, 2).Stations[0]
	lift.Elevation, lift.Units = 0, 1+b.IntN(3)
	lift.CheckValve = "swing"
	n.Stations = []network.Station{lift}
	v, err := catalogue.Complete(valve.Spec{Name: "swing", Type: "swing", Size: 0.25}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
	require.NoError(t, err)
	b.Valves = []valve.Valve{v}
	return b
}

func (b *branching) pick(names []string) string { return names[b.IntN(len(names))] }

// head is the steady head at a node while the installation is sound, m.
func (b *branching) head(t *testing.T, node string) float64 {
	s, err := SteadyState(b.Problem)
	require.NoError(t, err)
	for _, n := range s.Nodes {
		if n.Name == node {
			return n.Head
		}
	}
	panic("no such node")
}

// hang puts a new node with a demand behind whatever join makes between it and the network.
func (b *branching) hang(join func(from, to string)) string {
	join(b.pick(b.main), "far")
	b.Network.Pipes = append(b.Network.Pipes, flatPipe("spur", "far", "farther", 100, 0.2, 1000, 0.02))
	b.Network.Demands = append(b.Network.Demands, network.Demand{Node: "farther", Flow: 0.004})
	return "nothing feeds the demand of 14.4 m3/h at node farther"
}

func (b *branching) devices(d ...network.Device) { b.Network.Devices = append(b.Network.Devices, d...) }

// flaws make a sound installation impossible; each returns what the message must name.
var flaws = []struct {
	name string
	flaw func(t *testing.T, b *branching) []string
}{
	{"no head is fixed", func(_ *testing.T, b *branching) []string {
		n := b.Network
		n.Reservoirs, n.Stations, b.Valves = nil, nil, nil
		return []string{"no reservoir fixes a head"}
	}},
	{"a part stands alone", func(_ *testing.T, b *branching) []string {
		b.Network.Pipes = append(b.Network.Pipes, flatPipe("island", "i1", "i2", 100, 0.2, 1000, 0.02))
		b.Network.DeadEnds = append(b.Network.DeadEnds, "i1", "i2")
		return []string{"nothing fixes the head at nodes i1 and i2", "no reservoir is joined to it"}
	}},
	{"the lift is too high", func(_ *testing.T, b *branching) []string {
		n := b.Network
		n.Reservoirs[1].Level = sumpLevel + 67 + 30*b.Float64() // the pumps shut off at 66 m
		return []string{"lift delivers nothing", "the lift is too high", "66.00 m"}
	}},
	{"a check valve looks the wrong way", func(_ *testing.T, b *branching) []string {
		far := b.hang(func(from, to string) {
			b.Network.CheckValves = append(b.Network.CheckValves, network.CheckValve{Name: "backwards", From: to, To: from})
			b.Valves = append(b.Valves, b.Valves[0])
		})
		return []string{far, "check valve backwards lets nothing flow back"}
	}},
	{"a shut valve cuts off a demand", func(_ *testing.T, b *branching) []string {
		far := b.hang(func(from, to string) {
			b.Network.Throttles = append(b.Network.Throttles, network.Throttle{Name: "gate", From: from, To: to, Bore: 0.2, Loss: 5, Schedule: []network.Opening{{Fraction: 0}}})
		})
		return []string{far, "valve gate is shut"}
	}},
	{"standing pumps cut off a demand", func(t *testing.T, b *branching) []string {
		far := b.hang(func(from, to string) {
			booster := b.Network.Stations[0]
			booster.Name, booster.From, booster.To, booster.Stopped, booster.Branch = "booster", from, to, booster.Units, nil
			b.Network.Stations = append(b.Network.Stations, booster)
			b.Valves = append(b.Valves, b.Valves[0])
		})
		return []string{far, "the units of booster stand"}
	}},
	{"two levels without a loss between them", func(_ *testing.T, b *branching) []string {
		b.Network.Reservoirs = append(b.Network.Reservoirs, network.Reservoir{Name: "lake", Level: 20 + 5*b.Float64()})
		b.Network.Throttles = append(b.Network.Throttles, network.Throttle{Name: "sluice", From: "lake", To: "tower", Bore: 0.5})
		return []string{"nothing between lake", "and tower", "takes any head but sluice, which has no loss"}
	}},
	{"the disc cannot open", func(t *testing.T, b *branching) []string {
		v, err := catalogue.Complete(valve.Spec{Name: "stiff", Type: "axial spring", Size: 0.25}, catalogue.Setting{Density: b.Network.Fluid.Density, Gravity: network.Gravity})
		require.NoError(t, err)
		v.Motion.(*valve.Law).Preload *= 300 + 300*b.Float64()
		b.Valves[0] = v
		return []string{"the disc of lift cannot open"}
	}},
	{"a summit above the gradient line", func(t *testing.T, b *branching) []string {
		p := &b.Network.Pipes[b.IntN(len(b.main))]
		mid := p.Length() * (0.2 + 0.6*b.Float64())
		top := b.head(t, p.From) + 12 + 10*b.Float64()
		p.Profile = []network.Point{{}, {Chainage: mid, Elevation: top}, p.Profile[1]}
		return []string{"below vapour pressure in " + p.Name, "chainage"}
	}},
	{"pumps too high above what they draw from", func(_ *testing.T, b *branching) []string {
		b.Network.Stations[0].Elevation = sumpLevel + 11 + 5*b.Float64()
		return []string{"below vapour pressure before the pumps of lift"}
	}},
	{"a relief valve set below the working pressure", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		b.devices(&network.ReliefValve{Name: "relief", Node: node, Set: 9800 * (0.3 + 0.6*b.Float64()) * b.head(t, node), Area: 1e-3, Coefficient: 0.62})
		return []string{"relief: in steady flow the pressure at the valve is", "at which it opens"}
	}},
	{"a rupture disc that bursts below it", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		b.devices(&network.RuptureDisc{Name: "disc", Node: node, Burst: 9800 * (0.3 + 0.6*b.Float64()) * b.head(t, node), Area: 1e-3, Coefficient: 0.62})
		return []string{"disc: in steady flow the pressure at the disc is", "at which it bursts"}
	}},
	{"an air valve above the gradient line", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		b.devices(&network.AirValve{Name: "vent", Node: node, Elevation: b.head(t, node) + 1 + b.Float64(), In: 1e-2, Out: 1e-3,
			CoefficientIn: 0.6, CoefficientOut: 0.6, Polytropic: 1, Temperature: 288})
		return []string{"vent: the head in steady flow", "is below the valve"}
	}},
	{"a surge tank that spills", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		b.devices(&network.SurgeTank{Name: "standpipe", Node: node, Area: 5, Bore: 0.3, Bottom: -10, Overflow: b.head(t, node) - 0.5 - b.Float64()})
		return []string{"standpipe: the head in steady flow", "the tank spills all the time"}
	}},
	{"a surge tank that stands empty", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		h := b.head(t, node)
		b.devices(&network.SurgeTank{Name: "standpipe", Node: node, Area: 5, Bore: 0.3, Bottom: h + 0.5 + b.Float64(), Overflow: h + 20})
		return []string{"standpipe: the head in steady flow", "the tank is empty"}
	}},
	{"a one-way tank above the gradient line", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		h := b.head(t, node)
		b.devices(&network.OneWayTank{Name: "feed", Node: node, Area: 5, Bore: 0.3, LossOut: 2.5, Bottom: h - 3, Level: h + 0.5 + b.Float64()})
		return []string{"feed: the head in steady flow", "feeds the line all the time"}
	}},
	{"a vessel above what its gas can do", func(t *testing.T, b *branching) []string {
		node := b.pick(b.main)
		b.devices(&network.AirVessel{Name: "vessel", Node: node, Volume: 5, Gas: 2, Polytropic: 1.2, Bore: 0.2, Level: b.head(t, node) + 11 + b.Float64()})
		return []string{"vessel: the head in steady flow", "the gas would have", "bar abs"}
	}},
}

// TestUnsolvable: more than a hundred installations that work until one flaw is put into them. Each is refused, with the class of the refusal and the element at
// fault in its words. What can be seen without solving anything is a fault of the data too.
func TestUnsolvable(t *testing.T) {
	const seeds = 6
	seen := []string{"no head is fixed", "a part stands alone", "two levels without a loss between them"}
	require.GreaterOrEqual(t, seeds*len(flaws), 100)
	for k, c := range flaws {
		t.Run(c.name, func(t *testing.T) {
			for seed := range uint64(seeds) {
				b := branchingOf(t, 100*uint64(k)+seed)
				_, err := SteadyState(b.Problem)
				require.NoError(t, err, "seed %d, sound", seed)
				require.Empty(t, faults(b.Network), "seed %d, sound", seed)
				named := c.flaw(t, b)
				_, err = SteadyState(b.Problem)
				require.ErrorIs(t, err, ErrNoSteady, "seed %d", seed)
				var reason *ReasonError
				require.ErrorAs(t, err, &reason)
				require.NotEmpty(t, reason.Hint)
				for _, want := range named {
					require.ErrorContains(t, err, want, "seed %d", seed)
				}
				require.Equal(t, slices.Contains(seen, c.name), len(faults(b.Network)) > 0, "seed %d: %v", seed, faults(b.Network))
			}
		})
	}
}

// faults are the findings that are no mere warnings.
func faults(n *network.Network) []network.Finding {
	return slices.DeleteFunc(n.Validate(), func(f network.Finding) bool { return f.Warning })
}
