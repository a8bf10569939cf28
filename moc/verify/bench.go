package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/valve"
	"seatwise/valve/characteristic"
)

func benches() []Case {
	const derived = "numerical reference with constant coefficients (fourth-order Runge-Kutta and an independent midpoint scheme agree to the digits shown)"
	return []Case{
		{"D5", Disc, derived, springBench},
		{"D6", Disc, derived, swingBench},
		{"D7", Disc, "closed form, derived: a massless disc carried back by the liquid, V = sqrt(2 a s)", carried},
		{"D11", Disc, "closed form, derived: massless disc near its seat under constant closing force, V = a tau", nearSeat},
		{"D12", Disc, "dimensional analysis: V/V_open depends on a D/V_open^2 alone", similarity},
	}
}

// bench prescribes v0 - a t at a law and returns the bore velocity at seating, positive forward, m/s, the time, s, and the rate at the seat.
func bench(l *valve.Law, v0, a, step float64) (v, t, rate float64, err error) {
	p := characteristic.At(valve.Valve{Motion: l, Density: l.Density, Travel: l.Travel}, a, characteristic.Settings{InitialVelocity: v0, Step: step})
	if p.Outcome != characteristic.Seats {
		return 0, 0, 0, fmt.Errorf("bench at %g m/s2: the disc %v", a, p.Outcome)
	}
	return p.ForwardVelocity - p.ReverseVelocity, p.Time, p.SeatRate, nil
}

// benchStep keeps the published digits, s.
const benchStep = 4e-4

// benchRow is a published run.
type benchRow struct{ a, v, rate, t, vDigit, rateDigit, tDigit float64 }

// benchTable starts at the velocity that just holds the disc on its stop.
func benchTable(l *valve.Law, unit string, rows []benchRow) ([]Check, error) {
	var checks []Check
	v0 := l.FullOpenVelocity() * (1 + 1e-9)
	for _, r := range rows {
		v, t, rate, err := bench(l, v0, r.a, benchStep)
		if err != nil {
			return nil, err
		}
		at := fmt.Sprintf("at %g m/s2", r.a)
		checks = append(checks,
			within("velocity at the seat "+at+", positive forward", "m/s", r.v, v, r.vDigit),
			within("rate at the seat "+at, unit, r.rate, rate, r.rateDigit),
			within("time "+at, "s", r.t, t, r.tDigit))
	}
	return checks, nil
}

func springBench(context.Context) ([]Check, error) {
	const m, c = 6e-4, 6e-5 // half a unit of the last digit, and a little
	return benchTable(spring(), "m/s", []benchRow{
		{1, 1.073, 0.0747, 0.7268, m, c, c}, {2, 0.990, 0.193, 0.4047, m, m, c}, {5, 0.605, 0.480, 0.2389, m, m, c},
		{10, 0.0375, 0.736, 0.1762, c, m, c}, {20, -0.950, 0.971, 0.1375, m, m, c}, {50, -3.528, 1.427, 0.1066, m, m, c},
	})
}

// normal is the sweep of a plate that feels the velocity normal to it, V cos y - L w.
type normal struct{ arm float64 }

func (n normal) At(y float64) (f, df float64) {
	sin, cos := math.Sincos(y)
	return n.arm / cos, n.arm * sin / (cos * cos)
}

func swingBench(context.Context) ([]Check, error) {
	const m, c = 6e-4, 6e-5
	l := swing(true)
	l.Sweep = normal{swingArm}
	return benchTable(l, "rad/s", []benchRow{
		{1, 0.174, 0.605, 2.764, m, m, m}, {2, 0.0023, 1.496, 1.468, c, m, m}, {5, -0.654, 3.271, 0.7185, m, m, c},
		{10, -1.998, 5.288, 0.4937, m, m, c}, {20, -4.363, 10.36, 0.3651, m, 6e-3, c},
	})
}

func carried(context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct {
		path, sweep, travel float64
		v                   [3]float64
	}{
		{0.2042, swingArm, swingTravel, [3]float64{0.9038, 1.429, 2.021}},
		{0.2042 * 1.21, swingArm * 1.21, swingTravel, [3]float64{0.994, 1.572, 2.223}},
		{0.06, 1, 0.06, [3]float64{0.4899, 0.7746, 1.095}},
	} {
		for i, a := range []float64{2, 5, 10} {
			l := &valve.Law{Travel: c.travel, Inertia: 1e-7, Area: 0.07, Arm: 1, Density: discLiquid, Conductance: valve.Constant(1e-2),
				Load: valve.Constant(1), Sweep: valve.Constant(c.sweep), Weight: valve.Constant(0), Preload: 1e-6}
			v, _, _, err := bench(l, 0.5, a, 1e-3)
			if err != nil {
				return nil, err
			}
			checks = append(checks, ratio(fmt.Sprintf("reverse velocity after a path of %.4g m at %g m/s2", c.path, a), "m/s", c.v[i], -v, 1e-3))
		}
	}
	return checks, nil
}

func nearSeat(context.Context) ([]Check, error) {
	const slope, force, bore = 10.4, 142.0, 0.25
	l := &valve.Law{Travel: 0.03, Inertia: 1e-6, Area: area(bore), Arm: 1, Density: discLiquid, Conductance: valve.Polynomial{0, slope},
		Load: valve.Constant(1), Sweep: valve.Constant(1), Weight: valve.Constant(0), Preload: force, Laminar: 1e-9}
	tau := 1 / (slope * math.Sqrt(2*force/area(bore)/discLiquid))
	checks := []Check{within("time constant of the disc", "s", 0.040, tau, 5e-4)}
	for _, a := range []float64{1, 2, 4} {
		v, _, _, err := bench(l, 1.5, a, benchStep)
		if err != nil {
			return nil, err
		}
		checks = append(checks, ratio(fmt.Sprintf("reverse velocity at %g m/s2, a tau", a), "m/s", a*tau, -v, 5e-3))
	}
	return checks, nil
}

// similar is a swing disc of bore d that scales in every part, fully open from about v.
func similar(d, v float64) *valve.Law {
	const travel = 1.1
	arm := 0.6 * d
	g := valve.NewCurtain(0.65, 0.65, 2.4, travel)
	return &valve.Law{
		Travel: travel, Inertia: 0.55 * discLiquid * math.Pow(d, 5), Area: 1.21 * area(d), Arm: arm, Density: discLiquid,
		Conductance: g, Load: valve.GapLoad{Form: cosineSquared(2), Open: 0.65, Conductance: g},
		Sweep:  valve.Constant(1.21 * arm),
		Weight: valve.Sine{Amplitude: 0.25 * discLiquid * v * v * area(d) * arm, Phase: 0.09},
	}
}

func similarity(context.Context) ([]Check, error) {
	var checks []Check
	for _, x := range []float64{0.1, 0.5, 2} { // a D/V_open^2
		of := func(d, v float64) (float64, error) {
			l := similar(d, v)
			open := l.FullOpenVelocity()
			u, _, _, err := bench(l, 1.05*open, x*open*open/d, 0)
			return -u / open, err
		}
		middle, err := of(0.3, 2)
		if err != nil {
			return nil, err
		}
		for _, c := range []struct{ d, v float64 }{{0.1, 1.2}, {0.9, 3.5}} {
			got, err := of(c.d, c.v)
			if err != nil {
				return nil, err
			}
			checks = append(checks, ratio(fmt.Sprintf("V/V_open of a bore of %g m against one of 0.3 m at a D/V_open^2 = %g", c.d, x), "1", middle, got, 5e-3))
		}
	}
	return checks, nil
}
