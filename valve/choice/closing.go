package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/valve"
)

// closing is the story of one valve from the first event to the end of the run, told step by step: what the histories of a long run leave out
// counts here too. It keeps sums and extremes, so it needs no more memory for a longer run, and it is a value: a copy is a state to go back to.
// Times are in s, velocities in m/s on the valve's bore.
type closing struct {
	site
	slack float64 // see slack
	from  float64 // the unit's own trip, or without one the event: its closing begins
	first int     // the step before the first one at or after that
	steps int     // seen
	last  moment  // the latest of them
	start float64 // velocity before

	recent   recent  // velocities up to zero or the first seating
	zero     float64 // time of zero velocity; negative: not before the first seating
	slope    slope   // of the velocity before that
	atZero   float64 // pump speed then, rad/s
	atTrip   float64 // and at the unit's trip
	greatest extreme // reverse velocity from the event up to the first seating

	seating *moc.Seating // the first one of the closing; nil: none
	since   int          // steps since
	later   extreme      // reverse velocity after it
	bounces int          // later seatings from openings above lifted
	rebound float64      // greatest opening after it
	pressed pressed      // what holds the disc on its seat
	jump    jump         // of the head downstream at it

	backflow  backflow
	full      float64 // opening in steady flow
	leaves    float64 // time at which the disc is a hundredth of its travel below that; negative: never
	left      float64 // velocity then
	off       float64 // last time at which the disc was off its seat; negative: never
	exceeding exceeding
}

// site is a valve's place in an installation and in time.
type site struct {
	event  float64 // the first one
	trip   float64 // of its unit; negative: it runs on
	window float64 // before zero velocity, of the deceleration
	area   float64 // of the bore, m2
}

// moment is the state of a valve at the end of a step.
type moment struct {
	t, v float64
	moc.UnitState
}

// extreme is the greatest of some values, and its time; the time is negative while none was above zero.
type extreme struct{ v, t float64 }

func (e *extreme) take(v, t float64) {
	if v > e.v {
		e.v, e.t = v, t
	}
}

// newClosing awaits a run of the given step, s.
func newClosing(step float64, at site) closing {
	c := closing{site: at, slack: slack(step), zero: -1, leaves: -1, off: -1, greatest: extreme{t: -1}, later: extreme{t: -1}}
	c.from = max(at.event, at.trip)
	c.first = max(int(math.Ceil((c.from-c.slack)/step))-1, 0)
	c.recent = newRecent(int(math.Ceil(at.window / step)))
	c.exceeding = nothingExceeded()
	return c
}

// slack is the difference, s, below which two times are the same: a small part of the step, as the sum of sub-steps at the end of a step and the time of
// the step itself need not agree in their last bits.
func slack(step float64) float64 { return 1e-6 * step }

// standstill is the velocity, m/s, below which a valve that shuts at zero velocity is taken to have done so.
const standstill = 1e-6

// lifted is the opening above which a disc that left its seat counts as reopened, not as bouncing.
const lifted = 0.01

// begun is the part of the travel by which a disc has left its steady opening when it has begun to close.
const begun = 0.01

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

func back(v float64) float64 { return math.Max(0, -v) }

// seats takes an arrival of the disc on its seat, before the end of the step in which it arrives. The velocity just before the first one closes the curve:
// the step ends with the liquid at rest.
func (c *closing) seats(s moc.Seating) {
	c.backflow.cut(c.last, s.Time, s.Velocity*c.area)
	switch {
	case s.Time < c.event-c.slack:
	case s.Time < c.from-c.slack: // while the pump of the unit ran
		c.greatest.take(-s.Velocity, s.Time)
	case c.seating != nil:
		c.later.take(-s.Velocity, s.Time)
		c.rebound = max(c.rebound, s.Opening)
		if s.Opening > lifted {
			c.bounces++
		}
	default:
		first := s // apart, so that later ones need no memory
		c.seating = &first
		v := s.Velocity
		if math.Abs(v) < standstill {
			v = 0
		}
		c.approach(s.Time, v)
	}
}

