package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
)

func water(bore float64) Body {
	return Body{Bore: bore, Density: 1000, Gravity: 9.81, LossOpen: 0.8, Contraction: 0.65}
}

func tilting() TiltingDisc {
	return TiltingDisc{
		Body: water(0.3), DiscDiameter: 0.315, DiscMass: 15, DiscDensity: 7850, LiquidMass: TiltingLiquidMass(1000, 0.315, 0.045),
		Eccentricity: 0.045, Travel: 1.1, SeatAngle: 0.26, FullOpenVelocity: 1.5,
	}
}

func rubberFlap() Flap {
	return Flap{
		Body: water(0.3), FlapMass: 4, FlapDensity: 1800, LiquidMass: 18, Arm: 0.23, Travel: 0.61, SeatAngle: math.Pi / 4, FullOpenVelocity: 2,
	}
}

// A pendulum that falls from its stop to its seat without a spring and without flow: M w^2/2 = W (cos b - cos(y + b)).
func TestHingedFall(t *testing.T) {
	lever := swingS()
	lever.Counterweight, lever.CounterweightArm, lever.SeatAngle = 3, 0.4, 0.1
	for name, make := range map[string]func() (*Law, error){"tilting": tilting().Law, "flap": rubberFlap().Law, "lever": lever.Law} {
		l, err := make()
		require.NoError(t, err)
		w := l.Weight.(Sine)
		require.Positive(t, w.Phase)
		_, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
		exact := math.Sqrt(2 * w.Amplitude * (math.Cos(w.Phase) - math.Cos(l.Travel+w.Phase)) / l.Inertia)
		require.InEpsilon(t, exact, -s.W, 2e-5, name)
	}
	// The weight on the lever counts in full: no liquid carries it.
	require.InEpsilon(t, 145.5254*0.18+3*9.81*0.4, lever.weight().Amplitude, 1e-6)
	require.InEpsilon(t, 1.098110+3*0.16, lever.Inertia(), 1e-6)
}

// The two parts of a tilting disc, by sums over strips of the disc: moment and swept volume per radian, and the gap along the edge.
func TestTiltingGeometry(t *testing.T) {
	d := tilting()
	r, e := d.DiscDiameter/2, d.Eccentricity
	strip := func(x float64) float64 { return 2 * math.Sqrt(r*r-x*x) } // x from the centre, downwards; the pin is at -e
	part := func(from, to float64) float64 {
		return quad.Fixed(func(x float64) float64 { return (x + e) * strip(x) }, from, to, 2000, nil, 0)
	}
	lower, upper := part(-e, r), part(-r, -e)
	require.Positive(t, lower)
	require.Negative(t, upper)
	l, err := d.Law()
	require.NoError(t, err)
	sweep, _ := l.Sweep.At(0)
	require.InEpsilon(t, lower+upper, l.Area*l.Arm, 1e-5)
	require.InEpsilon(t, lower+upper, d.area()*sweep, 1e-5)

	edge := quad.Fixed(func(p float64) float64 { return math.Abs(e+d.Bore/2*math.Cos(p)) * d.Bore / 2 }, 0, 2*math.Pi, 20000, nil, 0)
	require.InEpsilon(t, edge/d.area(), d.hinged().gap, 1e-5)
	// With the pin at the edge it is a swing disc of arm D/2, with the pin in the centre the gap is 4/pi.
	d.Eccentricity = d.Bore / 2
	require.InEpsilon(t, 2, d.hinged().gap, 1e-12)
	d.Eccentricity = 0
	require.InEpsilon(t, 4/math.Pi, d.hinged().gap, 1e-12)

	// Added inertia of a disc about its diameter, 16/45 rho R^5.
	require.InEpsilon(t, 16./45*1000*math.Pow(r, 5), TiltingLiquidMass(1000, 2*r, 0)*r*r/4, 1e-12)
}

func TestFlapGeometry(t *testing.T) {
	f := rubberFlap()
	a, b := f.long(), f.Bore/2
	around := quad.Fixed(func(p float64) float64 {
		sin, cos := math.Sincos(p)
		return (f.Arm + a*cos) * math.Hypot(a*sin, b*cos)
	}, 0, 2*math.Pi, 2000, nil, 0)
	require.InEpsilon(t, around/f.area(), f.hinged().gap, 1e-6)
	require.InEpsilon(t, math.Pi*a*b, f.hinged().seat*f.area(), 1e-12)
	// Upright and hinged far away, the gap is that of a swing disc.
	f.SeatAngle = 0
	require.InEpsilon(t, 4*f.Arm/f.Bore, f.hinged().gap, 1e-12)
	// A cantilever of length l with a moment T at its end turns by T l/(E I), I = b t^3/12.
	require.InEpsilon(t, 6e6*(0.18*math.Pow(0.02, 3)/12)/0.03, RubberRate(6e6, 0.18, 0.02, 0.03), 1e-12)
}

