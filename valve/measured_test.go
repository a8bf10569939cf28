package valve_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

var (
	tangent = valve.Watch{Begin: 2, Window: 0.05}
	slope   = valve.Watch{Begin: 1.5, From: 1.5}
	through = valve.Watch{Begin: 1.5, Through: true}
)

// reversal lets a watch follow v(t) from its steady start in steps of h until the flow has reversed.
func reversal(w valve.Watch, v func(t float64) float64, h func(i int) float64) valve.Memory {
	m := w.Steady(v(0))
	for i, t := 0, 0.0; m.V > 0; i++ {
		t += h(i)
		m = w.Next(m, h(i), v(t))
	}
	return m
}

func TestWatchIsExactAtConstantDeceleration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := math.Pow(10, rapid.Float64Range(-1, 2.5).Draw(t, "lg a"))
		v0 := rapid.Float64Range(0.3, 6).Draw(t, "v0")
		h := math.Pow(10, rapid.Float64Range(-5, -2).Draw(t, "lg h")) * v0 / a * 10
		wait := rapid.Float64Range(0, 1).Draw(t, "wait")
		for _, w := range []valve.Watch{tangent, slope, through} {
			m := reversal(w, func(t float64) float64 { return v0 - a*math.Max(0, t-wait) }, func(i int) float64 {
				return h * (1 + 0.5*math.Sin(float64(i)))
			})
			// The step in which the fall begins is a kink that the chord over it does not see.
			require.InEpsilon(t, a, m.A, 1e-6+2*h*a/v0, "%+v", w)
		}
		// With the kink at a step it is exact.
		for _, w := range []valve.Watch{tangent, slope, through} {
			m := reversal(w, func(t float64) float64 { return v0 - a*t }, func(int) float64 { return h })
			require.InEpsilon(t, a, m.A, 1e-7, "%+v", w)
		}
	})
}

// v = -a t + b t^2/2 before t = 0: the least-squares line over the last Window has the slope -(a + b Window/2), and the mean slope from v_b
// at t_b is v_b/|t_b|.
func TestWatchOfAParabola(t *testing.T) {
	const a, b = 5.0, 8.0
	v := func(t float64) float64 { return -a*(t-0.5) + b*(t-0.5)*(t-0.5)/2 }
	fine := func(int) float64 { return 1e-4 }
	require.InEpsilon(t, a+b*tangent.Window/2, reversal(tangent, v, fine).A, 1e-5)
	start := (-a + math.Sqrt(a*a+2*b*slope.From)) / b // v(0.5 - start) = From
	require.InEpsilon(t, slope.From/start, reversal(slope, v, fine).A, 1e-5)
}

// A velocity linear over a step may be told in any number of parts.
func TestWatchDoesNotSeeTheStep(t *testing.T) {
	v := func(t float64) float64 { return 2.5 - 6*t + 0.4*math.Sin(40*t) }
	linear := func(t float64) float64 {
		k := math.Floor(t/0.01) * 0.01
		return v(k) + (v(k+0.01)-v(k))*(t-k)/0.01
	}
	for _, w := range []valve.Watch{tangent, slope} {
		whole := reversal(w, linear, func(int) float64 { return 0.01 })
		parts := reversal(w, linear, func(int) float64 { return 0.01 / 16 })
		require.InEpsilon(t, whole.A, parts.A, 1e-9)
	}
}

// A pump that runs up again starts the watch anew, and so does a valve that has opened again.
func TestWatchBeginsAnew(t *testing.T) {
	v := func(t float64) float64 {
		switch {
		case t < 0.3:
			return 2.5 - 4*t
		case t < 0.6:
			return 1.3 + 4*(t-0.3)
		}
		return 2.5 - 20*(t-0.6)
	}
	for _, w := range []valve.Watch{tangent, slope, through} {
		require.InEpsilon(t, 20, reversal(w, v, func(int) float64 { return 1e-3 }).A, 1e-6)
		m := w.Next(reversal(w, v, func(int) float64 { return 1e-3 }), 1e-3, 0.4)
		require.Equal(t, w.Steady(0.4), m)
	}
}

