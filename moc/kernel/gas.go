package kernel

import "math"

// gas is the discrete gas cavity model: a little free gas is lumped at every node, isothermal,
//
//	(H - Hv) V = K,   K = alpha0 V_reach p0/(rho g)
//
// with Hv the head at which the node reaches vapour pressure, m, V the gas volume, m3, alpha0 the free gas fraction at the reference
// pressure p0. The node has two flows, Qu arriving and Qd leaving, and
//
//	V' = V + dt (Qd' - Qu')       (weighting 1: fully implicit)
//	H' + Bz Qu' = P,   H' - Bz Qd' = M,   Bz = B + R|Q|/2
//
// so that x = H' - Hv > 0 is the positive root of b x^2 + a x - K = 0 with b = 2 dt/Bz, a = V + dt (2 Hv - P - M)/Bz. With K of order
// 1e-7 of the reach the cavity behaves as vapour when it grows, and as nothing when it does not.
//
// Source: E. B. Wylie, Simulation of vaporous and gaseous cavitation, J. Fluids Eng. 106 (1984) 307-311, from memory; the form with
// one time level of the regular grid and weighting 1 is worked out here.
type gas struct {
	k        float64   // K of a whole reach, m4
	hv       []float64 // head of vapour pressure at the nodes, m
	v        []float64 // gas volume at the nodes, m3; the ends hold half a reach
	head     []float64
	most     []float64 // largest volume
	stored   float64   // gas of the inner nodes at mid-step, m3
	friction float64   // sum over the inner nodes of d on the arriving side less d on the leaving side, m
}

// Cavities turns the line to the gas-cavity kernel from its present state on. k is alpha0 V_reach p0/(rho g), m4.
func (l *Line) Cavities(k float64, hv []float64) {
	n := l.N + 1
	g := &gas{k: k, hv: hv, v: make([]float64, n), head: make([]float64, n), most: make([]float64, n)}
	for i := range g.v {
		h := l.Head(i)
		g.head[i] = h
		x := math.Max(h-hv[i], 1e-3)
		g.v[i] = k / x
		if i == 0 || i == l.N {
			g.v[i] /= 2
		} else {
			g.stored += g.v[i]
		}
		g.most[i] = g.v[i]
	}
	l.gas = g
	l.Low = false
}

// HasCavities tells whether the gas-cavity kernel runs.
func (l *Line) HasCavities() bool { return l.gas != nil }

// EndGas is K, m4, vapour head, m, and present volume, m3, of the gas at an end.
func (l *Line) EndGas(right bool) (k, hv, v float64) {
	i := 0
	if right {
		i = l.N
	}
	return l.gas.k / 2, l.gas.hv[i], l.gas.v[i]
}

// SetEndGas stores the gas volume at an end, m3.
func (l *Line) SetEndGas(right bool, v float64) {
	i := 0
	if right {
		i = l.N
	}
	l.gas.v[i] = v
	if v > l.gas.most[i] {
		l.gas.most[i] = v
	}
}

// LargestCavity is the largest gas volume so far at node i, m3.
func (l *Line) LargestCavity(i int) float64 {
	if l.gas == nil {
		return 0
	}
	return l.gas.most[i]
}

// cavities is the step of the inner nodes. With the quadratic times Bz there is no division before its root,
//
//	2 dt x^2 + w x - K Bz = 0,   w = a Bz = V Bz + dt (2 Hv - P - M),   root = sqrt(w^2 + 8 dt K Bz)
//
// and nothing cancels in x = (root - w)/(4 dt) when w <= 0, nor in V' = (root + w)/(2 Bz) when w > 0; the other follows from x V' = K.
func (l *Line) cavities(p, m []float64) {
	g := l.gas
	n := len(p)
	m = m[:n]
	mx, mn := l.max[1:][:n], l.min[1:][:n]
	hv, v, head, most := g.hv[1:][:n], g.v[1:][:n], g.head[1:][:n], g.most[1:][:n]
	dt, b, k := l.Dt, l.B, g.k
	resistance, reciprocal, product := l.R/(4*b), 1/(4*dt), 8*dt*k
	gases, friction := 0.0, 0.0
	for i, up := range p {
		down, old := m[i], v[i]
		s := up - down
		if s < 0 {
			s = -s
		}
		r := resistance * s // R|Q|/2
		bz := b + r
		y := 1 / bz
		sum := up + down
		w := old*bz + dt*(2*hv[i]-sum)
		root := math.Sqrt(w*w + product*bz)
		var x, vol float64
		if w > 0 {
			vol = (root + w) * y / 2
			x = k / vol
		} else {
			x = (root - w) * reciprocal
			vol = k / x
		}
		h := hv[i] + x
		h2 := 2 * h
		v[i] = vol
		head[i] = h
		gases += vol + old
		if vol > most[i] {
			most[i] = vol
		}
		friction += r * y * (sum - h2) // R|Q|/2 (Qu - Qd)
		f := (b - r) * y
		p[i] = h + f*(h-down)
		m[i] = h - f*(up-h)
		if h2 > mx[i] {
			mx[i], l.maxAt[i+1] = h2, l.steps
		}
		if h2 < mn[i] {
			mn[i], l.minAt[i+1] = h2, l.steps
		}
	}
	g.stored, g.friction = gases/2, 2*friction
}

func (g *gas) copyTo(dst *gas) *gas {
	if g == nil {
		return nil
	}
	if dst == nil {
		n := len(g.v)
		dst = &gas{v: make([]float64, n), head: make([]float64, n), most: make([]float64, n)}
	}
	v, head, most := dst.v, dst.head, dst.most
	*dst = *g
	dst.v, dst.head, dst.most = v, head, most
	copy(v, g.v)
	copy(head, g.head)
	copy(most, g.most)
	return dst
}
