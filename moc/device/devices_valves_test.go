package device

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

const (
	testGamma = 998.2 * network.Gravity
	testAtm   = 101325.0
)

func TestOrificeAndOutletDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.Float64Range(1e-3, 0.3).Draw(t, "q") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "way")
		ha := rapid.Float64Range(-20, 60).Draw(t, "ha")
		derivatives(t, NewOrifice(&network.Orifice{PipeBore: 0.3, Loss: rapid.Float64Range(0.1, 50).Draw(t, "loss")}, network.Gravity), 1e-3, q, ha, 3, 1e-7, 1e-5)
		derivatives(t, NewOutlet(&network.Outlet{Elevation: 2, Flow: 0.1, Pressure: 2e5}, testGamma), 1e-3, q, ha, 0, 1e-7, 1e-5)
		steady := NewOutlet(&network.Outlet{Elevation: 2, Flow: 0.1, Pressure: 2e5, Sustained: rapid.Float64Range(1e4, 4e5).Draw(t, "sustained")}, testGamma)
		steady.piece = rapid.IntRange(0, 2).Draw(t, "piece")
		derivatives(t, &constant{steady}, 1e-3, q, ha, 0, 1e-7, 1e-5)
	})
}

// constant is an outlet whose steady equation is tried.
type constant struct{ *Outlet }

func (d *constant) Try(_, _, q, ha, hb float64) Equation { return d.Steady(q, ha, hb) }

func TestRuptureDiscDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewRuptureDisc(&network.RuptureDisc{Elevation: 1, Burst: 5e5, Area: 0.01, Coefficient: 0.62, Rise: 2}, testGamma, network.Gravity)
		d.Start(0, 20, 0)
		d.now.open = rapid.Bool().Draw(t, "open")
		derivatives(t, d, 1e-3, rapid.Float64Range(1e-3, 0.3).Draw(t, "q"), rapid.Float64Range(-5, 60).Draw(t, "ha"), 0, 1e-7, 1e-5)
	})
}

func TestReliefValveDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewReliefValve(&network.ReliefValve{Elevation: 1, Set: 4e5, BlowDown: 0.2, Area: 0.01, Coefficient: 0.62,
			Opening: rapid.SampledFrom([]float64{0, 0.01}).Draw(t, "opening"), Closing: rapid.SampledFrom([]float64{0, 0.02}).Draw(t, "closing")}, testGamma, network.Gravity)
		d.Start(0, 20, 0)
		d.now.x = rapid.Float64Range(0.01, 1).Draw(t, "lift")
		q, ha := rapid.Float64Range(1e-3, 0.3).Draw(t, "q"), rapid.Float64Range(-5, 60).Draw(t, "ha")
		for range 4 { // from piece to piece of its curve
			d.Try(1, 1e-3, q, ha, 0)
		}
		derivatives(t, d, 1e-3, q, ha, 0, 1e-7, 1e-5)
	})
}

func testAirValve(n float64) *AirValve {
	return NewAirValve(&network.AirValve{Elevation: 10, In: 0.005, Out: 0.001, CoefficientIn: 0.6, CoefficientOut: 0.5, Stage: 0.02, StageOut: 1e-4,
		Polytropic: n, Temperature: 288.15}, testGamma, testAtm)
}

func TestAirValveDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := testAirValve(rapid.Float64Range(1, 1.4).Draw(t, "n"))
		d.Start(0, 20, 0)
		if rapid.Bool().Draw(t, "pocket") {
			d.now = pocket{v: rapid.Float64Range(1e-4, 0.5).Draw(t, "v"), p: rapid.Float64Range(3e4, 3e5).Draw(t, "p"), q: rapid.Float64Range(-0.2, 0.2).Draw(t, "q0"),
				second: rapid.Bool().Draw(t, "second"), most: 1}
		}
		q := rapid.Float64Range(1e-3, 0.3).Draw(t, "q") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "way")              // away from the rounded corner at 0
		head := rapid.SampledFrom([]float64{-10.2, 30}).Draw(t, "greatest") * rapid.Float64Range(1e-3, 1).Draw(t, "head") // away from the kink at the atmosphere
		derivatives(t, d, 1e-3, q, 10+head, 0, 1e-7, 1e-5)
	})
}

// The curve of every one-node device rises: more head, no less flow into it.
func TestValvesAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := testAirValve(rapid.Float64Range(1, 1.4).Draw(t, "n"))
		air.Start(0, 20, 0)
		air.now = pocket{v: rapid.Float64Range(1e-4, 0.5).Draw(t, "v"), p: rapid.Float64Range(3e4, 3e5).Draw(t, "p"), most: 1}
		relief := NewReliefValve(&network.ReliefValve{Set: 4e5, BlowDown: 0.2, Area: 0.01, Coefficient: 0.62, Opening: 0.01, Closing: 0.02}, testGamma, network.Gravity)
		relief.now.x = rapid.Float64Range(0, 1).Draw(t, "lift")
		outlet := NewOutlet(&network.Outlet{Flow: 0.1, Pressure: 2e5, Sustained: 1e5}, testGamma)
		for _, d := range []Device{air, relief, outlet} {
			e := d.Try(0, 1e-3, rapid.Float64Range(-0.3, 0.3).Draw(t, "q"), rapid.Float64Range(-10, 60).Draw(t, "ha"), 0)
			require.GreaterOrEqual(t, e.RQ, 0.0)
			require.LessOrEqual(t, e.RA, 0.0)
		}
	})
}

