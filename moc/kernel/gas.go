package kernel

import "math"

// Gas turns the line to discrete gas cavities from its present state on: a little free gas is lumped at every node, isothermal,
//
//	(H - Hv) V = K,   K = alpha0 V_reach p0/(rho g)
//
// with Hv the head at which the node reaches vapour pressure, m, V the gas volume, m3, which follows the equations of type cavity, and alpha0 the
// free gas fraction at the reference pressure p0. k is K of a whole reach, m4; the ends hold half a reach. So x = H' - Hv > 0 is the positive root
// of b x^2 + a x - K = 0 with b = 2 h/Bz, a = V + h (2 Hv - P - M)/Bz, h = 2 dt. With K of order 1e-7 of the reach the cavity behaves as vapour when it
// grows, and as nothing when it does not.
//
// Source: E. B. Wylie, Simulation of vaporous and gaseous cavitation, J. Fluids Eng. 106 (1984) 307-311, from memory; the form with
// weighting 1 and the root are worked out here.
func (l *Line) Gas(k float64, hv []float64) {
	if !(k > 0) {
		panic("kernel: gas cavities need gas")
	}
	c := l.part(k, hv)
	for i, h := range c.head {
		c.v[i] = k / math.Max(h-hv[i], 1e-3)
		if i == 0 || i == l.N {
			c.v[i] /= 2
		} else {
			c.sum += c.v[i]
		}
		c.most[i], c.mostAt[i] = c.v[i], l.steps
	}
	copy(c.other, c.v)
	c.sumOther, c.stored = c.sum, c.sum
	l.cavity = c
}

// gas is the step of the inner nodes. With the quadratic times Bz there is no division before its root,
//
//	2 h x^2 + w x - K Bz = 0,   w = a Bz = V Bz + h (2 Hv - P - M),   root = sqrt(w^2 + 8 h K Bz)
//
// and nothing cancels in x = (root - w)/(4 h) when w <= 0, nor in V' = (root + w)/(2 Bz) when w > 0; the other follows from x V' = K.
func (l *Line) gas(p, m []float64) {
	g := l.cavity
	n := len(p)
	m = m[:n]
	mx, mn := l.max[1:][:n], l.min[1:][:n]
	hv, v, other, head, most := g.hv[1:][:n], g.v[1:][:n], g.other[1:][:n], g.head[1:][:n], g.most[1:][:n]
	step, b, k := 2*l.Dt, l.B, g.k
	resistance, reciprocal, product := l.R/(4*b), 1/(4*step), 8*step*k
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
		w := old*bz + step*(2*hv[i]-sum)
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
		gases += vol
		if both := (vol + other[i]) / 2; both > most[i] {
			most[i], g.mostAt[i+1] = both, l.steps
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
	g.sum, g.friction = gases, 2*friction
}