func TestReverseCurve(t *testing.T) {
	same := valve.Similar{Size: 1, Velocity: 1}
	points := []valve.TestPoint{{Deceleration: 2, ReverseVelocity: 0.1}, {Deceleration: 5, ReverseVelocity: 0.4}, {Deceleration: 10, ReverseVelocity: 1.2}}
	c, err := valve.NewReverseCurve(points, same)
	require.NoError(t, err)
	for _, p := range points {
		require.InDelta(t, p.ReverseVelocity, c.At(p.Deceleration), 1e-15)
	}
	require.InDelta(t, 0.05, c.At(1), 1e-15)
	require.Zero(t, c.At(0))
	require.Zero(t, c.At(-3))
	require.InDelta(t, 1.2+0.16*10, c.At(20), 1e-12, "the last two points are steeper than the line from the origin")
	flat, err := valve.NewReverseCurve([]valve.TestPoint{{Deceleration: 2, ReverseVelocity: 0.3}, {Deceleration: 5, ReverseVelocity: 0.4}}, same)
	require.NoError(t, err)
	require.InDelta(t, 0.8, flat.At(10), 1e-12, "never less than proportional")

	// V_r/V_o = f(a D/V_o^2).
	half, err := valve.NewReverseCurve(points, valve.Similar{Size: 2, Velocity: 3})
	require.NoError(t, err)
	require.InDelta(t, 3*0.4, half.At(5*9./2), 1e-14)
	least, most := half.Range()
	require.InDelta(t, 9, least, 1e-14)
	require.InDelta(t, 45, most, 1e-14)

	for name, bad := range map[string][]valve.TestPoint{
		"two or more":         {{Deceleration: 1, ReverseVelocity: 1}},
		"row 1: deceleration": {{}, {Deceleration: 1, ReverseVelocity: 1}},
		"row 2: reverse":      {{Deceleration: 1}, {Deceleration: 2, ReverseVelocity: -1}},
		"sort the rows":       {{Deceleration: 2}, {Deceleration: 2}},
		"while":               {{Deceleration: 1, ReverseVelocity: 0.2}, {Deceleration: 2, ReverseVelocity: 0.1}},
	} {
		_, err := valve.NewReverseCurve(bad, same)
		require.ErrorIs(t, err, valve.ErrTable, name)
		require.ErrorContains(t, err, name)
	}
}

func TestReverseCurveNeverFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []valve.TestPoint
		a, v := 0.0, 0.0
		for range rapid.IntRange(2, 8).Draw(t, "points") {
			a += rapid.Float64Range(1e-3, 10).Draw(t, "da")
			v += rapid.Float64Range(0, 1).Draw(t, "dv")
			points = append(points, valve.TestPoint{Deceleration: a, ReverseVelocity: v})
		}
		c, err := valve.NewReverseCurve(points, valve.Similar{Size: 1, Velocity: 1})
		require.NoError(t, err)
		last := 0.0
		for i := range 400 {
			now := c.At(1.5 * a * float64(i) / 400)
			require.GreaterOrEqual(t, now, last-1e-12)
			last = now
		}
	})
}

func measured(t *testing.T, size float64, set map[string]float64, points []valve.TestPoint) valve.Valve {
	t.Helper()
	v, err := catalogue.Complete(valve.Spec{Name: "measured", Type: "measured", Size: size, Set: set, Tests: points}, level)
	require.NoError(t, err)
	return v
}

// A bench at constant deceleration gives the curve back, by each definition of the deceleration.
func TestMeasuredRepeatsItsTest(t *testing.T) {
	points := []valve.TestPoint{{Deceleration: 2, ReverseVelocity: 0}, {Deceleration: 5, ReverseVelocity: 0.3}, {Deceleration: 20, ReverseVelocity: 2}}
	for _, by := range []map[string]float64{{}, {"deceleration from": 0.5}, {"deceleration from": 2}, {"deceleration": 1}} {
		by["loss when open"], by["full-open velocity"] = 1, 2.3
		v := measured(t, 0.25, by, points)
		curve := v.Motion.(*valve.Measured).Curve
		for _, a := range []float64{0.5, 2, 3, 5, 8, 13, 20, 40} {
			for _, v0 := range []float64{0, 4} {
				p := characteristic.At(v, a, characteristic.Settings{InitialVelocity: v0})
				require.Equal(t, characteristic.Seats, p.Outcome)
				require.InDelta(t, curve.At(a), p.ReverseVelocity, 1e-6+1e-6*curve.At(a), "a = %g", a)
			}
		}
	}
}

// Trips are no constant decelerations: the flow falls as v = v0 - a t - a j t^2. The points of a disc that was tested by such trips repeat its reverse
// velocity in trips of the same shape when their deceleration is understood as it was meant, and not when it is taken for another one.
func TestMeasuredByTheDefinitionOfItsTest(t *testing.T) {
	const v0, loss = 3.0, 0.65
	for _, kind := range []string{"swing", "nozzle"} {
		disc, err := catalogue.Complete(valve.Spec{Type: kind, Size: 0.25, Set: map[string]float64{"loss when open": loss, "full-open velocity": 2.2}}, level)
		require.NoError(t, err)
		course := func(a float64) (c characteristic.Course) {
			for i := range 6001 {
				s := float64(i) * 5e-4
				c.Time, c.Velocity = append(c.Time, s), append(c.Velocity, v0-a*s-2*a*s*s)
			}
			return c
		}
		at := func(a, v float64) float64 { return (-1 + math.Sqrt(1+8*(v0-v)/a)) / 4 } // when the velocity is v
		closes := func(v valve.Valve, a float64) float64 {
			p, err := characteristic.Follow(v, course(a), characteristic.Settings{Step: 1e-3})
			require.NoError(t, err)
			require.Equal(t, characteristic.Seats, p.Outcome)
			return p.ReverseVelocity
		}
		define := map[string]func(a, vr float64) float64{ // deceleration of a trip by each definition, in closed form
			"closing": func(a, vr float64) float64 { return (2.2 + vr) / (at(a, -vr) - at(a, 2.2)) },
			"mean":    func(a, _ float64) float64 { return 2.2 / (at(a, 0) - at(a, 2.2)) },
			"tangent": func(a, _ float64) float64 { return a * (1 + 4*at(a, 0)) },
		}
		keys := map[string]map[string]float64{"closing": {"deceleration": 1}, "mean": {"deceleration from": 2.2}, "tangent": {"deceleration window": 1e-3}}
		off, trips, asked := map[string]float64{}, map[float64]float64{}, map[float64]float64{}
		for a := 2.5; a < 14; a *= 1.15 {
			trips[a] = closes(disc, a)
		}
		for _, a := range []float64{3.3, 9.7} {
			asked[a] = closes(disc, a)
		}
		for name, of := range define {
			var points []valve.TestPoint
			for _, a := range slices.Sorted(maps.Keys(trips)) {
				points = append(points, valve.TestPoint{Deceleration: of(a, trips[a]), ReverseVelocity: trips[a]})
			}
			for by, set := range keys {
				set["loss when open"], set["full-open velocity"] = loss, 2.2
				v := measured(t, 0.25, set, points)
				for a, vr := range asked {
					off[name+" as "+by] = math.Max(off[name+" as "+by], math.Abs(closes(v, a)/vr-1))
				}
			}
		}
		t.Log(kind, off)
		for pair, d := range off {
			if name, by, _ := strings.Cut(pair, " as "); name == by {
				require.Less(t, d, 5e-3, "%s: %s", kind, pair)
			} else {
				require.Greater(t, d, 0.02, "%s: %s", kind, pair)
			}
		}
	}
}

