package verify

import (
	"context"
	"fmt"

	"seatwise/valve"
)

func sizing() []Case {
	return []Case{
		{"V1", Formula, "handbook rule V = C sqrt(v), ft/s and ft3/lb (from memory), converted to SI", minimumVelocities},
		{"V2", Formula, "closed form, derived: loss coefficient from the flow at 1 bar", flowCoefficients},
		{"V3", Formula, "H. Lamb, Hydrodynamics: added mass of a thin disc, 8/3 rho R^3 broadside and 16/45 rho R^5 about its diameter (from memory)", addedMasses},
	}
}

func minimumVelocities(context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct{ c, v float64 }{{30, 1.158}, {35, 1.351}, {40, 1.544}, {48, 1.853}, {55, 2.124}, {60, 2.317}, {80, 3.089}, {100, 3.861}, {140, 5.406}} {
		checks = append(checks, within(fmt.Sprintf("least velocity in water, C %g", c.c), "m/s", c.v, valve.MinimumVelocity(c.c, 998.2), 6e-4))
	}
	return append(checks, within("least velocity in a gas of 40 kg/m3, C 60", "m/s", 11.57, valve.MinimumVelocity(60, 40), 6e-3)), nil
}

func flowCoefficients(context.Context) ([]Check, error) {
	kv := valve.KvFromZeta(0.3, 1)
	return []Check{
		ratio("Kv of DN300 with a loss coefficient of 1", "m3/h", 3599, kv, 2e-4),
		within("loss coefficient back from it", "1", 1, valve.ZetaFromKv(0.3, kv), 1e-12),
		ratio("loss coefficient of DN100 and Kv 200, 1.599e-3 D^4/Kv^2", "1", 1.599e-3*1e8/4e4, valve.ZetaFromKv(0.1, 200), 5e-4),
	}, nil
}

func addedMasses(context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct{ d, kg float64 }{{0.1, 0.333}, {0.3, 9.0}, {0.6, 72}} {
		checks = append(checks, ratio(fmt.Sprintf("added mass of a free disc of %g m", c.d), "kg", c.kg, valve.DiscLiquidMass(1000, c.d), 2e-3))
	}
	return append(checks, ratio("added inertia of a disc of 0.33 m on an arm of 0.18 m", "kg m2", 0.431603, valve.SwingLiquidMass(1000, 0.33, 0.18)*0.18*0.18, 2e-6)), nil
}
