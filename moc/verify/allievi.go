package verify

import (
	"context"
	"fmt"
	"math"

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
	return append(cases, capacities()...)
}

// capacities are the chain for valves whose capacity goes otherwise with the opening, which falls evenly over four phases: eta_i is the capacity at the end
// of phase i over that when open, and
//
//	sqrt(h_i) = -rho* eta_i + sqrt((rho* eta_i)^2 + 2 - h_(i-1) + 2 rho* eta_(i-1) sqrt(h_(i-1)))
func capacities() []Case {
	const source = "L. Allievi, Theory of Water-hammer, 1925 (interlocking chain, solved here for the capacities of the valve)"
	row := func(opening, value float64) network.Capacity { return network.Capacity{Opening: opening, Value: value} }
	give := func(f func(t *network.Throttle, loss float64)) func(*network.Throttle) {
		return func(t *network.Throttle) {
			loss := t.Loss
			t.Loss = 0
			f(t, loss)
		}
	}
	kv := func(t *network.Throttle, loss float64) float64 { return 3600 * area(t.Bore) * math.Sqrt(200/loss) }
	var cases []Case
	for _, c := range []capacityChain{
		{"A4i", "Kv, linear", 0, [5]float64{1, 0.75, 0.5, 0.25, 0}, give(func(t *network.Throttle, loss float64) { t.Kv = kv(t, loss) })},
		{"A4j", "Kv, quadratic", 0, [5]float64{1, 0.5625, 0.25, 0.0625, 0}, give(func(t *network.Throttle, loss float64) {
			t.Kv, t.Inherent = kv(t, loss), network.Quadratic
		})},
		{"A4k", "loss, equal percentage", 0.3, [5]float64{1, math.Pow(50, -0.7/4), math.Pow(50, -0.7/2), math.Pow(50, -0.7*3/4), math.Pow(50, -0.7)},
			func(t *network.Throttle) { t.Inherent = network.EqualPercentage }},
		{"A4l", "table of Kv", 0, [5]float64{1, 0.9, 0.6, 0.1, 0}, give(func(t *network.Throttle, loss float64) {
			k := kv(t, loss)
			t.KvTable = []network.Capacity{row(0.25, 0.1*k), row(0.5, 0.6*k), row(0.75, 0.9*k), row(1, k)}
		})},
		{"A4m", "table of loss coefficients", 0, [5]float64{1, 0.8, 0.5, 0.25, 0}, give(func(t *network.Throttle, loss float64) {
			t.LossTable = []network.Capacity{row(0.25, 16*loss), row(0.5, 4*loss), row(0.75, loss/0.64), row(1, loss)}
		})},
	} {
		cases = append(cases, Case{c.id, System, source, c.checks})
	}
	return cases
}

// capacityChain is a valve by its capacity at the end of phases 0 to 4.
type capacityChain struct {
	id, form string
	last     float64 // opening at the end of phase 4
	eta      [5]float64
	give     func(*network.Throttle)
}

func (c capacityChain) checks(ctx context.Context) ([]Check, error) {
	const rho, h0 = 0.8, 100.0
	r := newRig(6, 20)
	allievis(r, rho, h0, network.Opening{Time: 0, Fraction: 1}, network.Opening{Time: 4, Fraction: c.last})
	c.give(&r.network.Throttles[0])
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	var checks []Check
	h, before := 1.0, c.eta[0]
	for i := 1; i <= 6; i++ {
		eta := c.eta[min(i, 4)]
		x := -rho*eta + math.Sqrt(rho*rho*eta*eta+2-h+2*rho*before*math.Sqrt(h))
		h, before = x*x, eta
		checks = append(checks, within(fmt.Sprintf("H/H0 after phase %d, %s", i, c.form), "1", h, t.at(t.head("end"), float64(i))/h0, 1e-6))
	}
	return checks, nil
}

// allievis is a frictionless pipe with a phase of 1 s between a reservoir of head h0 and a valve at its end.
func allievis(r *rig, rho, h0 float64, schedule ...network.Opening) {
	const a, length, bore = 1000.0, 500.0, 0.5
	r.reservoir("up", h0)
	r.pipe("up", "end", length, bore, a, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", bore, rho*2*r.network.G()*h0/a, h0, schedule...)
}

func (c chain) checks(ctx context.Context) ([]Check, error) {
	const h0 = 100.0
	r := newRig(float64(len(c.h)), 20)
	allievis(r, c.rho, h0, network.Opening{Time: 0, Fraction: 1}, network.Opening{Time: c.theta, Fraction: 0})
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
