package verify

import (
	"context"
	"fmt"

	"seatwise/valve"
	"seatwise/valve/catalogue"
)

func leaks() []Case {
	return []Case{{"D16", Disc, "closed form: orifice, Q = Cd A sqrt(2 dp/rho); the size of the leak is that of secondary sources on API Standard 521 for a seated valve, an orifice of a tenth of the nominal diameter", seatLeak}}
}

// seatLeak drives 20 bar back through the seat of a DN300 swing valve whose leak is an orifice of 30 mm with a discharge coefficient of 0.62: as a fraction of the
// bore's area 0.62 times a hundredth.
func seatLeak(context.Context) ([]Check, error) {
	const bore, cd, rho, back = 0.3, 0.62, 998.2, 20e5
	v, err := catalogue.Complete(valve.Spec{Name: "leaky", Type: "swing", Size: bore, Set: map[string]float64{"leak": cd * 0.01}}, catalogue.Setting{Density: rho, Gravity: 9.80665})
	if err != nil {
		return nil, err
	}
	law, ok := v.Motion.(*valve.Law)
	if !ok {
		return nil, fmt.Errorf("a swing valve has no law of motion")
	}
	law.Laminar = 1e-6 // the orifice has no laminar part
	residual := func(u float64) float64 { return law.Advance(valve.State{Contact: valve.Seated}, 1e-3, u, -back).R }
	lo, hi := -10.0, 0.0
	for range 100 {
		if mid := (lo + hi) / 2; residual(mid)*residual(lo) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return []Check{ratio("leak through the seat at 20 bar", "m3/s", 0.027742, -hi*area(bore), 1e-3)}, nil
}