// moves takes the state at the end of a step; that of the steady flow comes first.
func (c *closing) moves(t float64, now moc.UnitState) {
	m := moment{t, now.Flow / c.area, now}
	if c.steps == 0 {
		c.last, c.full = m, m.Opening
	}
	c.backflow.add(c.last, m)
	if x := c.full - begun; c.leaves < 0 && c.steps > 0 && t >= c.from && m.Opening < x {
		c.leaves = falls(c.last, m, x)
		c.left = c.last.v
		if m.t > c.last.t {
			c.left += (m.v - c.last.v) * (c.leaves - c.last.t) / (m.t - c.last.t)
		}
	}
	if m.Opening > 0 {
		c.off = t
	}
	if c.steps == c.first {
		c.start = m.v
	}
	switch {
	case c.steps < c.first:
		if t >= c.event {
			c.greatest.take(-m.v, t)
		}
	case c.seating == nil:
		c.approach(t, m.v)
	case c.since > 0:
		c.later.take(-m.v, t)
		c.rebound = max(c.rebound, m.Opening)
		c.pressed.take(c.last, m)
	}
	c.atZero, c.atTrip = speedAt(c.zero, c.last, m, c.atZero), speedAt(c.trip, c.last, m, c.atTrip)
	c.jump.take(t, m.HeadDown, c.seating != nil)
	if t >= c.event {
		c.exceeding.take(m)
	}
	if c.seating != nil {
		c.since++
	}
	c.last = m
	c.steps++
}

// approach goes on with the velocity up to the first seating.
func (c *closing) approach(t, v float64) {
	c.greatest.take(-v, t)
	if c.zero >= 0 {
		return
	}
	if c.recent.n > 0 {
		if b := c.recent.at(0); b.v > 0 && v <= 0 {
			c.zero = b.t + (t-b.t)*b.v/(b.v-v)
			c.slope = c.recent.slope(c.zero, c.window, c.from)
			return
		}
	}
	c.recent.push(point{t, v})
}

// falls is the time at which the opening falls below x, linear over a step.
func falls(before, now moment, x float64) float64 {
	if before.Opening <= x {
		return before.t
	}
	return before.t + (now.t-before.t)*(before.Opening-x)/(before.Opening-now.Opening)
}

// speedAt is the pump's speed at time t, linear over a step, when t lies in it; else what it was otherwise.
func speedAt(t float64, before, now moment, otherwise float64) float64 {
	switch {
	case t == now.t:
		return now.Speed
	case t >= before.t && t < now.t:
		return before.Speed + (t-before.t)/(now.t-before.t)*(now.Speed-before.Speed)
	}
	return otherwise
}

// never says why the velocity has no zero.
func (c *closing) never(s Settings) string {
	switch {
	case c.start <= 0:
		return "no flow before the event"
	case c.seating != nil:
		return fmt.Sprintf("the disc seats in forward flow (%s)", speed(c.seating.Velocity, s))
	}
	return fmt.Sprintf("the flow does not reverse by %s", seconds(c.last.t, s))
}

// deceleration is -dv/dt by least squares over the last window before zero velocity, not before the event and over four steps at least.
func (c *closing) deceleration(s Settings) Value {
	switch {
	case c.zero < 0:
		return none(c.never(s))
	case c.slope.points < 3:
		return none("the flow reverses within two time steps of the event")
	}
	return Value{SI: -c.slope.of}
}

// meanDeceleration is v0/(t - t0), from the velocity at the trip to zero.
func (c *closing) meanDeceleration(s Settings) Value {
	if c.zero < 0 || c.start <= 0 {
		return none(c.never(s))
	}
	if c.zero <= c.from {
		return none("the flow reverses at the event")
	}
	return Value{SI: c.start / (c.zero - c.from)}
}

// closingDeceleration is the mean slope of the velocity from where the disc begins to close to its first seating.
func (c *closing) closingDeceleration(v valve.Valve) Value {
	switch {
	case v.Reach == 0:
		return none("a valve without a disc")
	case c.leaves < 0 || c.seating == nil:
		return none("the disc does not close")
	case !(c.seating.Time > c.leaves):
		return none("the disc seats as it begins to close")
	}
	return Value{SI: (c.left - c.seating.Velocity) / (c.seating.Time - c.leaves)}
}

// slam is the jump of the head at the downstream face at the first seating, m. It is taken over whole time steps, so that gas at the valve has had the
// time to take the blow.
func (c *closing) slam() Value {
	h, ok := c.jump.at(c.seating.Time)
	if !ok {
		return none("the run ends as the disc seats")
	}
	return Value{SI: h}
}

// reopenings counts how often the disc left its seat after the first seating.
func (c *closing) reopenings() int {
	n := c.bounces
	if c.seating != nil && c.last.Opening > lifted {
		n++
	}
	return n
}
