package characteristic

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
	"seatwise/valve/catalogue"
)

type function func(y float64) (f, df float64)

func (f function) At(y float64) (float64, float64) { return f(y) }

// plate is a swing disc, DN300, whose load follows the square of the velocity normal to it, with coefficient c:
// moment 1/2 rho A_d L c (V cos y - L w)^2. Inertia and weight are those of a disc of 17 kg in water.
func plate(c float64) *valve.Law {
	const arm = 0.18
	return &valve.Law{
		Travel: 65 * math.Pi / 180, Inertia: 1.098110, Area: 0.0855299, Arm: arm, Density: 1000,
		Conductance: valve.Constant(1),
		Load: function(func(y float64) (float64, float64) {
			sin, cos := math.Sincos(y)
			return c * cos * cos, -2 * c * sin * cos
		}),
		Sweep: function(func(y float64) (float64, float64) {
			sin, cos := math.Sincos(y)
			return arm / cos, arm * sin / (cos * cos)
		}),
		Weight:  valve.Sine{Amplitude: 145.5254 * arm},
		Laminar: 1e-5,
	}
}

// lift is a spring disc of constant force coefficient, DN300: 17 kg with its liquid, 92 N and 2283 N/m over 60 mm.
func lift() *valve.Law {
	return &valve.Law{
		Travel: 0.06, Inertia: 17, Area: 0.0706858, Arm: 1, Density: 1000,
		Conductance: valve.Constant(1), Load: valve.Constant(2), Sweep: valve.Constant(1), Weight: valve.Constant(0),
		Preload: 92, SpringRate: 2283, Laminar: 1e-5,
	}
}

func TestRotationAgainstStillLiquid(t *testing.T) {
	// Quadratic damping c w^2, c = 1/2 rho A_d C L^3, C = 2: with k = 2c/I, B = 2WL/I the rate at the seat is
	// w^2 = B/(1 + k^2) (k sin y + cos y - exp(-k (y0 - y)) (k sin y0 + cos y0)) at y = 0. The velocity of the liquid is zero.
	l := plate(2)
	l.Load, l.Sweep = valve.Constant(2), valve.Constant(l.Arm)
	b := bench{m: l, step: 2e-4, floor: 1}
	p := b.run(valve.State{Y: l.Travel, Fresh: true}, 0)
	k := 1000 * l.Area * 2 * math.Pow(l.Arm, 3) / l.Inertia
	sin, cos := math.Sincos(l.Travel)
	exact := math.Sqrt(2 * 145.5254 * l.Arm / l.Inertia / (1 + k*k) * (1 - math.Exp(-k*l.Travel)*(k*sin+cos)))
	require.InEpsilon(t, exact, p.SeatRate, 2e-5)
	require.InDelta(t, 3.810, p.SeatRate, 5e-4)
	require.InDelta(t, 0.3882, p.Time, 5e-5)
}

// References of the two tests below: Runge-Kutta of fourth order and an independent midpoint scheme, which agree to four digits.
type reference struct{ a, v, rate, time float64 }

func compare(t *testing.T, l *valve.Law, v0 float64, refs []reference) {
	for _, r := range refs {
		t.Run(fmt.Sprintf("a=%g", r.a), func(t *testing.T) {
			start := l.Steady(v0)
			b := bench{m: l, v0: v0, a: r.a, step: math.Min(1e-3, v0/r.a/400), floor: 20}
			p := b.run(valve.State{Y: l.Travel, Contact: valve.Stopped}, start.DP)
			require.Equal(t, Seats, p.Outcome)
			require.InDelta(t, r.v, p.ForwardVelocity-p.ReverseVelocity, digits(r.v))
			require.InDelta(t, r.rate, p.SeatRate, digits(r.rate))
			require.InDelta(t, r.time, p.Time, digits(r.time))
		})
	}
}

// digits is one unit of the last digit of a reference of four significant digits, at most three decimals above 0.1.
func digits(x float64) float64 {
	return math.Max(1e-3, math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-3))
}

