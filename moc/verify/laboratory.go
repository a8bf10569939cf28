package verify

import (
	"context"
	"fmt"

	"seatwise/moc"
)

func laboratory() []Case {
	const (
		rig   = "A. Bergant, A. R. Simpson, Pipeline column separation flow regimes, J. Hydraul. Eng. 125, 1999: rig and pulse (from memory), greatest head at 1.4 m/s Joukowsky's"
		lasts = "closed form, derived: first cavity at a shut valve over several phases 2L/a"
	)
	return []Case{
		{"E1", System, "A. Bergant, A. R. Simpson, J. Vitkovsky, Developments in unsteady pipe flow friction modelling, J. Hydraul. Res. 39, 2001: rig (from memory); plateau and period calculated", plateauChecks},
		{"C4", System, lasts + "; level line without friction, shut at once", longCavities},
		{"E2", System, rig + ". " + lasts + " as in C4, which the friction and the closure of 9 ms of the rig shorten", separationChecks},
	}
}

const (
	copperLength  = 37.23  // m, rising by 2.03 m to the valve
	copperBore    = 0.0221 // m
	copperSpeed   = 1319.0 // m/s
	copperRough   = 1.5e-6 // m
	copperClosure = 0.009  // s
	copperPhase   = 2 * copperLength / copperSpeed
	copperGravity = 9.81
	copperDensity = 999.1                                                     // kg/m3
	copperVapour  = 1750                                                      // Pa
	copperHead    = (copperVapour - 101325) / (copperDensity * copperGravity) // vapour head at the valve, m
	separatedHead = 22.0                                                      // m, of the tank
)

// copper is the line of copper with water at 15.4 °C.
var copper = labLine{length: copperLength, bore: copperBore, speed: copperSpeed, rough: copperRough, rise: 2.03, closure: copperClosure,
	density: copperDensity, viscosity: 1.13e-3 / copperDensity, vapour: copperVapour, gravity: copperGravity}

// plateauChecks test the first plateau and half period of the copper line, not its damping.
func plateauChecks(ctx context.Context) ([]Check, error) {
	const head, v = 32.0, 0.2
	r := copper.rig(0.1, head, v, moc.GasCavity)
	r.settings.ReachesInLongest = 200
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	h := t.head("end")
	half := h[0] + copperSpeed*v/copperGravity/2
	up, down := t.crossing(h, 0, half), t.crossing(h, 0.7*copperPhase, head)
	return []Check{
		ratio("head of the first plateau", "m", 58.9, t.at(h, copperClosure+(copperPhase-copperClosure)/2), 0.01),
		ratio("first half period", "s", 0.0565, down-up, 5e-3),
	}, nil
}

// firstCavity is how long vapour head stands at the valve for the first time after a time, s.
func (t trace) firstCavity(after float64) float64 {
	h := t.head("end")
	from := t.crossing(h, after, copperHead+1)
	return t.crossing(h, from+0.2*copperPhase, copperHead+1) - from
}

// separated are the velocities of the experiments, with a short pulse after the first cavity, and with a long cavity.
var separated = []float64{0.3, 1.4}

// longCavities are gates on the duration alone: what follows depends on how the columns rejoin.
func longCavities(ctx context.Context) ([]Check, error) {
	var checks []Check
	for _, v := range separated {
		for _, form := range moc.CavityForms() {
			r := copper.rig(0.5, separatedHead, v, form)
			line, gate := &r.network.Pipes[0], &r.network.Throttles[0]
			line.FrictionFactor, line.Profile[0].Elevation = frictionless, 0
			gate.Loss = separatedHead * 2 * copperGravity / (v * v)
			gate.Schedule = slammed()
			t, err := r.run(ctx)
			if err != nil {
				return nil, err
			}
			checks = append(checks, ratio(fmt.Sprintf("first cavity at the valve, %g m/s, %s cavities", v, form), "s",
				cavityLasts(v, copperGravity*(separatedHead-copperHead)/copperSpeed)*copperPhase, t.firstCavity(0.8*copperPhase), cavityGate))
		}
	}
	return checks, nil
}

// separationChecks compare the greatest head and the duration of the first cavity, with either model, and with friction that remembers: without it, at 1.4 m/s, the
// columns that rejoin later on come above the first plateau, by an amount that the grid decides.
func separationChecks(ctx context.Context) ([]Check, error) {
	var checks []Check
	for i, v := range separated {
		reported := [2]float64{95.5, separatedHead + copperSpeed*v/copperGravity}[i]
		for _, form := range moc.CavityForms() {
			r := copper.rig(1, separatedHead, v, form)
			r.settings.Friction = moc.Weighted
			t, err := r.run(ctx)
			if err != nil {
				return nil, err
			}
			top, _ := t.extreme(t.head("end"), 1)
			say := func(what string) string { return fmt.Sprintf("%s, %g m/s, %s cavities", what, v, form) }
			checks = append(checks,
				peak([2]string{"Bergant, Simpson 1999: pulse after a cavity, 10 %", "Bergant, Simpson 1999: first plateau, 10 %"}[i], ratio(say("greatest head at the valve"), "m", reported, top, 0.1)),
				compared(ratio(say("first cavity at the valve"), "s", cavityLasts(v, copperGravity*(separatedHead-copperHead)/copperSpeed)*copperPhase,
					t.firstCavity(copperClosure), 0.03)))
		}
	}
	return checks, nil
}

// cavityLasts is how long the first cavity at a shut valve stands, in phases 2L/a, with v = g(Hr - Hv)/a: the column's velocity towards the valve is
// V0 - v in the first phase and 2 v less in each one after.
func cavityLasts(velocity, v float64) float64 {
	volume, rate := 0.0, velocity-v
	for n := 0.0; ; n++ {
		if volume+rate <= 0 {
			return n - volume/rate
		}
		volume, rate = volume+rate, rate-2*v
	}
}

// crossing is the time after from at which a history first passes a value, interpolated.
func (t trace) crossing(series []float64, from, value float64) float64 {
	for i := int(from/t.Numerics.Step) + 1; i < len(series); i++ {
		a, b := series[i-1]-value, series[i]-value
		if a*b <= 0 && a != b {
			return t.Time[i-1] + a/(a-b)*(t.Time[i]-t.Time[i-1])
		}
	}
	return -1
}