// Air through an ideal nozzle: choked, m' sqrt(T)/(p A) = 0.040418 (textbooks on gas dynamics, k = 1.4 and R = 287 J/(kg K)); the critical
// ratio is 0.52828; subsonic in the common form sqrt(7 p rho (s^1.4286 - s^1.714)) of the air-valve literature.
func TestAirMassFlux(t *testing.T) {
	const p, temperature = 101325.0, 288.15
	choked := AirMassFlux(p, 0, temperature)
	require.InEpsilon(t, 0.040418, choked*math.Sqrt(temperature)/p, 2e-4)
	require.InEpsilon(t, 241.2, choked, 1e-3) // kg/(m2 s)
	const critical = 0.528281787717174
	require.InEpsilon(t, choked, AirMassFlux(p, critical*p, temperature), 1e-12)
	require.InEpsilon(t, choked, AirMassFlux(p, critical*p*(1+1e-6), temperature), 1e-10)
	rho := p / (airGas * temperature)
	for _, s := range []float64{0.999, 0.95, 0.8, 0.6, 0.53} {
		require.InEpsilon(t, math.Sqrt(7*p*rho*(math.Pow(s, 2/1.4)-math.Pow(s, 2.4/1.4))), AirMassFlux(p, s*p, temperature), 1e-12)
	}
	// Incompressible limit: rho w with w = sqrt(2 dp/rho).
	require.InEpsilon(t, math.Sqrt(2*rho*100), AirMassFlux(p, p-100, temperature), 1e-3)
}

// The first air fills its volume at the pressure outside, p V = m R T, whatever the pressure of the liquid was before it came in.
func TestFirstAirFillsItsVolume(t *testing.T) {
	for _, n := range []float64{1, 1.2, 1.4} {
		d := testAirValve(n)
		const h = 1e-3
		d.Start(0, 100, 0)
		head := 10 - 0.02    // just below the valve: the air comes in nearly at the pressure of the atmosphere
		lo, hi := -10.0, 0.0 // the residual rises with q
		for range 100 {
			if mid := (lo + hi) / 2; d.Try(0, h, mid, head, 0).R < 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		q := (lo + hi) / 2
		d.Try(0, h, q, head, 0)
		d.Accept(0, h, q, head, 0)
		mass := AirMassFlux(testAtm, d.Pressure(), 288.15) * 0.6 * 0.005 * h
		require.InEpsilon(t, mass*airGas*288.15/d.Pressure(), d.Volume(), 2e-3, "n = %g", n)
	}
}

// A pocket that nothing leaves: p V^n is constant, to the second order in the step.
func TestPocketIsPolytropic(t *testing.T) {
	last := 0.0
	for _, h := range []float64{0.02, 0.01, 0.005} {
		d := testAirValve(1.3)
		d.Data.Out, d.Data.Stage, d.Data.StageOut = 0, 0, 0
		d.Start(0, 20, 0)
		v0, p0 := 0.5, 2e5
		d.now = pocket{v: v0, p: p0, most: v0}
		for k := range int(math.Round(1 / h)) {
			q := 0.3 * math.Sin(2*float64(k+1)*h)
			head := 20.0
			for range 60 {
				e := d.Try(0, h, q, head, 0)
				head -= e.R / e.RA
			}
			d.Try(0, h, q, head, 0)
			d.Accept(0, h, q, head, 0)
		}
		require.Less(t, d.Volume(), 0.8*v0)
		err := math.Abs(d.Pressure()*math.Pow(d.Volume(), 1.3)/(p0*math.Pow(v0, 1.3)) - 1)
		require.Less(t, err, 1e-3)
		if last > 0 {
			require.InDelta(t, 4, last/err, 0.4)
		}
		last = err
	}
}

// The loss of a plate (ISO 5167-2) against an independent correlation, zeta = (1 - f + 0.707 (1 - f)^0.375)^2/f^2, f the area ratio (Idelchik,
// Handbook of Hydraulic Resistance, 1994, diagram 4-14, read as quoted elsewhere).
func TestPlateLoss(t *testing.T) {
	for _, b := range []float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75} {
		f := b * b
		root := 1 - f + 0.707*math.Pow(1-f, 0.375)
		require.InEpsilon(t, root*root/(f*f), PlateLoss(b), 0.05, "bore ratio %g", b)
	}
}

// Kv is the flow in m3/h at 1 bar, of water of 1000 kg/m3.
func TestFlowCoefficient(t *testing.T) {
	d := NewReliefValve(&network.ReliefValve{Set: 5e4, Kv: 36}, 1000*network.Gravity, network.Gravity)
	d.now.x = 1
	ha := 1e5 / (1000 * network.Gravity)
	for range 4 { // from piece to piece of its curve
		d.Try(0, 1, 0.01, ha, 0)
	}
	require.InDelta(t, 0, d.Try(0, 1, 0.01, ha, 0).R, 1e-7)
}

func TestSettledValves(t *testing.T) {
	relief := NewReliefValve(&network.ReliefValve{Elevation: 10, Set: 4e5, Area: 0.01, Coefficient: 0.62}, testGamma, network.Gravity)
	disc := NewRuptureDisc(&network.RuptureDisc{Elevation: 10, Burst: 4e5, Area: 0.01, Coefficient: 0.62}, testGamma, network.Gravity)
	for _, d := range []interface{ Settled(ha, hb float64) error }{relief, disc} {
		require.NoError(t, d.Settled(10+3.9e5/testGamma, 0))
		require.ErrorContains(t, d.Settled(10+4.1e5/testGamma, 0), "in steady flow")
	}
	require.NoError(t, testAirValve(1).Settled(11, 0))
	require.ErrorContains(t, testAirValve(1).Settled(9, 0), "below the valve")
}
