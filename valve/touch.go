package valve

import "math"

// Touch puts the disc on the nearer end of its travel. It rebounds with Restitution times its rate when the height
//
//	M (e w)^2 / (2 F)
//
// to which the resting force F lets it rise is above RestHeight of the travel, or when no force holds it there; otherwise it rests. The
// kinetic energy never grows.
func (l *Law) Touch(s State, dpRest float64) State {
	held := l.Rest(s)
	toward, holding := -s.W, -l.seatForce(dpRest)
	if held.Contact == Stopped {
		toward, holding = s.W, l.stopForce(dpRest)
	}
	if toward < 0 {
		return State{Y: held.Y, W: s.W, Fresh: true}
	}
	rest := l.RestHeight
	if rest == 0 {
		rest = 1e-3
	}
	back := l.Restitution * s.W
	if back != 0 && l.Inertia*back*back > 2*math.Max(0, holding+l.Friction)*rest*l.Travel {
		return State{Y: held.Y, W: -back, Fresh: true}
	}
	return held
}

// Rest is the disc at rest on the nearer end of its travel.
func (l *Law) Rest(s State) State {
	if s.Y > l.Travel/2 {
		return State{Y: l.Travel, Contact: Stopped, Fresh: true}
	}
	return State{Contact: Seated, Fresh: true}
}
