package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network/fluid"
	"seatwise/network/pipe"
)

// exact is the tolerance of a frictionless run at Courant number 1 against a closed form, relative.
const exact = 1e-9

func joukowsky() []Case {
	return []Case{
		{"A1", System, "closed form, derived: head rise a dV/g of a sudden stop (Joukowsky 1898)", suddenStops},
		{"W8", System, "M. H. Chaudhry, Applied Hydraulic Transients, example 1.1 (answer from memory, recalculated)", rigidPipe},
	}
}

// stopped runs a line of 600 m that is shut at its end, and returns the head rise there, m.
func stopped(ctx context.Context, f fluid.Fluid, g, a, bore, v float64) (float64, error) {
	r := newRig(0.5, 10)
	r.network.Fluid, r.network.Gravity = f, g
	r.reservoir("up", 100)
	r.pipe("up", "end", 600, bore, a, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", bore, v, 100, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return 0, err
	}
	return t.at(t.head("end"), t.Numerics.Step) - 100, nil
}

func suddenStops(ctx context.Context) ([]Check, error) {
	water := liquid(998.2, 2.19e9)
	rise, err := stopped(ctx, water, 9.80665, 1200, 0.5, 1)
	if err != nil {
		return nil, err
	}
	low, err := stopped(ctx, water, 9.81, 1200, 0.5, 1)
	if err != nil {
		return nil, err
	}
	return []Check{
		ratio("head rise at 1200 m/s and 1 m/s, g 9.80665 m/s2", "m", 1200/9.80665, rise, exact),
		ratio("head rise at 1200 m/s and 1 m/s, g 9.81 m/s2", "m", 1200/9.81, low, exact),
		within("pressure rise in water of 998.2 kg/m3", "MPa", 1.19784, 998.2*9.80665*rise/1e6, 5e-6),
	}, nil
}

func rigidPipe(ctx context.Context) ([]Check, error) {
	const bore, flow, g, gate = 0.5, 0.4, 9.81, 5e-4
	oil := liquid(900, 1.5e9)
	a := pipe.WallWaveSpeed(oil, bore, 0.01, math.Inf(1), 1, pipe.GasContent{})
	v := flow / area(bore)
	rise, err := stopped(ctx, oil, g, a, bore, v)
	if err != nil {
		return nil, err
	}
	return []Check{
		ratio("wave speed in a rigid pipe", "m/s", 1290.99, a, gate),
		ratio("velocity", "m/s", 2.0372, v, gate),
		ratio("head rise of a sudden stop", "m", 268.09, rise, gate),
	}, nil
}

func squareWaves() []Case {
	const source = "closed form, derived: square wave between a closed end and a reservoir, frictionless"
	return []Case{
		{"A2", System, source, closedEnd},
		{"A3", System, source + " (stop at the upstream end: ideal pump stop with ideal check valve)", stoppedPump},
	}
}

// level is a stretch of a square wave.
type level struct{ from, to, value float64 }

func (t trace) levels(place, unit string, series []float64, scale float64, levels ...level) []Check {
	var checks []Check
	for _, l := range levels {
		checks = append(checks, within(fmt.Sprintf("%s, %g to %g s", place, l.from, l.to), unit, l.value, t.plateau(series, l.from, l.to, l.value), exact*scale))
	}
	return checks
}

const (
	waveLength   = 600.0   // m
	waveSpeed    = 1200.0  // m/s
	waveVelocity = 0.5     // m/s
	waveHead     = 100.0   // m
	waveGravity  = 9.80665 // m/s2
	waveRise     = waveSpeed * waveVelocity / waveGravity
)

func closedEnd(ctx context.Context) ([]Check, error) {
	const h, j, v = waveHead, waveRise, waveVelocity
	r := newRig(5, 50)
	r.reservoir("up", h)
	r.meter("up", "start", 0.5)
	r.pipe("start", "middle", waveLength/2, 0.5, waveSpeed, frictionless)
	r.pipe("middle", "end", waveLength/2, 0.5, waveSpeed, frictionless)
	r.reservoir("down", 0)
	r.gate("end", "down", 0.5, v, h, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	checks := t.levels("head at the closed end", "m", t.head("end"), h,
		level{0, 1, h + j}, level{1, 2, h - j}, level{2, 3, h + j}, level{3, 4, h - j}, level{4, 5, h + j})
	checks = append(checks, t.levels("head at the middle", "m", t.head("middle"), h,
		level{0, 0.25, h}, level{0.25, 0.75, h + j}, level{0.75, 1.25, h}, level{1.25, 1.75, h - j}, level{1.75, 2.25, h})...)
	return append(checks, t.levels("velocity at the reservoir", "m/s", t.velocity(), v,
		level{0, 0.5, v}, level{0.5, 1.5, -v}, level{1.5, 2.5, v}, level{2.5, 3.5, -v})...), nil
}

func stoppedPump(ctx context.Context) ([]Check, error) {
	const h, j, v = waveHead, waveRise, waveVelocity
	r := newRig(4, 50)
	r.reservoir("up", h+1)
	r.gate("up", "start", 0.5, v, 1, slammed()...)
	r.pipe("start", "middle", waveLength/2, 0.5, waveSpeed, frictionless)
	r.pipe("middle", "end", waveLength/2, 0.5, waveSpeed, frictionless)
	r.meter("end", "down", 0.5)
	r.reservoir("down", h)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	checks := t.levels("head at the stopped end", "m", t.head("start"), h,
		level{0, 1, h - j}, level{1, 2, h + j}, level{2, 3, h - j}, level{3, 4, h + j})
	checks = append(checks, t.levels("head at the middle", "m", t.head("middle"), h,
		level{0, 0.25, h}, level{0.25, 0.75, h - j}, level{0.75, 1.25, h}, level{1.25, 1.75, h + j})...)
	return append(checks, t.levels("velocity at the reservoir", "m/s", t.velocity(), v,
		level{0, 0.5, v}, level{0.5, 1.5, -v}, level{1.5, 2.5, v})...), nil
}
