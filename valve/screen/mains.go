package screen

import (
	"maps"
	"math"
	"slices"

	"seatwise/moc"
	"seatwise/network"
)

// mains are the pipes of an installation and the nodes where they meet, as changes from steady flow.
type mains struct {
	step  float64 // s
	nodes []junction
	of    map[string]int     // node by name
	heads map[string]float64 // in steady flow by name, m
	lines []line

	parted string // name of the node or pipe where the liquid first parted; "": nowhere
}

// junction is a node, or several between which the flow passes an open valve or an orifice.
type junction struct {
	name      string
	reservoir *network.Reservoir // nil: none
	fixed     bool               // a reservoir, or a vessel that keeps its pressure
	outlet    float64            // dQ/dH of the outlets, m2/s
	steady    float64            // head, m, of the node with the highest floor
	floor     float64            // m, below which the liquid boils there, air comes in or a tank feeds
	keeps     bool               // what comes in there must leave again before the head rises
	cavity    float64            // m3
	creep     []store
	elastic   float64 // volume that the branches take up with the head, m2

	yield, sum float64 // of the present step: dQ/dH of what ends there, m2/s, and its inflow at the steady head, m3/s
	first      float64 // how it answers: the change of its head is first + slope inflow, m, s/m2
	slope      float64
	inflow     float64 // of the units over that in steady flow, m3/s
	change     float64 // of the head, m
}

// store is what the wall of a plastic pipe takes up later: V -> capacity dH with the time constant time.
type store struct{ time, capacity, volume float64 } // s, m2, m3

// line is a part of a pipe between two nodes a and b: one delay, with its friction where a wave leaves it.
type line struct {
	a, b       int
	impedance  float64 // B = a/(gA), s/m2
	resistance float64 // R, s2/m5
	steady     float64 // flow from a to b, m3/s
	delay      float64 // L/a in steps
	ends       [2]past // at a and b
}

// past is what the last steps have seen at the end of a pipe: changes of the head, m, and of the flow from a to b, m3/s.
type past struct {
	head, flow []float64
	next       int
}

func newPast(n int) past { return past{head: make([]float64, n), flow: make([]float64, n)} }

func (p *past) push(head, flow float64) {
	p.head[p.next], p.flow[p.next] = head, flow
	if p.next++; p.next == len(p.head) {
		p.next = 0
	}
}

// at is what was seen some steps ago, between two of them in proportion; one step ago is the last that was pushed.
func (p *past) at(ago float64) (head, flow float64) {
	n := len(p.head)
	k := int(ago)
	u := ago - float64(k)
	i := (p.next - k + n) % n
	j := (i - 1 + n) % n
	return p.head[i] + u*(p.head[j]-p.head[i]), p.flow[i] + u*(p.flow[j]-p.flow[i])
}

// newMains lays the pipes out in their steady flow.
func newMains(n *network.Network, st *moc.Steady, step float64) *mains {
	m := &mains{step: step, of: map[string]int{}, heads: map[string]float64{}}
	m.join(n, st)
	m.floors(n, st)
	flows := map[string]moc.SteadyFlow{}
	for _, f := range st.Pipes {
		flows[f.Name] = f
	}
	for i := range n.Pipes {
		p := &n.Pipes[i]
		m.lay(p, flows[p.Name], n)
	}
	for i := range n.Stations {
		if s := &n.Stations[i]; s.Branch != nil { // half of what it takes up belongs to its end
			k, volume := &m.nodes[m.of[s.To]], float64(s.Units)*s.Branch.Length*area(s.Branch.Bore)/2
			k.creeps(&s.Branch.Creep, volume, n)
			k.elastic += volume * n.G() / (s.Branch.WaveSpeed * s.Branch.WaveSpeed)
		}
	}
	return m
}

// vapour is the head over a point at which the liquid boils there, m.
func vapour(n *network.Network) float64 {
	return (n.Fluid.VapourPressure - n.Atmosphere) / (n.Fluid.Density * n.G())
}

// A pipe is cut into parts of about that delay, s, within bounds, so that friction and creep act along it.
const (
	partDelay  = 0.04
	leastParts = 12
	mostParts  = 100
	allParts   = 2000 // of all pipes together, about
)

