package verify

import (
	"context"

	"seatwise/network"
)

func laboratory() []Case {
	return []Case{{"E1", System, "A. Bergant, A. R. Simpson, J. Vitkovsky, Developments in unsteady pipe flow friction modelling, J. Hydraul. Res. 39, 2001: rig (from memory); plateau and period calculated", plateauChecks}}
}

// plateauChecks test the first plateau and half period of the copper line, not its damping.
func plateauChecks(ctx context.Context) ([]Check, error) {
	const (
		length, bore, a, head, v, closure = 37.23, 0.0221, 1319.0, 32.0, 0.2, 0.009
		phase                             = 2 * length / a
	)
	r := newRig(0.1, 200)
	r.network.Gravity = 9.81
	r.network.Fluid = liquid(999.1, 2.15e9)
	r.network.Fluid.Viscosity = 1.13e-3 // water at 15.4 °C
	r.settings.Liquid = false
	r.reservoir("tank", head)
	r.network.Pipes = append(r.network.Pipes, network.Pipe{Name: "line", From: "tank", To: "end", Bore: bore, WaveSpeed: a, Roughness: 1.5e-6,
		Profile: []network.Point{{Elevation: -2.03}, {Chainage: length}}})
	r.gate("end", "down", bore, v, head, network.Opening{Time: 0, Area: 1}, network.Opening{Time: closure, Area: 0})
	r.reservoir("down", 0)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	h := t.head("end")
	base := h[0]
	half := base + a*v/9.81/2
	up, down := t.crossing(h, 0, half), t.crossing(h, 0.7*phase, head)
	return []Check{
		ratio("head of the first plateau", "m", 58.9, t.at(h, closure+(phase-closure)/2), 0.01),
		ratio("first half period", "s", 0.0565, down-up, 5e-3),
	}, nil
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
