package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Of the disc alone: hanging in still water at a small angle sqrt(W L/I)/(2 pi) = 0.777 Hz, on its spring sqrt(k/M)/(2 pi) = 1.844 Hz, both worked out apart from
// this package from the data of the two valves.
func TestFrequencyInStillWater(t *testing.T) {
	swing := swingS()
	l, err := swing.Law()
	law(t, l, err)
	o, ok := l.Oscillation(0, 0)
	require.True(t, ok)
	require.InDelta(t, 0.777, o.Frequency, 5e-4)
	o, ok = springS().Oscillation(0.03, 0)
	require.True(t, ok)
	require.InDelta(t, 1.844, o.Frequency, 5e-4)
	require.InDelta(t, 0, o.Damping, 1e-3)
	_, ok = (&Law{Travel: 1, Inertia: 1, Area: 1, Arm: 1, Density: 1, Conductance: Constant(1), Load: Constant(1), Sweep: Constant(1), Weight: Constant(1)}).Oscillation(0.5, 1)
	require.False(t, ok, "nothing holds it where it is")
}

// A disc in balance by the law of the cosine: load rho V^2 A C L cos^2 y against W L sin y, and k = W L cos y (1 + 2 tan^2 y) by hand.
func TestFrequencyInFlow(t *testing.T) {
	l := &Law{
		Travel: 80 * math.Pi / 180, Inertia: 1.098110, Area: 0.0855299, Arm: 0.18, Density: 1000,
		Conductance: Constant(1), Load: cosineSquared(2), Sweep: Constant(0.18), Weight: Sine{Amplitude: 145.5254 * 0.18}, Laminar: 1e-6,
	}
	for _, v := range []float64{0.5, 1, 1.5, 2, 3} {
		o, ok := Valve{Motion: l}.Oscillation(v)
		require.True(t, ok)
		y := l.Steady(v).State.Y
		sin, cos := math.Sincos(y)
		require.InEpsilon(t, math.Sqrt(145.5254*0.18*cos*(1+2*sin*sin/(cos*cos))/1.098110)/(2*math.Pi), o.Frequency, 1e-9, "%g m/s", v)
	}
}

// free lets a disc go beside its place of rest in a constant flow and gives the decay and the frequency of its motion, from the recurrence of a damped
// oscillation at equal times, x(n+1) = 2 r cos(w h) x(n) - r^2 x(n-1), by least squares.
func free(t *testing.T, m Motion, s State, v float64) (decay, frequency float64) {
	const h, steps = 2e-4, 3000
	e := m.Steady(v)
	dp, at := e.DP, make([]float64, 0, steps)
	for range steps {
		var step Step
		for range 60 {
			if step = m.Advance(s, h, v, dp); step.R == 0 {
				break
			}
			next := dp - step.R/step.RP
			if next == dp {
				break
			}
			dp = next
		}
		s = step.State
		at = append(at, s.Y-e.State.Y)
	}
	var xx, xy, yy, xz, yz float64
	const stride = 50
	for i := 2 * stride; i < len(at); i++ {
		x, y, z := at[i-stride], at[i-2*stride], at[i]
		xx, xy, yy, xz, yz = xx+x*x, xy+x*y, yy+y*y, xz+x*z, yz+y*z
	}
	det := xx*yy - xy*xy
	p, q := (xz*yy-yz*xy)/det, (yz*xx-xz*xy)/det
	require.Negative(t, q, "no damped oscillation")
	r := math.Sqrt(-q)
	decay = -math.Log(r) / (stride * h)
	if c := p / (2 * r); math.Abs(c) < 1 {
		return decay, math.Acos(c) / (stride * h * 2 * math.Pi)
	}
	return decay, 0
}

