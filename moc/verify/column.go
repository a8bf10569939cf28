package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
	"seatwise/valve"
)

// A column of length L, m, that a head Hs, m, opposes: L/g dV/dt = -(Hs + k V|V|). The elastic column at Courant number 1 does the same in
// steps of 2L/a, exactly; with a wave speed of stiff m/s the steps are milliseconds and their mean is the rigid column.
const stiff = 1e5

func columns() []Case {
	const (
		staircase = "closed form, derived: staircase of an elastic column, g Hs/a and then 2 g Hs/a every 2L/a"
		rigid     = "closed form, derived: rigid column, here the mean over 2L/a of an elastic one at 100 km/s"
	)
	return []Case{
		{"A10a", System, staircase, staircaseChecks},
		{"A10b", System, staircase + "; ideal check valve", idealChecks},
		{"A10c", System, rigid, frictionlessColumn},
		{"A10d", System, rigid + ", V = sqrt(Hs/k) tan(...) and tanh(...)", frictionColumn},
		{"A11", System, rigid + ", establishment V = Vf tanh(g H t/(L Vf))", establishment},
		{"D10", System, "closed form, derived: deceleration g dH/L of a column, by the mean over 2L/a of an elastic one", columnDecelerations},
	}
}

// fall is a frictionless line of the given length in which v flows until, at time 0, the head before it drops from that behind it to drop below.
// The steady flow is set by a gate that loses its loss at the same instant.
func fall(until float64, reaches int, length, a, v, drop float64) *rig {
	const bore, aside = 0.5, 1.0
	r := newRig(until, reaches)
	r.falling("up", network.Level{Time: 0, Head: drop + aside}, network.Level{Time: 0, Head: 0})
	r.gate("up", "mouth", bore, v, aside, opened()...)
	r.pipe("start", "down", length, bore, a, frictionless)
	r.reservoir("down", drop)
	return r
}

func staircaseChecks(ctx context.Context) ([]Check, error) {
	r := fall(8, 100, 1000, 1000, 2, 30)
	r.meter("mouth", "start", 0.5)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	v := t.velocity()
	var checks []Check
	for i, want := range []float64{1.705801, 1.117402, 0.529003, -0.059396} {
		from := 2 * float64(i)
		checks = append(checks, within(fmt.Sprintf("velocity at the upstream end, %g to %g s", from, from+2), "m/s", want, t.plateau(v, from, from+2, want), 1e-6))
	}
	rigid := (t.at(v, 1) - t.at(v, 7)) / 6
	return append(checks, within("deceleration, mean over three periods 2L/a", "m/s2", 0.294200, rigid, 1e-6)), nil
}

// idealChecks close the staircase by an ideal check valve: the flow turns with the wave that comes back at 6 s. The head over the shut
// valve against that of the open one, which is that of the reservoir, is the slam.
func idealChecks(ctx context.Context) ([]Check, error) {
	r := fall(7.9, 1000, 1000, 1000, 2, 30)
	rho := r.network.Fluid.Density
	r.valve("check-valve", "mouth", "start", valve.Valve{Name: "ideal", Bore: 0.5, Density: rho, Motion: &valve.Ideal{Loss: negligible, Density: rho}, Travel: 1})
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	u := t.Units[0]
	if len(u.Seatings) == 0 {
		return nil, fmt.Errorf("the ideal check valve did not close")
	}
	v := t.velocity()
	flowing := 0.0
	for _, x := range v[int(math.Round(6/t.Numerics.Step))+1:] {
		flowing = math.Max(flowing, math.Abs(x))
	}
	return []Check{
		within("flow reversal, within the step of its wave", "s", 6, u.Seatings[0].Time, 1.001*t.Numerics.Step),
		within("velocity before the wave", "m/s", 0.529003, t.at(v, 6), 1e-6),
		ratio("head over the shut valve against the open one", "m", 6.057, t.plateau(u.HeadDown, 6, 7.9, 6.057), 1e-3),
		ratio("the same, against 7 Hs - a V0/g", "m", 7*30-1000*2/network.Gravity, t.plateau(u.HeadDown, 6, 7.9, 6.057), exact),
		within("greatest velocity through the shut valve", "m/s", 0, flowing, 1e-12),
	}, nil
}

