package valve

import (
	"fmt"
	"math"
)

// Pair is two discs side by side in one body, each with its share of the flow. They see the same pressure drop:
//
//	M_i y_i'' = kappa_i dp A_i L_i - resistance_i(y_i),   i = 1, 2
//	phi(v - sweep_1 y_1' - sweep_2 y_2') = G^2 2 dp/rho,   G = g_1(y_1) + g_2(y_2)
//
// g_i is the conductance of one gap on the velocity of the bore: through two gaps side by side flows g_i sqrt(2 dp/rho) each. The
// laminar velocity v_lam is that of the whole flow; each gap has its share g_i/G of it, for which the sum is exact. For a given
// pressure drop each disc advances by itself, as a Law does, so that one scalar equation closes the valve. Two equal halves, each with
// half the conductance and half the sweep of a disc, move as that disc does.
//
// Assumptions: the discs meet through the pressure drop alone; the loss of the common body is part of both gaps, so that with one
// disc shut and the other open the loss is four times that of both, as of a body half as wide.
//
// The first disc is State itself, the other State.Second.
type Pair struct {
	Halves [2]*Law // of the same liquid, with the same v_lam
}

// split takes the states of the two discs apart.
func (s State) split() [2]State {
	d := s.Second
	s.Second = Disc{}
	return [2]State{s, {Y: d.Y, W: d.W, Force: d.Force, Contact: d.Contact, Fresh: d.Fresh}}
}

// join puts the states of two discs together.
func join(d [2]State) State {
	s, o := d[0], d[1]
	s.Second = Disc{Y: o.Y, W: o.W, Force: o.Force, Contact: o.Contact, Fresh: o.Fresh}
	return s
}

// Advance tries a step; the event is that of the disc with less way left.
func (p *Pair) Advance(s State, h, v, dp float64) Step {
	d := s.split()
	var way passage
	event := 1.0
	for i, l := range p.Halves {
		m := l.after(d[i], h, dp)
		way = way.beside(l.passage(m))
		event = math.Min(event, l.margin(m.state))
		d[i] = m.state
	}
	step := way.close(v, dp, p.Halves[0].Density, p.Halves[0].laminar())
	step.State, step.Event = join(d), event
	return step
}

// arrived is the fraction of the travel within which a disc is at its event when the event of the pair is zero.
const arrived = 1e-6

// atEvent gives the discs at their ends to meet, and lets the others go on: the pressure drop jumps with the impact, so that their next
// step begins afresh.
func (p *Pair) atEvent(s State, meet func(l *Law, d State) State) State {
	d := s.split()
	for i, l := range p.Halves {
		switch {
		case l.margin(d[i]) <= arrived:
			d[i] = meet(l, d[i])
		case d[i].Contact == Free:
			d[i].Force, d[i].Fresh = 0, true
		}
	}
	return join(d)
}

// Touch lets each disc that is at its seat or stop choose between rest and rebound.
func (p *Pair) Touch(s State, dpRest float64) State {
	return p.atEvent(s, func(l *Law, d State) State { return l.Touch(d, dpRest) })
}

// Rest holds each disc that is at its seat or stop.
func (p *Pair) Rest(s State) State {
	return p.atEvent(s, (*Law).Rest)
}

// Opening is the mean of the fractions of travel of the two discs; 0 only with both on their seats.
func (p *Pair) Opening(s State) float64 {
	d := s.split()
	return (p.Halves[0].Opening(d[0]) + p.Halves[1].Opening(d[1])) / 2
}

// Shut is both discs on their seats and the pressure drop above which the weaker one opens.
func (p *Pair) Shut() (State, float64) {
	a, opens := p.Halves[0].Shut()
	b, also := p.Halves[1].Shut()
	return join([2]State{a, b}), math.Min(opens, also)
}

// SubSteps are those of the disc that needs more.
func (p *Pair) SubSteps(s State, h float64) int {
	d := s.split()
	return max(p.Halves[0].SubSteps(d[0], h), p.Halves[1].SubSteps(d[1], h))
}

// FullOpenVelocity is the steady velocity, m/s, at which the second of the discs reaches its stop as the flow rises, against friction too.
func (p *Pair) FullOpenVelocity() float64 {
	g, drop := 0.0, 0.0
	for _, l := range p.Halves {
		c, _ := l.conductance(l.Travel)
		g += c
		drop = math.Max(drop, l.balance(l.Travel))
	}
	v, _ := phiInverse(drop*g*g*2/p.Halves[0].Density, p.Halves[0].laminar())
	return v
}

// OpenLoss is zeta with both discs on their stops.
func (p *Pair) OpenLoss() float64 { return p.lossAt(1) }

func (p *Pair) lossAt(opening float64) float64 {
	g := 0.0
	for _, l := range p.Halves {
		c, _ := l.Conductance.At(opening * l.Travel)
		g += c
	}
	return 1 / (g * g)
}

// Stuck is both discs caught at an opening, a fraction of the travel.
func (p *Pair) Stuck(opening float64) (*Stuck, error) {
	if !(opening > 0 && opening <= 1) {
		return nil, fmt.Errorf("%w: stuck at opening %g: give a fraction above 0 up to 1", ErrLaw, opening)
	}
	return &Stuck{At: opening, Loss: p.lossAt(opening), Density: p.Halves[0].Density}, nil
}

// Check reports data out of range, a disc that is pushed open, and two discs that nothing closes. One disc without a closing force is
// allowed beside another that has one: the reverse flow carries it.
func (p *Pair) Check() error {
	if p.Halves[0].Density != p.Halves[1].Density || p.Halves[0].laminar() != p.Halves[1].laminar() {
		return fmt.Errorf("%w: the two discs are in different liquids", ErrLaw)
	}
	idle := 0
	for i, l := range p.Halves {
		if err := l.inRange(); err != nil {
			return err
		}
		opening, r := l.weakest()
		switch {
		case r < 0:
			return fmt.Errorf("%w: the %s disc does not close by itself: at %.0f %% opening weight and spring push it open by %.3g",
				ErrLaw, ordinal(i), 100*opening, -r)
		case !math.IsInf(r, 1):
			idle++
		}
	}
	if idle == 2 {
		return fmt.Errorf("%w: nothing closes the discs: they have neither spring nor weight that does", ErrLaw)
	}
	return nil
}

func ordinal(i int) string { return [...]string{"first", "second"}[i] }