func TestPlateForce(t *testing.T) {
	require.InEpsilon(t, 2*math.Pi/(4+math.Pi), PlateForce(0), 1e-12) // broadside, 0.88
	p := Plate{AtStop: 0.5, Stop: 0.6, Lean: 0.8}
	at, _ := p.At(0.3)
	require.InEpsilon(t, 0.5*PlateForce(1.1)/PlateForce(1.4), at, 1e-12)
}

// The stream meets a disc on a leaning seat at the angle from the perpendicular of seat and disc together: its moment on the open disc goes
// as cos b/(4 + pi cos b), b = y + beta, in every family on a hinge.
func TestStreamMeetsLeaningDisc(t *testing.T) {
	swing := swingS()
	swing.SeatAngle, swing.FullOpenVelocity = 0.2, 2
	for name, h := range map[string]struct {
		law  func() (*Law, error)
		lean float64
	}{"swing": {swing.Law, 0.2}, "tilting": {tilting().Law, 0.26}, "flap": {rubberFlap().Law, math.Pi / 4}} {
		l, err := h.law()
		require.NoError(t, err)
		stream := func(y float64) float64 { // C - (zeta - zeta_open)
			g, _ := l.Conductance.At(y)
			kappa, _ := l.Load.At(y)
			return (kappa-1)/(g*g) + l.OpenLoss()
		}
		rayleigh := func(b float64) float64 { return math.Cos(b) / (4 + math.Pi*math.Cos(b)) }
		for _, y := range []float64{0.3, 0.5, 0.8} {
			y *= l.Travel
			require.InEpsilon(t, rayleigh(y+h.lean)/rayleigh(l.Travel+h.lean), stream(y)/stream(l.Travel), 1e-9, name)
		}
		w := l.Weight.(Sine)
		require.InEpsilon(t, h.lean, w.Phase, 1e-12, name)
	}
}

// A lift disc falls in still liquid that does not resist with a constant acceleration.
func TestLiftFall(t *testing.T) {
	l, err := Lift{
		Body: water(0.1), DiscMass: 0.45, DiscDensity: 7850, LiquidMass: DiscLiquidMass(1000, 0.1), PathAngle: math.Pi / 2, Travel: 0.025, Force: 1,
	}.Law()
	require.NoError(t, err)
	a := 0.45 * 9.81 * (1 - 1000./7850) / (0.45 + 1000*0.001/3)
	time, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-5)
	require.InEpsilon(t, math.Sqrt(2*0.025/a), time, 1e-3) // the first step is of first order
	require.InEpsilon(t, math.Sqrt(2*0.025*a), -s.W, 1e-3)
}

// A dashpot lets the disc close at the rate at which its moment carries the closing moment; oil leaves as fast as the piston drives it.
func TestDashpot(t *testing.T) {
	const oil, piston, arm, orifice, rate = 870., 0.06, 0.09, 0.006, 0.4
	c := Dashpot(oil, piston, arm, orifice)
	flow := math.Pi / 4 * piston * piston * arm * rate
	jet := flow / (0.6 * math.Pi / 4 * orifice * orifice)
	require.InEpsilon(t, oil/2*jet*jet*math.Pi/4*piston*piston*arm, c*rate*rate, 1e-12)

	l := springS()
	l.SpringRate, l.Damper = 0, Damper{Coefficient: 5000, Span: 0.5}
	_, s := fall(l, State{Y: l.Travel, Fresh: true}, 1e-4)
	require.InEpsilon(t, math.Sqrt(92./5000), -s.W, 2e-3)
}

func TestImpossibleFamilies(t *testing.T) {
	steep := tilting()
	steep.Slope = -1
	central := tilting()
	central.Eccentricity = 0.2
	floating := tilting()
	floating.DiscDensity = 900
	down := rubberFlap()
	down.Slope = -math.Pi / 2
	across := Lift{Body: water(0.1), DiscMass: 0.45, DiscDensity: 7850, PathAngle: math.Pi / 2, Travel: 0.025, Force: 1}
	across.Slope = math.Pi / 2
	sprung := across
	sprung.Spring = Spring{Preload: 5}
	for name, c := range map[string]struct {
		law  func() (*Law, error)
		text string
	}{
		"tilting disc in a falling pipe": {steep.Law, "a tilting disc needs a level or rising pipe, or a spring"},
		"pin outside the bore":           {central.Law, "between the centre and the edge"},
		"floating disc":                  {floating.Law, "floats"},
		"flap in downflow":               {down.Law, "a flap needs a level or rising pipe, or a spring"},
		"lift disc in a vertical pipe":   {across.Law, "it needs a spring, or a pipe nearer to level"},
	} {
		_, err := c.law()
		require.ErrorIs(t, err, ErrLaw, name)
		require.ErrorContains(t, err, c.text, name)
	}
	_, err := sprung.Law()
	require.NoError(t, err)
}