func frictionlessColumn(ctx context.Context) ([]Check, error) {
	r := fall(7, 4, 1000, stiff, 2, 30)
	r.meter("mouth", "start", 0.5)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	v := t.velocity()
	const period = 2 * 1000 / stiff
	checks := []Check{ratio("deceleration", "m/s2", 0.294200, (t.mean(v, 1, period)-t.mean(v, 6, period))/5, 1e-3)}
	for i := 1; i < len(v); i++ {
		if v[i] < 0 {
			checks = append(checks, ratio("flow reversal", "s", 6.79811, t.Time[i], 1e-3))
			break
		}
	}
	return checks, nil
}

func frictionColumn(ctx context.Context) ([]Check, error) {
	const length, bore, v0, drop, k, t0 = 800.0, 0.5, 1.7, 25.0, 1.8, 5.204383
	r := newRig(110, 4)
	friction := k * 2 * network.Gravity * bore / length
	r.falling("up", network.Level{Time: 0, Head: drop + k*v0*v0}, network.Level{Time: 0, Head: 0})
	r.meter("up", "start", bore)
	r.pipe("start", "down", length, bore, stiff, friction)
	r.reservoir("down", drop)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	v := t.velocity()
	const period = 2 * length / stiff
	checks := []Check{ratio("velocity before", "m/s", v0, v[0], 1e-6)}
	for _, c := range []struct{ t, v float64 }{{1, 1.342382}, {3, 0.683048}, {t0 + 1, -0.305769}, {t0 + 3, -0.901166}, {109, -3.726780}} {
		checks = append(checks, ratio(fmt.Sprintf("velocity after %.4g s", c.t), "m/s", c.v, t.mean(v, c.t, period), 1e-3))
	}
	return checks, nil
}

func establishment(ctx context.Context) ([]Check, error) {
	const length, bore, head, f, final = 3000.0, 0.5, 20.0, 0.02, 1.808005
	r := newRig(250, 4)
	r.reservoir("up", head)
	r.meter("up", "start", bore)
	r.pipe("start", "end", length, bore, stiff, f)
	r.gate("end", "down", bore, 1e-3, head, network.Opening{Time: 0, Fraction: 1}, network.Opening{Time: 0, Fraction: 1e7}) // all but at rest before
	r.reservoir("down", 0)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	v := t.velocity()
	const period = 2 * length / stiff
	return []Check{
		ratio("final velocity", "m/s", final, t.mean(v, 249, period), 1e-3),
		ratio("velocity after 40.714 s, 90 % of the final one", "m/s", 0.90*final, t.mean(v, 40.714, period), 1e-3),
		ratio("velocity after 73.193 s, 99 % of the final one", "m/s", 0.99*final, t.mean(v, 73.193, period), 1e-3),
	}, nil
}

func columnDecelerations(ctx context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct{ length, drop, want float64 }{{10, 40, 39.24}, {1000, 50, 0.4905}} {
		const a = 1000.0
		period := 2 * c.length / a
		r := fall(3.5*period, 20, c.length, a, 2, c.drop)
		r.network.Gravity = 9.81
		r.network.Throttles[0].Loss *= 9.81 / network.Gravity
		r.meter("mouth", "start", 0.5)
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		v := t.velocity()
		slope := (t.at(v, period/2) - t.at(v, 2.5*period)) / (2 * period)
		checks = append(checks, ratio(fmt.Sprintf("deceleration of %g m under %g m", c.length, c.drop), "m/s2", c.want, slope, exact))
	}
	return checks, nil
}
