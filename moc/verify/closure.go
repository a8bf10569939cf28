package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
)

// closureRow is a row of the published example: time, valve head, head at 360 m, flow at the reservoir and at the valve.
type closureRow struct{ t, valve, middle, in, out float64 }

var closureTable = []closureRow{
	{0.0, 143.49, 146.09, 0.4774, 0.4774}, {0.1, 154.30, 146.09, 0.4774, 0.4602}, {0.2, 165.84, 146.09, 0.4774, 0.4417},
	{0.3, 178.17, 156.81, 0.4774, 0.4222}, {0.4, 191.23, 168.26, 0.4774, 0.4014}, {0.5, 205.09, 180.49, 0.4774, 0.3796},
	{0.6, 219.66, 193.45, 0.4436, 0.3566}, {0.7, 234.98, 207.21, 0.4075, 0.3326}, {0.8, 250.93, 221.69, 0.3691, 0.3075},
	{0.9, 267.51, 226.44, 0.3284, 0.2816}, {1.0, 284.57, 231.11, 0.2853, 0.2549}, {1.1, 285.26, 235.63, 0.2400, 0.2212},
	{1.2, 283.91, 239.88, 0.1924, 0.1884}, {1.4, 274.09, 232.90, 0.0910, 0.1270}, {1.6, 253.07, 216.92, 0.0034, 0.0737},
	{1.8, 218.95, 190.33, -0.0524, 0.0318}, {2.0, 170.14, 166.19, -0.0856, 0.0054}, {2.1, 152.13, 151.83, -0.0916, 0},
	{2.4, 105.10, 113.14, -0.0580, 0}, {2.6, 93.00, 103.07, -0.0034, 0}, {3.0, 133.27, 133.86, 0.0853, 0}, {3.6, 206.83, 196.80, 0.0034, 0},
}

func closure() []Case {
	const source = "E. B. Wylie, V. L. Streeter, Fluid Transients, single-pipe example (inputs and initial values from memory, table recalculated)"
	return []Case{
		{"T1a", System, source, closureFive},
		{"T1b", System, source + ", 200 reaches", closureFine},
		{"T1c", System, source + ", without friction, 20 reaches", closureSmooth},
	}
}

const (
	closureGravity = 9.806
	closureBore    = 0.5
)

// closed runs the example with a whole multiple of five reaches. The meter sits before the valve or at the reservoir.
func closed(ctx context.Context, reaches int, friction float64, meterAtValve bool) (trace, error) {
	const length, a, head, cda = 600.0, 1200.0, 150.0, 0.009
	r := newRig(3.6, reaches)
	r.network.Gravity = closureGravity
	dt := length / a / float64(reaches)
	r.settings.Step = dt
	var tau []network.Opening
	for i := 0; float64(i)*dt < 2.1+dt/2; i++ {
		t := float64(i) * dt
		tau = append(tau, network.Opening{Time: t, Fraction: math.Pow(math.Max(0, 1-t/2.1), 1.5)})
	}
	start, end := "up", "valve"
	if meterAtValve {
		end = "before"
		r.meter("before", "valve", closureBore)
	} else {
		start = "start"
		r.meter("up", "start", closureBore)
	}
	r.reservoir("up", head)
	r.pipe(start, "middle", 0.6*length, closureBore, a, friction)
	r.pipe("middle", end, 0.4*length, closureBore, a, friction)
	r.reservoir("down", 0)
	v := cda * math.Sqrt(2*closureGravity) / area(closureBore)
	r.gate("valve", "down", closureBore, v, 1, tau...) // v under a head of 1 m
	return r.run(ctx)
}

// closureFive compares the whole table. The published friction R Q' |Q| is linearised, that of the program trapezoidal: the tolerance of 0.1 % of
// the peak and of the first flow covers both.
func closureFive(ctx context.Context) ([]Check, error) {
	const share, peak, flow = 1e-3, 285.26, 0.4774
	at, err := closed(ctx, 5, 0.018, false)
	if err != nil {
		return nil, err
	}
	out, err := closed(ctx, 5, 0.018, true)
	if err != nil {
		return nil, err
	}
	top, _ := at.extreme(at.head("valve"), 1)
	checks := []Check{ratio("greatest head at the valve", "m", peak, top, share)}
	var middle, in, leaving float64
	for _, row := range closureTable {
		checks = append(checks, within(fmt.Sprintf("head at the valve after %.1f s", row.t), "m", row.valve, at.at(at.head("valve"), row.t), share*peak))
		middle = math.Max(middle, math.Abs(at.at(at.head("middle"), row.t)-row.middle))
		in = math.Max(in, math.Abs(at.at(at.Units[0].Flow, row.t)-row.in))
		leaving = math.Max(leaving, math.Abs(out.at(out.Units[0].Flow, row.t)-row.out))
	}
	say := func(q string) string {
		return fmt.Sprintf("greatest deviation of %s at %d instants", q, len(closureTable))
	}
	return append(checks,
		within(say("head at 360 m"), "m", 0, middle, share*peak),
		within(say("flow at the reservoir"), "m3/s", 0, in, share*flow),
		within(say("flow at the valve"), "m3/s", 0, leaving, share*flow)), nil
}

// extreme is the greatest value of sign times a history, with its time.
func (t trace) extreme(series []float64, sign float64) (value, time float64) {
	value = math.Inf(-1)
	for i, x := range series {
		if sign*x > value {
			value, time = sign*x, t.Time[i]
		}
	}
	return sign * value, time
}

func closureFine(ctx context.Context) ([]Check, error) {
	const share = 2e-4
	t, err := closed(ctx, 200, 0.018, false)
	if err != nil {
		return nil, err
	}
	top, topAt := t.extreme(t.head("valve"), 1)
	bottom, bottomAt := t.extreme(t.head("valve"), -1)
	return []Check{
		ratio("greatest head at the valve", "m", 285.252, top, share),
		within("its time", "s", 1.085, topAt, t.Numerics.Step),
		ratio("least head at the valve", "m", 92.843, bottom, share),
		within("its time", "s", 2.628, bottomAt, t.Numerics.Step),
	}, nil
}

func closureSmooth(ctx context.Context) ([]Check, error) {
	t, err := closed(ctx, 20, frictionless, false)
	if err != nil {
		return nil, err
	}
	top, topAt := t.extreme(t.head("valve"), 1)
	return []Check{
		ratio("greatest head at the valve", "m", 293.049, top, 2e-4),
		within("its time", "s", 1.025, topAt, t.Numerics.Step/2),
		ratio("flow before closure", "m3/s", 0.488145, t.Units[0].Flow[0], 2e-6),
	}, nil
}
