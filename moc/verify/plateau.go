package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/pipe"
)

// A laboratory line is a pipe below a tank, shut quickly at its end while v flows. What is known of these experiments without their records is the head of
// the first plateau, Hr + a v/g, and the period 4L/a, which the authors state or which follow from the rig; and how the later swings compare.

func plateaus() []Case {
	const (
		friction = "A. Bergant, A. R. Simpson, J. Vitkovsky, Developments in unsteady pipe flow friction modelling, J. Hydraul. Res. 39, 2001: rig from memory; plateaus and period calculated, measured within 1-2 % of them (from memory)"
		oil      = "E. L. Holmboe, W. T. Rouleau, The effect of viscous shear on transients in liquid lines, J. Basic Eng. 89, 1967: rig from memory; rise and period calculated; the record's later peaks could not be read"
		pulse    = "A. R. Simpson, E. B. Wylie, Large water-hammer pressures for column separation in pipelines, J. Hydraul. Eng. 117, 1991: rig from memory; plateau calculated; a short pulse above it is reported, its head could not be read"
		coil     = "A. Adamkowski, M. Lewandowski, Experimental examination of unsteady friction models for transient pipe flow simulation, J. Fluids Eng. 128, 2006: rig from memory; rises and period calculated"
	)
	return []Case{
		{"E1f", System, friction, copperFrictions},
		{"E3", System, oil, oilRises},
		{"E4", System, pulse, shortPulse},
		{"E5", System, coil, coilRises},
	}
}

// labLine is the line of an experiment; it rises to the valve, from which heads count.
type labLine struct {
	length, bore, speed, rough, rise    float64 // m, m/s
	closure                             float64 // s
	density, viscosity, vapour, gravity float64 // kg/m3, m2/s, Pa, m/s2
}

// rig is the line below a tank of a given head, m, in which v, m/s, flows until it is shut.
func (l *labLine) rig(until, head, v float64, form moc.Cavities) *rig {
	r := newRig(until, 100)
	r.network.Gravity = l.gravity
	r.network.Fluid = liquid(l.density, 2.15e9)
	r.network.Fluid.Viscosity, r.network.Fluid.VapourPressure = l.viscosity*l.density, l.vapour
	r.settings.Liquid, r.settings.Cavities = false, form
	r.reservoir("tank", head)
	r.network.Pipes = append(r.network.Pipes, network.Pipe{Name: "line", From: "tank", To: "end", Bore: l.bore, WaveSpeed: l.speed, Roughness: l.rough,
		Profile: []network.Point{{Elevation: -l.rise}, {Chainage: l.length}}})
	lost := pipe.FrictionFactor(v*l.bore/l.viscosity, l.rough/l.bore) * l.length / l.bore * v * v / (2 * l.gravity)
	r.gate("end", "down", l.bore, v, head-lost, network.Opening{Time: 0, Fraction: 1}, network.Opening{Time: l.closure, Fraction: 0})
	r.reservoir("down", 0)
	return r
}

// phase is 2L/a, s.
func (l *labLine) phase() float64 { return 2 * l.length / l.speed }

// joukowsky is a v/g, m.
func (l *labLine) joukowsky(v float64) float64 { return l.speed * v / l.gravity }

// plateau is the head in the middle of the first plateau.
func (l *labLine) plateau(t trace) float64 {
	return t.at(t.head("end"), l.closure+(l.phase()-l.closure)/2)
}

// period is the time between the first two falls of the head through that of the tank.
func (l *labLine) period(t trace, head float64) float64 {
	first := t.crossing(t.head("end"), 0.7*l.phase(), head)
	return t.crossing(t.head("end"), first+1.5*l.phase(), head) - first
}

// swing is half the range of the head in the n-th period 4L/a, from 0, over that in the first.
func (l *labLine) swing(t trace, n int) float64 {
	h := t.head("end")
	half := func(n int) float64 {
		low, high := math.Inf(1), math.Inf(-1)
		for _, x := range h[int(float64(2*n)*l.phase()/t.Numerics.Step):int(float64(2*n+2)*l.phase()/t.Numerics.Step)] {
			low, high = math.Min(low, x), math.Max(high, x)
		}
		return (high - low) / 2
	}
	return half(n) / half(0)
}

