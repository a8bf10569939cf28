package kernel

// KelvinVoigt is the creep of a plastic wall beyond its elastic strain: Kelvin's and Voigt's elements in series.
type KelvinVoigt struct {
	J   []float64 // creep compliances, 1/Pa
	Tau []float64 // retardation times, s
}

// wall is the retarded strain of a viscoelastic wall at the nodes. The hoop stress sigma follows the head, m, above its initial value, and each
// element creeps towards J sigma, so that continuity becomes
//
//	dH/dt + a^2/(g A) dQ/dx + (2 a^2/g) sum over k of d(eps_k)/dt = 0
//	tau_k d(eps_k)/dt + eps_k = J_k sigma,   sigma = rho g (H - H0) c1 D/(2 e)
//
// with a the wave speed by the elastic modulus alone, m/s, D the bore, e the wall's thickness, m, and c1 the factor of restraint. With the strains as
// heads, S_k = (2 a^2/g) eps_k, m, eta = H - H0 and C_k = rho a^2 c1 (D/e) J_k,
//
//	S_k' = S_k + (w_k + w_k')/2,   w_k = (dt/tau_k) (C_k eta - S_k)        (trapezoidal rule)
//	H' + w'/2 = (P + M)/2,   P' = P - d - w',   M' = M + d - w',   w = sum of w_k
//
// half of w on each reach beside the node as with the friction d. The trapezoidal storage dt/B sum(H + S) keeps the balance exactly, the
// scheme is of second order in dt, and by w' every element takes up energy in every motion, however long the step: it is stable always.
//
// Source: D. Covas, I. Stoianov, J. F. Mano, H. Ramos, N. Graham, C. Maksimovic, The dynamic effect of pipe-wall viscoelasticity in hydraulic
// transients, part II, J. Hydraul. Res. 43 (2005) 56-70, from memory; the two-wave form is worked out here.
type wall struct {
	elements []element
	grow     float64   // w' rises by grow with eta'
	fall     float64   // and falls with eta
	ref      []float64 // H0, m
	eta      []float64 // head above it, m
	s        []float64 // strains S, element by element of a node, m
	rest     []float64 // w' at eta' = 0, m
	w        []float64 // w, m
}

// element is one of the wall's in numbers of the step: with r = dt/(2 tau) and gain = 2 r/(1 + r)
//
//	S' = keep S + take (eta + eta'),   w' = gain C eta' - gain r C eta - back S
type element struct {
	keep float64 // 1 - gain
	take float64 // gain C/2
	back float64 // gain (1 - r)
}

// Wall gives the line a viscoelastic wall from its present state on, which the wall has got used to. modulus is rho a^2 c1 D/e, Pa, with a the
// wave speed by the elastic modulus, c1 the factor of restraint, D the bore and e the thickness.
func (l *Line) Wall(v KelvinVoigt, modulus float64) {
	if len(v.J) != len(v.Tau) {
		panic("kernel: a wall needs a retardation time for every compliance")
	}
	n := l.N + 1
	w := &wall{ref: make([]float64, n), eta: make([]float64, n), s: make([]float64, n*len(v.J)), rest: make([]float64, n), w: make([]float64, n)}
	for k, j := range v.J {
		r := l.Dt / (2 * v.Tau[k])
		gain, c := 2*r/(1+r), modulus*j
		w.elements = append(w.elements, element{keep: 1 - gain, take: gain * c / 2, back: gain * (1 - r)})
		w.grow += gain * c
		w.fall += gain * r * c
	}
	for i := range w.ref {
		w.ref[i] = l.Head(i)
	}
	l.remember().wall = w
}

// creep ends the step of node i at the head eta above its reference.
func (v *wall) creep(i int, eta float64) {
	sum := v.eta[i] + eta
	v.w[i] = v.rest[i] + v.grow*eta
	v.eta[i] = eta
	rest := -v.fall * eta
	s := v.s[i*len(v.elements):][:len(v.elements)]
	for k, e := range v.elements {
		x := e.keep*s[k] + e.take*sum
		s[k] = x
		rest -= e.back * x
	}
	v.rest[i] = rest
}

// enter takes half of w' from the waves arriving at the inner nodes, which leaves those of an elastic wall.
func (v *wall) enter(p, m []float64) {
	m = m[:len(p)]
	y := 1 / (1 + v.grow/2)
	for i, up := range p {
		eta := ((up+m[i]-v.rest[i+1])/2 - v.ref[i+1]) * y
		v.creep(i+1, eta)
		p[i] -= v.w[i+1] / 2
		m[i] -= v.w[i+1] / 2
	}
}

// leave takes the other half from the waves that go out.
func (v *wall) leave(p, m []float64) {
	m = m[:len(p)]
	for i := range p {
		p[i] -= v.w[i+1] / 2
		m[i] -= v.w[i+1] / 2
	}
}

// offset is w' at head 0, m.
func (v *wall) offset(i int) float64 { return v.rest[i] - v.grow*v.ref[i] }

func (v *wall) copyTo(dst *wall) *wall {
	if v == nil {
		return nil
	}
	if dst == nil {
		dst = &wall{}
	}
	d := *dst
	*dst = *v
	dst.ref, dst.eta, dst.s = append(d.ref[:0], v.ref...), append(d.eta[:0], v.eta...), append(d.s[:0], v.s...)
	dst.rest, dst.w = append(d.rest[:0], v.rest...), append(d.w[:0], v.w...)
	return dst
}
