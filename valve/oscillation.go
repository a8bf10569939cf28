package valve

import "math"

// Oscillation is the small motion of a disc about its place of rest in a steady flow.
type Oscillation struct {
	Frequency float64 // f, natural frequency without damping, Hz
	Damping   float64 // d, fraction of the critical one: from 1 upwards the disc does not swing, it creeps back
}

// Oscillation is the small motion of the disc at y, rad or m, in a bore velocity v, m/s, that its motion does not change, as it is before a long column:
//
//	M x" + c x' + k x = 0,   f = sqrt(k/M)/(2 pi),   d = c/(2 sqrt(k M))
//	k = resistance'(y) - (kappa/g^2)' A L rho/2 phi(v)
//	c = kappa/g^2 A L rho/2 phi'(v) sweep
//
// with x the deviation from y, k the slope of closing less opening moment or force, and c what the flow that the disc displaces takes from its load: both
// are the derivatives of the law of motion, derived for this program. The dashpot, the disc's own drag and dry friction are of second order or hold a disc that
// moves by less than they allow: they are left out. False where k is not above zero: the disc does not rest there.
func (l *Law) Oscillation(y, v float64) (Oscillation, bool) {
	k, c := l.stiffness(y, v)
	if !(k > 0) {
		return Oscillation{}, false
	}
	return Oscillation{Frequency: math.Sqrt(k/l.Inertia) / (2 * math.Pi), Damping: c / (2 * math.Sqrt(k*l.Inertia))}, true
}

// stiffness is k and c of [Law.Oscillation].
func (l *Law) stiffness(y, v float64) (k, c float64) {
	_, dr := l.resist(y)
	f, df := phi(v, l.laminar())
	if f == 0 && y == 0 {
		return dr, 0
	}
	kappa, dkappa := l.Load.At(y)
	g2, dg2 := l.conductance2(y)
	sweep, _ := l.Sweep.At(y)
	head := l.Area * l.Arm * l.Density / 2
	return dr - (dkappa-kappa*dg2/g2)/g2*head*f, kappa / g2 * head * df * sweep
}

// Oscillation is the small motion of the free discs of a pair, in the proportion s in which a slow change of the flow moves them:
//
//	f = sqrt(s.K s/s.M s)/(2 pi),   K s = b
//	K_ij = (resistance_i' - kappa_i' A_i L_i dp) delta_ij + 2 kappa_i A_i L_i dp g_j'/G,   b_i = kappa_i A_i L_i,   C_ij = b_i sweep_j rho phi'(v)/(2 G^2)
//
// Of two equal discs it is exactly the motion in which both go together; of a disc beside one on its stop or seat that of the disc. It knows nothing of two
// discs that swing against each other.
func (p *Pair) Oscillation(s State, v float64) (Oscillation, bool) {
	d := s.split()
	f, df := phi(v, p.Halves[0].laminar())
	var g, dg, sweep, b, slope [2]float64
	var total float64
	for i, l := range p.Halves {
		g[i], dg[i] = l.conductance(d[i].Y)
		total += g[i]
	}
	if !(total > 0) {
		return Oscillation{}, false
	}
	rho := p.Halves[0].Density
	dp, drop := rho/2*f/(total*total), rho/2*df/(total*total)
	for i, l := range p.Halves {
		kappa, dkappa := l.Load.At(d[i].Y)
		_, dr := l.resist(d[i].Y)
		sweep[i], _ = l.Sweep.At(d[i].Y)
		b[i] = kappa * l.Area * l.Arm
		slope[i] = dr - dkappa*l.Area*l.Arm*dp
	}
	var x [2]float64
	k := func(i, j int) float64 {
		stiff := 2 * b[i] * dp * dg[j] / total
		if i == j {
			stiff += slope[i]
		}
		return stiff
	}
	first, second := d[0].Contact == Free, d[1].Contact == Free
	switch {
	case first && second:
		det := k(0, 0)*k(1, 1) - k(0, 1)*k(1, 0)
		x = [2]float64{(b[0]*k(1, 1) - b[1]*k(0, 1)) / det, (b[1]*k(0, 0) - b[0]*k(1, 0)) / det}
	case first:
		x[0] = b[0] / k(0, 0)
	case second:
		x[1] = b[1] / k(1, 1)
	default:
		return Oscillation{}, false
	}
	var stiff, mass, damp float64
	for i := range x {
		mass += x[i] * x[i] * p.Halves[i].Inertia
		for j := range x {
			stiff += x[i] * k(i, j) * x[j]
			damp += x[i] * b[i] * drop * sweep[j] * x[j]
		}
	}
	if !(stiff > 0) || !(mass > 0) || math.IsInf(mass, 0) || math.IsInf(stiff, 0) {
		return Oscillation{}, false
	}
	return Oscillation{Frequency: math.Sqrt(stiff/mass) / (2 * math.Pi), Damping: damp / (2 * math.Sqrt(stiff*mass))}, true
}

// Oscillation is the small motion of the disc where it rests in a steady bore velocity v, m/s, above zero. False for a disc on its seat or its stop, one that
// does not rest there, and a valve without a disc that moves.
func (v Valve) Oscillation(velocity float64) (Oscillation, bool) {
	switch m := v.Motion.(type) {
	case *Pair:
		return m.Oscillation(m.Steady(velocity).State, velocity)
	case *Carried:
		return m.Law.resting(velocity)
	case *Law:
		return m.resting(velocity)
	}
	return Oscillation{}, false
}

// resting is the small motion of a disc between seat and stop.
func (l *Law) resting(v float64) (Oscillation, bool) {
	s := l.Steady(v).State
	if s.Contact != Free {
		return Oscillation{}, false
	}
	return l.Oscillation(s.Y, v)
}
