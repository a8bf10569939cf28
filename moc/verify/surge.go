package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
)

func surges() []Case {
	const (
		mass     = "closed form, derived: mass oscillation T = 2 pi sqrt(L As/(g At)), Zmax = V0 sqrt(L At/(g As))"
		friction = "closed form, derived: first upsurge against tunnel friction k V|V|, exp(-beta (zm - z0)) = 1 - beta zm; the later extremes by a fourth-order Runge-Kutta integration of the rigid column"
		store    = "closed form, derived: first mode of a line between a reservoir and a store, the lowest root of (a/(g A)) w C tan(w L/a) = 1"
	)
	return []Case{
		{"A6a", System, mass, elasticTunnel},
		{"A6b", System, mass + ", here with a wave speed of 100 km/s", rigidTunnel},
		{"A7", System, friction, roughTunnel},
		{"A8", System, store, cushion},
	}
}

const (
	tunnelLength   = 5000.0 // m
	tunnelArea     = 10.0   // m2
	tunnelVelocity = 3.0    // m/s
	tunnelHead     = 100.0  // m, of the reservoir
	tankArea       = 100.0  // m2
)

// tunnel stops the flow at the end of a tunnel, where a surge tank stands. The tunnel loses k V|V|, k in s2/m. It returns the run and the level of
// the tank above the reservoir's.
func tunnel(ctx context.Context, until float64, reaches int, a, k float64) (trace, []float64, error) {
	bore := math.Sqrt(4 * tunnelArea / math.Pi)
	r := newRig(until, reaches)
	r.reservoir("up", tunnelHead)
	r.pipe("up", "end", tunnelLength, bore, a, math.Max(frictionless, 2*r.network.G()*k*bore/tunnelLength))
	r.network.Devices = append(r.network.Devices, &network.SurgeTank{Name: "tank", Node: "end", Area: tankArea, Bore: bore,
		Overflow: tunnelHead + 50, Bottom: tunnelHead - 50})
	r.reservoir("down", 0)
	r.gate("end", "down", bore, tunnelVelocity, tunnelHead-k*tunnelVelocity*tunnelVelocity, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return t, nil, err
	}
	return t, above(t.head("end"), tunnelHead), nil
}

func elasticTunnel(ctx context.Context) ([]Check, error) {
	const a, gate = 1000.0, 5e-3
	t, z, err := tunnel(ctx, 1200, 100, a, 0)
	if err != nil {
		return nil, err
	}
	down, ends := t.falls(z), t.turns(z)
	if len(down) < 3 || len(ends) < 4 {
		return nil, fmt.Errorf("the level does not swing")
	}
	return []Check{
		ratio("first period", "s", 448.647, down[1]-down[0], gate),
		ratio("second period", "s", 448.647, down[2]-down[1], gate),
		ratio("period against the first mode of the elastic line", "s", firstMode(a, tunnelLength, tunnelArea, tankArea), (down[2]-down[0])/2, 1e-5),
		ratio("first upsurge", "m", 21.4213, ends[0].value, gate),
		ratio("first downsurge", "m", -21.4213, ends[1].value, gate),
		ratio("second upsurge", "m", 21.4213, ends[2].value, gate),
		ratio("second downsurge", "m", -21.4213, ends[3].value, gate),
	}, nil
}

func rigidTunnel(ctx context.Context) ([]Check, error) {
	const gate = 1e-4
	t, z, err := tunnel(ctx, 700, 4, stiff, 0)
	if err != nil {
		return nil, err
	}
	down, ends := t.falls(z), t.turns(z)
	if len(down) < 2 || len(ends) < 2 {
		return nil, fmt.Errorf("the level does not swing")
	}
	return []Check{
		ratio("period", "s", 448.647, down[1]-down[0], gate),
		ratio("upsurge", "m", 21.4213, ends[0].value, gate),
		ratio("downsurge", "m", -21.4213, ends[1].value, gate),
	}, nil
}

