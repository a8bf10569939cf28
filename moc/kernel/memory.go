package kernel

import "math"

// memory is what a line remembers of its past beside its waves: unsteady friction, the creep of its wall, or both.
type memory struct {
	friction *unsteady
	wall     *wall
	up, down []float64 // waves arriving at the inner nodes, m; of a line with cavities only
}

func (l *Line) remember() *memory {
	if l.memory == nil {
		l.memory = &memory{}
	}
	return l.memory
}

// step advances the inner nodes. The wall is a change of the waves before and after any form of friction.
func (y *memory) step(l *Line, p, m []float64) {
	if l.cavity != nil {
		y.cavities(l, p, m)
		return
	}
	if y.wall != nil {
		y.wall.enter(p, m)
	}
	if y.friction != nil {
		y.friction.step(l, p, m)
	} else {
		liquid.step(l, p, m)
	}
	if y.wall != nil {
		y.wall.leave(p, m)
	}
}

// known is what the past gives at the coming step to node i whatever its flow and head will be, m: half of z - G Q, and half of w' at head 0.
func (y *memory) known(i int) (friction, wall float64) {
	if u := y.friction; u != nil {
		friction = (u.z[i] - u.g*u.q[i]) / 2
	}
	if v := y.wall; v != nil {
		wall = v.offset(i) / 2
	}
	return friction, wall
}

// slopes are (lambda + G)/2, by which the flow's impedance grows, s/m2, and 1 + dw'/dH/2.
func (y *memory) slopes() (friction, wall float64) {
	wall = 1
	if u := y.friction; u != nil {
		friction = (u.lambda + u.g) / 2
	}
	if v := y.wall; v != nil {
		wall += v.grow / 2
	}
	return friction, wall
}

// arrive turns the wave at an end into C of H = C + Z Q at the left end (sign 1), H = C - Z Q at the right end (sign -1).
func (y *memory) arrive(i int, wave, sign float64) float64 {
	friction, wall := y.known(i)
	_, c := y.slopes()
	return (wave + sign*friction - wall) / c
}

// impedance turns B + R|q|/2 into Z.
func (y *memory) impedance(z float64) float64 {
	friction, c := y.slopes()
	return (z + friction) / c
}

// end closes the step of an end: it adds the unsteady friction to d and gives w, both in m.
func (y *memory) end(i int, h, q, d float64) (friction, wall float64) {
	if u := y.friction; u != nil {
		d += u.lambda*q + u.g*(q-u.q[i]) + u.z[i]
		u.remember(i, q)
	}
	if v := y.wall; v != nil {
		v.creep(i, h-v.ref[i])
		wall = v.w[i]
	}
	return d, wall
}

// cavities is the step with cavities. Divided by 1 + dw'/dH/2 the equations of a node are those of type cavity, with other waves, B and R.
func (y *memory) cavities(l *Line, p, m []float64) {
	n := len(p)
	if y.up == nil {
		y.up, y.down = make([]float64, n), make([]float64, n)
	}
	b, r := l.B, l.R
	half, c := y.slopes()
	for i := range p {
		friction, wall := y.known(i + 1)
		p[i], m[i] = (p[i]-friction-wall)/c, (m[i]+friction-wall)/c
		y.up[i], y.down[i] = p[i], m[i]
	}
	l.B, l.R = (b+half)/c, r/c
	l.parted(p, m)
	resistance, total := l.R/(4*l.B), 0.0
	for i := range p {
		friction, wall := y.known(i + 1)
		rq := resistance * math.Abs(y.up[i]-y.down[i])
		h, z := l.cavity.head[i+1], l.B+rq
		up, down := (y.up[i]-h)/z, (h-y.down[i])/z // flows arriving and leaving
		loss := c*rq + half
		wall += (c - 1) * h
		p[i] = h + (b-loss)*down - friction - wall
		m[i] = h - (b-loss)*up + friction - wall
		total += 2 * loss * (up - down)
		if y.friction != nil {
			y.friction.remember(i+1, (up+down)/2)
		}
		if v := y.wall; v != nil {
			v.creep(i+1, h-v.ref[i+1])
		}
	}
	l.B, l.R = b, r
	l.cavity.friction = total
}

// Loss is the friction loss of a reach at node i, unsteady friction included, m: its trapezoidal sum along the line is the friction head.
func (l *Line) Loss(i int) float64 {
	switch {
	case i == 0:
		return l.dl
	case i == l.N:
		return l.dr
	case l.memory != nil && l.memory.friction != nil:
		return 2*l.B*l.Flow(i) - (l.p[l.pb+i] - l.m[l.mb+i])
	}
	q := l.Flow(i)
	return l.R * q * math.Abs(q)
}

// stretch is the sum of the wall's strains by the trapezoidal rule, m, and delay the sum over the inner nodes of w/2, by which (P + M)/2 lies below
// the head.
func (y *memory) stretch() (s float64) {
	if y == nil || y.wall == nil {
		return 0
	}
	v := y.wall
	for _, x := range v.s {
		s += x
	}
	k := len(v.elements)
	for i := range k {
		s -= (v.s[i] + v.s[len(v.s)-k+i]) / 2
	}
	return s
}

func (y *memory) delay() (s float64) {
	if y == nil || y.wall == nil {
		return 0
	}
	for _, w := range y.wall.w[1 : len(y.wall.w)-1] {
		s += w / 2
	}
	return s
}

func (y *memory) copyTo(dst *memory) *memory {
	if y == nil {
		return nil
	}
	if dst == nil {
		dst = &memory{}
	}
	dst.friction, dst.wall = y.friction.copyTo(dst.friction), y.wall.copyTo(dst.wall)
	return dst
}