func TestSpringDiscUnderConstantDeceleration(t *testing.T) {
	compare(t, lift(), 1.8, []reference{
		{1, 1.073, 0.0747, 0.7268},
		{2, 0.990, 0.193, 0.4047},
		{5, 0.605, 0.480, 0.2389},
		{10, 0.0375, 0.736, 0.1762},
		{20, -0.950, 0.971, 0.1375},
		{50, -3.528, 1.427, 0.1066},
	})
}

func TestSwingDiscUnderConstantDeceleration(t *testing.T) {
	l := plate(2)
	require.InDelta(t, 2.938, l.FullOpenVelocity(), 5e-4)
	compare(t, l, l.FullOpenVelocity(), []reference{
		{1, 0.174, 0.605, 2.764},
		{2, 0.0023, 1.496, 1.468},
		{5, -0.654, 3.271, 0.7185},
		{10, -1.998, 5.288, 0.4937},
		{20, -4.363, 10.36, 0.3651},
	})
}

func TestPassiveDisc(t *testing.T) {
	// No mass, no weight, no gap: carried by the column from full opening, V = sqrt(2 a path), path = sweep times travel.
	for _, c := range []struct{ sweep, travel, a, v float64 }{
		{1, 0.06, 2, 0.4899}, {1, 0.06, 5, 0.7746}, {1, 0.06, 10, 1.095},
		{0.18, 65 * math.Pi / 180, 2, 0.9038}, {0.18, 65 * math.Pi / 180, 5, 1.429}, {0.18, 65 * math.Pi / 180, 10, 2.021},
		{1.21 * 0.18, 65 * math.Pi / 180, 2, 0.994}, {1.21 * 0.18, 65 * math.Pi / 180, 10, 2.223},
	} {
		l := &valve.Law{
			Travel: c.travel, Inertia: 1e-9, Area: 0.07, Arm: 1, Density: 1000,
			Conductance: valve.Constant(1e-6), Load: valve.Constant(1), Sweep: valve.Constant(c.sweep), Weight: valve.Constant(0),
			Preload: 1e-6,
		}
		b := bench{m: l, a: c.a, step: 1e-4, floor: 20}
		p := b.run(valve.State{Y: c.travel, Contact: valve.Stopped}, 0)
		require.InEpsilon(t, math.Sqrt(2*c.a*c.sweep*c.travel), p.ReverseVelocity, 1e-4)
		require.InEpsilon(t, c.v, p.ReverseVelocity, 1e-3)
	}
}

func TestSeatLaw(t *testing.T) {
	// A massless disc under a constant closing force near its seat: sweep y' = -a t - G y, G = g'(0) sqrt(2 F0/(rho A)). The motion tends
	// to y = -(a/G)(t - tau), tau = sweep/G, and the reverse velocity at the seat to a tau. DN250, g'(0) = 4 Cc/D, 142 N.
	area := math.Pi / 4 * 0.25 * 0.25
	slope := 4 * 0.65 / 0.25
	for _, a := range []float64{1, 5, 20} {
		l := &valve.Law{
			Travel: 0.05, Inertia: 1e-4, Area: area, Arm: 1, Density: 1000,
			Conductance: valve.Polynomial{0, slope}, Load: valve.Constant(1), Sweep: valve.Constant(1), Weight: valve.Constant(0), Preload: 142,
		}
		g := slope * math.Sqrt(2*142/area/1000)
		tau := 1 / g
		require.InDelta(t, 0.040, tau, 1e-3)
		b := bench{m: l, a: a, step: tau / 200, floor: 50}
		p := b.run(valve.State{Y: a * tau / g, W: -a / g, Fresh: true}, -142/area)
		require.InEpsilon(t, a*tau, p.ReverseVelocity, 5e-3)
		require.InEpsilon(t, tau, p.Time, 5e-3)
	}
}

