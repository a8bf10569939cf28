package verify

import (
	"context"
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/valve"
)

const (
	frictionless = 1e-300 // Darcy factor
	negligible   = 1e-12  // loss coefficient of a meter
)

// rig is an installation under test.
type rig struct {
	network  network.Network
	valves   []valve.Valve
	events   []network.Event
	until    float64 // s
	settings moc.Settings
}

// newRig is an empty installation with a liquid of 998.2 kg/m3 that never boils, on a grid of whole reaches in its longest pipe.
func newRig(until float64, reaches int) *rig {
	return &rig{
		network:  network.Network{Fluid: liquid(998.2, 2.19e9), Atmosphere: 101325},
		until:    until,
		settings: moc.Settings{ReachesInLongest: reaches, ReachesAtValve: 2, Liquid: true},
	}
}

func liquid(density, bulk float64) fluid.Fluid {
	return fluid.Fluid{Name: "test liquid", Density: density, BulkModulus: bulk, Viscosity: 1.002e-3, VapourPressure: 2339}
}

func (r *rig) reservoir(name string, level float64) {
	r.network.Reservoirs = append(r.network.Reservoirs, network.Reservoir{Name: name, Level: level})
}

// falling is a reservoir whose head follows points of time and head.
func (r *rig) falling(name string, points ...network.Level) {
	r.network.Reservoirs = append(r.network.Reservoirs, network.Reservoir{Name: name, Level: points[0].Head, Levels: points})
}

// pipe is level, at height 0.
func (r *rig) pipe(from, to string, length, bore, a, friction float64) {
	r.network.Pipes = append(r.network.Pipes, network.Pipe{Name: from + "-" + to, From: from, To: to, Bore: bore, WaveSpeed: a,
		FrictionFactor: friction, Profile: []network.Point{{}, {Chainage: length}}})
}

// gate is a throttling valve that passes velocity v, m/s, on its bore under a head of drop, m, when fully open.
func (r *rig) gate(from, to string, bore, v, drop float64, schedule ...network.Opening) {
	loss := drop * 2 * r.network.G() / (v * v)
	r.network.Throttles = append(r.network.Throttles, network.Throttle{Name: "gate", From: from, To: to, Bore: bore, Loss: loss, Schedule: schedule})
}

// slammed is a gate that shuts at time 0.
func slammed() []network.Opening {
	return []network.Opening{{Time: 0, Fraction: 1}, {Time: 0, Fraction: 0}}
}

// opened is a gate whose loss vanishes at time 0: it sets the steady flow of a frictionless line and is then no more.
func opened() []network.Opening {
	return []network.Opening{{Time: 0, Fraction: 1}, {Time: 0, Fraction: 1e6}}
}

// valve is a check valve that stands alone.
func (r *rig) valve(name, from, to string, v valve.Valve) {
	r.network.CheckValves = append(r.network.CheckValves, network.CheckValve{Name: name, From: from, To: to})
	r.valves = append(r.valves, v)
}

// meter records the flow between two nodes.
func (r *rig) meter(from, to string, bore float64) {
	rho := r.network.Fluid.Density
	r.valve("meter", from, to, valve.Valve{Name: "meter", Bore: bore, Density: rho, Motion: &valve.Stuck{At: 1, Loss: negligible, Density: rho}, Travel: 1})
}

// trace is a run with its histories by name.
type trace struct{ *moc.Result }

func (r *rig) run(ctx context.Context) (trace, error) {
	res, err := moc.Solve(ctx, moc.Problem{Network: &r.network, Valves: r.valves, Events: r.events, Until: r.until}, r.settings)
	return trace{res}, err
}

// head is the history at a node, m.
func (t trace) head(node string) []float64 {
	for _, n := range t.Nodes {
		if n.Name == node {
			return n.Head
		}
	}
	panic("verify: no such node")
}

// velocity is the history at the first check valve or meter, m/s on its bore.
func (t trace) velocity() []float64 {
	u := t.Units[0]
	v := make([]float64, len(u.Flow))
	for i, q := range u.Flow {
		v[i] = q / area(u.Bore)
	}
	return v
}

// at is the value of a history at a time on the grid.
func (t trace) at(series []float64, time float64) float64 {
	return series[int(math.Round(time/t.Numerics.Step))]
}

// plateau is the value after time from up to time to that lies farthest from the one expected.
func (t trace) plateau(series []float64, from, to, expected float64) float64 {
	i, k := int(math.Round(from/t.Numerics.Step))+1, int(math.Round(to/t.Numerics.Step))
	worst := series[i]
	for _, x := range series[i : k+1] {
		if !(math.Abs(x-expected) <= math.Abs(worst-expected)) {
			worst = x
		}
	}
	return worst
}

// mean is the mean of a history over a window of whole steps centred on a time, linear between such centres. A value stands for the step
// that ends there, as waves have it.
func (t trace) mean(series []float64, centre, width float64) float64 {
	dt := t.Numerics.Step
	n := int(math.Round(width / dt))
	first := centre/dt - float64(n)/2
	i := int(math.Floor(first))
	window := func(i int) float64 {
		sum := 0.0
		for _, x := range series[i+1 : i+n+1] {
			sum += x
		}
		return sum / float64(n)
	}
	return window(i) + (first-float64(i))*(window(i+1)-window(i))
}

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }
