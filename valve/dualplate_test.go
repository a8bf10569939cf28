package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// plates is a dual plate valve DN300 in water of 1000 kg/m3, g 9.81.
func plates() DualPlate {
	p := HalfPlate{Mass: 3.38, LiquidMass: HalfPlateLiquidMass(1000, 0.3), Preload: 3.2, SpringRate: 2.3}
	return DualPlate{
		Body:         Body{Bore: 0.3, Density: 1000, Gravity: 9.81, LossOpen: 1.2, Contraction: 0.65, Restitution: 0.2},
		DiscDiameter: 0.3,
		DiscDensity:  7850,
		Travel:       80 * math.Pi / 180,
		LoadOpen:     1.44,
		Plates:       [2]HalfPlate{p, p},
	}
}

func pair(t require.TestingT, d DualPlate) *Pair {
	p, err := d.Law()
	require.NoError(t, err)
	return p
}

// half integrates over a half disc of radius R whose straight edge is the x axis: dA at x, r above it.
func half(r float64, f func(x, y, area float64)) {
	const n = 400
	for i := range n {
		x := r * (2*(float64(i)+0.5)/n - 1)
		top := math.Sqrt(r*r - x*x)
		for k := range n {
			f(x, top*(float64(k)+0.5)/n, 2*r/n*top/n)
		}
	}
}

// Area, arm, inertia, sweep and gap of a plate by integration over the half disc.
func TestHalfDiscGeometry(t *testing.T) {
	d := plates()
	const r = 0.15
	area, first, second := 0.0, 0.0, 0.0
	half(r, func(_, y, a float64) { area, first, second = area+a, first+y*a, second+y*y*a })
	require.InEpsilon(t, area, d.HalfArea(), 1e-4)
	require.InEpsilon(t, first/area, d.Arm(), 1e-4)
	require.InDelta(t, 0.4244*r, d.Arm(), 1e-4*r)
	p := pair(t, d)
	l := p.Halves[0]
	plate := d.Plates[0]
	require.InEpsilon(t, (plate.Mass+plate.LiquidMass)*second/area, l.Inertia, 1e-4)
	// A half of the added inertia of a whole disc about its diameter.
	require.InEpsilon(t, 8./45*1000*math.Pow(r, 5), l.Inertia-plate.Mass*r*r/4, 1e-12)
	sweep, _ := l.Sweep.At(0.7)
	require.InEpsilon(t, first/(math.Pi*r*r), sweep, 1e-4) // the wedge behind the plate grows by the first moment of area per rad
	require.InEpsilon(t, l.Area*l.Arm, math.Pi*r*r*sweep, 1e-12)
	// The mean arc of the rim points, times the rim: near the seat g = Cc gap/bore.
	gap, const1e := 0.0, 1e-6
	for i := range 1000 {
		gap += r * math.Sin(math.Pi*(float64(i)+0.5)/1000) * const1e * math.Pi * r / 1000
	}
	g, _ := l.Conductance.At(const1e)
	require.InEpsilon(t, 0.65*gap/(math.Pi*r*r), g, 1e-5)
	// Both plates together have the loss of the valve.
	require.InEpsilon(t, 1.2, p.OpenLoss(), 1e-12)
}

// The moment of the weight is the slope of the height of the centroid of the plate's mass, found by turning it about the pin.
func TestPlateWeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := plates()
		d.Slope = rapid.Float64Range(-math.Pi/2, math.Pi/2).Draw(t, "slope")
		d.PinAngle = rapid.Float64Range(0, math.Pi/2).Draw(t, "pin")
		y := rapid.Float64Range(0, 1.4).Draw(t, "angle")
		sin, cos := math.Sincos(d.Slope)
		flow, upright, level := [3]float64{cos, 0, sin}, [3]float64{-sin, 0, cos}, [3]float64{0, 1, 0}
		var pin [3]float64
		for k := range pin {
			pin[k] = upright[k]*math.Cos(d.PinAngle) - level[k]*math.Sin(d.PinAngle)
		}
		across := flow[0]*pin[1] - flow[1]*pin[0] // height of the unit vector across flow and pin: third component of their product
		require.GreaterOrEqual(t, -across, -1e-15)
		for i, side := range []float64{1, -1} {
			height := func(y float64) float64 { return d.Arm() * (side*-across*math.Cos(y) + sin*math.Sin(y)) }
			const e = 1e-5
			slope := (height(y+e) - height(y-e)) / (2 * e)
			w, _ := d.Weight(i).At(y)
			require.InDelta(t, 3.38*9.81*(1-1000./7850)*slope, w, 1e-6)
		}
	})
	d := plates()
	w, _ := d.Weight(0).At(1)
	require.Zero(t, w) // vertical pin in a level pipe
	d.PinAngle = math.Pi / 2
	upper, _ := d.Weight(0).At(1)
	lower, _ := d.Weight(1).At(1)
	require.Negative(t, upper)
	require.InDelta(t, -upper, lower, 1e-12)
}

