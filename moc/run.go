package moc

import (
	"context"
	"math"
	"slices"

	"seatwise/moc/device"
	"seatwise/moc/kernel"
	"seatwise/network/quantity"
)

// run is a network in motion.
type run struct {
	m        *model
	s        Settings
	grid     *grid
	span     span
	duty     *Steady // before any disc fails
	lines    []*kernel.Line
	vapour   [][]float64 // head of vapour pressure at the nodes of each line, m
	clusters []*cluster
	loose    []end // pipe ends at fixed nodes
	heads    []float64
	before   []float64 // heads at the start of the step
	flows    []float64 // of the links
	demand   []float64
	moving   bool // a reservoir's level changes
	step     int
	audit    audit
	rec      *recorder
	cavityAt float64 // s at which the first pipe was given cavities; negative: none
	kept     *checkpoint
}

// checkpoint is a state to which the run can go back.
type checkpoint struct {
	step         int
	lines        []*kernel.Line
	heads, flows []float64
	x            [][]float64
	defect       []float64
	unbooked     []float64
	iterations   []int
	audit        audit
	rec          recorderMark
}

const (
	checkpointEvery = 256
	vapourMargin    = 1.0 // m above vapour head at which cavities are let in
)

// start builds the running network from its steady state.
func start(m *model, st *steady, g *grid, until float64, s Settings) *run {
	r := &run{m: m, s: s, grid: g, span: m.span(until), cavityAt: -1, heads: append([]float64(nil), st.heads...), demand: make([]float64, len(m.nodes))}
	for i, n := range m.nodes {
		r.demand[i] = n.demand
	}
	for _, res := range m.net.Reservoirs {
		r.moving = r.moving || len(res.Levels) > 0
	}
	r.before = make([]float64, len(r.heads))
	np := len(m.pipes)
	r.flows = append(r.flows, st.flows[np:]...)
	for i := range m.pipes {
		c := &m.pipes[i]
		n := g.reaches[i]
		h := make([]float64, n+1)
		for k := range h {
			x := float64(k) / float64(n)
			h[k] = st.heads[c.from] + x*(st.heads[c.to]-st.heads[c.from])
		}
		r.vapour = append(r.vapour, m.vapourHeads(c, h))
		margin := vapourMargin
		if s.Liquid {
			margin = math.Inf(-1)
		}
		l := kernel.NewLine(n, c.a/(st.g*c.area), c.loss/float64(n), g.dt, r.vapour[i], margin)
		l.Set(h, st.flows[i])
		if f := c.unsteady(s.Friction, st.flows[i], st.nu); f != nil {
			l.Unsteady(f)
		}
		if len(c.creep.Elements) > 0 {
			l.Wall(c.wall(m.gamma / st.g))
		}
		r.lines = append(r.lines, l)
	}
	for i, l := range m.links {
		l.dev.Start(r.flows[i], r.heads[l.from], r.heads[l.to])
	}
	r.duty = st.report()
	r.group()
	r.audit.begin(r)
	r.rec = newRecorder(r, int(math.Ceil(r.span.end/g.dt))+1)
	r.rec.record(r)
	return r
}

// vapourHeads is the head at which each node of a pipe reaches vapour pressure, m: at the highest point that it stands for, though not above its
// head in steady flow, which fills the pipe there.
func (m *model) vapourHeads(c *conduit, steady []float64) []float64 {
	v := c.profileOn(len(steady) - 1).top
	for k := range v {
		v[k] += m.hvap
		if here := c.elevationAt(float64(k)/float64(len(v)-1)) + m.hvap; v[k] > here {
			v[k] = math.Max(here, math.Min(v[k], steady[k]-filled))
		}
	}
	return v
}

// group joins free nodes linked by devices into clusters.
func (r *run) group() {
	m := r.m
	root := make([]int, len(m.nodes))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, l := range m.links {
		if !m.nodes[l.from].fixed && !m.nodes[l.to].fixed {
			root[find(l.from)] = find(l.to)
		}
	}
	of := map[int]*cluster{}
	local := make([]int, len(m.nodes))
	for i, n := range m.nodes {
		local[i] = -1
		if n.fixed {
			continue
		}
		c := of[find(i)]
		if c == nil {
			c = &cluster{}
			of[find(i)] = c
			r.clusters = append(r.clusters, c)
		}
		local[i] = len(c.nodes)
		c.nodes = append(c.nodes, i)
	}
	for i := range m.pipes {
		for side, node := range [2]int{m.pipes[i].from, m.pipes[i].to} {
			e := end{line: r.lines[i], right: side == 1, local: local[node], node: node, fixed: r.heads[node]}
			if m.nodes[node].fixed {
				r.loose = append(r.loose, e)
			} else {
				c := of[find(node)]
				c.ends = append(c.ends, e)
			}
		}
	}
	for i, l := range m.links {
		j := joint{dev: l.dev, link: i, a: local[l.from], b: local[l.to], ha: [2]float64{r.heads[l.from], r.heads[l.from]}, hb: [2]float64{r.heads[l.to], r.heads[l.to]}}
		var c *cluster
		switch {
		case j.a >= 0:
			c = of[find(l.from)]
		case j.b >= 0:
			c = of[find(l.to)]
		default:
			c = &cluster{}
			r.clusters = append(r.clusters, c)
		}
		c.devs = append(c.devs, j)
	}
	for _, c := range r.clusters {
		c.prepare()
		c.touched = r.touched
		for i, k := range c.nodes {
			c.x[i] = r.heads[k]
		}
		for i, d := range c.devs {
			c.x[len(c.nodes)+i] = r.flows[d.link]
		}
	}
}

