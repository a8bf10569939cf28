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
// A ClosesAt above zero stands for a valve of which only a measured reverse velocity is known.
type Ideal struct {
	Loss     float64 // zeta when open, > 0
	Density  float64 // of the fluid, kg/m3
	ClosesAt float64 // reverse velocity, m/s, >= 0
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
	}
	return nil
}

// Advance tries a step; its Event is the margin of the velocity above -ClosesAt, m/s.
func (i *Ideal) Advance(s State, _, v, dp float64) Step {
	if s.Contact == Seated {
		if dp <= 0 {
			return Step{State: State{Contact: Seated}, R: v, RV: 1, Event: 1}
		}
		return open(State{Y: 1, Contact: Stopped}, i.Loss, i.Density, v, dp)
	}
	step := open(State{Y: 1, Contact: Stopped}, i.Loss, i.Density, v, dp)
	step.Event = v + i.ClosesAt
	return step
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
	return fixed(State{Y: 1, Contact: Stopped}, i.Loss, i.Density, v)
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
