package moc

import (
	"math"

	"seatwise/moc/device"
	"seatwise/moc/kernel"
	"seatwise/valve"
)

// cluster is a group of free nodes joined by devices without pipe between them. Its unknowns are the heads of its nodes and the flows
// of its devices; its equations are continuity at the nodes and one equation per device. A pipe end gives the node the flow
//
//	q = (C - H)/Z                                       into the node
//
// with C the arriving wave, m, and Z the impedance, s/m2; within a step C goes linearly from its value at the start to the one at the end.
// With a gas cavity at the end,
//
//	q = (C - H)/Z + (K/(H - Hv) - V)/h
//
// V the gas volume at the start of the sub-step of h seconds; for vapour cavities see pocket. All fall as H rises, so that with monotone devices
// the system has one solution. Newton's method, then damped, then with the sub-step halved.
type cluster struct {
	nodes []int // indices into the run's heads
	ends  []end
	devs  []joint
	n     int

	x, r, dx, jac []float64
	keep          []float64 // solution at the start of the sub-step
	h             float64   // the sub-step of the last trial, s
	pockets       []pocket  // of the nodes
	parted        bool      // vapour cavities can form
	iterations    int
	defect        float64 // volume lost by unfinished continuity, m3
	unbooked      float64 // volume that stores keep beyond what flowed into them, m3

	touched func(j *joint, t float64, s valve.State, v, before, after float64) // see run.touched
}

// end is the end of a line at a node.
type end struct {
	line   *kernel.Line
	right  bool
	local  int     // node in the cluster, -1: fixed
	node   int     // node of the model
	fixed  float64 // head of a fixed node, m
	c0, c1 float64 // arriving wave at the start and end of the step
	z, zq  float64
	gas    bool
	vapour bool
	k, hv  float64
	v      float64 // volume of the cavity at the start of the sub-step, m3
}

// joint is a device in a cluster.
type joint struct {
	dev    device.Device
	link   int
	a, b   int          // local nodes, -1: fixed
	ha, hb [2]float64   // heads of fixed nodes at the start and end of the step
	f      float64      // fraction of the step reached by the trial
	hit    bool         // at an event
	store  device.Store // the device, if it keeps liquid
	z      float64      // impedance around, that turns a flow change into a head, s/m2
}

const (
	headTolerance = 1e-8  // m, on the last Newton step: the error left is its square
	flowTolerance = 1e-12 // m3/s, continuity at a node
	gasTolerance  = 1e-4  // of the gas volume, at a node with gas
	eventWithin   = 1e-10 // of the travel
	mostEvents    = 100   // in one step; further ones are not located
	restOver      = 0.05  // of a step: the time in which the heads answer a disc at rest; the free gas at a pipe end needs some
)

// arrive reads the waves of the coming step.
func (e *end) arrive() {
	s, c := e.line.Left, 0.0
	sign := -1.0 // flow of the line's orientation out of its left end goes into the pipe
	if e.right {
		s, sign = e.line.Right, 1
		c = e.line.ArriveRight()
	} else {
		c = e.line.ArriveLeft()
	}
	e.zq = math.Abs(s.Q)
	e.z = e.line.Impedance(s.Q)
	e.c0 = s.H + sign*e.z*s.Q
	e.c1 = c
	if e.line.HasCavities() {
		e.k, e.hv, e.v = e.line.EndCavity(e.right)
		e.gas = e.k > 0
		e.vapour = !e.gas
	}
}

// flow is the flow into the node at head h, and its derivative; f is the fraction of the step and dt the sub-step.
func (e *end) flow(f, dt, h float64) (q, qh float64) {
	c := e.c0 + f*(e.c1-e.c0)
	q, qh = (c-h)/e.z, -1/e.z
	if e.gas {
		x := h - e.hv
		q += (e.k/x - e.v) / dt
		qh -= e.k / (x * x * dt)
	}
	return q, qh
}

// finish closes the step of the line's end at head h; the flow stored is the pipe's, not the node's.
func (e *end) finish(h float64) {
	q := (e.c1 - h) / e.z
	if e.right {
		e.line.SetRight(h, q, e.zq)
	} else {
		e.line.SetLeft(h, -q, e.zq)
	}
	if e.gas || e.vapour {
		e.line.SetEndCavity(e.right, e.v)
	}
}

func (c *cluster) prepare() {
	c.n = len(c.nodes) + len(c.devs)
	c.x, c.r, c.dx, c.keep = make([]float64, c.n), make([]float64, c.n), make([]float64, c.n), make([]float64, c.n)
	c.jac = make([]float64, c.n*c.n)
	c.pockets = make([]pocket, len(c.nodes))
	for i := range c.devs {
		d := &c.devs[i]
		d.store, _ = d.dev.(device.Store)
		d.z = 1000 // where there is no pipe
		for k := range c.ends {
			if e := &c.ends[k]; e.local >= 0 && (e.local == d.a || e.local == d.b) {
				d.z = math.Max(d.z, e.line.B)
			}
		}
	}
}