// The motion that a run gives a disc let go a thousandth of its travel beside its place of rest: x ~ exp(-d w t) cos(w sqrt(1 - d^2) t).
func TestOscillationIsThatOfARun(t *testing.T) {
	spring, err := AxialSpring{Body: Body{Bore: 0.3, Density: 1000, Gravity: 9.81, LossOpen: 3, Contraction: 0.65}, RingRatio: 0.6, DiscMass: 4, DiscDensity: 7850, LiquidMass: 3,
		Travel: 0.036, Spring: Spring{Preload: 150, Rate: 4000}, Force: 2}.Law()
	require.NoError(t, err)
	swing, err := swingS().Law()
	require.NoError(t, err)
	for name, m := range map[string]Motion{"swing": swing, "ring": spring, "plates": pair(t, plates())} {
		v := 0.8 * fullOpen(m)
		e := m.Steady(v)
		require.Equal(t, Free, e.State.Contact, name)
		o, ok := Valve{Motion: m}.Oscillation(v)
		require.True(t, ok, name)
		s := e.State
		s.Fresh = true
		s.Y *= 1.001
		if name == "plates" {
			s.Second.Y, s.Second.Fresh = s.Second.Y*1.001, true
		}
		decay, f := free(t, m, s, v)
		w := 2 * math.Pi * o.Frequency
		require.InEpsilon(t, o.Damping*w, decay, 0.01, name)
		require.InEpsilon(t, o.Frequency*math.Sqrt(1-o.Damping*o.Damping), f, 0.01, name)
	}
}

func fullOpen(m Motion) float64 {
	switch m := m.(type) {
	case *Law:
		return m.FullOpenVelocity()
	case *Pair:
		return m.FullOpenVelocity()
	}
	return 0
}

// Two equal plates swing together as the one disc that they are the halves of.
func TestOscillationOfEqualPlates(t *testing.T) {
	p := pair(t, plates())
	l := whole(p)
	v := 0.6 * p.FullOpenVelocity()
	both, ok := p.Oscillation(p.Steady(v).State, v)
	require.True(t, ok)
	one, ok := l.resting(v)
	require.True(t, ok)
	require.InEpsilon(t, one.Frequency, both.Frequency, 1e-6)
	require.InEpsilon(t, one.Damping, both.Damping, 1e-6)
	_, ok = p.Oscillation(p.Steady(2*p.FullOpenVelocity()).State, v)
	require.False(t, ok, "both on their stops")
}

// In a flow that fluctuates a little the disc swings by the amplitude of a slow fluctuation, that between its places of rest, times 1/sqrt((1 - r^2)^2 + (2 d r)^2).
func TestResponseIsThatOfARun(t *testing.T) {
	m, err := swingS().Law()
	require.NoError(t, err)
	const h, ripple = 4e-3, 1e-3
	v := 0.7 * m.FullOpenVelocity()
	o, ok := m.resting(v)
	require.True(t, ok)
	slow := (m.Steady(v*(1+ripple)).State.Y - m.Steady(v*(1-ripple)).State.Y) / 2
	for _, r := range []float64{0.2, 1, 2} {
		e := m.Steady(v)
		s, dp := e.State, e.DP
		s.Fresh = true
		lo, hi := math.Inf(1), math.Inf(-1)
		end := 8/o.Frequency + 3/(r*o.Frequency)
		for i := 1; float64(i)*h < end; i++ {
			at := v * (1 + ripple*math.Sin(2*math.Pi*r*o.Frequency*float64(i)*h))
			var step Step
			for range 60 {
				if step = m.Advance(s, h, at, dp); step.R == 0 {
					break
				}
				next := dp - step.R/step.RP
				if next == dp {
					break
				}
				dp = next
			}
			if s = step.State; float64(i)*h > 8/o.Frequency {
				lo, hi = math.Min(lo, s.Y), math.Max(hi, s.Y)
			}
		}
		require.InEpsilon(t, slow/math.Hypot(1-r*r, 2*o.Damping*r), (hi-lo)/2, 0.02, "%g", r)
	}
}
