package choice

import (
	"fmt"
	"math"
	"sort"

	"seatwise/moc"
)

// closing is the story of one valve between the event and the end of the run.
type closing struct {
	t, v    []float64 // velocity from the event to the first seating, which is the last point
	seating *moc.Seating
	zero    float64   // time of zero velocity; negative: not before the seating
	end     float64   // end of the run
	times   []float64 // of the whole run
	slack   float64   // see slack
}

// follow takes the velocity of a valve from its trace. The velocity just before the seating closes the curve: the step in which the disc
// seats ends with the liquid at rest.
func follow(time []float64, u *moc.UnitTrace, event float64) *closing {
	c := &closing{zero: -1, end: time[len(time)-1], times: time, slack: slack(time)}
	for i := range u.Seatings {
		if u.Seatings[i].Time >= event-c.slack {
			c.seating = &u.Seatings[i]
			break
		}
	}
	first := sort.SearchFloat64s(time, event-c.slack)
	for k := max(first-1, 0); k < len(time); k++ {
		if c.seating != nil && time[k] >= c.seating.Time-c.slack {
			break
		}
		c.t, c.v = append(c.t, time[k]), append(c.v, u.Flow[k]/area(u.Bore))
	}
	if c.seating != nil {
		v := c.seating.Velocity
		if math.Abs(v) < standstill {
			v = 0
		}
		c.t, c.v = append(c.t, c.seating.Time), append(c.v, v)
	}
	for k := 1; k < len(c.v); k++ {
		if c.v[k-1] > 0 && c.v[k] <= 0 {
			c.zero = c.t[k-1] + (c.t[k]-c.t[k-1])*c.v[k-1]/(c.v[k-1]-c.v[k])
			break
		}
	}
	return c
}

// slack is the difference, s, below which two times are the same: a small part of the step, as the sum of sub-steps at the end of a step and the time of
// the step itself need not agree in their last bits.
func slack(time []float64) float64 {
	if len(time) < 2 {
		return 0
	}
	return 1e-6 * (time[1] - time[0])
}

// standstill is the velocity, m/s, below which a valve that shuts at zero velocity is taken to have done so.
const standstill = 1e-6

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// never says why the velocity has no zero.
func (c *closing) never(s Settings) string {
	switch {
	case len(c.v) == 0 || c.v[0] <= 0:
		return "no flow before the event"
	case c.seating != nil:
		return fmt.Sprintf("the disc seats in forward flow (%s)", speed(c.seating.Velocity, s))
	}
	return fmt.Sprintf("the flow does not reverse by %s", seconds(c.end, s))
}

// deceleration is -dv/dt by least squares over the last window before zero velocity, not before the event and over four steps at least.
func (c *closing) deceleration(window, event float64, s Settings) Value {
	if c.zero < 0 {
		return none(c.never(s))
	}
	last := sort.SearchFloat64s(c.t, c.zero)
	from := math.Max(math.Min(c.zero-window, c.t[max(last-4, 0)]), event)
	ts, vs := []float64{c.zero}, []float64{0}
	for k := last - 1; k >= 0 && c.t[k] >= from; k-- {
		ts, vs = append(ts, c.t[k]), append(vs, c.v[k])
	}
	if len(ts) < 3 {
		return none("the flow reverses within two time steps of the event")
	}
	mt, mv := mean(ts), mean(vs)
	var tt, tv float64
	for i := range ts {
		tt += (ts[i] - mt) * (ts[i] - mt)
		tv += (ts[i] - mt) * (vs[i] - mv)
	}
	return Value{SI: -tv / tt}
}

func mean(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s / float64(len(x))
}

// reverse is the greatest reverse velocity up to the first seating and its time.
func (c *closing) reverse() (v, t float64) {
	t = -1
	for k := range c.v {
		if -c.v[k] > v {
			v, t = -c.v[k], c.t[k]
		}
	}
	return v, t
}

// later is the greatest reverse velocity after the first seating and its time.
func (c *closing) later(time []float64, u *moc.UnitTrace) (v, t float64) {
	t = -1
	for k := sort.SearchFloat64s(time, c.seating.Time-c.slack) + 1; k < len(time); k++ {
		if x := -u.Flow[k] / area(u.Bore); x > v {
			v, t = x, time[k]
		}
	}
	for _, s := range u.Seatings {
		if s.Time > c.seating.Time && -s.Velocity > v {
			v, t = -s.Velocity, s.Time
		}
	}
	return v, t
}

// slam is the jump of the head at the downstream face at the first seating, m, between the straight lines through the two points before it and
// the two after it. The points are whole time steps, so that gas at the valve has had the time to take the blow.
func (c *closing) slam(time []float64, u *moc.UnitTrace) Value {
	if len(time) < 4 {
		return none("the run is too short")
	}
	h, ts := u.HeadDown, c.seating.Time
	k := min(max(sort.SearchFloat64s(time, ts-c.slack), 2), len(time)-2) // the first point after the seating
	line := func(i, j int) float64 { return h[i] + (h[j]-h[i])/(time[j]-time[i])*(ts-time[i]) }
	return Value{SI: line(k, k+1) - line(k-2, k-1)}
}

// lifted is the opening above which a disc that left its seat counts as reopened, not as bouncing.
const lifted = 0.01

// reopenings counts how often the disc left its seat after the first seating.
func (c *closing) reopenings(u *moc.UnitTrace) int {
	n := 0
	if c.seating == nil {
		return n
	}
	for _, s := range u.Seatings {
		if s.Time > c.seating.Time && s.Opening > lifted {
			n++
		}
	}
	if u.Opening[len(u.Opening)-1] > lifted {
		n++
	}
	return n
}

// reverseVolume is the integral of the reverse flow by the trapezoidal rule. A step with a seating is cut there: the velocity just before it
// ends the first part, and the flow at the end of the step holds for the second.
func reverseVolume(time []float64, u *moc.UnitTrace) float64 {
	back := func(q float64) float64 { return math.Max(0, -q) }
	sum, next, slack := 0.0, 0, slack(time)
	for k := 1; k < len(time); k++ {
		t, q := time[k-1], u.Flow[k-1]
		for next < len(u.Seatings) && u.Seatings[next].Time <= time[k]+slack {
			s := u.Seatings[next]
			if s.Time > t {
				sum += (s.Time - t) / 2 * (back(q) + back(s.Velocity*area(u.Bore)))
				t, q = s.Time, u.Flow[k]
			}
			next++
		}
		sum += (time[k] - t) / 2 * (back(q) + back(u.Flow[k]))
	}
	return sum
}

// crossing is the time after the event at which a series falls below a level, linear between its points; negative: never.
func crossing(time, x []float64, level, event float64) float64 {
	for k := max(sort.SearchFloat64s(time, event), 1); k < len(time); k++ {
		if x[k] < level {
			if x[k-1] <= level {
				return time[k-1]
			}
			return time[k-1] + (time[k]-time[k-1])*(x[k-1]-level)/(x[k-1]-x[k])
		}
	}
	return -1
}

// at interpolates a series at time t.
func at(time, x []float64, t float64) float64 {
	k := min(max(sort.SearchFloat64s(time, t), 1), len(time)-1)
	f := (t - time[k-1]) / (time[k] - time[k-1])
	return x[k-1] + math.Min(1, math.Max(0, f))*(x[k]-x[k-1])
}