// lay puts a pipe between its nodes, cut into parts, and at its summits, where the liquid parts first.
func (m *mains) lay(p *network.Pipe, f moc.SteadyFlow, n *network.Network) {
	cuts := map[float64]bool{} // chainage, and whether it is a summit
	parts := min(max(leastParts, int(p.Length()/p.WaveSpeed/partDelay)), mostParts, max(1, allParts/len(n.Pipes)))
	for i := 1; i < parts; i++ {
		cuts[p.Length()*float64(i)/float64(parts)] = false
	}
	for i := 1; i < len(p.Profile)-1; i++ {
		if z := p.Profile[i].Elevation; z > p.Profile[i-1].Elevation && z >= p.Profile[i+1].Elevation {
			cuts[p.Profile[i].Chainage] = true
		}
	}
	from, at := m.of[p.From], 0.0
	part := func(to int, x float64) {
		l := line{a: from, b: to, impedance: p.WaveSpeed / (n.G() * area(p.Bore)), delay: math.Max((x-at)/p.WaveSpeed/m.step, 1), steady: f.Flow}
		if f.Flow != 0 {
			l.resistance = f.HeadLoss / (f.Flow * math.Abs(f.Flow)) * (x - at) / p.Length()
		}
		for k := range l.ends {
			l.ends[k] = newPast(int(l.delay) + 3)
		}
		m.lines = append(m.lines, l)
		volume := area(p.Bore) * (x - at)
		m.nodes[from].creeps(&p.Creep, volume/2, n)
		m.nodes[to].creeps(&p.Creep, volume/2, n)
		from, at = to, x
	}
	for _, x := range slices.Sorted(maps.Keys(cuts)) {
		if short := m.step * p.WaveSpeed; x-at < short || p.Length()-x < short {
			continue
		}
		k := junction{name: p.Name, steady: m.heads[p.From] - f.HeadLoss*x/p.Length(), floor: math.Inf(-1), keeps: true}
		if cuts[x] {
			k.floor = elevation(p, x) + vapour(n)
		}
		m.nodes = append(m.nodes, k)
		part(len(m.nodes)-1, x)
	}
	part(m.of[p.To], p.Length())
}

// creeps lets the wall around a volume, m3, take up liquid at a node.
func (k *junction) creeps(c *network.Creep, volume float64, n *network.Network) {
	for _, e := range c.Elements {
		k.creep = append(k.creep, store{time: e.Time, capacity: volume * n.Fluid.Density * n.G() * c.Stretch * e.Compliance})
	}
}

// elevation of a pipe at a chainage, m.
func elevation(p *network.Pipe, x float64) float64 {
	for i := 1; i < len(p.Profile); i++ {
		if a, b := p.Profile[i-1], p.Profile[i]; x <= b.Chainage {
			return a.Elevation + (b.Elevation-a.Elevation)*(x-a.Chainage)/(b.Chainage-a.Chainage)
		}
	}
	return p.Profile[len(p.Profile)-1].Elevation
}

// join finds the nodes.
func (m *mains) join(n *network.Network, st *moc.Steady) {
	node := func(name string) int {
		i, ok := m.of[name]
		if !ok {
			i = len(m.nodes)
			m.of[name] = i
			m.nodes = append(m.nodes, junction{name: name, floor: math.Inf(-1)})
		}
		return i
	}
	one := func(from, to string) {
		a, b := node(from), node(to)
		for name, i := range m.of {
			if i == b {
				m.of[name] = a
			}
		}
	}
	for _, p := range n.Pipes {
		node(p.From)
		node(p.To)
	}
	for _, s := range n.Stations {
		node(s.From)
		node(s.To)
	}
	for i := range n.Throttles {
		if t := &n.Throttles[i]; len(t.Schedule) == 0 || t.Schedule[0].Fraction > 0 {
			one(t.From, t.To)
		}
	}
	for _, v := range n.CheckValves {
		node(v.From)
		node(v.To)
		for i := range st.Units {
			if u := &st.Units[i]; u.Station == v.Name && u.Flow > 0 && !u.Shut {
				one(v.From, v.To)
			}
		}
	}
	for _, d := range n.Devices {
		from, to := d.Ends()
		if node(from); to != "" {
			one(from, to)
		}
	}
	for i := range n.Reservoirs {
		k := &m.nodes[node(n.Reservoirs[i].Name)]
		k.fixed, k.reservoir = true, &n.Reservoirs[i]
	}
}