// Were the drop borne by the plates alone and evenly, kappa would be 1/cos y: the momentum of the flow along the pipe.
func TestPlatesBearNoMoreThanTheMomentum(t *testing.T) {
	l := pair(t, plates()).Halves[0]
	for i := range 101 {
		y := l.Travel * float64(i) / 100
		kappa, _ := l.Load.At(y)
		require.LessOrEqual(t, kappa, 1.001/math.Cos(y))
	}
}

// whole is one disc with the load, sweep and conductance of two equal plates together.
func whole(p *Pair) *Law {
	l := *p.Halves[0]
	l.Inertia, l.Area, l.Preload, l.SpringRate, l.Friction, l.Leak = 2*l.Inertia, 2*l.Area, 2*l.Preload, 2*l.SpringRate, 2*l.Friction, 2*l.Leak
	sweep, _ := l.Sweep.At(0)
	l.Sweep = Constant(2 * sweep)
	l.Conductance = double{l.Conductance}
	return &l
}

type double struct{ Func }

func (d double) At(y float64) (f, df float64) {
	f, df = d.Func.At(y)
	return 2 * f, 2 * df
}

// Two equal plates are one symmetrical disc.
func TestEqualPlatesAreOneDisc(t *testing.T) {
	d := plates()
	d.Friction, d.Leak = 0.1, 0.01
	p := pair(t, d)
	one := whole(p)
	require.InEpsilon(t, one.FullOpenVelocity(), p.FullOpenVelocity(), 1e-12)
	require.InEpsilon(t, one.OpenLoss(), p.OpenLoss(), 1e-12)
	_, opens := one.Shut()
	_, also := p.Shut()
	require.InEpsilon(t, opens, also, 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		v := math.Pow(10, rapid.Float64Range(-2, 0.7).Draw(t, "lg v"))
		a, b := one.Steady(v), p.Steady(v)
		require.InDelta(t, a.State.Y, b.State.Y, 1e-9)
		require.InDelta(t, a.State.Y, b.State.Second.Y, 1e-9)
		require.InEpsilon(t, a.DP, b.DP, 1e-9)
		require.InEpsilon(t, a.Slope, b.Slope, 1e-6)
		require.Equal(t, a.Held, b.Held)

		s := State{Y: 0.8 * one.Travel, W: rapid.Float64Range(-20, 5).Draw(t, "rate"), Fresh: true}
		two := join([2]State{s, s})
		for range 20 {
			dp, v := rapid.Float64Range(-2e4, 5e3).Draw(t, "dp"), rapid.Float64Range(-3, 3).Draw(t, "v")
			x, y := one.Advance(s, 1e-3, v, dp), p.Advance(two, 1e-3, v, dp)
			require.InDelta(t, x.R, y.R, 1e-9*(1+math.Abs(x.R)))
			require.InDelta(t, x.RV, y.RV, 1e-9*(1+x.RV))
			require.InDelta(t, x.RP, y.RP, 1e-9*math.Abs(x.RP))
			require.InDelta(t, x.Event, y.Event, 1e-9)
			if s, two = x.State, y.State; x.Event < 0 {
				s, two = one.Touch(s, dp), p.Touch(two, dp)
			}
			require.Equal(t, two.split()[0], two.split()[1])
			require.InDelta(t, s.Y, two.Y, 1e-9)
			require.InDelta(t, s.W, two.W, 1e-9*(1+math.Abs(s.W)))
			require.Equal(t, s.Contact, two.Contact)
			require.InDelta(t, one.Opening(s), p.Opening(two), 1e-9)
		}
	})
}

// Without flow each plate closes on its own spring: t = arccos(F0/(F0 + k Y))/sqrt(k/M), w = sqrt(k/M) sqrt((Y + F0/k)^2 - (F0/k)^2).
func TestPlatesCloseBySprings(t *testing.T) {
	d := plates()
	d.Plates[1].Preload, d.Plates[1].Mass = 2, 5
	d.Restitution = 0
	p := pair(t, d)
	s, at := State{Y: d.Travel, Fresh: true, Second: Disc{Y: d.Travel, Fresh: true}}, 0.0
	for i, l := range p.Halves { // the first seats first
		var near State
		var h float64
		for step := p.Advance(s, 1e-5, 0, 0); ; step = p.Advance(s, 1e-5, 0, 0) {
			if step.Event >= 0 {
				s, at = step.State, at+1e-5
				continue
			}
			lo, hi := 0.0, 1e-5
			for range 100 {
				if mid := (lo + hi) / 2; p.Advance(s, mid, 0, 0).Event < 0 {
					hi = mid
				} else {
					lo = mid
				}
			}
			near, h = p.Advance(s, hi, 0, 0).State, hi
			break
		}
		at += h
		k, lead := l.SpringRate/l.Inertia, l.Preload/l.SpringRate
		require.InEpsilon(t, math.Acos(lead/(lead+d.Travel))/math.Sqrt(k), at, 1e-4)
		require.InEpsilon(t, math.Sqrt(k*(d.Travel*(d.Travel+2*lead))), near.Speed(), 1e-4)
		rest := p.Rest(near)
		require.Equal(t, rest, p.Touch(near, -1))
		require.Equal(t, Seated, rest.split()[i].Contact)
		require.Equal(t, i == 1, p.Opening(rest) == 0)
		s = rest
	}
}

