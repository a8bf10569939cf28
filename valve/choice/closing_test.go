package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/moc"
	"seatwise/valve"
)

// ramp is a flow that falls from v0 at the event at the rate a and seats at the time ts.
func ramp(v0, a, event, ts, dt float64) ([]float64, *moc.UnitTrace) {
	u := &moc.UnitTrace{Bore: 2 / math.Sqrt(math.Pi)} // an area of 1 m2
	var time []float64
	for k := range int(2*ts/dt) + 1 {
		t := float64(k) * dt
		v := v0 - a*math.Max(0, t-event)
		if t > ts {
			v = 0
		}
		time = append(time, t)
		u.Flow = append(u.Flow, v)
		u.Opening = append(u.Opening, math.Min(1, math.Max(0, (ts-t)/ts)))
		u.HeadDown = append(u.HeadDown, 30)
	}
	u.Seatings = []moc.Seating{{Time: ts, Velocity: v0 - a*(ts-event), Opening: 1}}
	return time, u
}

// follow tells a closing its story as a run would, with the limits that levels sets.
func follow(time []float64, u *moc.UnitTrace, event float64, levels ...func(*exceeding)) *closing {
	step := time[1] - time[0]
	c := newClosing(step, site{event: event, trip: event, window: 0.05, area: area(u.Bore)})
	for _, set := range levels {
		set(&c.exceeding)
	}
	next := 0
	for k, t := range time {
		for ; next < len(u.Seatings) && u.Seatings[next].Time <= t+c.slack; next++ {
			c.seats(u.Seatings[next])
		}
		now := moc.UnitState{Flow: u.Flow[k]}
		for to, from := range map[*float64][]float64{&now.HeadDown: u.HeadDown, &now.Opening: u.Opening, &now.Speed: u.Speed, &now.Drop: u.Drop} {
			if from != nil {
				*to = from[k]
			}
		}
		c.moves(t, now)
	}
	return &c
}

// A uniform deceleration: every figure has a closed form.
func TestClosingOfUniformDeceleration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v0, a := rapid.Float64Range(0.5, 4).Draw(t, "v0"), rapid.Float64Range(0.5, 20).Draw(t, "a")
		delay := rapid.Float64Range(0.01, 0.3).Draw(t, "delay")
		event := 0.5
		ts := event + v0/a + delay
		time, u := ramp(v0, a, event, ts, 1e-3)
		c := follow(time, u, event)
		require.InEpsilon(t, event+v0/a, c.zero, 1e-4)
		d := c.deceleration(Settings{})
		require.Empty(t, d.Reason)
		require.InEpsilon(t, a, d.SI, 1e-6)
		require.InDelta(t, a*delay, c.greatest.v, 1e-12)
		require.Equal(t, ts, c.greatest.t)
		// Of the step in which the disc seats the trapezoidal rule takes half: at most one step of the delay.
		require.InEpsilon(t, a*delay*delay/2, c.backflow.volume, 1.01e-3/delay)
		require.Zero(t, c.reopenings())
		require.Zero(t, c.later.v)
		slam := c.slam()
		require.Empty(t, slam.Reason)
		require.InDelta(t, 0, slam.SI, 1e-9)
	})
}

// A flow that falls as v0 - b t^2/2 after the event, as a rotor's run-down makes it: the slope at zero is sqrt(2 b v0) less b/2 of the window, the mean
// slope down to zero half of the slope there, and that over the closing b/2 times the sum of its first and last time.
func TestDefinitionsOfDeceleration(t *testing.T) {
	const v0, b, event, dt = 2.5, 12.0, 0.5, 1e-3
	zero, from, ts := math.Sqrt(2*v0/b), 0.2, 0.8 // s from the event
	u := &moc.UnitTrace{Bore: 2 / math.Sqrt(math.Pi)}
	var time []float64
	course := func(s float64) float64 { return v0 - b*s*s/2 }
	for k := range 2001 {
		s := float64(k)*dt - event
		time = append(time, float64(k)*dt)
		v, opening := course(math.Max(0, s)), 1.0
		if s > from {
			opening = 1 - 0.01*(s-from)/dt // a hundredth of the travel per step
		}
		if s > ts {
			v, opening = 0, 0
		}
		u.Flow, u.Opening = append(u.Flow, v), append(u.Opening, math.Max(0, opening))
	}
	u.Seatings = []moc.Seating{{Time: event + ts, Velocity: course(ts), Opening: 1}}
	c := follow(time, u, event)
	require.InEpsilon(t, math.Sqrt(2*b*v0)-b*0.05/2, c.deceleration(Settings{}).SI, 1e-3)
	require.InEpsilon(t, math.Sqrt(2*b*v0)/2, c.meanDeceleration(Settings{}).SI, 2e-3)
	require.InEpsilon(t, b*zero/2, c.meanDeceleration(Settings{}).SI, 2e-3)
	disc := valve.Valve{Reach: 0.1}
	require.InEpsilon(t, b*(from+dt+ts)/2, c.closingDeceleration(disc).SI, 2e-3)
	require.Equal(t, "a valve without a disc", c.closingDeceleration(valve.Valve{}).Reason)
	u.Seatings = nil
	require.Equal(t, "the disc does not close", follow(time, u, event).closingDeceleration(disc).Reason)

	// Of a uniform deceleration all three are the same.
	time, u = ramp(v0, 5, event, 1.2, dt)
	c = follow(time, u, event)
	for _, d := range []Value{c.deceleration(Settings{}), c.meanDeceleration(Settings{}), c.closingDeceleration(disc)} {
		require.InEpsilon(t, 5, d.SI, 3e-3)
	}
}