// assemble fills residual and Jacobian at the trial x for the end, at fraction f of the step, of a sub-step dt from time t.
func (c *cluster) assemble(t, dt, f float64, demand []float64) {
	n, nn := c.n, len(c.nodes)
	c.h = dt
	for i := range c.jac {
		c.jac[i] = 0
	}
	for i, k := range c.nodes {
		c.r[i] = -demand[k]
	}
	for i := range c.ends {
		e := &c.ends[i]
		if e.local < 0 {
			continue
		}
		q, qh := e.flow(f, dt, c.x[e.local])
		c.r[e.local] += q
		c.jac[e.local*n+e.local] += qh
	}
	for i := range c.devs {
		d := &c.devs[i]
		row := nn + i
		d.f = f
		q, ha, hb := c.at(d, i)
		eq := d.dev.Try(t, dt, q, ha, hb)
		c.r[row] = eq.R
		c.jac[row*n+row] = eq.RQ
		if d.a >= 0 {
			_, hx := c.head(d.a)
			c.jac[row*n+d.a] = eq.RA * hx
			c.r[d.a] -= q
			c.jac[d.a*n+row] -= 1
		}
		if d.b >= 0 {
			_, hx := c.head(d.b)
			c.jac[row*n+d.b] = eq.RB * hx
			c.r[d.b] += q
			c.jac[d.b*n+row] += 1
		}
	}
}

// at is the flow and the heads of a device in the trial.
func (c *cluster) at(d *joint, i int) (q, ha, hb float64) {
	q = c.x[len(c.nodes)+i]
	ha, hb = d.ha[0]+d.f*(d.ha[1]-d.ha[0]), d.hb[0]+d.f*(d.hb[1]-d.hb[0])
	if d.a >= 0 {
		ha, _ = c.head(d.a)
	}
	if d.b >= 0 {
		hb, _ = c.head(d.b)
	}
	return q, ha, hb
}

// solve finds the end of a sub-step and leaves it in x, with the devices' trial state. It reports false when Newton's method fails.
func (c *cluster) solve(t, dt, f float64, demand []float64) bool {
	nn := len(c.nodes)
	size := math.Inf(1)
	for k := range 80 {
		c.assemble(t, dt, f, demand)
		if size < headTolerance && c.balanced(dt) && c.settled() {
			return true
		}
		copy(c.dx, c.r)
		if !solveSmall(c.jac, c.dx, c.n) {
			return false
		}
		c.iterations++
		damp := 1.0
		if k > 25 {
			damp = 0.5
		}
		for i := range c.ends { // stay above vapour head
			e := &c.ends[i]
			if e.gas && e.local >= 0 {
				if x := c.x[e.local] - e.hv; damp*c.dx[e.local] > 0.9*x {
					damp = 0.9 * x / c.dx[e.local]
				}
			}
		}
		size = 0
		for i := range c.n {
			d := damp * c.dx[i]
			c.x[i] -= d
			if i < nn {
				size = math.Max(size, math.Abs(d)/(1+1e-3*math.Abs(c.x[i])))
			} else {
				size = math.Max(size, math.Abs(d)*c.devs[i-nn].z)
			}
		}
		if math.IsNaN(size) || math.IsInf(size, 0) {
			return false
		}
	}
	return false
}

// balanced tells whether continuity is met at every node. A node with gas takes up the rest in its gas volume (accept); there rounding of the
// head alone makes flows, because K/(H - Hv) is steep.
func (c *cluster) balanced(dt float64) bool {
	for i := range c.nodes {
		tolerance := flowTolerance
		if e := c.gasAt(i); e != nil {
			tolerance += gasTolerance * e.k / (c.x[i] - e.hv) / dt
		}
		if !(math.Abs(c.r[i]) < tolerance) {
			return false
		}
	}
	return true
}

// gasAt is the first pipe end with gas at a node, or nil.
func (c *cluster) gasAt(local int) *end {
	for i := range c.ends {
		if e := &c.ends[i]; e.gas && e.local == local {
			return e
		}
	}
	return nil
}

// settled tells whether every device's equation is met: what is left would be cured by a change of flow or head within the tolerance.
func (c *cluster) settled() bool {
	nn := len(c.nodes)
	for i := range c.devs {
		d := &c.devs[i]
		row := nn + i
		slope := math.Abs(c.jac[row*c.n+row]) / d.z
		if d.a >= 0 {
			slope = math.Max(slope, math.Abs(c.jac[row*c.n+d.a]))
		}
		if d.b >= 0 {
			slope = math.Max(slope, math.Abs(c.jac[row*c.n+d.b]))
		}
		if !(math.Abs(c.r[row]) < 10*headTolerance*slope) {
			return false
		}
	}
	return true
}

