package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
)

func forces() []Case {
	return []Case{
		{"B1", System, "closed form, derived: a front of velocity change dV pushes a straight run of pipe with rho a A dV while it is within, and so takes its momentum rho A l dV", stopForces},
		{"B2", System, "closed form, derived: a head that rises at a rate s at one end accelerates the liquid by g s/a behind the front, and so pulls a straight run of pipe with rho A l g s/a", rampForces},
		{"B3", System, "closed form, derived: in steady flow friction and weight hold the pressures of a straight run of pipe in balance", steadyForces},
	}
}

// rampForces raise the level of a reservoir steadily before a long line at rest. The front enters the run, passes it, and leaves all of it accelerating.
func rampForces(ctx context.Context) ([]Check, error) {
	const length, a, bore, rate, from, to = 1000.0, 1000.0, 0.4, 10.0, 240.0, 700.0
	r := newRig(0.9, 100)
	r.falling("up", network.Level{Head: 100}, network.Level{Time: 1, Head: 100 + rate})
	r.pipe("up", "down", length, bore, a, frictionless)
	r.network.Pipes[0].Bends = []float64{from, to}
	r.reservoir("down", 100)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	f := t.Forces[1]
	pull := func(l float64) float64 { return -r.network.Fluid.Density * area(bore) * l * r.network.G() * rate / a }
	return []Check{
		within("force on 240 to 700 m before the front", "N", 0, t.at(f.Force, 0.2), exact*-pull(to-from)),
		ratio("force with the front at 470 m", "N", pull(470-from), t.at(f.Force, 0.47), exact),
		ratio("force with the front beyond", "N", pull(to-from), t.at(f.Force, 0.8), exact),
		ratio("least force", "N", pull(to-from), f.Min, exact),
		within("greatest force", "N", 0, f.Max, exact*-pull(to-from)),
	}, nil
}

// steadyForces let liquid run through a rough line that rises. Friction is not small: the pressures push the run with 8 kN that it takes from the liquid.
func steadyForces(ctx context.Context) ([]Check, error) {
	const length, a, bore, v, rise, factor = 1000.0, 1000.0, 0.4, 2.0, 60.0, 0.03
	r := newRig(3, 100)
	r.reservoir("up", 200)
	r.pipe("up", "end", length, bore, a, factor)
	line := &r.network.Pipes[0]
	line.Profile[1].Elevation, line.Bends = rise, []float64{240, 700}
	r.reservoir("down", 0)
	r.gate("end", "down", bore, v, 200, network.Opening{Fraction: 1})
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	rho, flow, heads := r.network.Fluid.Density, t.Steady.Pipes[0].Flow, t.Pipes[0].Steady
	friction := factor * (700 - 240) / bore * rho / 2 * flow * flow / area(bore)
	f := t.Forces[1]
	return []Check{
		ratio("friction on 240 to 700 m, from the heads at its ends", "N", friction, rho*r.network.G()*area(bore)*(heads[24]-heads[70]), exact),
		within("greatest force", "N", 0, f.Max, exact*friction),
		within("least force", "N", 0, f.Min, exact*friction),
	}, nil
}

// stopForces stop the flow of a line of 1000 m and 1 s at once. The front pushes each straight run towards the gate, and again on its way back from the reservoir,
// where it has turned the flow; from the shut gate it comes with lowered pressure and pulls, twice.
func stopForces(ctx context.Context) ([]Check, error) {
	const length, a, bore, v, head = 1000.0, 1000.0, 0.4, 0.8, 200.0
	line := func(until float64, left float64) (trace, float64, error) {
		r := newRig(until, 100)
		r.reservoir("up", head)
		r.pipe("up", "end", length, bore, a, frictionless)
		r.network.Pipes[0].Bends = []float64{0, 240, 300, 700}
		r.reservoir("down", 0)
		schedule := slammed()
		schedule[1].Fraction = left
		r.gate("end", "down", bore, v, head, schedule...)
		t, err := r.run(ctx)
		return t, r.network.Fluid.Density * area(bore), err
	}
	t, perLength, err := line(4.04, 0)
	if err != nil {
		return nil, err
	}
	size := perLength * a * v
	var checks []Check
	for i, ends := range [][2]float64{{0, 240}, {240, 300}, {300, 700}, {700, 1000}} {
		f := t.Forces[i]
		in, out := (length-ends[1])/a, (length-ends[0])/a // of the front on its first way
		run := fmt.Sprintf("force on %g to %g m", ends[0], ends[1])
		var levels []level
		mass := perLength * (ends[1] - ends[0])
		pulse := mass * v
		switch {
		case ends[0] == 0: // the front turns at the reservoir without leaving the run
			levels = []level{{0, in, 0}, {in, 2 - in, size}, {2 - in, 2 + in, 0}, {2 + in, 4 - in, -size}, {4 - in, 4, 0}}
			pulse *= 2
		case ends[1] == length: // and at the gate, where it changes sign
			levels = []level{{0, out, size}, {out, 2 - out, 0}, {2 - out, 2, size}, {2, 2 + out, -size}, {2 + out, 4 - out, 0}, {4 - out, 4, -size}}
		default:
			levels = []level{{0, in, 0}, {in, out, size}, {out, 2 - out, 0}, {2 - out, 2 - in, size}, {2 - in, 2 + in, 0}, {2 + in, 2 + out, -size}, {2 + out, 4 - out, 0}, {4 - out, 4 - in, -size}}
		}
		checks = append(checks, t.levels(run, "N", f.Force, size, levels...)...)
		checks = append(checks,
			ratio("greatest "+run, "N", size, f.Max, exact),
			ratio("least "+run, "N", -size, f.Min, exact),
			ratio("impulse of the greatest "+run, "N s", pulse, f.MaxImpulse, exact),
			ratio("impulse of the least "+run, "N s", -pulse, f.MinImpulse, exact))
	}
	// A gate that goes to half its area: V = V0 tau sqrt(H/H0) and H = H0 + a (V0 - V)/g give V.
	const left = 0.5
	if t, _, err = line(0.5, left); err != nil {
		return nil, err
	}
	k := left * left * v * a / waveGravity * v / head // V^2 = tau^2 V0^2 + k (V0 - V)
	passed := (math.Sqrt(k*k+4*(left*left*v*v+k*v)) - k) / 2
	want := perLength * a * (v - passed)
	return append(checks, ratio("force on 700 to 1000 m behind a gate that goes to half its area", "N", want, t.plateau(t.Forces[3].Force, 0, 0.3, want), exact)), nil
}