// advance carries the network over one step.
func (r *run) advance() error {
	dt := r.grid.dt
	t := float64(r.step) * dt
	r.levels(t + dt)
	for _, c := range r.clusters {
		c.arrive()
	}
	for i := range r.loose {
		r.loose[i].arrive()
	}
	for _, l := range r.lines {
		l.Interior()
	}
	for _, c := range r.clusters {
		if !c.advance(t, dt, r.demand) {
			return &PlaceError{ErrConvergence, r.placeOf(c), t, quantity.Say("the time step could not be cut small enough")}
		}
		for i, k := range c.nodes {
			r.heads[k] = c.x[i]
		}
		for i := range c.devs {
			r.flows[c.devs[i].link] = c.x[len(c.nodes)+i]
		}
		for i := range c.ends {
			c.ends[i].finish(c.x[c.ends[i].local])
		}
	}
	for i := range r.loose {
		e := &r.loose[i]
		if e.gas {
			e.v = e.k / (e.fixed - e.hv)
		}
		e.finish(e.fixed)
	}
	r.step++
	r.audit.step(r)
	return nil
}

// levels brings the heads of the reservoirs to time t.
func (r *run) levels(t float64) {
	if !r.moving {
		return
	}
	before := r.before
	copy(before, r.heads)
	for i := range r.m.net.Reservoirs {
		res := &r.m.net.Reservoirs[i]
		if len(res.Levels) == 0 {
			continue
		}
		r.heads[r.m.index[res.Name]] = res.Head(t)
	}
	for i := range r.loose {
		r.loose[i].fixed = r.heads[r.loose[i].node]
	}
	for _, c := range r.clusters {
		for i := range c.devs {
			d := &c.devs[i]
			l := &r.m.links[d.link]
			if d.a < 0 {
				d.ha = [2]float64{before[l.from], r.heads[l.from]}
			}
			if d.b < 0 {
				d.hb = [2]float64{before[l.to], r.heads[l.to]}
			}
		}
	}
}

func (r *run) placeOf(c *cluster) string {
	if len(c.nodes) > 0 {
		return inWords(r.m.nodes[c.nodes[0]].name)
	}
	return inWords(r.m.links[c.devs[0].link].name)
}

// keep makes a checkpoint of the present state.
func (r *run) keep() {
	k := r.kept
	if k == nil {
		k = &checkpoint{heads: make([]float64, len(r.heads)), flows: make([]float64, len(r.flows))}
		for _, l := range r.lines {
			k.lines = append(k.lines, l.Clone())
		}
		for _, c := range r.clusters {
			k.x = append(k.x, make([]float64, len(c.x)))
		}
		k.defect, k.unbooked, k.iterations = make([]float64, len(r.clusters)), make([]float64, len(r.clusters)), make([]int, len(r.clusters))
		r.kept = k
	}
	k.step = r.step
	copy(k.heads, r.heads)
	copy(k.flows, r.flows)
	for i, l := range r.lines {
		l.CopyTo(k.lines[i])
	}
	for i, c := range r.clusters {
		copy(k.x[i], c.x)
		k.defect[i], k.unbooked[i], k.iterations[i] = c.defect, c.unbooked, c.iterations
	}
	for i := range r.m.links {
		r.m.links[i].dev.Save()
	}
	k.audit = r.audit
	r.rec.mark(&k.rec, r.grid.dt)
}

func (r *run) restore() {
	k := r.kept
	r.step = k.step
	copy(r.heads, k.heads)
	copy(r.flows, k.flows)
	for i, l := range k.lines {
		l.CopyTo(r.lines[i])
	}
	for i, c := range r.clusters {
		copy(c.x, k.x[i])
		c.defect, c.unbooked, c.iterations = k.defect[i], k.unbooked[i], k.iterations[i]
	}
	for i := range r.m.links {
		r.m.links[i].dev.Restore()
	}
	r.audit = k.audit
	r.rec.back(k.rec)
}

// finish advances to the end of the run.
func (r *run) finish(ctx context.Context) error {
	r.keep()
	for r.step < r.last() || r.low() {
		if r.low() {
			r.cavitate()
			continue
		}
		if r.step%checkpointEvery == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := r.audit.check(r); err != nil {
				return err
			}
			r.keep()
			if r.s.Progress != nil {
				r.s.Progress(float64(r.step) / float64(max(r.last(), 1)))
			}
		}
		if err := r.advance(); err != nil {
			return err
		}
		if r.low() {
			continue
		}
		r.rec.record(r)
	}
	return r.audit.check(r)
}

// last is the last step as things stand: the one asked for, or, when none is, when it is long enough since every disc of a tripped unit first came
// to its seat for the waves to have had their say. Later closings do not prolong the run, so that candidates are judged over like times.
func (r *run) last() int {
	sp := r.span
	if sp.given {
		return int(math.Ceil(sp.end/r.grid.dt - 1e-9))
	}
	seated := sp.event
	for i, u := range r.m.units {
		if u.tripped < 0 || !math.IsInf(r.m.links[u.valve].dev.(*device.CheckValve).FailAt, 1) {
			continue
		}
		s := r.rec.units[i].Seatings
		k := slices.IndexFunc(s, func(x Seating) bool { return x.Time >= u.tripped })
		if k < 0 {
			return int(sp.end / r.grid.dt)
		}
		seated = math.Max(seated, s[k].Time)
	}
	return int(math.Min(seated+sp.say, sp.end) / r.grid.dt)
}
