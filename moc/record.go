package moc

import (
	"math"
	"slices"

	"seatwise/moc/device"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// recorder keeps the histories of units, named nodes and straight runs of pipe.
type recorder struct {
	rows
	units    []UnitTrace
	nodes    []NodeTrace
	forces   []ForceTrace
	legs     []leg
	which    []int     // model node of each trace
	open     []float64 // largest opening since the last seating, per unit
	reversed []int     // step in which the flow first reversed after the first event, per unit; 0: it has not
	event    float64   // the first event, s; 0 without any
	moments  []int     // steps around which histories stay whole; the first are those of the events
	warnings []quantity.Sentence
	observer Observer
	along    HeadObserver // nil: nobody asks for the heads along the pipes
	shown    []int        // model pipes that it is told of
	heads    []float64    // of one of them
	now      []UnitState  // of the units, in the step being recorded
	pushes   []float64    // on the straight runs then, N
}

type recorderMark struct {
	length   int // rows
	seatings []int
	open     []float64
	reversed []int
	pulses   []pulse
}

// mostSeatings bounds the seatings kept per unit.
const mostSeatings = 1024

func newRecorder(r *run, steps int) *recorder {
	rec := &recorder{}
	var series []*[]float64
	for i, u := range r.m.units {
		v := r.m.links[u.valve].dev.(*device.CheckValve)
		t := UnitTrace{Station: u.name, Unit: u.number, Tripped: u.tripped, Bore: v.Valve.Bore, Seatings: make([]Seating, 0, mostSeatings)}
		if p := r.m.downstream(i); p >= 0 {
			t.PipeBore, t.PipeWaveSpeed = r.m.pipes[p].bore, r.m.pipes[p].a
		}
		rec.units = append(rec.units, t)
	}
	for i := range rec.units {
		t := &rec.units[i]
		series = append(series, &t.Flow, &t.Opening, &t.Drop, &t.HeadUp, &t.HeadDown)
		if r.m.units[i].pump >= 0 {
			series = append(series, &t.Speed, &t.Power)
		}
	}
	rec.open, rec.reversed = make([]float64, len(rec.units)), make([]int, len(rec.units))
	for i, n := range r.m.nodes {
		if r.m.named(n.name) {
			rec.nodes = append(rec.nodes, NodeTrace{Name: n.name, Elevation: n.elevation})
			rec.which = append(rec.which, i)
		}
	}
	for i := range rec.nodes {
		series = append(series, &rec.nodes[i].Head)
	}
	rec.legs, rec.forces, rec.warnings = r.legs()
	for i := range rec.forces {
		series = append(series, &rec.forces[i].Force)
	}
	if len(r.m.events) > 0 {
		rec.event = slices.Min(r.m.events)
	}
	for _, t := range r.m.events {
		rec.moments = append(rec.moments, int(math.Round(t/r.grid.dt)))
	}
	slices.Sort(rec.moments)
	rec.moments = slices.Compact(rec.moments)
	moments := len(rec.moments) + 2*len(rec.units)
	rec.moments = slices.Grow(rec.moments, 2*len(rec.units))
	rec.now, rec.pushes, rec.observer = make([]UnitState, len(rec.units)), make([]float64, len(rec.legs)), r.s.Observer
	if rec.observer == nil {
		rec.observer = silent{}
	}
	rec.observer.Begin(r.grid.dt, rec.units)
	rec.show(r)
	rec.rows = newRows(r.s.Samples, steps, moments, series)
	return rec
}

// show tells an observer that wants heads of the pipes.
func (rec *recorder) show(r *run) {
	var ok bool
	if rec.along, ok = rec.observer.(HeadObserver); !ok {
		return
	}
	var pipes []PipeTrace
	most := 0
	for i := range r.m.pipes {
		if !r.m.pipes[i].column {
			rec.shown, pipes, most = append(rec.shown, i), append(pipes, r.profiled(i)), max(most, r.grid.reaches[i])
		}
	}
	rec.heads = make([]float64, most+1)
	rec.along.Along(pipes)
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
	for _, c := range m.net.CheckValves {
		if c.From == name || c.To == name {
			return true
		}
	}
	return false
}

// record appends the present state.
func (rec *recorder) record(r *run) {
	now := float64(r.step) * r.grid.dt
	rec.time = append(rec.time, now)
	for i := range rec.units {
		t, x := &rec.units[i], &rec.now[i]
		*x = r.unitState(i)
		if n := len(t.Flow); n > 0 && rec.reversed[i] == 0 && t.Flow[n-1] > 0 && x.Flow <= 0 && now >= rec.event {
			rec.reversed[i] = r.step
		}
		rec.open[i] = math.Max(rec.open[i], x.Opening)
		t.Flow = append(t.Flow, x.Flow)
		t.Opening = append(t.Opening, x.Opening)
		t.Drop = append(t.Drop, x.Drop)
		t.HeadUp = append(t.HeadUp, x.HeadUp)
		t.HeadDown = append(t.HeadDown, x.HeadDown)
		if r.m.units[i].pump >= 0 {
			t.Speed = append(t.Speed, x.Speed)
			t.Power = append(t.Power, x.Power)
		}
	}
	for i := range rec.nodes {
		rec.nodes[i].Head = append(rec.nodes[i].Head, r.heads[rec.which[i]])
	}
	for i := range rec.legs {
		f := rec.legs[i].force()
		rec.legs[i].follow(f, r.grid.dt, r.step)
		rec.forces[i].Force = append(rec.forces[i].Force, f)
		rec.pushes[i] = f
	}
	rec.observer.Step(now, rec.now, rec.pushes)
	for k, i := range rec.shown {
		h := rec.heads[:r.grid.reaches[i]+1]
		r.lines[i].Heads(h)
		rec.along.Heads(now, k, h)
	}
}

// unitState is unit i as it is now.
func (r *run) unitState(i int) UnitState {
	u := &r.m.units[i]
	l := &r.m.links[u.valve]
	up, down := r.heads[l.from], r.heads[l.to]
	x := UnitState{Flow: r.flows[u.valve], Opening: l.dev.(*device.CheckValve).Opening(), Drop: r.m.gamma * (up - down), HeadUp: up, HeadDown: down}
	if u.pump >= 0 {
		p := r.m.links[u.pump].dev.(*device.Pump)
		x.Speed, x.Power = p.Speed(), p.Power()
	}
	return x
}

// interest is the moments around which the histories stay whole: the events, and of each unit the first reversal of its flow and the first seating
// after the first event.
func (rec *recorder) interest(dt float64) []int {
	m := rec.moments
	for i, k := range rec.reversed {
		if k > 0 {
			m = append(m, k)
		}
		for _, s := range rec.units[i].Seatings {
			if s.Time >= rec.event-dt {
				m = append(m, int(s.Time/dt))
				break
			}
		}
	}
	return m
}

// mark notes how far the records go, after making room for the steps until the next mark: what was recorded since is never thinned.
func (rec *recorder) mark(m *recorderMark, dt float64) {
	if rec.full() {
		rec.thin(dt, rec.interest(dt))
	}
	m.length = len(rec.time)
	m.seatings, m.open, m.reversed, m.pulses = m.seatings[:0], append(m.open[:0], rec.open...), append(m.reversed[:0], rec.reversed...), m.pulses[:0]
	for i := range rec.legs {
		m.pulses = append(m.pulses, rec.legs[i].pulse)
	}
	for i := range rec.units {
		m.seatings = append(m.seatings, len(rec.units[i].Seatings))
	}
	rec.observer.Save()
}

// back drops what was recorded since the mark.
func (rec *recorder) back(m recorderMark) {
	rec.cut(m.length)
	copy(rec.open, m.open)
	copy(rec.reversed, m.reversed)
	for i := range rec.units {
		rec.units[i].Seatings = rec.units[i].Seatings[:m.seatings[i]]
	}
	for i := range rec.legs {
		rec.legs[i].pulse = m.pulses[i]
	}
	rec.observer.Restore()
}

// touched notes the arrival of a disc at its seat, of two the later one: v is the bore velocity and s the disc just before, before and after the heads at the
// downstream face on either side of the instant.
func (r *run) touched(j *joint, t float64, s valve.State, v, before, after float64) {
	cv, ok := j.dev.(*device.CheckValve)
	if !ok || r.rec == nil || cv.Opening() > 0 {
		return
	}
	for i := range r.m.units {
		if r.m.units[i].valve != j.link {
			continue
		}
		u, seating := &r.rec.units[i], Seating{Time: t, Velocity: v, Speed: s.Speed(), Opening: r.rec.open[i], Rise: after - before, Taken: s.Flow.A}
		if len(u.Seatings) < mostSeatings {
			u.Seatings = append(u.Seatings, seating)
		}
		r.rec.observer.Seated(i, seating)
		r.rec.open[i] = 0
	}
}
