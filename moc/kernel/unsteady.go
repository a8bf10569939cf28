package kernel

import "math"

// Friction is unsteady wall friction: Weighting or Acceleration.
type Friction interface {
	start(l *Line) *unsteady
}

// unsteady is friction that depends on the past. The loss d of a reach at a node goes, half on each side, into the two waves as the
// quasi-steady one does (see the package), with
//
//	d' = R Q'|Q'| + lambda Q' + G (Q' - Q) + z + k sign(Q') |H' - H|
//
// where z, m, is what the node remembers and G, s/m2, the weight of the present step. The head of a node is (P + M)/2 as before and
//
//	(B + (lambda + G)/2) Q' + R/2 Q'|Q'| + (z - G Q)/2 + k/2 sign(Q') |H' - H| = (P - M)/2
//
// grows with Q': one root, found outright. By convolution z = K sum of e_k y_k and G = K w_0, y_k' = e_k y_k + b_k (Q' - Q); by acceleration z = 0
// and G = k B.
//
// A node gives the waves the energy -4 B Q' d' a step, in the measure P^2 + M^2 of its two waves. The convolution of Q' - Q with exponentials
// of b_k > 0 takes up energy in every motion, since Re((1 - s)/(1 - e s)) >= 0 on |s| = 1, and so does every other term: the scheme is stable
// always. Steady flow has z = 0 and Q' = Q, so it is that of quasi-steady friction to rounding, and the storage (see Storage) balances
// whatever d is. d is of second order in dt where the flow is smooth in time. A jump of the flow within one step sends a front steeper than
// the grid can follow, which lowers the order to about 2/3: with 80 reaches the heads are off by 0.5 % of a Joukowsky head for a valve shut within
// a step, and by less than 0.1 % for one shut in a quarter of 2L/a (tests, against the exact solution in laminar flow).
//
// In a cavity the history is that of the mean of the two flows, and of acceleration the first term acts alone.
type unsteady struct {
	k         float64 // of acceleration
	lambda, g float64 // s/m2
	e, b      [terms]float64
	past      [][terms]float64 // K e_k y_k, m; nil: none
	z         []float64        // sum of the past, m
	q, dq     []float64        // flow and its change in the last step, m3/s
	h         []float64        // head, m; of acceleration only
}

// Unsteady gives the line unsteady friction from its present state on, which counts as steady.
func (l *Line) Unsteady(f Friction) { l.remember().friction = f.start(l) }

func (l *Line) newUnsteady() *unsteady {
	u := &unsteady{z: make([]float64, l.N+1), q: make([]float64, l.N+1), dq: make([]float64, l.N+1)}
	for i := range u.q {
		u.q[i] = l.Flow(i)
	}
	return u
}

// start splits the line's steady loss in laminar flow: Poiseuille's share becomes linear, the rest stays quadratic (fittings). A line at rest
// keeps Poiseuille's alone.
func (w Weighting) start(l *Line) *unsteady {
	u := l.newUnsteady()
	step := w.rate * l.Dt
	if w.linear > 0 {
		u.lambda = w.linear * l.B * step
		if q := math.Abs(l.Left.Q); q > 0 {
			u.lambda = math.Min(u.lambda, l.R*q)
			l.R = math.Max(0, l.R-u.lambda/q)
		} else {
			l.R = 0
		}
	}
	if w.area == nil {
		return u
	}
	k := 4 * l.B * step
	e, b, first := exponentials(w, step)
	u.e, u.g = e, k*first
	for j := range b {
		u.b[j] = k * b[j]
		u.g += u.b[j]
	}
	u.past = make([][terms]float64, l.N+1)
	return u
}

func (k Acceleration) start(l *Line) *unsteady {
	u := l.newUnsteady()
	u.k, u.g = float64(k), float64(k)*l.B
	u.h = make([]float64, l.N+1)
	for i := range u.h {
		u.h[i] = l.Head(i)
	}
	return u
}

// remember takes the new flow of node i into its past.
func (u *unsteady) remember(i int, q float64) {
	u.dq[i] = q - u.q[i]
	u.q[i] = q
	if u.past != nil {
		fade(u.past[i:i+1], u.dq[i:i+1], u.z[i:i+1], &u.e, &u.b)
	}
}

// step advances the inner nodes of a line without cavities. The quadratic loss is that of form.
func (u *unsteady) step(l *Line, p, m []float64) {
	n := len(p)
	m = m[:n]
	mx, mn := l.max[1:][:n], l.min[1:][:n]
	q, z, dq := u.q[1:][:n], u.z[1:][:n], u.dq[1:][:n]
	g, beta := u.g, l.B+(u.lambda+u.g)/2
	k, half, twice := l.R/(4*beta*beta), 1/(2*beta), 2*l.B
	for i, up := range p {
		down, was := m[i], q[i]
		h := up + down
		s := up - down - z[i] + g*was
		if u.h != nil {
			s = u.dry(i+1, h/2, s)
		}
		x := k * s
		if x < 0 {
			x = -x
		}
		d := s * (x * (e0 - x*(e1-x*(e2-x*(e3-x*e4)))))
		if x > series {
			c := 2 / (1 + math.Sqrt(1+4*x))
			d = s * (x * c * c)
		}
		flow := (s - d) * half
		p[i] = down + twice*flow
		m[i] = up - twice*flow
		q[i], dq[i] = flow, flow-was
		if h > mx[i] {
			mx[i], l.maxAt[i+1] = h, l.steps
		}
		if h < mn[i] {
			mn[i], l.minAt[i+1] = h, l.steps
			if h < l.warn[i+1] {
				l.Low = true
			}
		}
	}
	if u.past != nil {
		fade(u.past[1:n+1], dq, u.z[1:n+1], &u.e, &u.b)
	}
}

// dry takes k sign(Q')|H' - H| from s = 2 (B + (lambda + G)/2) Q' + R Q'|Q'|, as dry friction does: what is within it brings the flow to rest.
func (u *unsteady) dry(i int, h, s float64) float64 {
	t := u.k * math.Abs(h-u.h[i])
	u.h[i] = h
	switch {
	case s > t:
		return s - t
	case s < -t:
		return s + t
	}
	return 0
}

func (u *unsteady) copyTo(dst *unsteady) *unsteady {
	if u == nil {
		return nil
	}
	if dst == nil {
		dst = &unsteady{}
	}
	d := *dst
	*dst = *u
	dst.z, dst.q, dst.dq = append(d.z[:0], u.z...), append(d.q[:0], u.q...), append(d.dq[:0], u.dq...)
	if u.past != nil {
		dst.past = append(d.past[:0], u.past...)
	}
	if u.h != nil {
		dst.h = append(d.h[:0], u.h...)
	}
	return dst
}
