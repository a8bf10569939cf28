package verify

import (
	"context"
	"fmt"

	"seatwise/network"
)

// chain is Allievi's interlocking chain for a linear closure of the effective area: with rho* = a V0/(2 g H0), theta = Tc/(2L/a),
// eta_i = max(0, 1 - i/theta) and h = H/H0 at the valve at the end of phase i,
//
//	h_i + h_(i-1) - 2 = 2 rho* (eta_(i-1) sqrt(h_(i-1)) - eta_i sqrt(h_i))
type chain struct {
	id         string
	rho, theta float64
	h          []float64 // phases 1, 2, ...
}

func allievi() []Case {
	const source = "L. Allievi, Theory of Water-hammer, 1925 (interlocking chain; values recalculated from the formula)"
	var cases []Case
	for _, c := range []chain{
		{"A4a", 0.5, 3, []float64{1.253578, 1.137355, 1.218135, 0.781865, 1.218135, 0.781865}},
		{"A4b", 1.0, 4, []float64{1.293812, 1.280697, 1.284339, 1.282305, 0.717695, 1.282305}},
		{"A4c", 2.0, 4, []float64{1.422253, 1.614352, 1.644436, 1.637920, 0.362080, 1.637920}},
		{"A4e", 0.25, 4, []float64{1.105682, 1.034375, 1.089417, 1.041052, 0.958948, 1.041052}},
		{"A4f", 1.5, 2.5, []float64{1.672292, 1.841259, 0.972899, 1.027101, 0.972899}},
		{"A4g", 0.8, 6, []float64{1.162444, 1.137482, 1.144353, 1.141599, 1.143131, 1.141982, 0.858018, 1.141982}},
		{"A4h", 1.0, 1, []float64{3}},
	} {
		cases = append(cases, Case{c.id, System, source, c.checks})
	}
	return cases
}

func (c chain) checks(ctx context.Context) ([]Check, error) {
	const a, length, bore, h0 = 1000.0, 500.0, 0.5, 100.0 // phase 2L/a 1 s
	r := newRig(float64(len(c.h)), 20)
	v0 := c.rho * 2 * r.network.G() * h0 / a
	r.reservoir("up", h0)
	r.pipe("up", "end", length, bore, a, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", bore, v0, h0, network.Opening{Time: 0, Area: 1}, network.Opening{Time: c.theta, Area: 0})
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	var checks []Check
	for i, want := range c.h {
		checks = append(checks, within(fmt.Sprintf("H/H0 after phase %d, rho* %g, closure in %g phases", i+1, c.rho, c.theta), "1", want, t.at(t.head("end"), float64(i+1))/h0, 1e-6))
	}
	return checks, nil
}
