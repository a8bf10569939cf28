package valve

import "math"

// Steady follows the disc from its seat upwards to the first position at which load and resistance meet,
//
//	kappa(y) A L rho/2 phi(v) - g(y)^2 (resistance(y) + friction) = 0,
//
// the balance of forces times g^2, or to its stop.
func (l *Law) Steady(v float64) Equilibrium {
	const points = 500
	lam := l.laminar()
	f, df := phi(v, lam)
	head, dhead := l.Density/2*f, l.Density/2*df
	balance := func(y float64) float64 {
		kappa, _ := l.Load.At(y)
		g2, _ := l.conductance2(y)
		r, _ := l.resist(y)
		return kappa*l.Area*l.Arm*head - g2*(r+l.Friction)
	}
	at := func(i int) float64 { // finer near the seat
		u := float64(i) / points
		return l.Travel * u * u
	}

	if balance(0) < 0 { // the leak alone passes it
		g2 := l.Leak * l.Leak
		return Equilibrium{State: State{Contact: Seated}, DP: head / g2, Slope: dhead / g2}
	}
	y, found, snaps := l.Travel, false, false
	for i := 1; i <= points; i++ {
		b := balance(at(i))
		if !found && b < 0 {
			y, found = crossing(balance, at(i-1), at(i)), true
		} else if found && b >= 0 {
			snaps = true
			break
		}
	}

	g2, dg2 := l.conductance2(y)
	e := Equilibrium{DP: head / g2, Slope: dhead / g2}
	if !found {
		e.State = State{Y: l.Travel, Contact: Stopped}
		e.Held = true
		return e
	}
	e.State, e.Snaps = State{Y: y}, snaps
	kappa, dkappa := l.Load.At(y)
	r, dr := l.resist(y)
	area := l.Area * l.Arm
	if by := dkappa*area*head - dg2*(r+l.Friction) - g2*dr; by < 0 {
		dy := -kappa * area * dhead / by
		e.Slope -= head / (g2 * g2) * dg2 * dy
	}
	return e
}

// crossing is the end of the interval of narrow where |f| is less.
func crossing(f func(float64) float64, lo, hi float64) float64 {
	lo, hi = narrow(f, lo, hi)
	if math.Abs(f(hi)) < math.Abs(f(lo)) {
		return hi
	}
	return lo
}

// narrow halves the interval in which f falls through zero, f(lo) >= 0 > f(hi), to its last bit.
func narrow(f func(float64) float64, lo, hi float64) (float64, float64) {
	for {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			return lo, hi
		}
		if f(mid) >= 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
}