// copperFrictions run the three velocities of the copper line with every form of friction.
func copperFrictions(ctx context.Context) ([]Check, error) {
	const head = 32.0
	var checks []Check
	for _, c := range []struct{ v, plateau float64 }{{0.1, 45.4}, {0.2, 58.9}, {0.3, 72.3}} {
		var left [3]float64
		for i, form := range moc.Frictions() {
			r := copper.rig(0.6, head, c.v, moc.GasCavity)
			r.settings.Friction = form
			t, err := r.run(ctx)
			if err != nil {
				return nil, err
			}
			left[i] = copper.swing(t, 4)
			say := fmt.Sprintf(", %g m/s, %s friction", c.v, form)
			checks = append(checks,
				peak("Bergant, Simpson, Vitkovsky 2001: first plateau, 2 %", ratio("head of the first plateau"+say, "m", c.plateau, copper.plateau(t), 0.02)),
				compared(ratio("first period"+say, "s", 0.1129, copper.period(t, head), 0.01)))
		}
		more := 0.0
		if left[0] > left[1] && left[0] > left[2] {
			more = 1
		}
		checks = append(checks, compared(within(fmt.Sprintf("quasi-steady friction damps too little, %g m/s (1: yes): of the first swing %.2f are left after four periods, %.2f with weighted, %.2f with accelerated friction",
			c.v, left[0], left[1], left[2]), "1", 1, more, 0)))
	}
	return checks, nil
}

// oilRises shut a laminar flow of oil at once.
func oilRises(ctx context.Context) ([]Check, error) {
	line := labLine{length: oilLength, bore: oilBore, speed: oilWaveSpeed, density: oilDensity, viscosity: oilViscosity, vapour: 10, gravity: 9.81}
	const head = 100.0
	var checks []Check
	for _, form := range moc.Frictions() {
		r := line.rig(0.3, head, oilVelocity, moc.GasCavity)
		r.settings.Friction = form
		r.network.Throttles[0].Schedule = slammed()
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		h := t.head("end")
		say := ", 0.128 m/s, " + form.String() + " friction"
		checks = append(checks,
			compared(ratio("rise of the head at the valve"+say, "m", 17.28, h[1]-h[0], 0.02)),
			compared(ratio("first period"+say, "s", 0.1090, line.period(t, head), 0.05)))
	}
	return checks, nil
}

// shortPulse runs the line in which a cavity at the valve is followed by a pulse above the first plateau.
func shortPulse(ctx context.Context) ([]Check, error) {
	line := labLine{length: 36, bore: 0.01905, speed: 1280, rough: 1.5e-6, rise: 1, closure: 0.009, density: 998, viscosity: 1.1e-6, vapour: 1750, gravity: 9.81}
	const head, v = 23.4, 0.332
	var checks []Check
	for _, form := range moc.CavityForms() {
		r := line.rig(0.5, head, v, form)
		r.settings.Friction = moc.Weighted
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		top, _ := t.extreme(t.head("end"), 1)
		above := 0.0
		if top > line.plateau(t) {
			above = 1
		}
		checks = append(checks,
			peak("Simpson, Wylie 1991: first plateau, 2 %", ratio(fmt.Sprintf("head of the first plateau, %g m/s, %s cavities", v, form), "m", head+line.joukowsky(v), line.plateau(t), 0.02)),
			compared(within(fmt.Sprintf("a pulse rises above the first plateau (1: yes): to %.1f m, %s cavities", top, form), "1", 1, above, 0)))
	}
	return checks, nil
}

// coilRises run the long coil at two of its velocities.
func coilRises(ctx context.Context) ([]Check, error) {
	line := labLine{length: 98.11, bore: 0.016, speed: 1298, rough: 1.5e-6, closure: 0.003, density: 997.7, viscosity: 9.493e-7, vapour: 2740, gravity: 9.81}
	const head = 127.0
	var checks []Check
	for _, v := range []float64{0.34, 0.94} {
		for _, form := range moc.Frictions() {
			r := line.rig(0.8, head, v, moc.GasCavity)
			r.settings.Friction = form
			t, err := r.run(ctx)
			if err != nil {
				return nil, err
			}
			h := t.head("end")
			say := fmt.Sprintf(", %g m/s, %s friction", v, form)
			checks = append(checks,
				compared(ratio("rise of the head when the valve is shut"+say, "m", line.joukowsky(v), t.at(h, line.closure+2*t.Numerics.Step)-h[0], 0.02)),
				compared(ratio("first period"+say, "s", 0.3022, line.period(t, head), 0.01)))
		}
	}
	return checks, nil
}
