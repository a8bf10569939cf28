package moc

import (
	"math"

	"seatwise/moc/device"
)

// recorder keeps the histories of units and named nodes at every step.
type recorder struct {
	time  []float64
	units []UnitTrace
	nodes []NodeTrace
	which []int     // model node of each trace
	open  []float64 // largest opening since the last seating, per unit
}

type recorderMark struct {
	steps    int
	seatings []int
	open     []float64
}

// mostSeatings bounds the seatings kept per unit.
const mostSeatings = 1024

func newRecorder(r *run, steps int) *recorder {
	rec := &recorder{time: make([]float64, 0, steps+1)}
	for i, u := range r.m.units {
		v := r.m.links[u.valve].dev.(*device.CheckValve)
		t := UnitTrace{Station: u.name, Unit: u.number, Tripped: u.tripped, Bore: v.Valve.Bore, Seatings: make([]Seating, 0, mostSeatings)}
		if p := r.m.downstream(i); p >= 0 {
			t.PipeBore, t.PipeWaveSpeed = r.m.pipes[p].bore, r.m.pipes[p].a
		}
		for _, s := range [...]*[]float64{&t.Flow, &t.Opening, &t.Drop, &t.HeadUp, &t.HeadDown, &t.Speed, &t.Power} {
			*s = make([]float64, 0, steps+1)
		}
		rec.units = append(rec.units, t)
	}
	rec.open = make([]float64, len(rec.units))
	for i, n := range r.m.nodes {
		if r.m.named(n.name) {
			rec.nodes = append(rec.nodes, NodeTrace{Name: n.name, Elevation: n.elevation, Head: make([]float64, 0, steps+1)})
			rec.which = append(rec.which, i)
		}
	}
	return rec
}

// downstream is the only pipe at the downstream face of a unit's valve, or -1.
func (m *model) downstream(u int) int {
	node, found := m.links[m.units[u].valve].to, -1
	for i := range m.pipes {
		if m.pipes[i].from == node || m.pipes[i].to == node {
			if found >= 0 {
				return -1
			}
			found = i
		}
	}
	return found
}

// named tells whether a node is the user's own.
func (m *model) named(name string) bool {
	for _, p := range m.net.Pipes {
		if p.From == name || p.To == name {
			return true
		}
	}
	for _, s := range m.net.Stations {
		if s.From == name || s.To == name {
			return true
		}
	}
	for _, t := range m.net.Throttles {
		if t.From == name || t.To == name {
			return true
		}
	}
	return false
}

// record appends the present state.
func (rec *recorder) record(r *run) {
	rec.time = append(rec.time, float64(r.step)*r.grid.dt)
	for i := range rec.units {
		t := &rec.units[i]
		u := &r.m.units[i]
		l := &r.m.links[u.valve]
		v := l.dev.(*device.CheckValve)
		up, down := r.heads[l.from], r.heads[l.to]
		t.Flow = append(t.Flow, r.flows[u.valve])
		y := v.Opening()
		rec.open[i] = math.Max(rec.open[i], y)
		t.Opening = append(t.Opening, y)
		t.Drop = append(t.Drop, r.m.gamma*(up-down))
		t.HeadUp = append(t.HeadUp, up)
		t.HeadDown = append(t.HeadDown, down)
		if u.pump >= 0 {
			p := r.m.links[u.pump].dev.(*device.Pump)
			t.Speed = append(t.Speed, p.Speed())
			t.Power = append(t.Power, p.Power())
		}
	}
	for i := range rec.nodes {
		rec.nodes[i].Head = append(rec.nodes[i].Head, r.heads[rec.which[i]])
	}
}

// mark notes how far the records go.
func (rec *recorder) mark(m *recorderMark) {
	m.steps = len(rec.time)
	m.seatings, m.open = m.seatings[:0], append(m.open[:0], rec.open...)
	for i := range rec.units {
		m.seatings = append(m.seatings, len(rec.units[i].Seatings))
	}
}

// back drops what was recorded since the mark.
func (rec *recorder) back(m recorderMark) {
	rec.time = rec.time[:m.steps]
	copy(rec.open, m.open)
	for i := range rec.units {
		t := &rec.units[i]
		for _, s := range [...]*[]float64{&t.Flow, &t.Opening, &t.Drop, &t.HeadUp, &t.HeadDown, &t.Speed, &t.Power} {
			*s = (*s)[:min(m.steps, len(*s))]
		}
		t.Seatings = t.Seatings[:m.seatings[i]]
	}
	for i := range rec.nodes {
		rec.nodes[i].Head = rec.nodes[i].Head[:m.steps]
	}
}

// touched notes a disc's arrival at its seat: v is the bore velocity just before, w the rate of the disc, and before and after the heads at the
// downstream face on either side of the instant.
func (r *run) touched(j *joint, t float64, w, v, before, after float64) {
	cv, ok := j.dev.(*device.CheckValve)
	if !ok || r.rec == nil || cv.Opening() > 0.5 {
		return
	}
	for i := range r.m.units {
		if r.m.units[i].valve != j.link {
			continue
		}
		u := &r.rec.units[i]
		if len(u.Seatings) < mostSeatings {
			u.Seatings = append(u.Seatings, Seating{Time: t, Velocity: v, Speed: math.Abs(w), Opening: r.rec.open[i], Rise: after - before})
		}
		r.rec.open[i] = 0
	}
}
