package verify

import (
	"context"

	"seatwise/network"
)

// pipeEnd is a pipe at a junction.
type pipeEnd struct{ bore, a float64 }

func junctions() []Case {
	const source = "closed form, derived: transmission 2(A1/a1)/sum(A/a) at a junction and reflection one less"
	junction := func(id string, transmission float64, in pipeEnd, out ...pipeEnd) Case {
		return Case{id, System, source, func(ctx context.Context) ([]Check, error) { return meet(ctx, transmission, in, out) }}
	}
	return []Case{
		junction("A5a", 1.6, pipeEnd{0.5, 1200}, pipeEnd{0.25, 1200}),
		junction("A5b", 4.0/7, pipeEnd{0.3, 1000}, pipeEnd{0.3, 400}),
		junction("A5c", 10.0/29, pipeEnd{0.25, 1200}, pipeEnd{0.5, 1000}),
		junction("A5d", 2.0/3, pipeEnd{0.4, 1100}, pipeEnd{0.4, 1100}, pipeEnd{0.4, 1100}),
		junction("A5e", 2, pipeEnd{0.4, 1100}),
		{"A5f", System, source, atReservoir},
	}
}

// meet sends a wave of 1 m from a reservoir through a pipe of 1 s to a junction with others of 1 s, and watches it at the junction
// and half way. Nothing flows before.
func meet(ctx context.Context, transmission float64, in pipeEnd, out []pipeEnd) ([]Check, error) {
	const h, wave = 100.0, 1.0
	r := newRig(2.4, 20)
	r.falling("up", network.Level{Time: 0, Head: h}, network.Level{Time: 0, Head: h + wave})
	r.pipe("up", "half-way", in.a/2, in.bore, in.a, frictionless)
	r.pipe("half-way", "junction", in.a/2, in.bore, in.a, frictionless)
	if len(out) == 0 {
		r.network.DeadEnds = append(r.network.DeadEnds, "junction")
	}
	for i, p := range out {
		end := string(rune('a'+i)) + "-end"
		r.pipe("junction", end, p.a, p.bore, p.a, frictionless)
		r.network.DeadEnds = append(r.network.DeadEnds, end)
	}
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	passed := t.plateau(t.head("junction"), 1, 2.4, h+transmission) - h
	returned := t.plateau(t.head("half-way"), 1.5, 2.4, h+transmission) - h - wave
	return []Check{
		within("transmission", "1", transmission, passed/wave, exact),
		within("reflection", "1", transmission-1, returned/wave, exact),
	}, nil
}

// atReservoir sends the wave of a shut gate to a reservoir.
func atReservoir(ctx context.Context) ([]Check, error) {
	const h = 100.0
	r := newRig(2.4, 20)
	r.reservoir("up", h)
	r.pipe("up", "half-way", 550, 0.4, 1100, frictionless)
	r.pipe("half-way", "end", 550, 0.4, 1100, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", 0.4, 0.01, h, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	wave := t.at(t.head("half-way"), 1) - h
	returned := t.plateau(t.head("half-way"), 1.5, 2.4, h) - h - wave
	return []Check{within("reflection", "1", -1, returned/wave, exact)}, nil
}
