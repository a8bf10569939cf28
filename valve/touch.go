package valve

import "math"

// Touch puts the disc on the nearer end of its travel. It rebounds with Restitution times its rate when the height
//
//	M (e w)^2 / (2 F)
//
// to which the resting force F lets it rise is above RestHeight of the travel, or when no force holds it there; otherwise it rests. The
// kinetic energy never grows.
func (l *Law) Touch(s State, dpRest float64) State {
	y, contact, toward, holding := 0.0, Seated, -s.W, -l.seatForce(dpRest)
	if s.Y > l.Travel/2 {
		y, contact, toward, holding = l.Travel, Stopped, s.W, l.stopForce(dpRest)
	}
	if toward < 0 {
		return State{Y: y, W: s.W, Fresh: true}
	}
	rest := l.RestHeight
	if rest == 0 {
		rest = 1e-3
	}
	back := l.Restitution * s.W
	if back != 0 && l.Inertia*back*back > 2*math.Max(0, holding+l.Friction)*rest*l.Travel {
		return State{Y: y, W: -back, Fresh: true}
	}
	return State{Y: y, Contact: contact, Fresh: true}
}
