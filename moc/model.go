package moc

import (
	"fmt"
	"math"
	"sort"

	"seatwise/moc/device"
	"seatwise/network"
	"seatwise/network/pipe"
	"seatwise/network/pump"
	"seatwise/valve"
)

// model is the network compiled to numbered nodes, pipes and devices, every unit of a station on its own.
type model struct {
	net       *network.Network
	gamma     float64 // rho g, Pa/m
	hvap      float64 // vapour pressure as a head above the elevation, m (negative)
	nodes     []node
	pipes     []conduit
	links     []link
	units     []unit
	index     map[string]int // nodes by name
	lastEvent float64        // end of the last event, s
	events    []float64      // start and end of every event, s
}

type node struct {
	name      string
	elevation float64
	known     bool // elevation known
	fixed     bool
	head      float64 // of a fixed node, m
	demand    float64 // m3/s
}

// conduit is a pipe of the model.
type conduit struct {
	name                   string
	from, to               int
	bore, area, a, length  float64
	rough, friction, minor float64
	creep                  network.Creep
	profile                []network.Point
	bends                  []float64 // m; see [network.Runs]
	atValve                bool
	column                 bool    // stands for the liquid in pump and suction, not a pipe of the user's
	loss                   float64 // head loss per q|q| at the steady Reynolds number, s2/m5
}

// link is a device of the model.
type link struct {
	name     string
	path     string // in the words of a case file
	from, to int
	dev      device.Device
}

// unit is one check valve, with its pump where it has one.
type unit struct {
	name            string
	station, number int  // station -1: a check valve that stands alone; number from 1
	stands          bool // at the start of the run
	pump, valve     int  // links; pump -1: none
	branch          int  // pipe downstream of the valve, -1: none
	tripped         float64
}

// outside is the node of the surroundings, at which one-node devices end; its head is of no account.
const outside = "/"

func compile(p Problem) (*model, error) {
	net := p.Network
	if n := len(net.Stations) + len(net.CheckValves); len(p.Valves) != n {
		return nil, fmt.Errorf("%w: %d check valves for %d places", ErrProblem, len(p.Valves), n)
	}
	g := net.G()
	rho := net.Fluid.Density
	m := &model{net: net, gamma: rho * g, hvap: (net.Fluid.VapourPressure - net.Atmosphere) / (rho * g)}
	m.index = map[string]int{}
	at := func(name string) int {
		if i, ok := m.index[name]; ok {
			return i
		}
		m.index[name] = len(m.nodes)
		m.nodes = append(m.nodes, node{name: name})
		return len(m.nodes) - 1
	}
	level := func(i int, z float64) {
		if n := &m.nodes[i]; !n.known {
			n.elevation, n.known = z, true
		}
	}
	for _, r := range net.Reservoirs {
		n := &m.nodes[at(r.Name)]
		n.fixed, n.head = true, r.Head(0)
	}
	for _, d := range net.Demands {
		m.nodes[at(d.Node)].demand += d.Flow
	}
	for i := range net.Pipes {
		q := &net.Pipes[i]
		c := conduit{name: q.Name, from: at(q.From), to: at(q.To), bore: q.Bore, a: q.WaveSpeed, length: q.Length(),
			rough: q.Roughness, friction: q.FrictionFactor, minor: q.MinorLoss, creep: q.Creep, profile: q.Profile, bends: q.Bends}
		level(c.from, q.Profile[0].Elevation)
		level(c.to, q.Profile[len(q.Profile)-1].Elevation)
		m.pipes = append(m.pipes, c)
	}
	for i, s := range net.Stations {
		from, to := at(s.From), at(s.To)
		level(to, s.Elevation)
		for u := 1; u <= s.Units; u++ {
			if err := m.addUnit(i, u, from, to, at, level, p.Valves[i]); err != nil {
				return nil, err
			}
		}
	}
	for i, c := range net.CheckValves {
		from, to := at(c.From), at(c.To)
		level(from, c.Elevation)
		level(to, c.Elevation)
		m.links = append(m.links, link{c.Name, "check valves." + c.Name, from, to, m.checkValve(p.Valves[len(net.Stations)+i], 0)})
		m.units = append(m.units, unit{station: -1, name: c.Name, pump: -1, valve: len(m.links) - 1, branch: -1, tripped: -1})
	}
	for _, t := range net.Throttles {
		from, to := at(t.From), at(t.To)
		level(from, t.Elevation)
		level(to, t.Elevation)
		m.links = append(m.links, link{t.Name, "throttling valves." + t.Name, from, to, device.NewThrottle(t, g)})
	}
	around := device.Surroundings{Gamma: m.gamma, G: g, Atmosphere: net.Atmosphere, Density: rho}
	for _, d := range net.Devices {
		section, name := d.Label()
		from, to := d.Ends()
		l := link{name: name, path: section + "." + name, from: at(from), dev: device.Of(d, around)}
		if to == "" {
			l.to = at(outside)
			m.nodes[l.to] = node{name: outside, known: true, fixed: true}
		} else {
			l.to = at(to)
		}
		m.links = append(m.links, l)
	}
	for i := range m.nodes {
		if n := &m.nodes[i]; !n.known && n.fixed {
			n.elevation = n.head
		}
	}
	for i := range m.pipes {
		c := &m.pipes[i]
		c.area = math.Pi / 4 * c.bore * c.bore
	}
	m.markValves()
	return m, m.schedule(p.Events)
}

