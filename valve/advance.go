package valve

import "math"

// Advance tries a step that ends with bore velocity v and pressure drop dp. The rate at its end depends on dp alone; the closure then
// compares v with the flow that dp drives through the gap and the flow that the disc displaces.
func (l *Law) Advance(s State, h, v, dp float64) Step {
	m := l.after(s, h, dp)
	step := l.passage(m).close(v, dp, l.Density, l.laminar())
	step.State, step.Event = m.state, l.margin(m.state)
	return step
}

// after is the disc at the end of a step with pressure drop dp.
func (l *Law) after(s State, h, dp float64) move {
	direction := 0.0
	switch s.Contact {
	case Seated:
		if l.seatForce(dp) <= l.Friction {
			return move{state: State{Contact: Seated}}
		}
		s.Y, direction = 0, 1
	case Stopped:
		if l.stopForce(dp) >= -l.Friction {
			return move{state: State{Y: l.Travel, Contact: Stopped}}
		}
		s.Y, direction = l.Travel, -1
	}
	if direction != 0 {
		s.W, s.Force = 0, 0
	}
	return l.move(s, h, dp, direction)
}

// move is a disc after a step, with the derivatives of its rate and position in the pressure drop.
type move struct {
	state  State
	dw, dy float64
}

// trial is the balance of momentum of one step,
//
//	n(w) = M (w - w0)/h - (1 - a) F0 - a (F(y(w), w, dp) - direction friction),   y(w) = y0 + h ((1 - a) w0 + a w),
//
// with a = 1/2, or 1 for a fresh state. Its root is the rate at the end of the step.
type trial struct {
	law       *Law
	s         State
	h, a, dp  float64
	direction float64 // sign of the rate that friction opposes
}

func (t *trial) at(w float64) (n, slope, y float64, f net) {
	y = t.s.Y + t.h*((1-t.a)*t.s.W+t.a*w)
	f = t.law.net(y, w, t.dp)
	f.f -= t.direction * t.law.Friction
	m := t.law.Inertia / t.h
	return m*(w-t.s.W) - (1-t.a)*t.s.Force - t.a*f.f, m - t.a*(f.y*t.a*t.h+f.w), y, f
}

// move solves the momentum balance. Direction is the sign that a contact leaves to the rate, 0 when the disc is free.
func (l *Law) move(s State, h, dp, direction float64) move {
	t := trial{law: l, s: s, h: h, a: 0.5, dp: dp}
	if s.Fresh {
		t.a = 1
	}
	lo, hi := math.Inf(-1), math.Inf(1)
	if direction == 0 && l.Friction > 0 {
		n, _, y, _ := t.at(0)
		if math.Abs(n) <= t.a*l.Friction {
			return move{state: State{Y: y}} // friction holds it
		}
		direction = -math.Copysign(1, n)
	}
	w := s.W
	if direction > 0 {
		lo, w = 0, math.Max(0, w)
	} else if direction < 0 {
		hi, w = 0, math.Min(0, w)
	}
	t.direction = direction
	w = t.root(w, lo, hi)
	_, slope, y, f := t.at(w)
	m := move{state: State{Y: y, W: w, Force: f.f}}
	if w == 0 && direction != 0 {
		// A contact whose load table does not begin with the seat load; the disc waits.
		return move{state: State{Y: y, Contact: s.Contact}}
	}
	if slope > 0 {
		m.dw = t.a * f.p / slope
		m.dy = t.a * h * m.dw
	}
	return m
}

// root finds the rate by Newton's method inside a bracket that grows from the sign of the balance; beyond the travel all forces are
// linear, so that the balance rises without bound and a bracket exists.
func (t *trial) root(w, lo, hi float64) float64 {
	m := t.law.Inertia / t.h
	reach := 0.0
	for range 200 {
		n, slope, _, f := t.at(w)
		switch {
		case n > 0:
			hi = w
		case n < 0:
			lo = w
		default:
			return w
		}
		if lo >= hi {
			return w
		}
		scale := math.Abs(w) + math.Abs(t.s.W) + (math.Abs(t.s.Force)+f.scale)/m
		next := w - n/slope
		if slope > 0 && math.Abs(next-w) <= 1e-9*scale && next >= lo && next <= hi {
			return next
		}
		if !(slope > 0) || !(next > lo && next < hi) {
			switch {
			case !math.IsInf(lo, 0) && !math.IsInf(hi, 0):
				next = lo + (hi-lo)/2
			case n > 0:
				reach = math.Max(2*reach, n/m)
				next = w - reach
			default:
				reach = math.Max(2*reach, -n/m)
				next = w + reach
			}
			if next == w {
				return w
			}
		}
		w = next
	}
	return w
}

// margin is the way that is left to the end of the travel ahead, as a fraction of the travel, negative beyond an end; 1 at rest.
func (l *Law) margin(s State) float64 {
	least := 1.0
	if s.Contact != Free {
		return least
	}
	if s.W < 0 || s.Y < 0 {
		least = s.Y / l.Travel
	}
	if s.W > 0 || s.Y > l.Travel {
		least = math.Min(least, 1-s.Y/l.Travel)
	}
	return least
}
