package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/moc"
)

// cavityCase is a horizontal frictionless line of 100 m at 1000 m/s that is shut at its end, with vapour head at -10 m. With v = g(Hr - Hv)/a the
// cavity at the valve grows at V0 - v, collapses at 4L/a + (V0 - v)(2L/a)/(3v - V0) and holds (V0 - v) 2L/a per area at most; the pulse
// that follows has the head 5 Hr - 4 Hv - a V0/g.
type cavityCase struct {
	id                             string
	velocity, head                 float64
	collapse, after, pulse, volume float64 // s, m, m, m3/m2
}

func cavities() []Case {
	const (
		source = "closed form, derived: cavity at a shut valve and the pulse after its collapse, confirmed by a lattice calculation"
		bound  = "closed form, derived: no pulse of a cavity at a shut valve is higher than Hr + a V0/g + 2 (Hr - Hv)"
	)
	var cases []Case
	for _, c := range []cavityCase{
		{"C1", 0.5, 30, 0.43178, 59.032, 139.032, 0.02152},
		{"C2", 0.6, 40, 0.42513, 78.838, 178.838, 0.0219},
	} {
		cases = append(cases, Case{c.id, System, source + "; gas cavities", c.gas}, Case{c.id + "v", System, source + "; vapour cavities", c.vapour})
	}
	return append(cases,
		Case{"C2n", System, source + "; no cavity while a V0/g < Hr - Hv", noCavity},
		Case{"C3", System, bound, pulseBound})
}

const (
	cavityLength  = 100.0
	cavitySpeed   = 1000.0
	cavityGravity = 9.81
	cavityHead    = -10.0
	cavityBore    = 0.1
	cavityGate    = 0.01
	phase         = 2 * cavityLength / cavitySpeed
)

// cavityRun shuts the line at once. With gas, gas is its fraction, 0 for the default; without, the cavities are of vapour.
func cavityRun(ctx context.Context, reaches int, until, v, head float64, form moc.Cavities, gas float64) (trace, error) {
	r := newRig(until, reaches)
	r.network.Gravity = cavityGravity
	r.network.Fluid.VapourPressure = 0
	r.network.Atmosphere = -cavityHead * r.network.Fluid.Density * cavityGravity
	r.settings.Liquid = false
	r.settings.Cavities, r.settings.GasFraction = form, gas
	r.reservoir("up", head)
	r.pipe("up", "end", cavityLength, cavityBore, cavitySpeed, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", cavityBore, v, head, slammed()...)
	return r.run(ctx)
}

// until is a phase after the collapse. The reflection that makes the pulse comes at three phases and ends with the wave of the collapse.
func (c cavityCase) until() float64 { return c.collapse + phase - 1e-3 }

// gas uses little of it. With the default fraction of 1e-7 the gas of the inner nodes, which all stand at vapour head exactly while the cavity is open,
// takes a tenth of its volume; the pulse is compared with that fraction too.
func (c cavityCase) gas(ctx context.Context) ([]Check, error) {
	t, err := cavityRun(ctx, 50, c.until(), c.velocity, c.head, moc.GasCavity, 2e-10)
	if err != nil {
		return nil, err
	}
	usual, err := cavityRun(ctx, 50, c.until(), c.velocity, c.head, moc.GasCavity, 0)
	if err != nil {
		return nil, err
	}
	top, _ := usual.extreme(usual.head("end"), 1)
	return append(c.checks(t), ratio("head of the pulse, default gas fraction", "m", c.pulse, top, cavityGate)), nil
}

func (c cavityCase) vapour(ctx context.Context) ([]Check, error) {
	t, err := cavityRun(ctx, 50, c.until(), c.velocity, c.head, moc.VapourCavity, 0)
	if err != nil {
		return nil, err
	}
	return c.checks(t), nil
}

func (c cavityCase) checks(t trace) []Check {
	h := t.head("end")
	collapse := t.crossing(h, 1.5*phase, (cavityHead+c.after)/2)
	top, _ := t.extreme(h, 1)
	held := math.NaN()
	if cavity := t.Pipes[0].MaxCavity; cavity != nil {
		held = cavity[len(cavity)-1] / area(cavityBore)
	}
	return []Check{
		ratio("head before the cavity", "m", c.head+cavitySpeed*c.velocity/cavityGravity, t.at(h, phase/2), cavityGate),
		within("head while the cavity grows", "m", cavityHead, t.at(h, 1.5*phase), cavityGate*(c.head-cavityHead)),
		ratio("greatest volume of the cavity per area", "m3/m2", c.volume, held, cavityGate),
		ratio("collapse of the cavity", "s", c.collapse, collapse, cavityGate),
		ratio("head after the collapse", "m", c.after, t.at(h, (c.collapse+3*phase)/2), cavityGate),
		ratio("head of the pulse", "m", c.pulse, top, cavityGate),
	}
}

// noCavity is a square wave that stays above vapour head by more than the distance at which cavities are let in: with either model the same run.
func noCavity(ctx context.Context) ([]Check, error) {
	t, err := cavityRun(ctx, 50, 4*phase, 0.3, 22, moc.GasCavity, 0)
	if err != nil {
		return nil, err
	}
	other, err := cavityRun(ctx, 50, 4*phase, 0.3, 22, moc.VapourCavity, 0)
	if err != nil {
		return nil, err
	}
	h, off := t.head("end"), 0.0
	for i, x := range other.head("end") {
		off = math.Max(off, math.Abs(x-h[i]))
	}
	var checks []Check
	for _, l := range []level{{0.1, 0.9, 52.58}, {1.1, 1.9, -8.58}, {2.1, 2.9, 52.58}, {3.1, 3.9, -8.58}} {
		got := t.plateau(h, l.from*phase, l.to*phase, l.value)
		checks = append(checks, within(fmt.Sprintf("head at the valve, %g to %g of 2L/a", l.from, l.to), "m", l.value, got, cavityGate*52.58))
	}
	return append(checks, within("greatest difference between gas and vapour cavities", "m", 0, off, 0)), nil
}

// pulseBound goes through the velocities at which a cavity forms and the pulse follows within a phase, Hr - Hv < a V0/g <= 2 (Hr - Hv), and holds the pulse
// against the bound. At the least velocity, where they are equal, the pulse lasts no time: just above it four steps of a fine grid.
func pulseBound(ctx context.Context) ([]Check, error) {
	const head = 30.0
	var checks []Check
	for _, form := range moc.CavityForms() {
		excess, reached := 0.0, 0.0
		for _, c := range []struct {
			share   float64 // of the least velocity
			reaches int
		}{{1.01, 400}, {1.1, 50}, {1.25, 50}, {1.5, 50}, {1.75, 50}, {1.98, 50}} {
			v := c.share * cavityGravity * (head - cavityHead) / cavitySpeed
			t, err := cavityRun(ctx, c.reaches, 3.5*phase, v, head, form, 2e-10)
			if err != nil {
				return nil, err
			}
			top, _ := t.extreme(t.head("end"), 1)
			bound := head + cavitySpeed*v/cavityGravity + 2*(head-cavityHead)
			excess, reached = math.Max(excess, top-bound), math.Max(reached, top/bound)
		}
		checks = append(checks,
			within(fmt.Sprintf("excess over the bound of the pulses at 6 velocities, %s cavities", form), "m", 0, excess, 1e-6),
			ratio(fmt.Sprintf("pulse over its bound near the least velocity, %s cavities", form), "1", 1, reached, cavityGate))
	}
	return checks, nil
}
