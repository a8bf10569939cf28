package device

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

func testPump(t require.TestingT, inertia float64, ratchet bool) *Pump {
	p, err := pump.New(pump.Spec{Flow: 0.12, Head: 52, Speed: 155, Efficiency: 0.81, Inertia: inertia, Ratchet: ratchet}, 999, network.Gravity)
	require.NoError(t, err)
	return NewPump(p)
}

// read is what notes say in SI.
func read(notes []quantity.Sentence) []string {
	var out []string
	for _, n := range notes {
		out = append(out, n.String())
	}
	return out
}

// derivatives compares the analytic derivatives of Try with central differences.
func derivatives(t *rapid.T, d Device, h, q, ha, hb, dq, dh float64) {
	e := d.Try(1, h, q, ha, hb)
	num := func(f func(x float64) Equation, dx float64) (slope, curve float64) {
		a, b := f(-dx).R, f(dx).R
		return (b - a) / (2 * dx), math.Abs(a-2*e.R+b) / dx
	}
	for _, c := range []struct {
		name string
		want float64
		f    func(x float64) Equation
		dx   float64
	}{
		{"q", e.RQ, func(x float64) Equation { return d.Try(1, h, q+x, ha, hb) }, dq},
		{"ha", e.RA, func(x float64) Equation { return d.Try(1, h, q, ha+x, hb) }, dh},
		{"hb", e.RB, func(x float64) Equation { return d.Try(1, h, q, ha, hb+x) }, dh},
	} {
		got, curve := num(c.f, c.dx)
		// One-sided differences apart by more than this mean a kink of a table, where there is no derivative.
		scale := math.Max(math.Abs(c.want), 1e-9)
		if curve > 1e-3*scale {
			continue
		}
		require.InDelta(t, got, c.want, 2e-3*scale, "d/d%s", c.name)
	}
}

func TestPumpDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := testPump(t, rapid.Float64Range(0.05, 50).Draw(t, "inertia"), false)
		d.Start(rapid.Float64Range(-0.2, 0.2).Draw(t, "q0"), 0, 0)
		d.Trip = rapid.SampledFrom([]float64{0, 1.0003, math.Inf(1)}).Draw(t, "trip")
		derivatives(t, d, 1e-3, rapid.Float64Range(-0.2, 0.2).Draw(t, "q"), 10, rapid.Float64Range(0, 80).Draw(t, "hb"), 1e-7, 1e-5)
	})
}

func TestCheckValveDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typ := rapid.SampledFrom([]string{"swing", "axial spring", "nozzle", "dual plate"}).Draw(t, "type")
		v, err := catalogue.Complete(valve.Spec{Name: "v", Type: typ, Size: 0.25}, catalogue.Setting{Density: 999, Gravity: network.Gravity})
		require.NoError(t, err)
		d := &CheckValve{Valve: v, Gamma: 999 * network.Gravity, Area: math.Pi / 64, Extra: rapid.Float64Range(0, 1).Draw(t, "reducers")}
		y := rapid.Float64Range(0.02, 0.98).Draw(t, "opening")
		d.now = valve.State{Y: y * v.Travel, W: v.Travel * rapid.Float64Range(-2, 2).Draw(t, "rate")}
		if _, two := v.Motion.(*valve.Pair); two {
			d.now.Second = valve.Disc{Y: v.Travel * rapid.Float64Range(0.02, 0.98).Draw(t, "second opening"), W: v.Travel * rapid.Float64Range(-2, 2).Draw(t, "second rate")}
		}
		derivatives(t, d, 5e-4, rapid.Float64Range(-0.1, 0.12).Draw(t, "q"), rapid.Float64Range(-5, 5).Draw(t, "ha"), 0, 1e-7, 1e-6)
	})
}

func TestThrottleDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewThrottle(network.Throttle{Bore: 0.3, Loss: rapid.Float64Range(0.1, 50).Draw(t, "loss"), Inherent: rapid.SampledFrom(network.Inherents()).Draw(t, "form"),
			Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 2, Fraction: rapid.Float64Range(0, 1).Draw(t, "end")}}}, network.Gravity)
		q := rapid.Float64Range(1e-3, 0.3).Draw(t, "q") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "way") // away from the rounded corner at 0
		derivatives(t, d, 1e-3, q, rapid.Float64Range(-20, 20).Draw(t, "ha"), 0, 1e-7, 1e-5)
	})
}

