package moc

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"seatwise/moc/device"
	"seatwise/network/pump"
)

// Steady is the steady flow from which a run starts.
type Steady struct {
	Nodes []SteadyNode
	Pipes []SteadyFlow
	Units []SteadyUnit
	// Iterations of Newton's method.
	Iterations int
}

// SteadyNode is the head at a node.
type SteadyNode struct {
	Name      string
	Head      float64 // m
	Elevation float64 // m
}

// SteadyFlow is the flow in a pipe.
type SteadyFlow struct {
	Name     string
	Flow     float64 // m3/s
	Velocity float64 // m/s
	HeadLoss float64 // m
	Reynolds float64
	Friction float64 // Darcy factor
}

// SteadyUnit is the duty of one unit.
type SteadyUnit struct {
	Station          string
	Unit             int
	Flow             float64 // m3/s
	Velocity         float64 // on the valve's bore, m/s
	PumpHead         float64 // m
	Power            float64 // shaft, W
	Efficiency       float64 // fraction
	Opening          float64 // of the disc, fraction of travel
	Shut             bool    // the valve is shut: the unit stands
	Held             bool    // the disc is on its stop
	Snaps            bool    // the disc has another resting position further open: it may snap there
	CurveEnd         float64 // greatest flow that the pump's data speak for, m3/s; 0: no pump
	ValveLoss        float64 // m
	FullOpenVelocity float64 // m/s
}

// steady solves
//
//	pipes      Ha - Hb = h(q)                 Darcy
//	devices    r(q, Ha, Hb) = 0
//	nodes      sum of inflows = demand
//
// for all heads and flows by Newton's method with step halving on the scaled residual. Check valves are an active set: a valve found
// with reverse flow is shut, a shut one whose pressure drop would open it is opened, until none changes.
type steady struct {
	m      *model
	heads  []float64 // per node
	flows  []float64 // pipes, then links
	free   []int     // unknown index of each node, -1 when fixed
	nf     int
	n      int
	jac    *mat.Dense
	res    *mat.VecDense
	nu, g  float64
	liquid bool // vapour pressure is of no account
	iter   int
}

func (m *model) steady(liquid bool) (*steady, error) {
	s := &steady{m: m, liquid: liquid, nu: m.net.Fluid.KinematicViscosity(), g: m.net.G()}
	s.heads = make([]float64, len(m.nodes))
	s.free = make([]int, len(m.nodes))
	mean, k := 0.0, 0
	for i, n := range m.nodes {
		s.free[i] = -1
		if n.fixed {
			s.heads[i] = n.head
			mean += n.head
			k++
		}
	}
	if k == 0 {
		return nil, noSteady("reservoirs", "give at least one reservoir with its level", "no reservoir fixes a head")
	}
	mean /= float64(k)
	for i, n := range m.nodes {
		if !n.fixed {
			s.free[i] = s.nf
			s.nf++
			s.heads[i] = mean
		}
	}
	s.flows = make([]float64, len(m.pipes)+len(m.links))
	for i, c := range m.pipes {
		s.flows[i] = 0.5 * c.area
	}
	for _, u := range m.units {
		if u.pump < 0 {
			s.flows[len(m.pipes)+u.valve] = m.links[u.valve].dev.(*device.CheckValve).Area
			continue
		}
		q := m.net.Stations[u.station].Pump.Flow
		if m.links[u.pump].dev.(*device.Pump).Stands {
			q = 0
		}
		s.flows[len(m.pipes)+u.pump] = q
		s.flows[len(m.pipes)+u.valve] = q
		if u.branch >= 0 {
			s.flows[u.branch] = q
		}
	}
	s.n = s.nf + len(s.flows)
	s.jac = mat.NewDense(s.n, s.n, nil)
	s.res = mat.NewVecDense(s.n, nil)
	return s, s.solve()
}

