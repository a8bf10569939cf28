package valve

import "math"

// balance is the pressure drop, Pa, at which load and resistance meet at a position, friction counted against opening.
func (l *Law) balance(y float64) float64 {
	kappa, _ := l.Load.At(y)
	r, _ := l.resist(y)
	return (r + l.Friction) / (kappa * l.Area * l.Arm)
}

// follow is the derivative of the position of a free disc in the pressure drop that it balances, 1/Pa times the unit of y.
func (l *Law) follow(y float64) float64 {
	kappa, dkappa := l.Load.At(y)
	r, dr := l.resist(y)
	area := l.Area * l.Arm
	return kappa * area / (dr - dkappa/kappa*(r+l.Friction))
}

// rungs is the number of intervals in which a travel is searched for equilibria.
const rungs = 500

// ladder is the pressure drop that a disc has borne on its way from the seat to a position: the running maximum of balance.
type ladder struct {
	law *Law
	top [rungs + 1]float64
}

func (l *ladder) at(i int) float64 { // finer near the seat
	u := float64(i) / rungs
	return l.law.Travel * u * u
}

func (l *ladder) build(law *Law) {
	l.law = law
	most := math.Inf(-1)
	for i := range l.top {
		most = math.Max(most, law.balance(l.at(i)))
		l.top[i] = most
	}
}

// reach is the position of the disc, reached from its seat, at a constant pressure drop.
func (l *ladder) reach(dp float64) float64 {
	if dp <= l.top[0] {
		return 0
	}
	if dp >= l.top[rungs] {
		return l.law.Travel
	}
	below, above := 0, rungs // top[below] < dp <= top[above]
	for above-below > 1 {
		if mid := (below + above) / 2; l.top[mid] < dp {
			below = mid
		} else {
			above = mid
		}
	}
	return l.meet(dp, l.at(below), l.at(above))
}

// meet is the position between two at which the disc balances a pressure drop above what it balances at the first and up to that at the second, by
// Newton's method in the shrinking bracket.
func (l *ladder) meet(dp, lo, hi float64) float64 {
	y := hi
	for range 100 {
		short := dp - l.law.balance(y)
		switch {
		case short > 0:
			lo = y
		case short < 0:
			hi = y
		default:
			return y
		}
		next := y + short*l.law.follow(y)
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if next == y || next == lo || next == hi {
			return next
		}
		y = next
	}
	return y
}

// rising is the search for the equilibrium of a pair at phi(v) = flow.
type rising struct {
	ladders [2]ladder
	k, flow float64
}

// excess is G^2 2 dp/rho - phi(v), the flow at positions and pressure drop less the one wanted.
func (r *rising) excess(y [2]float64, dp float64) float64 {
	g := r.conductance(y)
	return g*g*r.k*dp - r.flow
}

func (r *rising) conductance(y [2]float64) (g float64) {
	for i := range r.ladders {
		l := r.ladders[i].law
		if y[i] == 0 {
			g += l.Leak
			continue
		}
		c, _ := l.conductance(y[i])
		g += c
	}
	return g
}

// reached are the positions at a constant pressure drop.
func (r *rising) reached(dp float64) [2]float64 {
	return [2]float64{r.ladders[0].reach(dp), r.ladders[1].reach(dp)}
}

// led are positions and pressure drop with disc i at y in balance, and the other one where that pressure drop lets it be.
func (r *rising) led(i int, y float64) ([2]float64, float64) {
	dp := r.ladders[i].law.balance(y)
	both := [2]float64{y, y}
	both[1-i] = r.ladders[1-i].reach(dp)
	return both, dp
}

// Steady follows the discs from their seats: as the flow grows the pressure drop grows and opens each disc in its turn, the one with the
// weaker spring first. Where the pressure drop that a disc balances falls as it opens further, that disc leads, the pressure drop
// falls with it, and the other disc goes back; of two equal discs the first leads.
func (p *Pair) Steady(v float64) Equilibrium {
	var r rising
	lam := p.Halves[0].laminar()
	flow, dflow := phi(v, lam)
	r.k, r.flow = 2/p.Halves[0].Density, flow
	for i, l := range p.Halves {
		r.ladders[i].build(l)
	}
	most := math.Max(r.ladders[0].top[rungs], r.ladders[1].top[rungs])
	open := [2]float64{p.Halves[0].Travel, p.Halves[1].Travel}
	if r.excess(open, most) <= 0 {
		return p.equilibrium(&r, open, dflow)
	}
	lo, hi := 0.0, math.Nextafter(most, math.Inf(1)) // just above what both discs bear
	for hi-lo > 1e-16*hi {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			break
		}
		if r.excess(r.reached(mid), mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	before, y := r.reached(lo), r.reached(hi)
	leader, leap := 0, 0.0
	for i := range y {
		if d := (y[i] - before[i]) / open[i]; d > leap {
			leader, leap = i, d
		}
	}
	if leap > 1e-6 {
		y = r.leap(leader, before[leader], y[leader], hi)
	}
	e := p.equilibrium(&r, y, dflow)
	e.Snaps = r.snaps(y, e.DP)
	return e
}

// leap goes with the leading disc through its travel from the position before the pressure drop falls to the one after, to the first
// place where the flow is met.
func (r *rising) leap(leader int, from, to, top float64) [2]float64 {
	excess := func(y float64) float64 {
		both, dp := r.led(leader, y)
		return -r.excess(both, dp)
	}
	last := from
	for i := 1; i <= rungs; i++ {
		y := from + (to-from)*float64(i)/rungs
		if excess(y) < 0 {
			_, y = narrow(excess, last, y) // the end at which the flow passes
			both, _ := r.led(leader, y)
			return both
		}
		last = y
	}
	// The leader is on its stop before the flow is met; the pressure drop grows again.
	held := [2]float64{to, to}
	at := func(dp float64) [2]float64 {
		held[1-leader] = r.ladders[1-leader].reach(dp)
		return held
	}
	_, dp := narrow(func(dp float64) float64 { return -r.excess(at(dp), dp) }, r.ladders[leader].law.balance(to), top)
	return at(dp)
}

// snaps tells whether a disc further open meets the same flow at a lower pressure drop.
func (r *rising) snaps(y [2]float64, dp float64) bool {
	for i := range r.ladders {
		l := &r.ladders[i]
		for k := 1; k <= rungs; k++ {
			at := l.at(k)
			if at <= y[i] || l.law.balance(at) >= l.top[k] {
				continue
			}
			if both, drop := r.led(i, at); r.excess(both, drop) < 0 {
				return true
			}
		}
	}
	return false
}

// equilibrium is the state at two positions of rest, with the pressure drop that gives the flow there.
func (p *Pair) equilibrium(r *rising, y [2]float64, dflow float64) Equilibrium {
	g := r.conductance(y)
	e := Equilibrium{DP: r.flow / (g * g * r.k), Held: true}
	var d [2]State
	dg := 0.0
	for i, l := range p.Halves {
		switch d[i].Y = y[i]; {
		case y[i] == 0:
			d[i].Contact, e.Held = Seated, false
		case y[i] == l.Travel:
			d[i].Contact = Stopped
		default:
			_, slope := l.conductance(y[i])
			dg += slope * l.follow(y[i])
			e.Held = false
		}
	}
	e.State = join(d)
	if slope := dflow / (r.k * (g*g + 2*g*dg*e.DP)); !math.IsNaN(slope) {
		e.Slope = slope
	}
	return e
}
