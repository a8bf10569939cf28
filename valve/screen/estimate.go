package screen

import (
	"fmt"
	"math"
	"slices"

	"seatwise/moc"
	"seatwise/network"
)

// Reversal is the estimate for the units of a station that trip together, as their flow turns back. Each valve is held open until then, and shut from then
// on. Decelerations and velocities are on the bore of the check valve.
type Reversal struct {
	Station    string
	Units      int // that trip together
	Others     int // of the same station that run on
	Bore       float64
	Velocity   float64 // before the trip, m/s
	Time       float64 // from the trip to zero velocity, s
	Tangent    float64 // deceleration at zero velocity, m/s2
	Bound      float64 // greatest deceleration in the last Window before it, m/s2: that by which valves are judged
	Window     float64 // s
	Header     float64 // H_header, piezometric head of the node that the station delivers to, m
	Before     float64 // the same in steady flow, m
	Highest    float64 // the greatest head there from the trip until the waves have come and gone twice with the valves shut, m: no slam is in it
	Pump       float64 // H_pump, of the node it draws from and what the rotor still lifts, m
	Column     float64 // L = A sum of L_i/A_i, of the liquid in pump, suction and branch, m; 0: none
	SpeedRatio float64 // of the pump to its rated speed
	Held       float64 // deceleration if the header kept its steady head, m/s2; 0: without a column there is no telling
	Main       Main
	Parted     string // node or pipe where the liquid has parted before; "": nowhere
}

// Main is the widest pipe at the header.
type Main struct {
	Pipe   string  // "": none
	Return float64 // 2L/a, s
	// Rigid is the deceleration if the liquid of units and main were one rigid column against the level behind it, m/s2; 0: other units run on, or the
	// main does not end at a level.
	Rigid float64
}

// Returned tells whether the wave of the trip has come back from the end of the main before the flow turns.
func (r *Reversal) Returned() bool { return r.Time > r.Main.Return }

// Bounds of an estimate.
const (
	usualStep    = 5e-4 // s
	greatestStep = 2e-3 // s
	longest      = 120  // s that it follows the flow
	work         = 3e7  // steps times parts of pipes
)

// Estimate follows the flow of the units that trip until it has turned back everywhere; nil where nothing trips. The error says why there is no
// estimate.
func Estimate(p moc.Problem, st *moc.Steady) ([]Reversal, error) {
	first := math.Inf(1)
	for _, e := range p.Events {
		if e.Kind == network.Trip {
			first = math.Min(first, e.Time)
		}
	}
	if math.IsInf(first, 0) {
		return nil, nil
	}
	wave, all := 0.0, 0.0
	for i := range p.Network.Pipes {
		one := p.Network.Pipes[i].Length() / p.Network.Pipes[i].WaveSpeed
		wave, all = math.Max(wave, one), all+one
	}
	step := math.Min(math.Max(usualStep, wave/2000), greatestStep)
	m := newMains(p.Network, st, step)
	units, err := groups(p, st, m, first)
	if err != nil {
		return nil, err
	}
	together := clusters(m, units)
	parts := float64(len(m.lines))
	for _, some := range together {
		parts += math.Pow(float64(len(some)), 3) / 10 // about as dear
	}
	span := math.Min(math.Min(math.Max(32, 64*wave), longest), work*step/parts)
	left, end := 0, math.Inf(1)
	for _, g := range units {
		if g.tripped {
			left++
		}
	}
	for i := 1; ; i++ {
		t := float64(i) * step
		if t > math.Min(span, end) {
			break
		}
		m.arrive(first + t)
		for _, some := range together {
			if err := advance(m, some, t); err != nil {
				return nil, err
			}
		}
		m.settle()
		for _, g := range units {
			g.highest = math.Max(g.highest, m.nodes[g.to].change)
			if !g.tripped || g.found != nil {
				continue
			}
			if g.look(step); g.flow <= 0 {
				g.found = g.turn(p.Network, m, units, t)
				left--
			}
		}
		if left == 0 && math.IsInf(end, 0) {
			end = t + 4*all
		}
	}
	if left > 0 {
		return nil, fmt.Errorf("the flow does not turn back within %.0f s of the trip", span)
	}
	var out []Reversal
	for _, g := range units {
		if g.tripped {
			g.found.Highest = g.heads[1] + g.highest
			out = append(out, *g.found)
		}
	}
	return out, nil
}

// turn is what is seen in the step in which the flow of a group turns back.
func (g *group) turn(n *network.Network, m *mains, all []*group, t float64) *Reversal {
	a := area(g.bore)
	now := (g.was - g.flow) / (a * m.step)
	lifts, _, _ := g.Head(0, g.speed)
	r := &Reversal{
		Station: g.station, Units: int(g.units), Bore: g.bore, Velocity: g.steady / a, Time: t - m.step*g.flow/(g.flow-g.was) - g.trip,
		Tangent: now, Bound: slices.Max(g.window), Window: g.back, SpeedRatio: g.speed / g.Spec.Speed, Parted: m.parted,
		Header: g.heads[1] + m.nodes[g.to].change, Before: g.heads[1], Pump: g.heads[0] + m.nodes[g.from].change + lifts, Column: g.column * n.G() * a,
	}
	if r.Column > 0 {
		r.Held = n.G() * (r.Before - r.Pump) / r.Column
	}
	runs, bores := false, 0.0
	for _, o := range all {
		if o.to == g.to {
			bores += o.units * area(o.bore)
		}
		runs = runs || o.to == g.to && !o.tripped
		if o.station == g.station && !o.tripped {
			r.Others = int(o.units)
		}
	}
	r.Main = g.main(n, m, r, bores, runs || m.nodes[g.to].fixed)
	return r
}

// main is the widest pipe at the header, into which units with valves of so much area in all, m2, deliver.
func (g *group) main(n *network.Network, m *mains, r *Reversal, bores float64, held bool) Main {
	var widest *network.Pipe
	for i := range n.Pipes {
		if p := &n.Pipes[i]; (m.of[p.From] == g.to || m.of[p.To] == g.to) && (widest == nil || p.Bore > widest.Bore) {
			widest = p
		}
	}
	if widest == nil {
		return Main{}
	}
	out := Main{Pipe: widest.Name, Return: 2 * widest.Length() / widest.WaveSpeed}
	far := m.of[widest.From] + m.of[widest.To] - g.to
	if k := &m.nodes[far]; k.reservoir != nil && !held {
		column := r.Column + widest.Length()*bores/area(widest.Bore)
		out.Rigid = n.G() * (k.reservoir.Head(0) - r.Pump) / column
	}
	return out
}
