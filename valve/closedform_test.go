package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mathext"
)

// swingS is a swing valve in closed-form examples: DN300 in water of 1000 kg/m3 with g = 9.81 m/s2; its disc, 0.33 m, 17 kg, hangs
// 0.18 m below the hinge and stops at 65 degrees.
func swingS() Swing {
	return Swing{
		Body:             Body{Bore: 0.3, Density: 1000, Gravity: 9.81, LossOpen: 0.65, Contraction: 0.65},
		DiscDiameter:     0.33,
		DiscMass:         17,
		DiscDensity:      7850,
		LiquidMass:       SwingLiquidMass(1000, 0.33, 0.18),
		Arm:              0.18,
		Travel:           65 * math.Pi / 180,
		FullOpenVelocity: 2.3,
	}
}

func law(t require.TestingT, l *Law, err error) *Law {
	require.NoError(t, err)
	return l
}

// fall steps the disc without flow force until it touches the seat and returns the time and the state there.
func fall(l *Law, s State, h float64) (float64, State) {
	for t := 0.0; ; t += h {
		step := l.Advance(s, h, 0, 0)
		if step.Event >= 0 {
			s = step.State
			continue
		}
		lo, hi := 0.0, h
		for range 100 {
			if mid := (lo + hi) / 2; l.Advance(s, mid, 0, 0).Event < 0 {
				hi = mid
			} else {
				lo = mid
			}
		}
		return t + hi, l.Advance(s, hi, 0, 0).State
	}
}

func TestSwingInertia(t *testing.T) {
	s := swingS()
	require.InDelta(t, 1.098110, s.Inertia(), 5e-7)
	s.LiquidMass = 0
	require.InDelta(t, 0.666506, s.Inertia(), 5e-7)
	require.InDelta(t, 145.5254*0.18, swingS().weight().Amplitude, 5e-5*0.18)
}

func TestFreeFall(t *testing.T) {
	// t = K(sin(theta/2))/sqrt(WL/I), omega = sqrt(2 W L (1 - cos theta)/I).
	swing := swingS()
	l, err := swing.Law()
	law(t, l, err)
	time, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
	require.InDelta(t, 0.3496, time, 5e-5)
	require.InDelta(t, 5.248, -s.W, 5e-4)
	require.InDelta(t, 1.811, -s.W*(swing.Arm+swing.DiscDiameter/2), 5e-4)
	rate := math.Sqrt(l.Weight.(Sine).Amplitude / l.Inertia)
	require.InDelta(t, 4.884, rate, 5e-4)
	sin := math.Sin(l.Travel / 2)
	require.InEpsilon(t, mathext.CompleteK(sin*sin)/rate, time, 2e-4)
	require.InEpsilon(t, rate*math.Sqrt(2*(1-math.Cos(l.Travel))), -s.W, 1e-5)

	// The same disc in air: weight without buoyancy, no liquid.
	swing.Density, swing.LiquidMass = 1e-9, 0
	l, err = swing.Law()
	law(t, l, err)
	time, _ = fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
	require.InDelta(t, 0.2544, time, 5e-5)
}

// springS is a spring valve in closed-form examples: DN300, 17 kg with its liquid, 92 N and 2283 N/m over 60 mm.
func springS() *Law {
	return &Law{
		Travel: 0.06, Inertia: 17, Area: 0.0706858, Arm: 1, Density: 1000,
		Conductance: Constant(1), Load: Constant(2), Sweep: Constant(1), Weight: Constant(0),
		Preload: 92, SpringRate: 2283, Laminar: 1e-6,
	}
}

func TestSpringClosure(t *testing.T) {
	l := springS()
	time, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-5)
	require.InDelta(t, 0.09987, time, 1e-5)
	require.InDelta(t, 1.064, -s.W, 5e-4)
	require.InDelta(t, 9.629, l.Inertia*s.W*s.W/2, 1e-3)
	require.InDelta(t, 1.800, l.FullOpenVelocity(), 5e-4)
}