// Tests of one size stand for another: a nozzle valve of DN200 against a similar one of DN400 with another full-open velocity.
func TestMeasuredAcrossSizes(t *testing.T) {
	law := func(size, full float64) valve.Valve {
		v, err := catalogue.Complete(valve.Spec{Type: "nozzle", Size: size, Set: map[string]float64{"loss when open": 1, "full-open velocity": full}}, level)
		require.NoError(t, err)
		return v
	}
	small, large := law(0.2, 1.5), law(0.4, 2.2)
	var points []valve.TestPoint
	for _, a := range []float64{4, 6, 8, 12, 16, 24, 32, 48} {
		points = append(points, valve.TestPoint{Deceleration: a, ReverseVelocity: characteristic.At(small, a, characteristic.Settings{}).ReverseVelocity})
	}
	v := measured(t, 0.4, map[string]float64{"loss when open": 1, "full-open velocity": 2.2, "test bore": 0.2, "test full-open velocity": 1.5}, points)
	for _, p := range points {
		a := p.Deceleration * (2.2 / 1.5) * (2.2 / 1.5) / 2
		want := characteristic.At(large, a, characteristic.Settings{}).ReverseVelocity
		got := characteristic.At(v, a, characteristic.Settings{}).ReverseVelocity
		require.InDelta(t, want, got, 1e-3+5e-3*want, "a = %g", a)
	}
	require.Greater(t, points[len(points)-1].ReverseVelocity, 0.5, "the points say something")
}

// flowsBack lets v(t) act on an open measured valve in steps of 0.1 ms until it shuts, and returns when.
func flowsBack(t *testing.T, m valve.Motion, s valve.State, v func(t float64) float64) float64 {
	const h = 1e-4
	for i := 1; i < 1e6; i++ {
		step := m.Advance(s, h, v(float64(i)*h), -1e3)
		if step.Event <= 0 {
			return float64(i) * h
		}
		s = step.State
	}
	require.Fail(t, "it does not shut")
	return 0
}

// Where the reverse flow stays slow the valve shuts when 2 l V_r^2/a has flowed back.
func TestMeasuredShutsAfterALength(t *testing.T) {
	points := []valve.TestPoint{{Deceleration: 2, ReverseVelocity: 0.1}, {Deceleration: 10, ReverseVelocity: 1}}
	m := measured(t, 0.25, map[string]float64{"loss when open": 1, "full-open velocity": 2}, points).Motion
	slow := func(t float64) float64 { return math.Max(-0.2, 2.5-10*t) }
	back := flowsBack(t, m, m.Steady(2.5).State, slow) - 0.25
	require.InDelta(t, 2*1.*1/10, 0.2*back-0.2*0.02/2, 1e-4, "of which the way to -0.2 m/s took 0.02 s")

	// Opened by a wave, 5 % of its full-open velocity, it shuts after 5 % of that, though the wave turns at 100 m/s2.
	s, _ := m.Shut()
	s = m.Advance(s, 1e-4, 0.1, 1e3).State
	require.Equal(t, valve.Stopped, s.Contact)
	wave := func(t float64) float64 { return math.Max(-0.2, 0.1-100*t) }
	back = flowsBack(t, m, s, wave) - 0.001
	require.InDelta(t, 0.05*2*1*1/10, 0.2*back-0.2*0.002/2, 1e-4)
	// Or at the root of that times the velocity of the test.
	back = flowsBack(t, m, s, func(t float64) float64 { return 0.1 - 100*t }) - 0.001
	require.InDelta(t, math.Sqrt(0.05)*1, 100*back, 0.011)
}
