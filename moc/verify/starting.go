package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/valve"
)

func starting() []Case {
	const source = "closed form, derived: at no flow the head goes with the square of the speed (affinity), so that the valve opens at N/Nr = sqrt(h/H0), h the head behind it and what holds the disc on its seat"
	return []Case{
		{"N1", System, source, startAlone},
		{"N2", System, source + "; a unit started beside a running one", startBeside},
	}
}

const (
	startAt   = 1.0  // s
	startOver = 4.0  // s, from rest to rated speed
	shutOff   = 66.0 // m
)

// lift is a station of so many units between a sump at head 0 and a tower, the last of them at rest; it starts in the run.
func lift(units int, tower, until float64, v func(density float64) valve.Valve) *rig {
	const bore, h = 0.25, 1.0 / 3600
	r := newRig(until, 100)
	r.settings.ReachesAtValve = 20
	r.reservoir("sump", 0)
	r.network.Stations = append(r.network.Stations, network.Station{Name: "lift", From: "sump", To: "header", Units: units, Stopped: 1,
		Pump: pump.Spec{Flow: 430 * h, Head: 52, Speed: 1480 * math.Pi / 30, Efficiency: 0.81, Inertia: 2.2,
			Curve: []pump.Point{{Head: shutOff}, {Flow: 215 * h, Head: 62}, {Flow: 430 * h, Head: 52}, {Flow: 600 * h, Head: 39}}}})
	r.valves = append(r.valves, v(r.network.Fluid.Density))
	r.pipe("header", "tower", 200, bore, 1000, 0.02)
	r.reservoir("tower", tower)
	r.events = append(r.events, network.Event{Kind: network.Start, Target: "lift", Units: 1, Time: startAt, Over: startOver})
	return r
}

// opens checks the start of the last unit against a head behind its valve, m.
func (t trace) opens(at string, behind, held float64) ([]Check, error) {
	u := t.Units[len(t.Units)-1]
	first := -1
	for i, y := range u.Opening {
		if y > 0 {
			first = i
			break
		}
	}
	if first < 1 {
		return nil, fmt.Errorf("the valve does not open after rest")
	}
	ratioAt := math.Sqrt((behind + held) / shutOff)
	leaked, affine := 0.0, 0.0
	for i := range first {
		leaked = math.Max(leaked, math.Abs(u.Flow[i]))
		w := math.Min(math.Max(0, (t.Time[i]-startAt)/startOver), 1)
		affine = math.Max(affine, math.Abs(u.HeadUp[i]-shutOff*w*w))
	}
	return []Check{
		within("opening of the check valve, to the step, "+at, "s", startAt+startOver*ratioAt, t.Time[first], 1.001*t.Numerics.Step),
		within("greatest deviation of the pump's head from H0 (N/Nr)^2 before, "+at, "m", 0, affine, 1e-9*shutOff),
		within("greatest flow through the shut valve, "+at, "m3/s", 0, leaked, 1e-12),
	}, nil
}

func ideal(rho float64) valve.Valve {
	return valve.Valve{Name: "ideal", Bore: 0.25, Density: rho, Motion: &valve.Ideal{Loss: 1, Density: rho}, Travel: 1}
}

func startAlone(ctx context.Context) ([]Check, error) {
	const preload, seat = 1000.0, 0.05 // N, m2
	sprung := func(rho float64) valve.Valve {
		return valve.Valve{Name: "sprung", Bore: 0.25, Density: rho, Travel: 0.06, Motion: &valve.Law{Travel: 0.06, Inertia: 17, Area: seat, Arm: 1, Density: rho,
			Conductance: valve.Polynomial{0, 10}, Load: valve.Constant(1), Sweep: valve.Constant(1), Weight: valve.Constant(0), Preload: preload}}
	}
	var checks []Check
	for _, c := range []struct {
		place         string
		behind, force float64
		valve         func(float64) valve.Valve
	}{
		{"10 m behind it", 10, 0, ideal},
		{"30 m behind it", 30, 0, ideal},
		{"50 m behind it", 50, 0, ideal},
		{"30 m behind it and a spring of 1 kN on a seat of 0.05 m2", 30, preload, sprung},
	} {
		r := lift(1, c.behind, 6, c.valve)
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		found, err := t.opens(c.place, c.behind, c.force/seat/(r.network.Fluid.Density*r.network.G()))
		if err != nil {
			return nil, err
		}
		checks = append(checks, found...)
	}
	return checks, nil
}

func startBeside(ctx context.Context) ([]Check, error) {
	t, err := lift(2, 40, 30, ideal).run(ctx)
	if err != nil {
		return nil, err
	}
	checks, err := t.opens("beside a running unit", t.head("header")[0], 0)
	if err != nil {
		return nil, err
	}
	last := len(t.Time) - 1
	return append(checks, ratio("flow of the started unit against the other's in the end", "m3/s", t.Units[0].Flow[last], t.Units[1].Flow[last], 1e-6)), nil
}
