// Package kernel advances the characteristics of elastic pipes on flat arrays. It knows nothing of networks, devices or files.
//
// One-dimensional flow of a slightly compressible liquid in an elastic pipe obeys, with H the piezometric head, m, Q the flow, m3/s,
// a the wave speed, m/s, A the bore area, m2, f the Darcy friction factor and D the bore, m,
//
//	dH/dt + a^2/(g A) dQ/dx = 0
//	dQ/dt + g A dH/dx + f Q|Q|/(2 D A) = 0
//
// (convective terms of order V/a left out). Along dx/dt = +a and -a these become ordinary differential equations. Over one reach
// dx = a dt, with the pipe impedance B = a/(g A), s/m2, and the resistance of a reach R = f dx/(2 g D A^2), s2/m5, the trapezoidal rule gives
//
//	H' + B Q' + R/2 Q'|Q'| = P,   P = H + B Q - R/2 Q|Q|  of the neighbour upstream
//	H' - B Q' - R/2 Q'|Q'| = M,   M = H - B Q + R/2 Q|Q|  of the neighbour downstream
//
// so a node is its two outgoing waves P (travelling down the pipe) and M (up the pipe), and a step is
//
//	H' = (P + M)/2,   B Q' + R/2 Q'|Q'| = (P - M)/2,   P' = P - d,   M' = M + d,   d = R Q'|Q'|
//
// Friction is of second order in dt, steady flow is kept to rounding, and the trapezoidal storage dt/B sum(H) (see Storage) changes
// exactly by the trapezoidal integral of the end flows whatever d is. The shift of P and M by one node a step is a moving base index: the
// update is in place. Courant number 1 throughout, so there is no interpolation and no numerical damping.
//
// A node near vapour head has a cavity, of gas or of vapour: see Line.Gas and Line.Vapour. Type cavity says how they
// fit the grid, with which weighting and why, and what a spike of a step or two means: it is of the grid, not of the liquid.
//
// The liquid kernel has a plain form and one in vector instructions, which differ in the last digits: see Name.
//
// Source: E. B. Wylie, V. L. Streeter, L. Suo, Fluid Transients in Systems, 1993, ch. 3 (characteristics); the two-wave form and the
// trapezoidal friction are worked out here.
package kernel

import "math"

// End is the state at one end of a line.
type End struct {
	H float64 // head, m
	Q float64 // flow along the line, m3/s, positive from the left end to the right end
}

// Line is one pipe on its grid.
type Line struct {
	N     int     // reaches; nodes are 0..N
	B     float64 // impedance a/(g A), s/m2
	R     float64 // resistance of a reach, s2/m5
	Dt    float64 // time step, s
	Left  End
	Right End

	p, m   []float64 // outgoing waves; node i at p[pb+i], m[mb+i]
	pb, mb int
	pad    int

	// Envelope of 2H and the step at which it was reached.
	max, min     []float64
	maxAt, minAt []int32
	steps        int32

	warn []float64 // 2H below which Low is set, per node
	Low  bool      // a node came within the warning distance of vapour head

	dl, dr float64 // friction d of the end nodes, m

	cavity *cavity // nil: liquid only
	memory *memory // nil: quasi-steady friction and an elastic wall
}

// NewLine returns a line of n reaches. vapour is the head at which each node reaches vapour pressure, m (length n+1), and margin the
// distance above it, m, at which Low is set.
func NewLine(n int, b, r, dt float64, vapour []float64, margin float64) *Line {
	if n < 1 || len(vapour) != n+1 {
		panic("kernel: a line needs at least one reach and a vapour head at every node")
	}
	pad := max(512, min(n, 1<<16))
	l := &Line{N: n, B: b, R: r, Dt: dt, pad: pad,
		p: floats(n+1+pad, 0), m: floats(n+1+pad, 1),
		pb: pad, mb: 0,
		max: floats(n+1, 2), min: floats(n+1, 3),
		maxAt: make([]int32, n+1), minAt: make([]int32, n+1),
		warn: floats(n+1, 4)}
	for i, v := range vapour {
		l.warn[i] = 2 * (v + margin)
	}
	return l
}

