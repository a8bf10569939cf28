package valve

// Carried is a disc that the acceleration of the liquid moves besides the pressure drop across its gap:
//
//	M y'' = load - preload - spring - weight - damper - friction + M_c dv/dt
//
// A rigid body of volume V_b in a uniform stream feels (rho V_b + m_l) dv/dt - m_l y”, the pressure gradient that accelerates the liquid
// and the inertia of the liquid that gives way (G. K. Batchelor, An Introduction to Fluid Dynamics, 1967, from memory); the last term is in M.
// Along a path at the angle psi to the stream M_c = (rho V_b + m_l) cos psi, kg. A body that is as dense as the liquid and slides along the
// stream follows it without any pressure drop. For metal discs the term is left out: without it they close later.
//
// dv/dt is the change of the bore velocity over the step, of first order in the step and exact where it is constant. It acts on a disc
// that moves or rests on its stop, not on the seat, where the liquid stands, nor in the first step after a start or an impact.
type Carried struct {
	*Law
	Liquid Func // M_c, kg; or kg·m
}

// Advance implements Motion: over a step the acceleration is a constant force, as if the spring had that much less preload.
func (c *Carried) Advance(s State, h, v, dp float64) Step {
	liquid, _ := c.Liquid.At(s.Y)
	rate := liquid / h
	if s.Fresh || s.Contact == Seated {
		rate = 0
	}
	l := *c.Law
	l.Preload -= rate * (v - s.Flow.V)
	step := l.Advance(s, h, v, dp)
	if step.State.Contact == Seated {
		return step
	}
	step.State.Flow.V = v
	if rv := step.RV + rate*l.perForce(step, dp); rv > 0 {
		step.RV = rv
	}
	return step
}

// perForce is the derivative of a step's residual in a force on the disc: that in the pressure drop without the flow through a gap at rest,
// over the area that makes a force of it.
func (l *Law) perForce(step Step, dp float64) float64 {
	g2, _ := l.conductance2(step.State.Y)
	held := g2 * 2 / l.Density
	if step.RV == 1 { // the form that is linear in v
		_, slope := phiInverse(held*dp, l.laminar())
		held *= slope
	}
	kappa, _ := l.Load.At(step.State.Y)
	return (step.RP + held) / (kappa * l.Area * l.Arm)
}

// Steady implements Motion.
func (c *Carried) Steady(v float64) Equilibrium {
	e := c.Law.Steady(v)
	if e.State.Contact != Seated {
		e.State.Flow.V = v
	}
	return e
}
