package valve

// passage is the way of the flow after a step: a gap that lets it through and discs that displace it. Gaps side by side share the
// pressure drop, so that their conductances add, as do the flows that their discs displace.
type passage struct {
	g, dg   float64 // conductance on the bore velocity and its derivative in the pressure drop, 1 and 1/Pa
	swept   float64 // sweep w: velocity displaced by the disc, m/s
	carried float64 // its derivative in the pressure drop with the disc where it is, m/(s Pa)
	carry   float64 // and with the change of sweep
}

// passage is that of a disc after a step.
func (l *Law) passage(m move) passage {
	y, w := m.state.Y, m.state.W
	sweep, dsweep := l.Sweep.At(y)
	g, dg := l.conductance(y)
	if m.state.Contact == Seated {
		g, dg = l.Leak, 0
	}
	carried := sweep * m.dw
	return passage{g: g, dg: dg * m.dy, swept: sweep * w, carried: carried, carry: carried + dsweep*m.dy*w}
}

// beside is the passage of two discs side by side.
func (p passage) beside(o passage) passage {
	return passage{p.g + o.g, p.dg + o.dg, p.swept + o.swept, p.carried + o.carried, p.carry + o.carry}
}

// close forms the residual and its derivatives. Two forms have the same zeros: with the gap open, phi(v_rel) - q, q = g^2 2 dp/rho, convex
// in v, on which Newton's method does not cycle; near and on the seat v_rel - phi^-1(q), in which v is linear. The second is taken where
// its slope in q, at most 1/v_lam, is below that of the flow which the disc displaces.
func (p passage) close(v, dp, density, lam float64) Step {
	k := 2 / density
	x := v - p.swept
	q := p.g * p.g * k * dp
	held := p.g * p.g * k        // dq/d(dp) of a disc that stays where it is
	qp := held + 2*p.g*p.dg*k*dp // and of one that moves
	if held <= lam*p.carried {
		s, ds := phiInverse(q, lam)
		step := Step{R: x - s, RV: 1, RP: -p.carry - ds*qp}
		if step.RP > 0 {
			step.RP = -p.carried - ds*held
		}
		return step
	}
	f, df := phi(x, lam)
	step := Step{R: f - q, RV: df, RP: -df*p.carry - qp}
	if step.RP > 0 {
		// Off the solution, or with a step too long for the reverse pressure: the slope at fixed opening keeps its sign.
		step.RP = -df*p.carried - held
	}
	return step
}
