package moc

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// anything is a network of up to five nodes with anything between and at them, sensible or not.
type anything struct {
	*rapid.T
	Problem
	station network.Station
	ends    map[string]int // of links at a node
	names   int
}

// wide is a number of any size between two.
func (a *anything) wide(what string, low, high float64) float64 {
	return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(a.T, what))
}

func (a *anything) level(what string) float64 { return rapid.Float64Range(-5, 60).Draw(a.T, what) }

func (a *anything) name() string {
	a.names++
	return fmt.Sprintf("x%d", a.names)
}

func (a *anything) area(what string) float64 {
	return rapid.SampledFrom([]float64{1, 1, 0.5, 0}).Draw(a.T, what)
}

// join puts something between two nodes.
func (a *anything) join(from, to string) {
	t, n, name := a.T, a.Network, a.name()
	a.ends[from]++
	a.ends[to]++
	switch rapid.SampledFrom([]string{"pipe", "pipe", "pipe", "station", "gate", "check valve", "plate"}).Draw(t, "between") {
	case "pipe":
		p := flatPipe(name, from, to, a.wide("length", 1, 2000), a.wide("bore", 0.02, 2), a.wide("wave speed", 100, 1500), 0)
		p.FrictionFactor, p.Roughness = rapid.SampledFrom([]float64{0, 0.001, 0.02, 0.5}).Draw(t, "friction"), 1e-5
		p.Profile[0].Elevation, p.Profile[1].Elevation = a.level("elevation"), a.level("elevation")
		n.Pipes = append(n.Pipes, p)
	case "station":
		s := a.station
		s.Column.Length = rapid.SampledFrom([]float64{0, 2}).Draw(t, "column")
		s.Name, s.From, s.To, s.Elevation = name, from, to, a.level("elevation")
		s.Pump.Flow, s.Pump.Head = a.wide("flow", 0.01, 1), a.wide("pump head", 5, 100)
		s.Pump.Curve = nil
		s.Units = rapid.IntRange(1, 2).Draw(t, "units")
		s.Stopped = rapid.IntRange(0, s.Units).Draw(t, "stopped")
		if rapid.Bool().Draw(t, "no branch") {
			s.Branch = nil
		}
		n.Stations = append(n.Stations, s)
	case "gate":
		n.Throttles = append(n.Throttles, network.Throttle{Name: name, From: from, To: to, Bore: a.wide("bore", 0.02, 1), Elevation: a.level("elevation"),
			Loss: rapid.SampledFrom([]float64{0, 1, 1e4}).Draw(t, "loss"), Schedule: []network.Opening{{Fraction: a.area("area")}, {Time: 0.1, Fraction: a.area("later area")}}})
	case "check valve":
		n.CheckValves = append(n.CheckValves, network.CheckValve{Name: name, From: from, To: to, Elevation: a.level("elevation")})
	case "plate":
		n.Devices = append(n.Devices, &network.Orifice{Name: name, From: from, To: to, PipeBore: 0.3, Bore: 0.15})
	}
}

// tap puts something at a node.
func (a *anything) tap(node string) {
	t, n, name := a.T, a.Network, a.name()
	switch rapid.SampledFrom([]string{"vessel", "tank", "one-way", "relief", "disc", "vent", "outlet"}).Draw(t, "at") {
	case "vessel":
		n.Devices = append(n.Devices, &network.AirVessel{Name: name, Node: node, Level: a.level("level"), Volume: 10, Gas: a.wide("gas", 1e-3, 9), Polytropic: 1.2, Bore: 0.2, LossIn: 1, LossOut: 0.5})
	case "tank":
		z := a.level("floor")
		n.Devices = append(n.Devices, &network.SurgeTank{Name: name, Node: node, Area: a.wide("area", 0.1, 100), Bottom: z, Overflow: z + a.wide("depth", 0.1, 100), Bore: 0.2, LossIn: 1, LossOut: 0.5})
	case "one-way":
		z := a.level("floor")
		n.Devices = append(n.Devices, &network.OneWayTank{Name: name, Node: node, Area: a.wide("area", 0.1, 100), Bottom: z, Level: z + a.wide("depth", 0.1, 10), Bore: 0.2, LossOut: 2.5})
	case "relief":
		n.Devices = append(n.Devices, &network.ReliefValve{Name: name, Node: node, Elevation: a.level("elevation"), Set: a.wide("set", 1e4, 3e6), Area: 1e-3, Coefficient: 0.62})
	case "disc":
		n.Devices = append(n.Devices, &network.RuptureDisc{Name: name, Node: node, Elevation: a.level("elevation"), Burst: a.wide("burst", 1e4, 3e6), Area: 1e-3, Coefficient: 0.62})
	case "vent":
		n.Devices = append(n.Devices, &network.AirValve{Name: name, Node: node, Elevation: a.level("elevation"), In: 1e-3, Out: 1e-4, CoefficientIn: 0.6, CoefficientOut: 0.6, Polytropic: 1, Temperature: 288})
	case "outlet":
		n.Devices = append(n.Devices, &network.Outlet{Name: name, Node: node, Elevation: a.level("elevation"), Flow: a.wide("outflow", 1e-4, 1), Pressure: a.wide("pressure", 1e3, 1e6),
			Sustained: rapid.SampledFrom([]float64{0, 2e5}).Draw(t, "sustained")})
	}
}