// Run-down against a closed valve: at zero flow the torque goes as the square of the speed, so N = N0/(1 + t/tau), tau = I w0/T0
// (closed form, derived from I dw/dt = -T0 (w/w0)^2). Trapezoidal: the error falls fourfold with the step.
func TestRunDown(t *testing.T) {
	last := 0.0
	for _, h := range []float64{0.02, 0.01, 0.005} {
		d := testPump(t, 8, false)
		d.Trip = 0
		d.Start(0, 0, 0)
		w0, t0 := d.Speed(), d.now.torque
		tau := 8 * w0 / t0
		for k := range int(math.Round(5 / h)) {
			d.Try(float64(k)*h, h, 0, 0, 0)
			d.Accept(float64(k)*h, h, 0, 0, 0)
		}
		err := math.Abs(d.Speed()/(w0/(1+5/tau)) - 1)
		require.Less(t, err, 1e-4)
		if last > 0 {
			require.InDelta(t, 4, last/err, 0.4)
		}
		last = err
	}
}

// A trip inside a step frees the rotor for the rest of it only.
func TestTripWithinStep(t *testing.T) {
	whole, part := testPump(t, 2, false), testPump(t, 2, false)
	for _, d := range []*Pump{whole, part} {
		d.Start(0.1, 0, 0)
	}
	whole.Trip, part.Trip = 1, 1.0005
	whole.Try(1, 0.001, 0.1, 0, 0)
	part.Try(1, 0.001, 0.1, 0, 0)
	w0 := whole.P.Spec.Speed
	require.InEpsilon(t, 0.5, (w0-part.next.w)/(w0-whole.next.w), 1e-3)
}

func TestRatchet(t *testing.T) {
	d := testPump(t, 0.5, true)
	d.Trip = 0
	d.Start(0.1, 0, 0)
	for k := range 20000 {
		q := math.Max(0.1-0.1*float64(k)*1e-3, -0.15)
		d.Try(float64(k)*1e-3, 1e-3, q, 0, 0)
		d.Accept(0, 1e-3, q, 0, 0)
		require.GreaterOrEqual(t, d.Speed(), 0.0)
	}
	require.Zero(t, d.Speed())
	free := testPump(t, 0.5, false)
	free.Trip = 0
	free.Start(0.1, 0, 0)
	for k := range 5000 {
		q := math.Max(0.1-0.1*float64(k)*1e-3, -0.15)
		free.Try(float64(k)*1e-3, 1e-3, q, 0, 0)
		free.Accept(0, 1e-3, q, 0, 0)
	}
	require.Less(t, free.Speed(), -10.0)
}

// The capacity rises with the opening from exactly nothing to exactly the open valve's, whatever form it is given in.
func TestThrottleCapacity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := network.Throttle{Name: "gate", From: "a", To: "b", Bore: 0.3}
		var rows []network.Capacity
		for y, x := 0.0, 1.0; y < 1; {
			y = min(1, y+rapid.Float64Range(0.02, 0.4).Draw(t, "step"))
			x *= rapid.Float64Range(1, 5).Draw(t, "more")
			rows = append(rows, network.Capacity{Opening: y, Value: x})
		}
		switch rapid.IntRange(0, 2).Draw(t, "given") {
		case 0:
			v.KvTable = rows
		case 1:
			for i, j := 0, len(rows)-1; i < j; i, j = i+1, j-1 {
				rows[i].Value, rows[j].Value = rows[j].Value, rows[i].Value
			}
			v.LossTable = rows
		default:
			v.Kv, v.Inherent = 500, rapid.SampledFrom(network.Inherents()).Draw(t, "form")
		}
		d := NewThrottle(v, network.Gravity)
		require.Zero(t, d.capacity(0))
		require.InDelta(t, 1, d.capacity(1), 1e-15)
		last := 0.0
		for y := 0.0; y <= 1; y += 1.0 / 256 {
			now := d.capacity(y)
			require.GreaterOrEqual(t, now, last-1e-15, "opening %g", y)
			last = now
		}
		for _, r := range v.KvTable { // at the rows, the flow at 1 bar of cold water is Kv
			d.Schedule = []network.Opening{{Fraction: r.Opening}}
			q := r.Value / 3600
			bar := 1e5 / (1000 * network.Gravity)
			require.InDelta(t, 0, d.Steady(q, bar, 0).R/(d.Loss*q*q), 1e-6)
		}
	})
}

func TestThrottleSchedule(t *testing.T) {
	d := NewThrottle(network.Throttle{Bore: 0.3, Loss: 5, Schedule: []network.Opening{{Time: 1, Fraction: 1}, {Time: 3, Fraction: 0}}}, network.Gravity)
	for _, c := range [][2]float64{{0, 1}, {1, 1}, {2, 0.5}, {3, 0}, {9, 0}} {
		require.InDelta(t, c[1], d.Tau(c[0]), 1e-15)
	}
	q := d.Area * math.Sqrt(2*network.Gravity*10/5)
	require.InDelta(t, 0, d.Steady(q, 10, 0).R, 1e-9*q*q)
	require.InDelta(t, 0, d.Steady(-q, 0, 10).R, 1e-9*q*q)
}