// floats is the array of the given place in a line. Large arrays start on a page, and a load waits for an unfinished store whose address
// is equal modulo 4096: the places lie 320 bytes apart, with element 1, the first inner node, at the start of a cache line.
func floats(n, place int) []float64 {
	skip := 40*place + 7
	return make([]float64, n+skip)[skip:]
}

// Set puts the line in the state of the given heads, m, and one flow, m3/s, and starts the envelope there.
func (l *Line) Set(h []float64, q float64) {
	d := l.R * q * math.Abs(q)
	for i, x := range h {
		l.p[l.pb+i] = x + l.B*q - d/2
		l.m[l.mb+i] = x - l.B*q + d/2
		l.max[i], l.min[i] = 2*x, 2*x
		l.Low = l.Low || 2*x < l.warn[i]
	}
	l.Left = End{h[0], q}
	l.Right = End{h[l.N], q}
	l.dl, l.dr = d, d
}

// ArriveLeft is the wave M that reaches the left end at the end of the coming step, m.
func (l *Line) ArriveLeft() float64 {
	if l.memory != nil {
		return l.memory.arrive(0, l.m[l.mb+1], 1)
	}
	return l.m[l.mb+1]
}

// ArriveRight is the wave P that reaches the right end at the end of the coming step, m.
func (l *Line) ArriveRight() float64 {
	if l.memory != nil {
		return l.memory.arrive(l.N, l.p[l.pb+l.N-1], -1)
	}
	return l.p[l.pb+l.N-1]
}

// Impedance is dH/dQ of a wave arriving at an end where the flow was q, s/m2: B + R|q|/2 with quasi-steady friction and an elastic wall.
func (l *Line) Impedance(q float64) float64 {
	z := l.B + l.R*math.Abs(q)/2
	if l.memory != nil {
		return l.memory.impedance(z)
	}
	return z
}

// Interior advances all nodes but the ends by one step. Read the arriving waves first; set the ends afterwards.
func (l *Line) Interior() {
	if l.pb == 0 { // head room used up: back to the start frame
		copy(l.p[l.pad:], l.p[:l.N+1])
		l.pb = l.pad
		copy(l.m[:l.N+1], l.m[l.mb:])
		l.mb = 0
	}
	l.steps++
	p, m := l.p[l.pb:l.pb+l.N-1], l.m[l.mb+2:l.mb+l.N+1]
	switch {
	case l.memory != nil:
		l.memory.step(l, p, m)
	case l.cavity != nil:
		l.parted(p, m)
	default:
		liquid.step(l, p, m)
	}
	l.pb--
	l.mb++
}

// SetLeft closes the step at the left end. zq is |Q| of the impedance used.
func (l *Line) SetLeft(h, q, zq float64) {
	d, w := l.R*zq*q, 0.0
	if l.memory != nil {
		d, w = l.memory.end(0, h, q, d)
	}
	l.p[l.pb] = h + l.B*q - d/2 - w/2
	l.m[l.mb] = h - l.B*q + d/2 - w/2
	l.Left, l.dl = End{h, q}, d
	l.envelope(0, h)
}

// SetRight closes the step at the right end. zq is |Q| of the impedance used.
func (l *Line) SetRight(h, q, zq float64) {
	d, w := l.R*zq*q, 0.0
	if l.memory != nil {
		d, w = l.memory.end(l.N, h, q, d)
	}
	l.p[l.pb+l.N] = h + l.B*q - d/2 - w/2
	l.m[l.mb+l.N] = h - l.B*q + d/2 - w/2
	l.Right, l.dr = End{h, q}, d
	l.envelope(l.N, h)
}

func (l *Line) envelope(i int, h float64) {
	h2 := 2 * h
	if h2 > l.max[i] {
		l.max[i], l.maxAt[i] = h2, l.steps
	}
	if h2 < l.min[i] {
		l.min[i], l.minAt[i] = h2, l.steps
		if h2 < l.warn[i] {
			l.Low = true
		}
	}
}

