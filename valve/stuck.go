package valve

import "fmt"

// Stuck is a disc that does not move: a fixed loss in both directions.
type Stuck struct {
	At      float64 // opening, fraction of the travel, above 0 to 1
	Loss    float64 // zeta there
	Density float64 // of the fluid, kg/m3
}

// Stuck is the disc of this law caught at an opening, a fraction of the travel.
func (l *Law) Stuck(opening float64) (*Stuck, error) {
	if !(opening > 0 && opening <= 1) {
		return nil, fmt.Errorf("%w: stuck at opening %g: give a fraction above 0 up to 1", ErrLaw, opening)
	}
	g2, _ := l.conductance2(opening * l.Travel)
	return &Stuck{At: opening, Loss: 1 / g2, Density: l.Density}, nil
}

func (s *Stuck) state() State { return State{Y: s.At, Contact: Stopped} }

// Advance leaves the disc where it is; there is no event.
func (s *Stuck) Advance(_ State, _, v, dp float64) Step {
	return open(s.state(), s.Loss, s.Density, v, dp)
}

// Touch leaves the disc where it is.
func (s *Stuck) Touch(State, float64) State { return s.state() }

// Rest leaves the disc where it is.
func (s *Stuck) Rest(State) State { return s.state() }

// Steady is the fixed loss at v.
func (s *Stuck) Steady(v float64) Equilibrium { return fixed(s.state(), s.Loss, s.Density, v) }

// Shut is the same state as any other: the valve does not shut.
func (s *Stuck) Shut() (State, float64) { return s.state(), 0 }

// Opening is where the disc is stuck.
func (s *Stuck) Opening(State) float64 { return s.At }

// SubSteps is 1.
func (s *Stuck) SubSteps(State, float64) int { return 1 }
