package characteristic

import (
	"math"

	"seatwise/valve"
)

// bench prescribes v0 - a t at a valve, or a course of the velocity that was recorded.
type bench struct {
	m           valve.Motion
	v0, a       float64
	course      *Course // nil: constant deceleration
	step, floor float64
}

func (b *bench) velocity(t float64) float64 {
	if b.course != nil {
		return b.course.at(t)
	}
	return b.v0 - b.a*t
}

// over tells whether the run gives up at a time.
func (b *bench) over(t float64) bool {
	if b.course != nil {
		return t >= b.course.end()
	}
	return b.velocity(t) < -b.floor
}

// run goes from a state at time zero until the disc touches its seat or the flow is below the floor.
func (b *bench) run(s valve.State, dp float64) Point {
	p := Point{Deceleration: b.a, InitialVelocity: b.v0}
	for i := 0; ; i++ {
		t0, t1 := float64(i)*b.step, float64(i+1)*b.step
		for t := t0; t < t1; {
			h := (t1 - t) / float64(b.m.SubSteps(s, t1-t))
			if t+h > t1 || t1-t-h < 1e-9*b.step {
				h = t1 - t
			}
			trial, next, ok := b.try(s, t, h, dp)
			if !ok {
				p.Outcome = NotSolvable
				return p
			}
			if trial.Event < 0 {
				h, trial, next = b.contact(s, t, h, dp, trial, next)
				before := trial.State
				trial.State = b.m.Touch(before, next)
				if b.m.Opening(trial.State) == 0 {
					return p.seated(before, t+h, b.velocity(t+h))
				}
			}
			s, dp = trial.State, next
			if t+h <= t {
				break
			}
			t += h
		}
		if b.over(t1) {
			p.Outcome, p.Time = NeverSeats, t1
			return p
		}
	}
}

func (p Point) seated(s valve.State, t, v float64) Point {
	p.Outcome, p.Time, p.SeatRate = Seats, t, s.Speed()
	p.ReverseVelocity, p.ForwardVelocity = math.Max(0, -v), math.Max(0, v)
	return p
}

// contact shortens the step until the disc is at the end of its travel within rounding.
func (b *bench) contact(s valve.State, t, h, dp float64, trial valve.Step, next float64) (float64, valve.Step, float64) {
	lo, hi := 0.0, h
	for range 200 {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi || math.Abs(trial.Event) < 1e-13 {
			break
		}
		at, p, ok := b.try(s, t, mid, dp)
		if !ok {
			break
		}
		if at.Event < 0 {
			hi, trial, next = mid, at, p
		} else {
			lo = mid
		}
	}
	return hi, trial, next
}

// try solves the closure for the pressure drop at the end of a step by Newton's method in a bracket that is widened until it holds the
// zero; the residual falls with the pressure drop.
func (b *bench) try(s valve.State, t, h, guess float64) (valve.Step, float64, bool) {
	v := b.velocity(t + h)
	lo, hi := math.Inf(-1), math.Inf(1)
	dp, width := guess, 1.0
	var step valve.Step
	for range 400 {
		step = b.m.Advance(s, h, v, dp)
		switch {
		case step.R > 0:
			lo = dp
		case step.R < 0:
			hi = dp
		default:
			return step, dp, true
		}
		next := dp - step.R/step.RP
		if math.Abs(next-dp) <= 1e-13*(1e-3+math.Abs(dp)) {
			return step, dp, true
		}
		open := math.IsInf(hi-lo, 0)
		if !(next > lo && next < hi) || (open && math.Abs(next-dp) > 1e12) {
			switch {
			case !open:
				next = lo + (hi-lo)/2
			case step.R > 0:
				next, width = dp+width, 4*width
			default:
				next, width = dp-width, 4*width
			}
			if next == lo || next == hi {
				return step, dp, true
			}
		}
		if width > 1e15 {
			return step, dp, false
		}
		dp = next
	}
	// Steps that alternate within rounding end here; the bracket is closed.
	return step, dp, hi-lo <= 1e-6*(1+math.Abs(dp))
}