func TestSimilarity(t *testing.T) {
	// V_r/V_open depends on a D/V_open^2 only: mass as D^3, weight-closed V_open as sqrt(D), spring forces as rho A V_open^2.
	body := valve.Body{Density: 998.2, Gravity: 9.80665, LossOpen: 0.7, Contraction: 0.65}
	swing := func(d float64) (valve.Valve, error) {
		b := body
		b.Bore = d
		v := 2.3 * math.Sqrt(d/0.3)
		l, err := valve.Swing{
			Body: b, DiscDiameter: 1.1 * d, DiscMass: 650 * d * d * d, DiscDensity: 7850, Arm: 0.6 * d, Travel: 1.1,
			LiquidMass: valve.SwingLiquidMass(b.Density, 1.1*d, 0.6*d), SeatAngle: 0.08, FullOpenVelocity: v,
		}.Law()
		return valve.Valve{Motion: l, FullOpenVelocity: v, Reach: 1.15 * d}, err
	}
	ring := func(d float64) (valve.Valve, error) {
		b := body
		b.Bore = d
		v := 2.0 * math.Pow(d/0.3, 0.3)
		l, err := valve.AxialSpring{
			Body: b, RingRatio: 0.6, DiscMass: 150 * d * d * d, DiscDensity: 7850, LiquidMass: valve.DiscLiquidMass(b.Density, d) / 4,
			Travel: 0.12 * d, Spring: valve.SpringFor(b, 2, v, 0.12*d, 0.5, 0), Force: 2,
		}.Law()
		return valve.Valve{Motion: l, FullOpenVelocity: v, Reach: 1}, err
	}
	plates := func(d float64) (valve.Valve, error) {
		b := body
		b.Bore = d
		v := 2.0 * math.Pow(d/0.3, 0.3)
		p := valve.DualPlate{Body: b, DiscDiameter: d, DiscDensity: 7850, Travel: 1.4, LoadOpen: 0.84}
		full := 0.84 * b.Density / 2 * v * v * p.HalfArea() * p.Arm()
		for i, share := range []float64{1, 0.7} {
			p.Plates[i] = valve.HalfPlate{Mass: 125 * d * d * d, LiquidMass: valve.HalfPlateLiquidMass(b.Density, d), Preload: share * full / 2, SpringRate: full / 2 / 1.4}
		}
		l, err := p.Law()
		return valve.Valve{Motion: l, FullOpenVelocity: v, Reach: d / 2}, err
	}
	for name, make := range map[string]func(float64) (valve.Valve, error){"swing": swing, "ring": ring, "plates": plates} {
		for _, number := range []float64{0.1, 0.4, 1.5} {
			var first float64
			for _, d := range []float64{0.1, 0.3, 0.8} {
				v, err := make(d)
				require.NoError(t, err)
				p := At(v, number*v.FullOpenVelocity*v.FullOpenVelocity/d, Settings{})
				ratio := p.ReverseVelocity / v.FullOpenVelocity
				if first == 0 {
					first = ratio
				}
				require.InEpsilon(t, first, ratio, 5e-3, "%s DN%.0f at %g", name, 1000*d, number)
			}
		}
	}
}

// halves are two plates, each with half the area and the sweep of a bore of the given area.
func halves(l valve.Law) *valve.Pair {
	a, b := l, l
	return &valve.Pair{Halves: [2]*valve.Law{&a, &b}}
}

// start puts both discs of a pair into one state.
func start(s valve.State) valve.State {
	s.Second = valve.Disc{Y: s.Y, W: s.W, Force: s.Force, Contact: s.Contact, Fresh: s.Fresh}
	return s
}