func roughTunnel(ctx context.Context) ([]Check, error) {
	const k, gate = 0.5, 5e-3
	t, z, err := tunnel(ctx, 950, 100, 1000, k)
	if err != nil {
		return nil, err
	}
	ends := t.turns(z)
	if len(ends) < 5 {
		return nil, fmt.Errorf("the level does not swing")
	}
	checks := []Check{ratio("level in steady flow", "m", -k*tunnelVelocity*tunnelVelocity, z[0], 1e-6)}
	for i, want := range []turn{{123.05, 18.5324}, {348.37, -14.9038}, {573.36, 12.4666}, {798.17, -10.7158}} {
		got := ends[i+1] // the first is the steady level
		checks = append(checks,
			ratio(fmt.Sprintf("extreme %d", i+1), "m", want.value, got.value, gate),
			ratio("its time", "s", want.time, got.time, gate))
	}
	return checks, nil
}

// cushion swings the gas of an air vessel at the end of a frictionless line, by less than a thousandth of the absolute head, about the state that the case names:
// before the reservoir rises the gas is a little larger.
func cushion(ctx context.Context) ([]Check, error) {
	const (
		length, bore, a, head, n, gas = 1500.0, 0.4, 1000.0, 45.0, 1.2, 4.0
		swing                         = 0.02 // m
	)
	r := newRig(300, 30)
	level := head - r.network.Atmosphere/(r.network.Fluid.Density*r.network.G())
	r.falling("up", network.Level{Time: 0, Head: level - swing}, network.Level{Time: 0, Head: level})
	r.pipe("up", "end", length, bore, a, frictionless)
	r.network.Devices = append(r.network.Devices, &network.AirVessel{Name: "vessel", Node: "end", Volume: 2 * gas,
		Gas: gas * math.Pow(head/(head-swing), 1/n), Polytropic: n, Bore: bore})
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	z := above(t.head("end"), level)
	down := t.falls(z)
	if len(down) < 5 {
		return nil, fmt.Errorf("the head does not swing")
	}
	period, largest := (down[4]-down[0])/4, 0.0
	for _, x := range z {
		largest = math.Max(largest, math.Abs(x))
	}
	return []Check{
		ratio("period, mean of four", "s", 59.909, period, 3e-3),
		ratio("period against the root", "s", firstMode(a, length, area(bore), gas/(n*head)), period, 1e-4),
		within("greatest swing over the absolute head", "1", 0, largest/head, 0.01),
	}, nil
}

// firstMode is the period, s, of the first mode of a frictionless line with wave speed a, m/s, length l, m, and bore area s, m2, between a
// reservoir and a store that takes c m3 per metre of head: the lowest root of (a/(g s)) w c tan(w l/a) = 1.
func firstMode(a, l, s, c float64) float64 {
	lo, hi := 0.0, math.Pi/2*a/l*(1-1e-12)
	for range 100 {
		if w := (lo + hi) / 2; a/(network.Gravity*s)*w*c*math.Tan(w*l/a) < 1 {
			lo = w
		} else {
			hi = w
		}
	}
	return 2 * math.Pi / lo
}

// above is a history from a datum.
func above(series []float64, datum float64) []float64 {
	z := make([]float64, len(series))
	for i, x := range series {
		z[i] = x - datum
	}
	return z
}

// turn is the extreme of a swing.
type turn struct{ time, value float64 }

// turns are the extremes of a history between its passages through zero.
func (t trace) turns(series []float64) []turn {
	var all []turn
	best := turn{}
	for i, x := range series {
		if x*best.value < 0 {
			all = append(all, best)
			best = turn{}
		}
		if math.Abs(x) > math.Abs(best.value) {
			best = turn{t.Time[i], x}
		}
	}
	return all
}

// falls are the times at which a history passes through zero downwards, interpolated.
func (t trace) falls(series []float64) []float64 {
	var all []float64
	for i := 1; i < len(series); i++ {
		if a, b := series[i-1], series[i]; a > 0 && b <= 0 {
			all = append(all, t.Time[i-1]+a/(a-b)*(t.Time[i]-t.Time[i-1]))
		}
	}
	return all
}