// event is the least Event of the devices in the last trial.
func (c *cluster) event() float64 {
	least := 1.0
	for i := range c.devs {
		least = math.Min(least, c.devs[i].dev.Event())
	}
	return least
}

// advance carries the cluster over a step of dt seconds from time t. It reports false when it cannot.
func (c *cluster) advance(t, dt float64, demand []float64) bool {
	done, events := 0.0, 0
	share := 1.0 // of the step wanted per sub-step; halved on failure
	for done < 1 {
		parts := 1
		for i := range c.devs {
			parts = max(parts, c.devs[i].dev.SubSteps(dt))
		}
		f := math.Min(share, 1/float64(parts))
		if done+f > 1-1e-9 {
			f = 1 - done
		}
		copy(c.keep, c.x)
		if !c.solve(t+done*dt, f*dt, done+f, demand) {
			copy(c.x, c.keep)
			share = f / 2
			if share < 1e-6 {
				return false
			}
			continue
		}
		least := c.event()
		hit := least < 0
		if least < -eventWithin && events < mostEvents {
			f = c.locate(t, dt, done, f, demand)
		}
		if hit {
			events++
		}
		c.accept(t+done*dt, f*dt, done+f, demand)
		done += f
		if done > 1-1e-12 {
			done = 1
		}
		if hit {
			c.touch(t+done*dt, dt, done, demand)
		}
	}
	return true
}

// locate finds the fraction of the step after which the first event happens, by the Illinois form of false position, and leaves the cluster there.
func (c *cluster) locate(t, dt, done, f float64, demand []float64) float64 {
	lo, hi := 0.0, f
	elo, ehi := 1e-3, c.event()
	last := 0
	for range 60 {
		mid := hi - ehi*(hi-lo)/(ehi-elo)
		if !(mid > lo && mid < hi) {
			mid = (lo + hi) / 2
		}
		copy(c.x, c.keep)
		if !c.solve(t+done*dt, mid*dt, done+mid, demand) {
			break
		}
		e := c.event()
		if math.Abs(e) <= eventWithin || hi-lo < 1e-9 {
			return mid
		}
		if e < 0 {
			hi, ehi = mid, e
			if last < 0 {
				elo /= 2
			}
			last = -1
		} else {
			lo, elo = mid, e
			if last > 0 {
				ehi /= 2
			}
			last = 1
		}
	}
	copy(c.x, c.keep)
	c.solve(t+done*dt, hi*dt, done+hi, demand)
	return hi
}

// accept takes the trial as the new state.
func (c *cluster) accept(t, dt, f float64, demand []float64) {
	for i := range c.devs {
		d := &c.devs[i]
		q, ha, hb := c.at(d, i)
		if d.store == nil {
			d.dev.Accept(t, dt, q, ha, hb)
			continue
		}
		had := d.store.Stored()
		d.dev.Accept(t, dt, q, ha, hb)
		c.unbooked += d.store.Stored() - had - dt/2*(c.keep[len(c.nodes)+i]+q)
	}
	for i := range c.ends {
		if e := &c.ends[i]; e.gas {
			e.v = e.k / (c.x[e.local] - e.hv)
		}
	}
	for i := range c.nodes {
		if c.pockets[i].end >= 0 {
			c.fill(i, c.r[i])
		} else if e := c.gasAt(i); e != nil {
			e.v -= c.r[i] * dt
		} else {
			c.defect += math.Abs(c.r[i]) * dt
		}
	}
}

// touch lets the devices at an event choose between rest and rebound.
func (c *cluster) touch(t, dt, f float64, demand []float64) {
	nn := len(c.nodes)
	for i := range c.devs {
		c.devs[i].hit = c.devs[i].dev.Event() <= 1e-6
	}
	for i := range c.devs {
		d := &c.devs[i]
		if !d.hit {
			continue
		}
		q, _, hb := c.at(d, i)
		var s valve.State
		cv, ok := d.dev.(*device.CheckValve)
		if ok {
			s = cv.State()
		}
		copy(c.keep, c.x)
		d.dev.Rest()
		if !c.solve(t, restOver*dt, f, demand) {
			copy(c.x, c.keep)
		}
		for k := range c.devs {
			if other := &c.devs[k]; other.store != nil && k != i {
				other.store.Resume(c.x[nn+k])
			}
		}
		rq, ra, rb := c.at(d, i)
		d.dev.Touch(rq, ra, rb)
		if ok && c.touched != nil {
			c.touched(d, t, s, q/cv.Area, hb, rb)
		}
		for k := range c.nodes {
			c.x[k], _ = c.head(k)
		}
		c.x[nn+i] = rq
	}
}