// assemble fills residual and Jacobian; the residual rows are scaled so that 1 is the size of a bad answer. least is a floor, m/s, on the
// velocity at which a pipe's slope is taken.
func (s *steady) assemble(least float64, jac bool) float64 {
	m := s.m
	if jac {
		s.jac.Zero()
	}
	s.res.Zero()
	add := func(row, node int, v float64) {
		if jac && s.free[node] >= 0 {
			s.jac.Set(row, s.free[node], s.jac.At(row, s.free[node])+v)
		}
	}
	np := len(m.pipes)
	for i := range m.pipes {
		c := &m.pipes[i]
		row := s.nf + i
		h, hq := c.resist(s.flows[i], s.nu, s.g)
		if v := least * c.area; math.Abs(s.flows[i]) < v {
			_, hq = c.resist(v, s.nu, s.g)
		}
		s.res.SetVec(row, s.heads[c.from]-s.heads[c.to]-h)
		add(row, c.from, 1)
		add(row, c.to, -1)
		if jac {
			s.jac.Set(row, row, -hq)
		}
		s.balance(c.from, c.to, row, s.flows[i], jac)
	}
	for i, l := range m.links {
		row := s.nf + np + i
		q := s.flows[np+i]
		e := l.dev.Steady(q, s.heads[l.from], s.heads[l.to])
		scale := math.Max(math.Abs(e.RA), math.Abs(e.RB)) // the same at every flow, or the residual could not be compared
		if scale == 0 {
			scale = 0.01 // shut: the residual is a flow
		}
		s.res.SetVec(row, e.R/scale)
		add(row, l.from, e.RA/scale)
		add(row, l.to, e.RB/scale)
		if jac {
			s.jac.Set(row, row, e.RQ/scale)
		}
		s.balance(l.from, l.to, row, q, jac)
	}
	for i, n := range m.nodes {
		if k := s.free[i]; k >= 0 {
			s.res.SetVec(k, s.res.AtVec(k)-n.demand)
		}
	}
	norm := 0.0
	for i := range s.n {
		r := s.res.AtVec(i)
		if i < s.nf {
			r *= 100 // flow, m3/s, against head, m
		}
		norm += r * r
	}
	return math.Sqrt(norm)
}

func (s *steady) balance(from, to, col int, q float64, jac bool) {
	if k := s.free[from]; k >= 0 {
		s.res.SetVec(k, s.res.AtVec(k)-q)
		if jac {
			s.jac.Set(k, col, s.jac.At(k, col)-1)
		}
	}
	if k := s.free[to]; k >= 0 {
		s.res.SetVec(k, s.res.AtVec(k)+q)
		if jac {
			s.jac.Set(k, col, s.jac.At(k, col)+1)
		}
	}
}

// newton converges the present active set.
func (s *steady) newton() error {
	var lu mat.LU
	step := mat.NewVecDense(s.n, nil)
	h0, q0 := make([]float64, len(s.heads)), make([]float64, len(s.flows))
	for k := range 200 {
		s.iter++
		least := 0.0
		if k < 4 {
			least = 0.3
		}
		norm := s.assemble(least, true)
		lu.Factorize(s.jac)
		if err := lu.SolveVecTo(step, false, s.res); err != nil && lu.Cond() > 1e18 {
			return s.undetermined()
		}
		copy(h0, s.heads)
		copy(q0, s.flows)
		size := 0.0
		for f := 1.0; ; f /= 2 {
			size = s.move(h0, q0, step, f)
			if now := s.assemble(0, false); now <= norm*(1-1e-4*f) || norm < 1e-9 || (k < 4 && f < 0.3) {
				break
			}
			if f < 1e-6 {
				return s.lost("stalls")
			}
		}
		if math.IsNaN(size) {
			return s.lost("leaves the real numbers")
		}
		if size < 1e-11 && s.assemble(0, false) < 1e-8 {
			return nil
		}
		if k > 30 && s.assemble(0, false) < 1e-10 {
			return nil
		}
	}
	return s.lost("does not converge in 200 steps")
}

func (s *steady) move(h0, q0 []float64, step *mat.VecDense, f float64) float64 {
	size := 0.0
	for i, k := range s.free {
		if k >= 0 {
			d := f * step.AtVec(k)
			s.heads[i] = h0[i] - d
			size = math.Max(size, math.Abs(d)/(1+math.Abs(h0[i])))
		}
	}
	for i := range s.flows {
		d := f * step.AtVec(s.nf+i)
		s.flows[i] = q0[i] - d
		size = math.Max(size, math.Abs(d)/(1e-2+math.Abs(q0[i])))
	}
	return size
}

