package moc

import (
	"context"
	"math"

	"seatwise/moc/device"
	"seatwise/network/quantity"
)

// Solve runs a problem.
func Solve(ctx context.Context, p Problem, s Settings) (*Result, error) {
	m, err := compile(p)
	if err != nil {
		return nil, err
	}
	st, err := m.steady(s.Liquid)
	if err != nil {
		return nil, err
	}
	st.freeze()
	g, err := m.grid(s, p.Until)
	if err != nil {
		return nil, err
	}
	if s.AlwaysOpen {
		m.holdOpen(st)
	}
	r := start(m, st, g, p.Until, s)
	if err := r.finish(ctx); err != nil {
		return nil, err
	}
	return r.result(st), nil
}

// SteadyState solves the steady flow alone.
func SteadyState(p Problem) (*Steady, error) {
	m, err := compile(p)
	if err != nil {
		return nil, err
	}
	st, err := m.steady(false)
	if err != nil {
		return nil, err
	}
	st.freeze()
	return st.report(), nil
}

// Plan describes the grid a run would use, without running it.
func Plan(p Problem, s Settings) (*Numerics, error) {
	m, err := compile(p)
	if err != nil {
		return nil, err
	}
	g, err := m.grid(s, p.Until)
	if err != nil {
		return nil, err
	}
	n := numerics(m, g)
	return &n, nil
}

func numerics(m *model, g *grid) Numerics {
	n := Numerics{Step: g.dt, StepFrom: g.from, Reaches: map[string]int{}, LengthChangeMax: g.change, LengthChangePipe: g.where, Short: g.short, FastCreep: m.fastCreep(g)}
	for i := range m.pipes {
		n.Reaches[m.pipes[i].name] = g.reaches[i]
		n.Nodes += g.reaches[i] + 1
	}
	return n
}

func (r *run) result(st *steady) *Result {
	out := &Result{Steady: r.duty, Time: r.rec.time, Bin: r.rec.bin(r.grid.dt), Units: r.rec.units, Nodes: r.rec.nodes, Forces: r.rec.tally(r.grid.dt), Warnings: r.rec.warnings, Numerics: numerics(r.m, r.grid)}
	out.Numerics.Steps = r.step
	out.Numerics.VolumeResidual = r.audit.residual(r)
	out.Numerics.Kernel, out.Numerics.CavityFrom = r.kernelName(), r.cavityAt
	for _, c := range r.clusters {
		out.Numerics.Iterations += c.iterations
	}
	for i := range r.m.pipes {
		if !r.m.pipes[i].column {
			out.Pipes = append(out.Pipes, r.pipe(i, st))
		}
	}
	out.Columns = r.columns()
	for _, l := range r.m.links {
		if d, ok := l.dev.(device.Noter); ok {
			for _, note := range d.Notes() {
				out.Warnings = append(out.Warnings, quantity.Say("%s: %v", l.name, note))
			}
		}
	}
	for _, u := range r.m.units {
		if u.number != 1 {
			continue
		}
		for _, w := range r.m.links[u.pump].dev.(*device.Pump).P.Warnings {
			out.Warnings = append(out.Warnings, quantity.Say("%s: %s", u.name, w))
		}
	}
	return out
}

// profiled is a pipe with its profile on the grid alone.
func (r *run) profiled(i int) PipeTrace {
	c := &r.m.pipes[i]
	t := PipeTrace{Name: c.name, From: r.m.nodes[c.from].name, To: r.m.nodes[c.to].name, Bore: c.bore, WaveSpeed: c.a, Step: c.a * r.grid.dt}
	p := c.profileOn(r.grid.reaches[i])
	t.Chainage, t.Elevation, t.Top, t.Bottom = p.chainage, p.elevation, p.top, p.bottom
	return t
}

func (r *run) pipe(i int, st *steady) PipeTrace {
	c := &r.m.pipes[i]
	l := r.lines[i]
	n := r.grid.reaches[i]
	t := r.profiled(i)
	for k := range n + 1 {
		x := float64(k) / float64(n)
		top, at := l.Highest(k)
		low, lowAt := l.Lowest(k)
		t.Steady = append(t.Steady, st.heads[c.from]+x*(st.heads[c.to]-st.heads[c.from]))
		t.Max, t.Min = append(t.Max, top), append(t.Min, low)
		t.MaxTime, t.MinTime = append(t.MaxTime, float64(at)*r.grid.dt), append(t.MinTime, float64(lowAt)*r.grid.dt)
		if l.HasCavities() {
			v, at := l.LargestCavity(k)
			t.MaxCavity, t.MaxCavityTime = append(t.MaxCavity, v), append(t.MaxCavityTime, float64(at)*r.grid.dt)
		}
	}
	return t
}

// columns tells of the liquid that separated on the pump side of the check valves.
func (r *run) columns() []ColumnTrace {
	var out []ColumnTrace
	for _, u := range r.m.units {
		for i := range r.m.pipes {
			c, l := &r.m.pipes[i], r.lines[i]
			if !c.column || c.to != r.m.links[u.valve].from || !l.HasCavities() {
				continue
			}
			t := ColumnTrace{Station: u.name, Unit: u.number}
			for k := range r.grid.reaches[i] + 1 {
				h, _ := l.Highest(k)
				t.Highest = math.Max(t.Highest, h-c.elevationAt(0))
				v, _ := l.LargestCavity(k)
				t.Cavity = math.Max(t.Cavity, v)
			}
			out = append(out, t)
		}
	}
	return out
}