func TestPassivePlates(t *testing.T) {
	// As TestPassiveDisc, whatever the mass, as no liquid passes: the path of the column is what both plates sweep,
	// 2 A_h (4R/(3 pi)) Y/A = 4R/(3 pi) Y.
	const r, travel = 0.15, 80 * math.Pi / 180
	for _, a := range []float64{2, 5, 10} {
		p := halves(valve.Law{
			Travel: travel, Inertia: 0.01, Area: math.Pi * r * r / 2, Arm: 4 * r / (3 * math.Pi), Density: 1000,
			Conductance: valve.Constant(1e-6), Load: valve.Constant(1), Sweep: valve.Constant(2 * r / (3 * math.Pi)), Weight: valve.Constant(0), Preload: 1e-6,
		})
		b := bench{m: evenSteps{p}, a: a, step: 1e-3, floor: 20}
		at := b.run(start(valve.State{Y: travel, Contact: valve.Stopped}), 0)
		require.Equal(t, Seats, at.Outcome)
		require.InEpsilon(t, math.Sqrt(2*a*4*r/(3*math.Pi)*travel), at.ReverseVelocity, 1e-4)
	}
}

func TestSeatLawOfPlates(t *testing.T) {
	// As TestSeatLaw, for two plates without mass: G = 2 g'(0) sqrt(2 dp0/rho), tau = 2 sweep/G, V_r = a tau.
	const r, dp0 = 0.15, 1440.0
	l := valve.Law{
		Travel: 1.4, Inertia: 1e-6, Area: math.Pi * r * r / 2, Arm: 4 * r / (3 * math.Pi), Density: 1000,
		Conductance: valve.Polynomial{0, 0.65 * 2 / math.Pi}, Load: valve.Constant(1), Sweep: valve.Constant(2 * r / (3 * math.Pi)), Weight: valve.Constant(0),
	}
	l.Preload = dp0 * l.Area * l.Arm
	g := 2 * 0.65 * 2 / math.Pi * math.Sqrt(2*dp0/1000)
	tau := 4 * r / (3 * math.Pi) / g
	require.InDelta(t, 0.0453, tau, 5e-5)
	for _, a := range []float64{1, 5, 20} {
		b := bench{m: halves(l), a: a, step: tau / 200, floor: 50}
		p := b.run(start(valve.State{Y: a * tau / g, W: -a / g, Fresh: true}), -dp0)
		require.InEpsilon(t, a*tau, p.ReverseVelocity, 5e-3)
		require.InEpsilon(t, tau, p.Time, 5e-3)
	}
}

// evenSteps takes away the finer steps near the seat.
type evenSteps struct{ valve.Motion }

func (evenSteps) SubSteps(valve.State, float64) int { return 1 }

func TestOrderOfConvergence(t *testing.T) {
	// Constant coefficients, moving from the first instant: the trapezoidal rule is of second order, contact included.
	seat := func(m valve.Motion, start valve.State, v0, a, step float64) float64 {
		b := bench{m: m, v0: v0, a: a, step: step, floor: 20}
		p := b.run(start, 0)
		require.Equal(t, Seats, p.Outcome)
		return p.ForwardVelocity - p.ReverseVelocity
	}
	l := lift()
	for _, a := range []float64{5, 10, 20} {
		start := valve.State{Y: l.Travel * 0.9, Fresh: true}
		var e [4]float64
		exact := seat(evenSteps{l}, start, 1.5, a, 2e-5)
		for i := range e {
			e[i] = math.Abs(seat(evenSteps{l}, start, 1.5, a, 4e-3/math.Pow(2, float64(i))) - exact)
		}
		t.Logf("a = %g: errors %.2e, order %.2f", a, e, math.Log2(e[0]/e[len(e)-1])/float64(len(e)-1))
		require.Greater(t, math.Log2(e[0]/e[len(e)-1])/float64(len(e)-1), 1.8, "a = %g: errors %v", a, e)
	}
}

// least is the least that makes a valve of a family: nothing where the catalogue has all.
func least(f catalogue.Family, size float64) valve.Spec {
	spec := valve.Spec{Type: f.Name, Size: size}
	if len(f.Needs()) > 0 {
		spec.Set = map[string]float64{"loss when open": 1, "full-open velocity": 2}
		spec.Tests = []valve.TestPoint{{Deceleration: 1, ReverseVelocity: 0}, {Deceleration: 4, ReverseVelocity: 0.2}, {Deceleration: 12, ReverseVelocity: 1}}
	}
	return spec
}