func TestSeatingInForwardFlow(t *testing.T) {
	time, u := ramp(2, 5, 0.5, 0.8, 1e-3) // at 0.5 m/s forward
	c := follow(time, u, 0.5)
	d := c.deceleration(Settings{})
	require.Equal(t, "the disc seats in forward flow (0.5 m/s)", d.Reason)
	require.Zero(t, c.greatest.v)
	require.Zero(t, c.backflow.volume)
}

func TestNoReversal(t *testing.T) {
	time, u := ramp(2, 0.1, 0.5, 1, 1e-3)
	u.Seatings = nil
	for i := range u.Flow {
		u.Flow[i] = 1
	}
	require.Equal(t, "the flow does not reverse by 2 s", follow(time, u, 0.5).deceleration(Settings{}).Reason)
	for i := range u.Flow {
		u.Flow[i] = 0
	}
	require.Equal(t, "no flow before the event", follow(time, u, 0.5).deceleration(Settings{}).Reason)
}

// A rebound by more than 1 % of the travel is a reopening, a smaller one is not; later closings count apart from the first.
func TestReopenings(t *testing.T) {
	time, u := ramp(2, 5, 0.5, 1, 1e-3)
	u.Seatings = append(u.Seatings, moc.Seating{Time: 1.1, Velocity: -0.7, Opening: 0.02}, moc.Seating{Time: 1.2, Velocity: -0.1, Opening: 0.005})
	c := follow(time, u, 0.5)
	require.Equal(t, 1, c.reopenings())
	require.InDelta(t, 0.5, c.greatest.v, 1e-12)
	require.Equal(t, extreme{0.7, 1.1}, c.later)
}

// Trapezoids with the seating inside a step: 0.2 m/s growing to 0.3 m/s over the first half of the step, then rest.
// After its seating the disc bounces between two steps, comes down, is lifted by a wave and rests under a pressure that grows linearly: the leak is
// that at the mean pressure since it came down for the last time.
func TestReopeningAndLeak(t *testing.T) {
	time, u := ramp(1, 2, 0.5, 1.5, 0.01)
	n := len(time)
	drop := make([]float64, n)
	for k := range time {
		u.Opening[k] = math.Max(0, 1-time[k]/1.5)
		drop[k] = -1e5
	}
	u.Seatings = append(u.Seatings, moc.Seating{Time: 1.505, Velocity: -0.1, Opening: 0.004})
	lift := func(k int, opening float64) { u.Opening[k], drop[k] = opening, 3e5 }
	v := valve.Valve{Bore: u.Bore, Density: 1000, SeatLeak: 2e-7}
	c := pressedBy(time, u, drop)
	require.InEpsilon(t, 0.004, c.rebound, 1e-12, "the bounce between two steps")
	require.InEpsilon(t, 2e-7*math.Sqrt(2*1e5/1000), c.pressed.leak(v, false).SI, 1e-9)

	lift(200, 0.3)
	u.Seatings = append(u.Seatings, moc.Seating{Time: 2.005, Opening: 0.31})
	for k := 201; k < n; k++ {
		drop[k] = -1e5 - 2e5*(time[k]-time[201])/(time[n-1]-time[201])
	}
	c = pressedBy(time, u, drop)
	require.InEpsilon(t, 0.31, c.rebound, 1e-12)
	require.InEpsilon(t, 2e-7*math.Sqrt(2*2e5/1000), c.pressed.leak(v, false).SI, 1e-9)

	require.Contains(t, c.pressed.leak(v, true).Reason, "off its seat")
	v.SeatLeak = -1
	require.Contains(t, c.pressed.leak(v, false).Reason, "not known")
	// A pressure that opens, but not enough, lets nothing back.
	for k := range drop {
		drop[k] = 10
	}
	v.SeatLeak = 1e-7
	require.Zero(t, pressedBy(time, u, drop).pressed.leak(v, false).SI)
}