func rollingBall() Ball {
	d := 0.36
	m := 1250 * SphereVolume(d)
	return Ball{Body: water(0.3), Diameter: d, BallMass: m, LiquidMass: 500 * SphereVolume(d), Rolling: 0.4, PathAngle: math.Pi / 4, Travel: 0.3, Force: 0.75}
}

// The frustum between the edge of the seat and the ball, by its nearest distance.
func TestSphereGap(t *testing.T) {
	g := SphereGap{Bore: 0.3, Ball: 0.36, Contraction: 0.65}
	for _, y := range []float64{1e-6, 0.01, 0.1, 0.3} {
		centre := math.Sqrt(0.18*0.18-0.15*0.15) + y
		s := math.Hypot(0.15, centre)
		touch := 0.15 * 0.18 / s // radius of the nearest circle of the ball
		u, du := g.At(y)
		require.InEpsilon(t, 0.65*math.Pi*(0.15+touch)*(s-0.18)/(math.Pi*0.15*0.15), u, 1e-6)
		more, _ := g.At(y + 1e-6)
		require.InEpsilon(t, (more-u)/1e-6, du, 1e-3)
	}
	_, du := g.At(0)
	require.InEpsilon(t, 0.65*2*math.Sqrt(0.18*0.18-0.15*0.15)/(0.15*0.18), du, 1e-12)
}

// Without a load of the flow a ball in liquid that slows down by a constant a comes back with (W + M_c a)/M.
func TestCarried(t *testing.T) {
	const a, v0 = 5., 3.
	b := rollingBall()
	c, err := b.Motion()
	require.NoError(t, err)
	volume := SphereVolume(0.36)
	require.InEpsilon(t, 1500*volume*math.Sqrt2/2, float64(c.Liquid.(Constant)), 1e-12)
	require.InEpsilon(t, (1250*1.4+500)*volume, c.Inertia, 1e-12)
	c.Load = Constant(1e-12)
	rate := (250*volume*9.81*math.Sqrt2/2 + float64(c.Liquid.(Constant))*a) / c.Inertia
	s, h := State{Y: c.Travel, Contact: Stopped, Flow: Memory{V: v0}}, 1e-3
	for n := 1; n <= 300; n++ {
		s = c.Advance(s, h, v0-a*h*float64(n), 0).State
	}
	// The trapezoidal rule takes a disc that rested at the start of its first step for one that is pushed through half of it.
	require.InEpsilon(t, -rate*(0.3-h/2), s.W, 1e-6)
	require.InDelta(t, c.Travel-rate*0.3*0.3/2, s.Y, 1.1*rate*0.3*h)

	// A body as dense as the liquid that slides along the stream goes with it: no pressure drop is needed.
	b.BallMass, b.Rolling, b.PathAngle = 1000*volume, 0, 0
	l, err := b.law()
	require.Error(t, err) // by itself it does not close
	require.Nil(t, l)
	b.Spring.Preload = 1e-9
	l, err = b.law()
	require.NoError(t, err)
	with := Carried{Law: l, Liquid: Constant((b.Density*volume + b.LiquidMass) * (1 - 1e-9))}
	s = State{Y: 0.2, W: 0.1, Flow: Memory{V: 0.1}}
	for n := 1; n <= 10; n++ {
		s = with.Advance(s, h, 0.1-a*h*float64(n), 0).State
		require.InDelta(t, s.Flow.V, s.W, 1e-3*math.Abs(a*h*float64(n))+a*h/2*1.001)
	}
	b.BallMass *= 0.9
	_, err = b.Motion()
	require.ErrorIs(t, err, ErrLaw)
}

// Drag alone: M w' = -c w |w| gives w = w0/(1 + c w0 t/M), opening as well as closing; c of a disc about its diameter by sums over strips.
func TestDrag(t *testing.T) {
	d := tilting()
	d.RotationDrag = 1.5
	r := d.DiscDiameter / 2
	cubes := quad.Fixed(func(x float64) float64 { return 2 * x * x * math.Abs(x) * math.Sqrt(r*r-x*x) }, -r, r, 2000, nil, 0)
	l, err := d.Law()
	require.NoError(t, err)
	require.InEpsilon(t, 1.5*500*cubes, l.Drag, 1e-4)

	l.Drag, l.Weight = 0.3, Constant(0)
	for _, w0 := range []float64{5, -5} {
		s := State{Y: l.Travel / 2, W: w0, Force: -l.Drag * w0 * math.Abs(w0)}
		for range 50 {
			s = l.Advance(s, 1e-3, 0, 0).State
		}
		require.InEpsilon(t, w0/(1+l.Drag*5*0.05/l.Inertia), s.W, 1e-4)
	}
}