// Head is the head at node i, m.
func (l *Line) Head(i int) float64 {
	switch i {
	case 0:
		return l.Left.H
	case l.N:
		return l.Right.H
	}
	if l.cavity != nil {
		return l.cavity.head[i]
	}
	if l.memory != nil && l.memory.wall != nil {
		return l.memory.wall.ref[i] + l.memory.wall.eta[i]
	}
	return (l.p[l.pb+i] + l.m[l.mb+i]) / 2
}

// Heads are the heads at all nodes, m, into a slice of N+1.
func (l *Line) Heads(into []float64) {
	into[0], into[l.N] = l.Left.H, l.Right.H
	if l.cavity != nil || l.memory != nil && l.memory.wall != nil {
		for i := 1; i < l.N; i++ {
			into[i] = l.Head(i)
		}
		return
	}
	p, m := l.p[l.pb:l.pb+l.N], l.m[l.mb:l.mb+l.N]
	for i := 1; i < len(p); i++ {
		into[i] = (p[i] + m[i]) / 2
	}
}

// Flow is the flow at node i, m3/s; at a cavity the mean of its two sides.
func (l *Line) Flow(i int) float64 {
	switch i {
	case 0:
		return l.Left.Q
	case l.N:
		return l.Right.Q
	}
	if l.memory != nil && l.memory.friction != nil {
		return l.memory.friction.q[i]
	}
	x := (l.p[l.pb+i] - l.m[l.mb+i]) / 2 // B Q - R/2 Q|Q|
	return 2 * x / (l.B + math.Sqrt(math.Max(l.B*l.B-2*l.R*math.Abs(x), 0)))
}

// Highest is the highest head at node i and the step at which it was reached.
func (l *Line) Highest(i int) (float64, int) { return l.max[i] / 2, int(l.maxAt[i]) }

// Lowest is the lowest head at node i and the step at which it was reached.
func (l *Line) Lowest(i int) (float64, int) { return l.min[i] / 2, int(l.minAt[i]) }

// Storage is the liquid stored by compression and by stretching, elastic and retarded (see wall), relative to zero head, less the cavities at its inner nodes, m3. It is the
// trapezoidal sum of the heads with a quarter of the friction of the end nodes, (d_N - d_0)/4, which makes the balance exact with friction too.
func (l *Line) Storage() float64 {
	s := (l.Left.H+l.Right.H)/2 + (l.dr-l.dl)/4 + l.memory.stretch()
	if l.cavity == nil {
		s += l.memory.delay()
		p, m := l.p[l.pb+1:l.pb+l.N], l.m[l.mb+1:l.mb+l.N]
		for i := range p {
			s += (p[i] + m[i]) / 2
		}
		return s * l.Dt / l.B
	}
	s += l.cavity.friction / 4
	for _, h := range l.cavity.head[1:l.N] {
		s += h
	}
	return s*l.Dt/l.B - l.cavity.stored
}

// CopyTo copies the state into dst, which must come from the same grid.
func (l *Line) CopyTo(dst *Line) {
	p, m, mx, mn, xa, na, w, g, y := dst.p, dst.m, dst.max, dst.min, dst.maxAt, dst.minAt, dst.warn, dst.cavity, dst.memory
	*dst = *l
	dst.p, dst.m, dst.max, dst.min, dst.maxAt, dst.minAt, dst.warn = p, m, mx, mn, xa, na, w
	copy(p, l.p)
	copy(m, l.m)
	copy(mx, l.max)
	copy(mn, l.min)
	copy(xa, l.maxAt)
	copy(na, l.minAt)
	copy(w, l.warn)
	dst.cavity = l.cavity.copyTo(g)
	dst.memory = l.memory.copyTo(y)
}

// Clone is a new line in the same state.
func (l *Line) Clone() *Line {
	c := *l
	c.p, c.m = floats(len(l.p), 0), floats(len(l.m), 1)
	c.max, c.min = floats(len(l.max), 2), floats(len(l.min), 3)
	c.maxAt, c.minAt = make([]int32, len(l.maxAt)), make([]int32, len(l.minAt))
	c.warn = floats(len(l.warn), 4)
	c.cavity, c.memory = nil, nil
	l.CopyTo(&c)
	return &c
}
