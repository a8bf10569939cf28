package kernel

import "math"

// Vapour turns the line to discrete vapour cavities from its present state on. At any node
//
//	H >= Hv,   V >= 0,   (H - Hv) V = 0
//
// with V' of type cavity: where the liquid would come below its vapour head Hv, m, the head is held there and a cavity opens, without gas and without
// inertia; it closes when its volume is used up. For the node as liquid, H0 = (P + M)/2,
//
//	H' = max(Hv, H0 - Bz V/(2 h)),   V' = max(0, V + 2 h (Hv - H0)/Bz),   h = 2 dt
//
// is the one solution: the limit of the gas form for K to 0. In the step of the collapse the liquid first fills what is left of the cavity, so no volume
// is lost, and the head comes to lie between Hv and H0. A node without a cavity sends the waves of the liquid kernel, to the last digit (in its form "Go").
//
// Source: the discrete vapour cavity is that of the review named at type cavity, from memory; the form above is worked out here.
func (l *Line) Vapour(hv []float64) { l.cavity = l.part(0, hv) }

// vapour is the step of the inner nodes.
func (l *Line) vapour(p, m []float64) {
	c := l.cavity
	n := len(p)
	m = m[:n]
	mx, mn := l.max[1:][:n], l.min[1:][:n]
	hv, v, head := c.hv[1:][:n], c.v[1:][:n], c.head[1:][:n]
	k := l.R / (4 * l.B * l.B)
	c.sum, c.friction = 0, 0
	for i, up := range p {
		down := m[i]
		h := up + down
		if v[i] > 0 || h < 2*hv[i] {
			h = l.open(i+1, up, down, &p[i], &m[i])
		} else { // as in form
			s := up - down
			u := k * s
			if u < 0 {
				u = -u
			}
			d := s * (u * (e0 - u*(e1-u*(e2-u*(e3-u*e4)))))
			if u > series {
				x := 2 / (1 + math.Sqrt(1+4*u))
				d = s * (u * x * x)
			}
			p[i] = up - d
			m[i] = down + d
		}
		head[i] = h / 2
		if h > mx[i] {
			mx[i], l.maxAt[i+1] = h, l.steps
		}
		if h < mn[i] {
			mn[i], l.minAt[i+1] = h, l.steps
		}
	}
}

// open advances node i, which has a cavity before or after the step. It sets the waves that leave and gives 2H'.
func (l *Line) open(i int, up, down float64, p, m *float64) float64 {
	c := l.cavity
	old, hv, sum := c.v[i], c.hv[i], up+down
	r := l.R / (4 * l.B) * math.Abs(up-down) // R|Q|/2
	bz := l.B + r
	h, v := sum/2-old*bz/(4*l.Dt), 0.0
	if h <= hv {
		h, v = hv, math.Max(0, old+2*l.Dt*(2*hv-sum)/bz)
	}
	c.v[i] = v
	if x := (v + c.other[i]) / 2; x > c.most[i] {
		c.most[i], c.mostAt[i] = x, l.steps
	}
	c.sum += v
	c.friction += 2 * r / bz * (sum - 2*h) // R|Q| (Qu - Qd)
	f := (l.B - r) / bz
	*p = h + f*(h-down)
	*m = h - f*(up-h)
	return 2 * h
}
