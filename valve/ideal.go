package valve

import (
	"fmt"
	"math"
)

// Ideal is a valve without a disc to move. Open it is a fixed loss; it shuts at once when the reverse velocity passes ClosesAt, and
// opens again when the pressure drop turns positive:
//
//	v = 0, dp <= 0   or   phi(v) = 2 dp/(zeta rho), dp > 0
//
// A ClosesAt above zero stands for a valve of which only a measured reverse velocity is known. A valve that shuts late and opens again at every wave takes work from the flow
// each time and can drive the waves that open it. A real disc then opens but a little: with a FullOpen V_o above zero the valve shuts at
//
//	v = -sqrt(l) ClosesAt,   l = max(v)/V_o since it opened, at most 1
//
// as a valve known by test points does (see [Measured], and the assumption there); a run begins with l = 1.
type Ideal struct {
	Loss     float64 // zeta when open, > 0
	Density  float64 // of the fluid, kg/m3
	ClosesAt float64 // reverse velocity, m/s, >= 0
	FullOpen float64 // V_o, m/s; 0: l = 1 always
}

// Check reports data out of range.
func (i *Ideal) Check() error {
	switch {
	case !(i.Loss > 0) || math.IsInf(i.Loss, 0):
		return fmt.Errorf("%w: loss when open = %g must be above zero", ErrLaw, i.Loss)
	case !(i.Density > 0) || math.IsInf(i.Density, 0):
		return fmt.Errorf("%w: density = %g must be above zero", ErrLaw, i.Density)
	case !(i.ClosesAt >= 0) || math.IsInf(i.ClosesAt, 0):
		return fmt.Errorf("%w: closes at %g m/s: give the reverse velocity as a positive number", ErrLaw, i.ClosesAt)
	case !(i.FullOpen >= 0) || math.IsInf(i.FullOpen, 0):
		return fmt.Errorf("%w: full-open velocity = %g m/s must not be below zero", ErrLaw, i.FullOpen)
	}
	return nil
}

// Advance tries a step; its Event is the margin of the velocity above that at which it shuts, m/s.
func (i *Ideal) Advance(s State, _, v, dp float64) Step {
	if s.Contact == Seated {
		if dp <= 0 {
			return Step{State: State{Contact: Seated}, R: v, RV: 1, Event: 1}
		}
		return open(i.opened(0, v), i.Loss, i.Density, v, dp)
	}
	step := open(i.opened(s.Flow.Lift, v), i.Loss, i.Density, v, dp)
	step.Event = v + math.Sqrt(step.State.Flow.Lift)*i.ClosesAt
	return step
}

// opened is the open valve with the part of its travel that it has opened, which was lift before the velocity v.
func (i *Ideal) opened(lift, v float64) State {
	s := State{Y: 1, Contact: Stopped}
	s.Flow.Lift = 1
	if i.FullOpen > 0 {
		s.Flow.Lift = math.Max(lift, math.Min(1, v/i.FullOpen))
	}
	return s
}

// open is the closure of a fixed loss; nothing happens to it.
func open(s State, loss, density, v, dp float64) Step {
	k := 2 / (loss * density)
	f, df := phi(v, laminar)
	return Step{State: s, R: f - k*dp, RV: df, RP: -k, Event: 1}
}

// Touch shuts the valve.
func (i *Ideal) Touch(State, float64) State { return State{Contact: Seated} }

// Rest is the shut valve.
func (i *Ideal) Rest(State) State { return State{Contact: Seated} }

// Steady is the open valve.
func (i *Ideal) Steady(v float64) Equilibrium {
	return fixed(i.opened(1, v), i.Loss, i.Density, v)
}

func fixed(s State, loss, density, v float64) Equilibrium {
	f, df := phi(v, laminar)
	head := loss * density / 2
	return Equilibrium{State: s, DP: head * f, Slope: head * df, Held: true}
}

// Shut is the closed valve, which any forward pressure drop opens.
func (i *Ideal) Shut() (State, float64) { return State{Contact: Seated}, 0 }

// Opening is 1 or 0.
func (i *Ideal) Opening(s State) float64 { return s.Y }

// SubSteps is 1.
func (i *Ideal) SubSteps(State, float64) int { return 1 }
