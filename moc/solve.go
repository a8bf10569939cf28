package moc

import (
	"context"
	"fmt"
	"math"

	"seatwise/moc/device"
)

// Solve runs a problem.
func Solve(ctx context.Context, p Problem, s Settings) (*Result, error) {
	m, err := compile(p)
	if err != nil {
		return nil, err
	}
	m.liquid = s.Liquid
	st, err := m.steady()
	if err != nil {
		return nil, err
	}
	st.freeze()
	g, err := m.grid(s)
	if err != nil {
		return nil, err
	}
	if s.AlwaysOpen {
		m.holdOpen(st)
	}
	r, err := start(m, st, g, s)
	if err != nil {
		return nil, err
	}
	r.audit.begin(r)
	r.rec = newRecorder(r, r.most(p.Until))
	r.rec.record(r)
	if err := r.until(ctx, p.Until); err != nil {
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
	st, err := m.steady()
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
	g, err := m.grid(s)
	if err != nil {
		return nil, err
	}
	n := numerics(m, g)
	return &n, nil
}

// most is the greatest number of steps that the run can take.
func (r *run) most(until float64) int {
	if until > 0 {
		return int(math.Ceil(until/r.grid.dt)) + 1
	}
	longest, event := 0.0, 0.0
	for i := range r.m.pipes {
		longest = math.Max(longest, r.m.pipes[i].length/r.m.pipes[i].a)
	}
	for _, u := range r.m.units {
		event = math.Max(event, u.tripped)
	}
	return int((event+math.Max(20, 160*longest))/r.grid.dt) + 1
}

func numerics(m *model, g *grid) Numerics {
	n := Numerics{Step: g.dt, StepFrom: g.from, Reaches: map[string]int{}, LengthChangeMax: g.change, LengthChangePipe: g.where}
	for i := range m.pipes {
		n.Reaches[m.pipes[i].name] = g.reaches[i]
		n.Nodes += g.reaches[i] + 1
	}
	return n
}

func (r *run) result(st *steady) *Result {
	out := &Result{Steady: st.report(), Time: r.rec.time, Units: r.rec.units, Nodes: r.rec.nodes, Numerics: numerics(r.m, r.grid)}
	out.Numerics.Steps = r.step
	out.Numerics.VolumeResidual = r.audit.residual(r)
	out.Numerics.Kernel = r.kernelName()
	for _, c := range r.clusters {
		out.Numerics.Iterations += c.iterations
	}
	out.Warnings = append(out.Warnings, out.Steady.Warnings...)
	for i := range r.m.pipes {
		if !r.m.pipes[i].column {
			out.Pipes = append(out.Pipes, r.pipe(i, st))
		}
	}
	if r.cavityAt >= 0 {
		out.Warnings = append(out.Warnings, r.cavityWarnings()...)
	}
	for _, l := range r.m.links {
		if p, ok := l.dev.(*device.Pump); ok && len(p.P.Warnings) > 0 {
			for _, w := range p.P.Warnings {
				out.Warnings = append(out.Warnings, l.name+": "+w)
			}
			break
		}
	}
	return out
}

func (r *run) pipe(i int, st *steady) PipeTrace {
	c := &r.m.pipes[i]
	l := r.lines[i]
	n := r.grid.reaches[i]
	t := PipeTrace{Name: c.name, From: r.m.nodes[c.from].name, To: r.m.nodes[c.to].name, Bore: c.bore, WaveSpeed: c.a, Step: c.a * r.grid.dt}
	for k := range n + 1 {
		x := float64(k) / float64(n)
		top, at := l.Highest(k)
		low, lowAt := l.Lowest(k)
		t.Chainage = append(t.Chainage, x*c.length)
		t.Elevation = append(t.Elevation, c.elevationAt(x))
		t.Steady = append(t.Steady, st.heads[c.from]+x*(st.heads[c.to]-st.heads[c.from]))
		t.Max, t.Min = append(t.Max, top), append(t.Min, low)
		t.MaxTime, t.MinTime = append(t.MaxTime, float64(at)*r.grid.dt), append(t.MinTime, float64(lowAt)*r.grid.dt)
		if l.HasCavities() {
			t.MaxCavity = append(t.MaxCavity, l.LargestCavity(k))
		}
	}
	return t
}

// cavityWarnings says where cavities grew beyond a tenth of their reach.
func (r *run) cavityWarnings() []string {
	var out []string
	for i, l := range r.lines {
		if !l.HasCavities() {
			continue
		}
		c := &r.m.pipes[i]
		reach := c.area * c.a * r.grid.dt
		worst, at := 0.0, 0
		for k := range r.grid.reaches[i] + 1 {
			if v := l.LargestCavity(k); v > worst {
				worst, at = v, k
			}
		}
		if c.column {
			top := 0.0
			for k := range r.grid.reaches[i] + 1 {
				h, _ := l.Highest(k)
				top = math.Max(top, h-c.elevationAt(0))
			}
			out = append(out, fmt.Sprintf("the liquid on the pump side of the check valve separates when the disc stops it (%s): cavities up to %.2g l, %.1f bar when they close; the liquid in pump and suction is modelled as one column, so take this as an order of magnitude", c.name, 1e3*worst, top*r.m.gamma/1e5))
			continue
		}
		if worst > reach/10 {
			out = append(out, fmt.Sprintf("a vapour cavity in %s grows to %.0f %% of its reach at chainage %.4g m: pressures on its collapse scatter", c.name, 100*worst/reach, float64(at)/float64(r.grid.reaches[i])*c.length))
		}
	}
	return out
}