// The default step against a quarter of it, every family; in short runs one size.
func TestDefaultStepIsFineEnough(t *testing.T) {
	sizes := []float64{0.3, 0.05, 0.9}
	if testing.Short() {
		sizes = sizes[:1]
	}
	for _, f := range catalogue.Families() {
		for _, size := range sizes {
			v, err := catalogue.Complete(least(f, size), catalogue.Setting{Density: 998.2, Gravity: 9.80665})
			require.NoError(t, err)
			for _, a := range []float64{1, 7, 50} {
				p := At(v, a, Settings{})
				fine := At(v, a, Settings{Step: math.Min(2e-3, p.InitialVelocity/a/100) / 4})
				require.InDelta(t, fine.ReverseVelocity, p.ReverseVelocity, math.Max(1e-3, 5e-3*fine.ReverseVelocity), "%s DN%.0f a=%g", f.Name, 1000*size, a)
				require.InEpsilon(t, fine.Time, p.Time, 5e-3, "%s DN%.0f a=%g", f.Name, 1000*size, a)
				require.Equal(t, Seats, p.Outcome)
			}
		}
	}
}

func TestCurve(t *testing.T) {
	d := Decelerations()
	require.InDelta(t, 0.5, d[0], 1e-12)
	require.InDelta(t, 50, d[len(d)-1], 1e-9)
	curve := func(kind string) []Point {
		v, err := catalogue.Complete(valve.Spec{Type: kind, Size: 0.25}, catalogue.Setting{Density: 998.2, Gravity: 9.80665})
		require.NoError(t, err)
		points, err := Curve(v, nil, Settings{})
		require.NoError(t, err)
		return points
	}
	swing, spring, nozzle := curve("swing"), curve("axial spring"), curve("nozzle")
	for i := range d {
		require.Equal(t, d[i], swing[i].Deceleration)
		// Order of merit of the trade: short travel, low inertia and a spring close earlier.
		require.Less(t, spring[i].ReverseVelocity, nozzle[i].ReverseVelocity)
		require.Less(t, nozzle[i].ReverseVelocity, swing[i].ReverseVelocity)
		if i > 0 {
			require.Greater(t, swing[i].ReverseVelocity, swing[i-1].ReverseVelocity)
			require.Greater(t, spring[i].ReverseVelocity, spring[i-1].ReverseVelocity)
			require.Greater(t, nozzle[i].ReverseVelocity, nozzle[i-1].ReverseVelocity)
		}
	}
	_, err := Curve(valve.Valve{}, []float64{-1}, Settings{})
	require.Error(t, err)
}

func TestIdealAndStuck(t *testing.T) {
	late := &valve.Ideal{Loss: 0.6, Density: 998.2, ClosesAt: 0.4}
	p := At(valve.Valve{Motion: late}, 5, Settings{InitialVelocity: 2})
	require.Equal(t, Seats, p.Outcome)
	require.InDelta(t, 0.4, p.ReverseVelocity, 1e-9)
	require.InDelta(t, 2.4/5, p.Time, 1e-9)

	stuck := &valve.Stuck{At: 0.5, Loss: 3, Density: 998.2}
	p = At(valve.Valve{Motion: stuck}, 5, Settings{InitialVelocity: 2})
	require.Equal(t, NeverSeats, p.Outcome)
	require.Equal(t, "never seats", p.Outcome.String())
	require.InDelta(t, 22.0/5, p.Time, 0.01)
}

func BenchmarkAt(b *testing.B) {
	v, err := catalogue.Complete(valve.Spec{Type: "swing", Size: 0.25}, catalogue.Setting{Density: 998.2, Gravity: 9.80665})
	require.NoError(b, err)
	for _, a := range []float64{0.5, 7, 50} {
		b.Run(fmt.Sprintf("deceleration=%g", a), func(b *testing.B) {
			for b.Loop() {
				At(v, a, Settings{})
			}
		})
	}
}
