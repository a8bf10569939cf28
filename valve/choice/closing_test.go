package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/moc"
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
		d := c.deceleration(0.05, event, Settings{})
		require.Empty(t, d.Reason)
		require.InEpsilon(t, a, d.SI, 1e-6)
		v, when := c.reverse()
		require.InDelta(t, a*delay, v, 1e-12)
		require.Equal(t, ts, when)
		// Of the step in which the disc seats the trapezoidal rule takes half: at most one step of the delay.
		require.InEpsilon(t, a*delay*delay/2, reverseVolume(time, u), 1.01e-3/delay)
		require.Zero(t, c.reopenings(u))
		later, _ := c.later(time, u)
		require.Zero(t, later)
	})
}

func TestSeatingInForwardFlow(t *testing.T) {
	time, u := ramp(2, 5, 0.5, 0.8, 1e-3) // at 0.5 m/s forward
	c := follow(time, u, 0.5)
	d := c.deceleration(0.05, 0.5, Settings{})
	require.Equal(t, "the disc seats in forward flow (0.5 m/s)", d.Reason)
	v, _ := c.reverse()
	require.Zero(t, v)
	require.Zero(t, reverseVolume(time, u))
}

func TestNoReversal(t *testing.T) {
	time, u := ramp(2, 0.1, 0.5, 1, 1e-3)
	u.Seatings = nil
	for i := range u.Flow {
		u.Flow[i] = 1
	}
	require.Equal(t, "the flow does not reverse by 2 s", follow(time, u, 0.5).deceleration(0.05, 0.5, Settings{}).Reason)
	for i := range u.Flow {
		u.Flow[i] = 0
	}
	require.Equal(t, "no flow before the event", follow(time, u, 0.5).deceleration(0.05, 0.5, Settings{}).Reason)
}

// A rebound by more than 1 % of the travel is a reopening, a smaller one is not; later closings count apart from the first.
func TestReopenings(t *testing.T) {
	time, u := ramp(2, 5, 0.5, 1, 1e-3)
	u.Seatings = append(u.Seatings, moc.Seating{Time: 1.1, Velocity: -0.7, Opening: 0.02}, moc.Seating{Time: 1.2, Velocity: -0.1, Opening: 0.005})
	c := follow(time, u, 0.5)
	require.Equal(t, 1, c.reopenings(u))
	first, _ := c.reverse()
	later, when := c.later(time, u)
	require.InDelta(t, 0.5, first, 1e-12)
	require.Equal(t, []float64{0.7, 1.1}, []float64{later, when})
}

// Trapezoids with the seating inside a step: 0.2 m/s growing to 0.3 m/s over the first half of the step, then rest.
func TestReverseVolumeCutsTheStepOfTheSeating(t *testing.T) {
	u := &moc.UnitTrace{Bore: 2 / math.Sqrt(math.Pi), Flow: []float64{1, -0.2, 0, 0}, Seatings: []moc.Seating{{Time: 1.5, Velocity: -0.3}}}
	require.InDelta(t, 0.5*0.2+0.5*0.25, reverseVolume([]float64{0, 1, 2, 3}, u), 1e-12)
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
		v, _ := c.reverse()
		later, _ := c.later(time, u)
		require.Equal(t, -0.5, c.v[len(c.v)-1])
		require.InDelta(t, -0.495, c.v[len(c.v)-2], 1e-9, "the rest after the seating is no part of the way to it")
		return []float64{v, later, c.slam(time, u).SI, reverseVolume(time, u)}
	}
	at := measure(func(t float64) float64 { return t })
	for _, side := range []float64{0, 2} {
		beside := measure(func(t float64) float64 { return math.Nextafter(t, side) })
		for i := range at {
			require.InDelta(t, at[i], beside[i], 1e-9)
		}
	}
}