// The plate with the weaker spring opens first; both balance the same pressure drop at every velocity, and the flow shares follow the gaps.
func TestWeakerPlateOpensFirst(t *testing.T) {
	d := plates()
	d.Plates[1].Preload *= 0.6
	p := pair(t, d)
	s, opens := p.Shut()
	require.Equal(t, join([2]State{{Contact: Seated}, {Contact: Seated}}), s)
	require.InEpsilon(t, 0.6*3.2/(d.HalfArea()*d.Arm()), opens, 1e-12)
	last := 0.0
	for i := 1; i <= 60; i++ {
		v := 0.05 * float64(i)
		e := p.Steady(v)
		require.GreaterOrEqual(t, e.DP, last)
		last = e.DP
		flow := 0.0
		for k, at := range e.State.split() {
			l := p.Halves[k]
			switch at.Contact {
			case Seated:
				require.LessOrEqual(t, l.seatForce(e.DP), 1e-9)
			case Stopped:
				require.GreaterOrEqual(t, l.stopForce(e.DP), -1e-9)
			default:
				require.InDelta(t, 0, l.net(at.Y, 0, e.DP).f, 1e-9)
			}
			g, _ := l.Conductance.At(at.Y)
			flow += g * math.Sqrt(2*e.DP/1000)
		}
		require.InDelta(t, v, flow, 1e-5) // but for v_lam
		require.LessOrEqual(t, e.State.Y, e.State.Second.Y)
	}
	require.Zero(t, p.Steady(0.2).State.Y)
	require.Positive(t, p.Steady(0.2).State.Second.Y)
}

// Where the pressure drop that the plates balance falls with the opening they do not open together: the first leads and meets the flow at a
// stable place, where more flow opens it further.
func TestPlatesPart(t *testing.T) {
	d := plates()
	d.LoadOpen = 4
	p := pair(t, d)
	parted := false
	for i := 1; i <= 60; i++ {
		e := p.Steady(0.05 * float64(i))
		for k, at := range e.State.split() {
			if at.Contact == Free {
				require.InDelta(t, 0, p.Halves[k].net(at.Y, 0, e.DP).f, 1e-7)
			}
		}
		parted = parted || e.State.Y > e.State.Second.Y+0.5
	}
	require.True(t, parted)
	require.True(t, p.Steady(3).Held)
}

// Plates that fall on their springs without flow, rebound and fall again, each at its own times, never have more energy than before.
func TestReboundingPlatesMakeNoEnergy(t *testing.T) {
	d := plates()
	d.Restitution, d.Plates[1].Preload, d.Plates[1].Mass, d.PinAngle = 0.5, 2, 5, 1
	p := pair(t, d)
	energy := func(s State) float64 {
		e := 0.0
		for i, at := range s.split() {
			l := p.Halves[i]
			w := l.Weight.(Sine)
			e += l.Inertia/2*at.W*at.W + l.Preload*at.Y + l.SpringRate/2*at.Y*at.Y + w.Amplitude*(math.Cos(w.Phase)-math.Cos(at.Y+w.Phase))
		}
		return e
	}
	const h = 1e-5
	s := State{Y: d.Travel, Fresh: true, Second: Disc{Y: d.Travel, W: 1, Fresh: true}} // the second begins by an impact on its stop
	start, impacts := energy(s), 0
	for last := start; s.Contact != Seated || s.Second.Contact != Seated; {
		step, part := p.Advance(s, h, 0, 0), h
		if step.Event < 0 {
			lo := 0.0
			for range 60 {
				mid := (lo + part) / 2
				if at := p.Advance(s, mid, 0, 0); at.Event < 0 {
					part, step = mid, at
				} else {
					lo = mid
				}
			}
			before := energy(step.State)
			step.State = p.Touch(step.State, 0)
			require.Less(t, energy(step.State), before)
			impacts++
		}
		s = step.State
		require.LessOrEqual(t, energy(s), last+1e-6*start)
		last = energy(s)
		require.Less(t, impacts, 100)
	}
	require.Greater(t, impacts, 6)
	require.Zero(t, energy(s))
}