func pressedBy(time []float64, u *moc.UnitTrace, drop []float64) *closing {
	u.Drop = drop
	return follow(time, u, 0.5)
}

func TestReverseVolumeCutsTheStepOfTheSeating(t *testing.T) {
	u := &moc.UnitTrace{Bore: 2 / math.Sqrt(math.Pi), Flow: []float64{1, -0.2, 0, 0}, Seatings: []moc.Seating{{Time: 1.5, Velocity: -0.3}}}
	require.InDelta(t, 0.5*0.2+0.5*0.25, follow([]float64{0, 1, 2, 3}, u, 0).backflow.volume, 1e-12)
	u.Seatings = append(u.Seatings, moc.Seating{Time: 1.75, Velocity: -0.2}) // and a second one in the same step
	require.InDelta(t, 0.5*0.2+0.5*0.25+0.25*0.1, follow([]float64{0, 1, 2, 3}, u, 0).backflow.volume, 1e-12)
}

// The time of a seating at the end of a step may differ from the time of the step in its last bit: nothing shows of that.
func TestSeatingOneBitBesideTheStep(t *testing.T) {
	measure := func(nudge func(float64) float64) []float64 {
		time, u := ramp(2, 5, 0.5, 1, 1e-3)
		k := 1000
		for i := range u.Flow {
			if i >= k {
				u.Flow[i], u.HeadDown[i] = 0, 80
			}
		}
		u.Seatings[0].Time = nudge(time[k])
		c := follow(time, u, 0.5)
		require.Equal(t, 0.5, c.greatest.v)
		require.Zero(t, c.later.v, "the rest after the seating is no part of the way to it")
		return []float64{c.zero, c.greatest.v, c.slam().SI, c.backflow.volume}
	}
	at := measure(func(t float64) float64 { return t })
	for _, side := range []float64{0, 2} {
		beside := measure(func(t float64) float64 { return math.Nextafter(t, side) })
		for i := range at {
			require.InDelta(t, at[i], beside[i], 1e-9)
		}
	}
}

// A limit that the valve itself breaks is noted once, after the event only.
func TestExceeding(t *testing.T) {
	time := []float64{0, 1, 2, 3, 4, 5}
	u := &moc.UnitTrace{Bore: 2 / math.Sqrt(math.Pi), Flow: []float64{-9, 1, 0, -0.3, -0.4, -0.5}, HeadDown: []float64{90, 30, 10, 50, 51, 52}}
	c := follow(time, u, 1, func(e *exceeding) { e.high, e.low, e.thin, e.reverse = 50, 10, 10.5, 0.35 })
	require.Equal(t, map[string]float64{keyPeak: 4, keyMin: -1, keyVapour: 2, keyReverse: 4, keyLater: 4}, c.exceeding.times(), "at the limit is not beyond it")
	require.Equal(t, map[string]float64{keyPeak: -1, keyMin: -1, keyVapour: -1, keyReverse: -1, keyLater: -1}, follow(time, u, 1).exceeding.times(), "no limits")
}

// Going back to any state and on again gives what going on would have given.
func TestClosingGoesBack(t *testing.T) {
	time, u := ramp(2, 5, 0.5, 1, 1e-4)
	whole := follow(time, u, 0.5)
	for _, from := range []int{3000, 8990, 8999, 9001, 9999, 10001} {
		c := newClosing(1e-4, site{event: 0.5, trip: 0.5, window: 0.05, area: area(u.Bore)})
		story := func(from, to int) {
			for k := from; k < to; k++ {
				if s := u.Seatings[0]; s.Time > time[k]-1e-4+c.slack && s.Time <= time[k]+c.slack {
					c.seats(s)
				}
				c.moves(time[k], moc.UnitState{Flow: u.Flow[k], HeadDown: u.HeadDown[k], Opening: u.Opening[k]})
			}
		}
		story(0, from)
		saved := c
		story(from, from+moc.StepsBetweenSaves)
		c = saved
		story(from, len(time))
		c.recent, c.seating = whole.recent, whole.seating
		require.Equal(t, *whole, c, "from step %d", from)
	}
}

// crossing is the time after the event at which a series falls below a level, linear between its points; negative: never.
func crossing(time, x []float64, level, event float64) float64 {
	for k := 1; k < len(time); k++ {
		if time[k] >= event && x[k] < level {
			return time[k-1] + (time[k]-time[k-1])*(x[k-1]-level)/(x[k-1]-x[k])
		}
	}
	return -1
}