// floors gives the nodes their devices, and the head below which they do not fall.
func (m *mains) floors(n *network.Network, st *moc.Steady) {
	heads := m.heads
	lift := func(name string, to float64, keeps bool) {
		k := &m.nodes[m.of[name]]
		if drop := heads[name] - to; math.IsInf(k.floor, -1) || drop < k.steady-k.floor {
			k.steady, k.floor, k.keeps = heads[name], to, keeps
		}
	}
	for _, s := range st.Nodes {
		heads[s.Name] = s.Head
		if _, ok := m.of[s.Name]; ok {
			lift(s.Name, s.Elevation+vapour(n), true)
		}
	}
	for _, d := range n.Devices {
		switch d := d.(type) {
		case *network.AirVessel:
			m.nodes[m.of[d.Node]].fixed = true
		case *network.SurgeTank:
			m.nodes[m.of[d.Node]].fixed = true
		case *network.OneWayTank:
			lift(d.Node, d.Level, false)
		case *network.AirValve:
			lift(d.Node, d.Elevation, true)
		case *network.Outlet:
			if h := heads[d.Node] - d.Elevation; h > 0 {
				m.nodes[m.of[d.Node]].outlet += d.Flow * math.Sqrt(h*n.Fluid.Density*n.G()/d.Pressure) / (2 * h)
			}
		}
	}
}

// arrive sums what comes into every node at its steady head with the waves of the pipes in the step that ends at time t of the run.
func (m *mains) arrive(t float64) {
	for i := range m.nodes {
		k := &m.nodes[i]
		k.yield, k.sum = k.outlet+k.elastic/m.step, k.elastic/m.step*k.change
		for _, c := range k.creep { // Euler's rule backwards
			k.yield += c.capacity / (c.time + m.step)
			k.sum += c.volume / (c.time + m.step)
		}
	}
	for i := range m.lines {
		l := &m.lines[i]
		a, b := &m.nodes[l.a], &m.nodes[l.b]
		a.sum += l.wave(0) / l.impedance
		b.sum += l.wave(1) / l.impedance
		a.yield += 1 / l.impedance
		b.yield += 1 / l.impedance
	}
	for i := range m.nodes {
		m.nodes[i].respond(t)
	}
}

// wave is what arrives at an end of the pipe, C = dH + B dQ - friction of the other end with the flow towards this one, m.
func (l *line) wave(end int) float64 {
	head, flow := l.ends[1-end].at(l.delay)
	q := l.steady + flow
	friction := l.resistance * (q*math.Abs(q) - l.steady*math.Abs(l.steady))
	if end == 0 {
		return head - l.impedance*flow + friction
	}
	return head + l.impedance*flow - friction
}

// respond finds how a node answers to the inflow of units in the step that ends at time t of the run.
func (k *junction) respond(t float64) {
	k.inflow = 0
	switch {
	case k.reservoir != nil:
		k.first, k.slope = k.reservoir.Head(t)-k.reservoir.Head(0), 0
	case k.fixed:
		k.first, k.slope = 0, 0
	case k.cavity > 0:
		k.first, k.slope = k.floor-k.steady, 0
	case k.yield == 0:
		k.first, k.slope = 0, math.Inf(1)
	default:
		k.first, k.slope = k.sum/k.yield, 1/k.yield
	}
}

// answer is the change of head with the inflow, m.
func (k *junction) answer() float64 {
	if k.slope == 0 || k.inflow == 0 {
		return k.first
	}
	return k.first + k.slope*k.inflow
}

// settle ends a step.
func (m *mains) settle() {
	for i := range m.nodes {
		k := &m.nodes[i]
		k.change = k.answer()
		if low := k.floor - k.steady; !k.fixed && (k.change < low || k.cavity > 0) {
			k.change = low
			if m.parted == "" && k.keeps {
				m.parted = k.name
			}
			if k.keeps {
				k.cavity = math.Max(0, k.cavity-m.step*(k.sum+k.inflow-k.yield*low))
			}
		}
		for c := range k.creep {
			s := &k.creep[c]
			s.volume += m.step * (s.capacity*k.change - s.volume) / (s.time + m.step)
		}
	}
	for i := range m.lines {
		l := &m.lines[i]
		ca, cb := l.wave(0), l.wave(1)
		ha, hb := m.nodes[l.a].change, m.nodes[l.b].change
		l.ends[0].push(ha, (ha-ca)/l.impedance)
		l.ends[1].push(hb, (cb-hb)/l.impedance)
	}
}
