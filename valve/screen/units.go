package screen

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/pump"
)

// group is a number of units of one station to which the same happens: each a pump, a column of liquid and a loss, its valve held open.
type group struct {
	*pump.Pump
	station  string
	from, to int // nodes
	units    float64
	tripped  bool
	trip     float64    // s from the first trip
	column   float64    // sum of L/(gA) of the liquid that belongs to one unit, s2/m2
	loss     float64    // k, s2/m5: k Q|Q| in valve and branch
	heads    [2]float64 // of the nodes from and to in steady flow, m
	lift     float64    // their difference, m
	bore     float64    // of the valve, m
	back     float64    // s, over which the deceleration is looked at before the flow turns

	steady           float64   // flow of one unit, m3/s
	speed, flow, was float64   // rad/s; m3/s now and a step before
	window           []float64 // decelerations of the last steps, m/s2, as many as the definition looks back
	steps            int
	highest          float64 // change of the head it delivers to, m
	found            *Reversal
}

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// groups are the running units of all stations, those apart that trip.
func groups(p moc.Problem, st *moc.Steady, m *mains, first float64) ([]*group, error) {
	heads := m.heads
	var all []*group
	for i := range p.Network.Stations {
		s := &p.Network.Stations[i]
		running := s.Units - s.Stopped
		var unit *moc.SteadyUnit
		for k := range st.Units {
			if u := &st.Units[k]; u.Station == s.Name && u.Unit == 1 && !u.Shut && u.Flow > 0 {
				unit = u
			}
		}
		if unit == nil || running == 0 {
			continue
		}
		pm, err := pump.New(s.Pump, p.Network.Fluid.Density, p.Network.G())
		if err != nil {
			return nil, err
		}
		g := group{Pump: pm, station: s.Name, from: m.of[s.From], to: m.of[s.To], lift: heads[s.From] - heads[s.To], heads: [2]float64{heads[s.From], heads[s.To]}, bore: p.Valves[i].Bore, speed: s.Pump.Speed, steady: unit.Flow, flow: unit.Flow}
		if c := s.Column; c.Length > 0 {
			g.column += c.Length / (p.Network.G() * area(c.Bore))
		}
		g.back = leastWindow
		if b := s.Branch; b != nil {
			g.back = math.Max(g.back, 4*b.Length/b.WaveSpeed)
			g.column += b.Length / (p.Network.G() * area(b.Bore))
		}
		g.loss = math.Max(0, (g.lift+unit.PumpHead)/(unit.Flow*unit.Flow))
		events := slices.SortedStableFunc(slices.Values(p.Events), func(a, b network.Event) int { return cmp.Compare(a.Time, b.Time) })
		for _, e := range events {
			if e.Kind != network.Trip || e.Target != s.Name {
				continue
			}
			t := g
			t.window = make([]float64, max(1, int(math.Round(g.back/m.step))))
			t.tripped, t.trip, t.units = true, e.Time-first, float64(min(max(e.Units, 1), running))
			running -= int(t.units)
			if t.units > 0 {
				all = append(all, &t)
			}
		}
		if g.units = float64(running); running > 0 {
			all = append(all, &g)
		}
	}
	return all, nil
}

// leastWindow is the least time before zero velocity over which a run takes its deceleration, s.
const leastWindow = 0.05

// look notes the deceleration of a step.
func (g *group) look(step float64) {
	g.window[g.steps%len(g.window)] = (g.was - g.flow) / (area(g.bore) * step)
	g.steps++
}

// errStuck is a step that the flows of the units find no solution for.
var errStuck = errors.New("the estimate finds no flow of the units")

// clusters are the groups that meet at nodes whose heads are free: what one does, the others of its cluster feel in the same step.
func clusters(m *mains, all []*group) [][]*group {
	meet := func(a, b *group) bool {
		for _, k := range []int{a.from, a.to} {
			if (k == b.from || k == b.to) && !m.nodes[k].fixed {
				return true
			}
		}
		return false
	}
	var out [][]*group
	for _, g := range all {
		with := []*group{g}
		var apart [][]*group
		for _, c := range out {
			if slices.ContainsFunc(c, func(o *group) bool { return meet(g, o) }) {
				with = append(with, c...)
			} else {
				apart = append(apart, c)
			}
		}
		out = append(apart, with)
	}
	return out
}

// run lets the rotor run down over a step that ends at time t, by one step of Newton's method for Euler's rule backwards: a light rotor is no stiffer.
func (g *group) run(step, t float64) {
	if !g.tripped || t <= g.trip || g.found != nil {
		return
	}
	_, _, _, torque, _, slope := g.At(g.flow, g.speed)
	free := math.Min(step, t-g.trip)
	g.speed -= free * torque / (g.Inertia + free*math.Max(0, slope))
	if g.Spec.Ratchet {
		g.speed = math.Max(0, g.speed)
	}
}

// advance moves rotors and flows of a cluster over a step that ends at time t, by Euler's rule backwards:
//
//	(sum of L/(gA)) (Q - Q_before)/dt = H_from - H_to + H_p(Q, w) - k Q|Q|
//
// with H = first + slope (inflow) at both nodes, solved for the flows of all groups by Newton's method. What has turned back has no flow.
func advance(m *mains, some []*group, t float64) error {
	for _, g := range some {
		for _, k := range []int{g.from, g.to} {
			if math.IsInf(m.nodes[k].slope, 0) {
				return fmt.Errorf("no pipe ends at %s: the estimate has nothing there that answers to the change of flow", m.nodes[k].name)
			}
		}
		if g.found != nil {
			g.flow = 0 // shut since its flow turned
		}
		g.run(m.step, t)
		g.was = g.flow
	}
	n := len(some)
	jac, res, dx := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	for range 50 {
		for _, g := range some {
			m.nodes[g.from].inflow, m.nodes[g.to].inflow = 0, 0
		}
		for _, g := range some {
			m.nodes[g.to].inflow += g.units * (g.flow - g.steady)
			m.nodes[g.from].inflow -= g.units * (g.flow - g.steady)
		}
		worst := 0.0
		for i, g := range some {
			if g.found != nil {
				res.SetVec(i, 0)
				for k := range some {
					jac.Set(i, k, 0)
				}
				jac.Set(i, i, 1)
				continue
			}
			h, hq, _ := g.Head(g.flow, g.speed)
			c := g.column / m.step
			r := c*(g.flow-g.was) - (g.lift + m.nodes[g.from].answer() - m.nodes[g.to].answer() + h - g.loss*g.flow*math.Abs(g.flow))
			worst = math.Max(worst, math.Abs(r))
			res.SetVec(i, -r)
			for k, o := range some {
				jac.Set(i, k, m.nodes[g.to].slope*o.into(g.to)-m.nodes[g.from].slope*o.into(g.from))
			}
			jac.Set(i, i, jac.At(i, i)+c-hq+2*g.loss*math.Abs(g.flow)+1e-9)
		}
		if worst < 1e-9*(1+math.Abs(some[0].lift)) {
			return nil
		}
		if err := dx.SolveVec(jac, res); err != nil {
			return errStuck
		}
		for i, g := range some {
			g.flow += dx.AtVec(i)
		}
	}
	return errStuck
}

// into is the inflow of a node by the flow of one unit of the group.
func (g *group) into(node int) float64 {
	n := 0.0
	if node == g.to {
		n += g.units
	}
	if node == g.from {
		n -= g.units
	}
	return n
}