func (m *model) addUnit(i, u, from, to int, at func(string) int, level func(int, float64), v valve.Valve) error {
	s := m.net.Stations[i]
	name := func(part string) string { return Part(s.Name, u, part) }
	pm, err := pump.New(s.Pump, m.net.Fluid.Density, m.net.G())
	if err != nil {
		return fmt.Errorf("station %s: %w", s.Name, err)
	}
	flat := func(l float64) []network.Point {
		return []network.Point{{Elevation: s.Elevation}, {Chainage: l, Elevation: s.Elevation}}
	}
	discharge := at(name("pump"))
	level(discharge, s.Elevation)
	dev := device.NewPump(pm)
	dev.Stands = u > s.Units-s.Stopped
	m.links = append(m.links, link{name("pump"), "stations." + s.Name, from, discharge, dev})
	up := discharge
	if c := s.Column; c.Length > 0 {
		up = at(name("inlet"))
		level(up, s.Elevation)
		m.pipes = append(m.pipes, conduit{name: name("column"), from: discharge, to: up, bore: c.Bore, a: c.WaveSpeed, length: c.Length,
			friction: -1, profile: flat(c.Length), column: true})
	}
	down, branch := to, -1
	if b := s.Branch; b != nil {
		down = at(name("outlet"))
		level(down, s.Elevation)
		branch = len(m.pipes)
		m.pipes = append(m.pipes, conduit{name: name("branch"), from: down, to: to, bore: b.Bore, a: b.WaveSpeed, length: b.Length,
			rough: b.Roughness, friction: b.FrictionFactor, minor: b.MinorLoss, creep: b.Creep, profile: flat(b.Length), bends: b.Bends})
	}
	pipeBore := 0.0
	if s.Branch != nil {
		pipeBore = s.Branch.Bore
	}
	m.links = append(m.links, link{name("check-valve"), "stations." + s.Name, up, down, m.checkValve(v, pipeBore)})
	stands := u > s.Units-s.Stopped
	m.links[len(m.links)-1].dev.(*device.CheckValve).Shut = stands
	m.units = append(m.units, unit{station: i, stands: stands, name: s.Name, number: u, pump: len(m.links) - 2, valve: len(m.links) - 1, branch: branch, tripped: -1})
	return nil
}

// Part names a node or pipe inside a unit: its "branch", its "column", the nodes "pump", "inlet" and "outlet" of its pump and valve. No name of the user's has a
// slash in it.
func Part(station string, unit int, part string) string {
	return fmt.Sprintf("%s/%d/%s", station, unit, part)
}

// checkValve is the device of a valve between pipes of the given bore, m; 0 leaves reducers out.
func (m *model) checkValve(v valve.Valve, pipeBore float64) *device.CheckValve {
	cv := &device.CheckValve{Valve: v, FailAt: math.Inf(1), Gamma: m.gamma, Area: math.Pi / 4 * v.Bore * v.Bore}
	if pipeBore > 0 && pipeBore != v.Bore {
		cv.Extra = reducers(v.Bore, pipeBore)
	}
	return cv
}