func TestBalanceAngle(t *testing.T) {
	// sin theta = (-1 + sqrt(1 + 4 k^2))/(2 k), k = rho V^2 C A_d/(2 W), C = 2.
	l := &Law{
		Travel: 80 * math.Pi / 180, Inertia: 1.098110, Area: 0.0855299, Arm: 0.18, Density: 1000,
		Conductance: Constant(1), Load: cosineSquared(2), Sweep: Constant(0.18), Weight: Sine{Amplitude: 145.5254 * 0.18}, Laminar: 1e-6,
	}
	for v, degrees := range map[float64]float64{0.5: 8.273, 1: 27.53, 1.5: 43.71, 2: 54.07, 3: 65.50} {
		e := l.Steady(v)
		k := 1000 * v * v * 0.0855299 / 145.5254
		require.InDelta(t, math.Asin((-1+math.Sqrt(1+4*k*k))/(2*k)), e.State.Y, 1e-9)
		require.InDelta(t, degrees, e.State.Y*180/math.Pi, 5e-3)
		require.False(t, e.Held)
		require.False(t, e.Snaps)
	}
	l.Travel = 65 * math.Pi / 180
	require.InDelta(t, 2.938, l.FullOpenVelocity(), 5e-4)
	require.True(t, l.Steady(2.94).Held)
	require.False(t, l.Steady(2.93).Held)
}

func TestBounceSeries(t *testing.T) {
	// Total time of all rebounds under a constant closing force: (2 v/alpha) e/(1 - e), v = 1 m/s, e = 0.3, alpha = 92/17 m/s2.
	l := springS()
	l.SpringRate, l.Restitution, l.RestHeight = 0, 0.3, 1e-12
	s, total, bounces := l.Touch(State{W: -1}, 0), 0.0, 0
	for s.Contact == Free {
		time, at := fall(l, s, 1e-5)
		s = l.Touch(at, 0)
		total += time
		bounces++
	}
	require.InDelta(t, 0.1584, total, 1e-4)
	require.Greater(t, bounces, 5)

	// Rebounds below a thousandth of the travel are cut off; a strong reverse pressure allows none.
	l.RestHeight = 0
	require.Equal(t, Free, l.Touch(State{W: -1}, 0).Contact)
	require.Equal(t, Seated, l.Touch(State{W: -0.05}, 0).Contact)
	require.Equal(t, Seated, l.Touch(State{W: -1}, -1e6).Contact)
	require.Equal(t, State{Y: l.Travel, Contact: Stopped, Fresh: true}, l.Touch(State{Y: l.Travel, W: 0.1}, 1e5))
}

func TestDryFriction(t *testing.T) {
	l := springS()
	l.Friction = 10
	// 92 N of spring against 10 N of friction: the disc opens from its seat above 102 N, and once at rest between 82 and 102 N stays.
	at := func(force float64) float64 { return force / (2 * l.Area) }
	_, opens := l.Shut()
	require.InEpsilon(t, 102/l.Area, opens, 1e-12)
	l.SpringRate = 0
	middle := State{Y: 0.03}
	for _, force := range []float64{83, 92, 101} {
		step := l.Advance(middle, 1e-3, 0, at(force))
		require.Equal(t, State{Y: 0.03}, step.State)
	}
	require.Positive(t, l.Advance(middle, 1e-3, 0, at(103)).State.W)
	require.Negative(t, l.Advance(middle, 1e-3, 0, at(81)).State.W)

	// A disc that moves against friction alone stops after v^2 M/(2 F) and stays there.
	s, h := State{Y: 0.02, W: 0.1, Fresh: true}, 1e-5
	for range 20000 {
		s = l.Advance(s, h, 0, at(92)).State
	}
	require.InEpsilon(t, 0.02+0.01*17/(2*10), s.Y, 1e-3)
	require.Zero(t, s.W)
}

func TestDamper(t *testing.T) {
	l := springS()
	free, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
	l.Damper = Damper{Coefficient: 5000, Span: 0.3}
	slow, damped := fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
	require.Greater(t, slow, free)
	require.Less(t, -damped.W, -0.5*s.W)
	// It does not resist opening.
	f, _, _ := l.dashpot(0.001, 0.5)
	require.Zero(t, f)
}