func (s *steady) solve() error {
	np := len(s.m.pipes)
	var unsettled string // what changed last
	for range 4*len(s.m.links) + 4 {
		if err := s.newton(); err != nil {
			return err
		}
		changed := false
		for _, u := range s.m.units {
			l := s.m.links[u.valve]
			v := l.dev.(*device.CheckValve)
			q := s.flows[np+u.valve]
			_, crack := v.Valve.Motion.Shut()
			switch {
			case !v.Shut && q < v.LeastFlow():
				v.Shut, changed, unsettled = true, true, l.name
				s.flows[np+u.valve] = 0
			case v.Shut && v.Gamma*(s.heads[l.from]-s.heads[l.to]) > crack*(1+1e-6)+1e-3:
				v.Shut, changed, unsettled = false, true, l.name
			}
		}
		for i, l := range s.m.links {
			if d, ok := l.dev.(device.Turner); ok && d.Turn(s.flows[np+i], s.heads[l.from], s.heads[l.to]) {
				changed, unsettled = true, l.name
			}
		}
		if !changed {
			if err := s.delivers(); err != nil {
				return err
			}
			if err := s.flooded(); err != nil {
				return err
			}
			return s.settled()
		}
	}
	return noSteady("", "", "%s neither stays open nor shut", inWords(unsettled))
}

// freeze gives every pipe its loss coefficient at the steady Reynolds number. A pipe without steady flow takes the one at 1 m/s.
func (s *steady) freeze() {
	for i := range s.m.pipes {
		c := &s.m.pipes[i]
		q := s.flows[i]
		if math.Abs(q) < 1e-6*c.area {
			q = c.area
		}
		c.loss = c.lossAt(q, s.nu, s.g)
	}
}

// report puts the steady flow in the user's terms.
func (s *steady) report() *Steady {
	m := s.m
	out := &Steady{Iterations: s.iter}
	for i, n := range m.nodes {
		if n.name == outside {
			continue
		}
		out.Nodes = append(out.Nodes, SteadyNode{n.name, s.heads[i], n.elevation})
	}
	for i := range m.pipes {
		c := &m.pipes[i]
		q := s.flows[i]
		f := c.loss*2*s.g*c.area*c.area - c.minor
		out.Pipes = append(out.Pipes, SteadyFlow{c.name, q, q / c.area, s.heads[c.from] - s.heads[c.to], math.Abs(q) / c.area * c.bore / s.nu, math.Max(f*c.bore/c.length, 0)})
	}
	np := len(m.pipes)
	for _, u := range m.units {
		l := m.links[u.valve]
		v := l.dev.(*device.CheckValve)
		q := s.flows[np+u.valve]
		r := SteadyUnit{Station: u.name, Unit: u.number, Flow: q, Velocity: q / v.Area, ValveLoss: s.heads[l.from] - s.heads[l.to], FullOpenVelocity: v.Valve.FullOpenVelocity}
		if u.pump >= 0 {
			p := m.links[u.pump].dev.(*device.Pump)
			w := p.Driven(0)
			h, _, _, t, _, _ := p.P.At(q, w)
			r.PumpHead, r.Power = h, t*w
			if r.Power > 0 {
				r.Efficiency = m.gamma * q * h / r.Power
			}
			r.CurveEnd = curveEnd(p.P)
		}
		r.Shut = v.Shut
		if !v.Shut {
			e := v.Valve.Motion.Steady(q / v.Area)
			r.Opening, r.Held, r.Snaps = v.Valve.Motion.Opening(e.State), e.Held, e.Snaps
		}
		out.Units = append(out.Units, r)
	}
	return out
}

// curveEnd is the greatest flow, m3/s, that a pump's data speak for: the last point of its curve, or 1.2 times the rated flow where only that is given.
func curveEnd(p *pump.Pump) float64 {
	if c := p.Spec.Curve; len(c) > 0 {
		return c[len(c)-1].Flow
	}
	return 1.2 * p.Spec.Flow
}
