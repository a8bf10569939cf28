package verify

import (
	"context"
	"fmt"
	"math"
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
	const source = "closed form, derived: cavity at a shut valve and the pulse after its collapse, confirmed by a lattice calculation"
	var cases []Case
	for _, c := range []cavityCase{
		{"C1", 0.5, 30, 0.43178, 59.032, 139.032, 0.02152},
		{"C2", 0.6, 40, 0.42513, 78.838, 178.838, 0.0219},
	} {
		cases = append(cases, Case{c.id, System, source, c.checks})
	}
	return append(cases, Case{"C3", System, source + "; no cavity while a V0/g < Hr - Hv", noCavity})
}

const (
	cavityLength  = 100.0
	cavitySpeed   = 1000.0
	cavityGravity = 9.81
	cavityHead    = -10.0
	cavityBore    = 0.1
	cavityGate    = 0.01
)

func cavityRun(ctx context.Context, until, v, head, gas float64) (trace, error) {
	r := newRig(until, 50)
	r.network.Gravity = cavityGravity
	r.network.Fluid.VapourPressure = 0
	r.network.Atmosphere = -cavityHead * r.network.Fluid.Density * cavityGravity
	r.settings.Liquid = false
	r.settings.GasFraction = gas
	r.reservoir("up", head)
	r.pipe("up", "end", cavityLength, cavityBore, cavitySpeed, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", cavityBore, v, head, slammed()...)
	return r.run(ctx)
}

// checks use little gas. With the default fraction of 1e-7 the gas of the inner nodes, which all stand at vapour head exactly while the cavity is open,
// takes a tenth of its volume; the pulse is compared with that fraction too.
func (c cavityCase) checks(ctx context.Context) ([]Check, error) {
	const phase = 2 * cavityLength / cavitySpeed
	// The cavity has collapsed after c.collapse; the reflection that makes the pulse comes at three phases and ends with the wave of the
	// collapse, a phase after it.
	until := c.collapse + phase - 1e-3
	usual, err := cavityRun(ctx, until, c.velocity, c.head, 0)
	if err != nil {
		return nil, err
	}
	t, err := cavityRun(ctx, until, c.velocity, c.head, 2e-10)
	if err != nil {
		return nil, err
	}
	h := t.head("end")
	collapse := t.crossing(h, 1.5*phase, (cavityHead+c.after)/2)
	top, _ := t.extreme(h, 1)
	usualTop, _ := usual.extreme(usual.head("end"), 1)
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
		ratio("head of the pulse, default gas fraction", "m", c.pulse, usualTop, cavityGate),
	}, nil
}

func noCavity(ctx context.Context) ([]Check, error) {
	const phase = 2 * cavityLength / cavitySpeed
	t, err := cavityRun(ctx, 4*phase, 0.3, 22, 0)
	if err != nil {
		return nil, err
	}
	h := t.head("end")
	var checks []Check
	for _, l := range []level{{0.1, 0.9, 52.58}, {1.1, 1.9, -8.58}, {2.1, 2.9, 52.58}, {3.1, 3.9, -8.58}} {
		got := t.plateau(h, l.from*phase, l.to*phase, l.value)
		checks = append(checks, within(fmt.Sprintf("head at the valve, %g to %g of 2L/a", l.from, l.to), "m", l.value, got, cavityGate*52.58))
	}
	return checks, nil
}
