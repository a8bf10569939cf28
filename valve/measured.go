package valve

import (
	"fmt"
	"math"
)

// Measured is a valve of which only test points are known, without a disc to move. Open it is a fixed loss. It watches the flow: when the velocity
// passes zero it takes the deceleration a by the definition of its Watch, and it shuts when the reverse velocity reaches that of its curve:
//
//	v = 0, dp <= 0            shut;   opens when dp > 0
//	phi(v) = 2 dp/(zeta rho)  open;   shuts at v = -sqrt(l) V_r(a), or when the length 2 l V_r^2/a has flowed back
//
// Where the curve says zero it shuts at the reversal. A run at constant deceleration repeats the test, in which a quarter of that length flows back:
// the length matters where the flow does not get so fast, for a disc in reverse flow shuts in the end. In an installation the deceleration
// changes while the disc moves, and a real disc answers to its whole course: how far a curve then holds depends on the definition of a.
//
// l is the part of its travel that the disc has opened. Tests begin with the disc on its stop, and a run begins with l = 1. A valve that
// has shut and opens again, as waves make it do, has l = v/V_o, the greatest velocity since over the full-open velocity, at most 1, and below 1
// its a is at most the greatest tested: the way back, and with it V_r^2/(2 a), is in proportion to l. That is an assumption; tests do not say.
//
// Other assumptions: the liquid is that of the test, the loss is that of the open valve down to zero flow.
type Measured struct {
	Loss     float64 // zeta when open, > 0
	Density  float64 // of the fluid, kg/m3
	FullOpen float64 // V_o, m/s, > 0
	Watch    Watch
	Curve    *ReverseCurve
}

// Check reports data out of range.
func (m *Measured) Check() error {
	switch {
	case !(m.Loss > 0) || math.IsInf(m.Loss, 0):
		return fmt.Errorf("%w: loss when open = %g must be above zero", ErrLaw, m.Loss)
	case !(m.Density > 0) || math.IsInf(m.Density, 0):
		return fmt.Errorf("%w: density = %g must be above zero", ErrLaw, m.Density)
	case !(m.FullOpen > 0) || math.IsInf(m.FullOpen, 0):
		return fmt.Errorf("%w: full-open velocity = %g m/s must be above zero", ErrLaw, m.FullOpen)
	case !(m.Watch.Begin > 0) || math.IsInf(m.Watch.Begin, 0):
		return fmt.Errorf("%w: the deceleration is watched from %g m/s: it must be above zero", ErrLaw, m.Watch.Begin)
	case !(m.Watch.chorded() || m.Watch.Window > 0) || math.IsInf(m.Watch.Window, 0) || math.IsNaN(m.Watch.From):
		return fmt.Errorf("%w: window of the deceleration = %g s must be above zero", ErrLaw, m.Watch.Window)
	case m.Curve == nil:
		return fmt.Errorf("%w: there are no test points", ErrLaw)
	}
	return nil
}

// Advance tries a step; its Event is the margin to shutting, of the velocity, m/s, or of the length, as a fraction.
func (m *Measured) Advance(s State, h, v, dp float64) Step {
	flow := m.Watch.Next(s.Flow, h, v)
	if s.Contact == Seated {
		if dp <= 0 {
			return Step{State: State{Contact: Seated}, R: v, RV: 1, Event: 1}
		}
		flow = m.Watch.Steady(math.Max(0, v))
	}
	flow.Lift = math.Max(s.Flow.Lift, math.Min(1, v/m.FullOpen))
	step := open(State{Y: 1, Contact: Stopped, Flow: flow}, m.Loss, m.Density, v, dp)
	if s.Contact != Seated && (flow.T > 0 || v <= 0) {
		velocity, length := m.shuts(flow)
		if step.Event = v + velocity; length > 0 {
			step.Event = math.Min(step.Event, 1-flow.Back/length)
		}
	}
	return step
}

// shuts is the reverse velocity, m/s, and the length of liquid flowed back, m, at which the valve shuts.
func (m *Measured) shuts(flow Memory) (velocity, length float64) {
	a := m.Watch.Deceleration(flow)
	if _, most := m.Curve.Range(); flow.Lift < 1 {
		a = math.Min(a, most)
	}
	if !(a > 0) {
		return 0, 0
	}
	v := m.Curve.At(a)
	return math.Sqrt(flow.Lift) * v, 2 * flow.Lift * v * v / a
}

// Touch shuts the valve.
func (m *Measured) Touch(State, float64) State { return State{Contact: Seated} }

// Rest is the shut valve.
func (m *Measured) Rest(s State) State { return State{Contact: Seated, Flow: s.Flow} }

// Steady is the open valve.
func (m *Measured) Steady(v float64) Equilibrium {
	flow := m.Watch.Steady(v)
	flow.Lift = 1
	return fixed(State{Y: 1, Contact: Stopped, Flow: flow}, m.Loss, m.Density, v)
}

// Shut is the closed valve, which any forward pressure drop opens.
func (m *Measured) Shut() (State, float64) { return State{Contact: Seated}, 0 }

// Opening is 1 or 0.
func (m *Measured) Opening(s State) float64 { return s.Y }

// SubSteps is 1.
func (m *Measured) SubSteps(State, float64) int { return 1 }