// anyNetwork draws a problem; ok tells that nothing is wrong with its data. Every node hangs together with the first, which is a reservoir.
func anyNetwork(t *rapid.T, station network.Station) (p Problem, ok bool) {
	a := &anything{T: t, ends: map[string]int{}, station: station}
	a.Network = &network.Network{Fluid: testFluid(), Atmosphere: 101325}
	n := a.Network
	node := func(i int) string { return fmt.Sprintf("n%d", i) }
	nodes := rapid.IntRange(2, 5).Draw(t, "nodes")
	for i := 1; i < nodes; i++ {
		ends := []string{node(rapid.IntRange(0, i-1).Draw(t, "other end")), node(i)}
		if rapid.Bool().Draw(t, "the other way") {
			slices.Reverse(ends)
		}
		a.join(ends[0], ends[1])
	}
	for range rapid.IntRange(0, 2).Draw(t, "more links") {
		from := rapid.IntRange(0, nodes-1).Draw(t, "from")
		a.join(node(from), node((from+rapid.IntRange(1, nodes-1).Draw(t, "to"))%nodes))
	}
	for range rapid.IntRange(0, 2).Draw(t, "taps") {
		node := node(rapid.IntRange(1, nodes-1).Draw(t, "tapped"))
		a.ends[node]++
		a.tap(node)
	}
	n.Reservoirs = []network.Reservoir{{Name: node(0), Level: a.level("level")}}
	for i := 1; i < nodes; i++ {
		switch rapid.SampledFrom([]string{"", "", "reservoir", "demand"}).Draw(t, "what it is") {
		case "reservoir":
			n.Reservoirs = append(n.Reservoirs, network.Reservoir{Name: node(i), Level: a.level("level")})
		case "demand":
			n.Demands = append(n.Demands, network.Demand{Node: node(i), Flow: rapid.Float64Range(-0.05, 0.2).Draw(t, "demand")})
		default:
			if a.ends[node(i)] == 1 {
				n.DeadEnds = append(n.DeadEnds, node(i))
			}
		}
	}
	if len(faults(n)) > 0 {
		return a.Problem, false
	}
	v, err := catalogue.Complete(valve.Spec{Name: "v", Type: rapid.SampledFrom([]string{"swing", "axial spring", "ideal"}).Draw(t, "valve"), Size: 0.25}, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
	require.NoError(t, err)
	for range len(n.Stations) + len(n.CheckValves) {
		a.Valves = append(a.Valves, v)
	}
	for _, s := range n.Stations {
		if s.Stopped < s.Units {
			a.Events = append(a.Events, network.Event{Kind: network.Trip, Target: s.Name, Units: s.Units - s.Stopped, Time: 0.05})
		}
	}
	a.Until = 0.3
	return a.Problem, true
}

// answered holds that a problem has a finite answer or one of the named refusals, soon.
func answered(t *rapid.T, p Problem, s Settings) error {
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	r, err := Solve(ctx, p, s)
	if err != nil {
		require.True(t, slices.ContainsFunc([]error{ErrNoSteady, ErrGrid, ErrConvergence, ErrAudit}, func(class error) bool { return errors.Is(err, class) }), "%v", err)
		require.NotContains(t, err.Error(), "NaN")
		return err
	}
	finite := func(x []float64) {
		require.False(t, slices.ContainsFunc(x, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }))
	}
	for _, n := range r.Nodes {
		finite(n.Head)
	}
	for _, u := range r.Units {
		finite(u.Flow)
		finite(u.Opening)
	}
	for _, q := range r.Pipes {
		finite(q.Max)
		finite(q.Min)
	}
	return nil
}

const anyCost = 3e6 // node updates, of the runs that are tried

// TestAnyNetwork: whatever is joined, a network with sound data has an answer or is refused, in a bounded time.
func TestAnyNetwork(t *testing.T) {
	count := map[string]int{}
	station := liftStation(t, 2).Stations[0]
	rapid.Check(t, func(t *rapid.T) {
		p, ok := anyNetwork(t, station)
		if !ok {
			count["faulty data"]++
			return
		}
		s := Settings{ReachesInLongest: 4, ReachesAtValve: 2}
		if n, err := Plan(p, s); err == nil && float64(n.Nodes)*p.Until/n.Step > anyCost {
			count["too long"]++
			return
		}
		err := answered(t, p, s)
		switch {
		case err == nil:
			count["answered"]++
		default:
			for _, class := range []error{ErrNoSteady, ErrGrid, ErrConvergence, ErrAudit} {
				if errors.Is(err, class) {
					count[class.Error()]++
				}
			}
		}
	})
	t.Log(count)
}
