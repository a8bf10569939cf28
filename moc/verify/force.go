package verify

import (
	"context"
	"fmt"
	"math"
)

func forces() []Case {
	return []Case{{"B1", System, "closed form, derived: a front of velocity change dV pushes a straight run of pipe with rho a A dV while it is within, and so takes its momentum rho A l dV", stopForces}}
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
		schedule[1].Area = left
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
