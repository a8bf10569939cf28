package verify

import (
	"context"
	"fmt"

	"seatwise/network"
	"seatwise/valve"
)

func slams() []Case {
	return []Case{{"D8", System, "closed form, derived: a valve that shuts at a reverse velocity V raises the pressure by rho a V (Joukowsky 1898)", slamChecks}}
}

// slamChecks run a valve that shuts at a given reverse velocity, with pipes on both sides; the upstream head falls slowly enough to make the change within the
// step of the closure small.
func slamChecks(ctx context.Context) ([]Check, error) {
	const a, g, rho, bore, level = 1200.0, 9.81, 998.2, 0.25, 200.0
	var checks []Check
	for _, c := range []struct{ v, kPa, head float64 }{{0.3, 359.4, 36.70}, {0.15, 179.7, 18.35}} {
		const lost = 0.5
		r := newRig(2, 100)
		r.settings.ReachesAtValve = 100
		r.network.Gravity = g
		r.falling("up", network.Level{Time: 0, Head: level + lost}, network.Level{Time: 2, Head: level + lost - 8})
		r.pipe("up", "inlet", 12, bore, a, frictionless)
		loss := lost * 2 * g // 1 m/s in steady flow
		r.valve("check-valve", "inlet", "outlet", valve.Valve{Name: "shuts late", Bore: bore, Density: rho, Motion: &valve.Ideal{Loss: loss, Density: rho, ClosesAt: c.v}, Travel: 1})
		r.pipe("outlet", "down", 12, bore, a, frictionless)
		r.reservoir("down", level)
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		u := t.Units[0]
		if len(u.Seatings) == 0 {
			return nil, fmt.Errorf("the valve did not shut")
		}
		s := u.Seatings[0]
		i := int(s.Time / t.Numerics.Step)
		checks = append(checks,
			within("velocity at which it shuts", "m/s", -c.v, s.Velocity, 1e-9),
			ratio("head jump at the downstream face, a V/g", "m", a*c.v/g, s.Rise, 1e-6),
			ratio("pressure jump at the downstream face, as printed", "kPa", c.kPa, rho*g*s.Rise/1e3, 2e-4),
			ratio("the upstream face falls by the same", "m", -c.head, u.HeadUp[i+1]-u.HeadUp[i], 1e-3),
		)
	}
	return checks, nil
}