// reducers is the loss of a reducer before and after a valve of bore d in a pipe of bore D, on the valve's velocity head:
// contraction 1/2 (1 - b2) and sudden expansion (1 - b2)^2, b2 the smaller area over the larger (common practice).
func reducers(d, D float64) float64 {
	b2 := (d * d) / (D * D)
	if b2 > 1 { // the valve is the larger: losses on the pipe's velocity head, referred to the valve's
		b2 = 1 / b2
		return (0.5*(1-b2) + (1-b2)*(1-b2)) / (b2 * b2)
	}
	return 0.5*(1-b2) + (1-b2)*(1-b2)
}

// markValves marks the pipes that touch a check valve.
func (m *model) markValves() {
	for _, u := range m.units {
		l := m.links[u.valve]
		for i := range m.pipes {
			c := &m.pipes[i]
			for _, end := range [2]int{c.from, c.to} {
				if (end == l.from || end == l.to) && !m.nodes[end].fixed {
					c.atValve = true
				}
			}
		}
	}
}

// elevationAt interpolates the profile of a pipe at a fraction of its length.
func (c *conduit) elevationAt(fraction float64) float64 {
	x := fraction * c.length
	p := c.profile
	i := 1 + sort.Search(len(p)-2, func(i int) bool { return x <= p[i+1].Chainage }) // the last one at the most
	a, b := p[i-1], p[i]
	return a.Elevation + (b.Elevation-a.Elevation)*math.Min((x-a.Chainage)/(b.Chainage-a.Chainage), 1)
}

// resist returns the head loss of the whole pipe at flow q and its derivative, from its Darcy factor at this flow.
func (c *conduit) resist(q, nu, g float64) (h, hq float64) {
	k := c.lossAt(q, nu, g)
	h = k * q * math.Abs(q)
	dq := 1e-4 * math.Max(math.Abs(q), 1e-6*c.area)
	up, dn := c.lossAt(q+dq, nu, g)*(q+dq)*math.Abs(q+dq), c.lossAt(q-dq, nu, g)*(q-dq)*math.Abs(q-dq)
	return h, (up - dn) / (2 * dq)
}

// lossAt is the head loss per q|q|, s2/m5.
func (c *conduit) lossAt(q, nu, g float64) float64 {
	if c.friction < 0 {
		return c.minor / (2 * g * c.area * c.area)
	}
	f := c.friction
	if f == 0 {
		v := math.Max(math.Abs(q)/c.area, c.trickle(nu))
		f = pipe.FrictionFactor(v*c.bore/nu, c.rough/c.bore)
	}
	return (f*c.length/c.bore + c.minor) / (2 * g * c.area * c.area)
}

// trickle is the velocity, m/s, that a Darcy factor is at least taken at. A transient keeps the factor of its steady flow; that of a flow which only
// trickles, 64/Re, would be hundreds of times that of the flow which the transient makes of it. So the factor is that at the edge of turbulence, but at 0.05 m/s at
// the most: what the steady flow loses below that is of no account, 1e-5 m/m. A pipe that is laminar even at 1 m/s keeps its own.
func (c *conduit) trickle(nu float64) float64 {
	const turbulent = 4000
	if c.bore/nu <= turbulent {
		return 1e-9
	}
	return math.Min(turbulent*nu/c.bore, 0.05)
}

// holdOpen holds the discs of the tripped units at their steady opening.
func (m *model) holdOpen(st *steady) {
	for _, u := range m.units {
		v := m.links[u.valve].dev.(*device.CheckValve)
		if u.tripped < 0 || v.Shut {
			continue
		}
		q := st.flows[len(m.pipes)+u.valve]
		e := v.Valve.Motion.Steady(q / v.Area)
		head := v.Valve.Density / 2 * (q / v.Area) * (q / v.Area)
		v.FailAt = math.Inf(1)
		v.Valve.Motion = &valve.Stuck{At: v.Valve.Motion.Opening(e.State), Loss: e.DP / head, Density: v.Valve.Density}
	}
}
