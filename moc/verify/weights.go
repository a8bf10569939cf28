package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/moc/kernel"
)

func weights() []Case {
	return []Case{
		{"U1", Formula, "W. Zielke, Frequency-dependent friction in transient pipe flow, J. Basic Eng. 90, 1968 (from memory); exact values by 30 zeros of J2, calculated independently", zielkeChecks},
		{"U2", Formula, "A. E. Vardy, J. M. B. Brown, Transient turbulent friction in smooth pipe flows, J. Sound Vib. 259, 2003 (from memory, recalculated)", decayRates},
		{"U3", Formula, "A. E. Vardy, J. M. B. Brown, On turbulent, unsteady, smooth-pipe friction, 7th Int. Conf. on Pressure Surges, 1996 (from memory, recalculated)", shearDecays},
	}
}

// The weights depend on the dimensionless time alone, whatever the pipe.
const (
	anyViscosity = 1e-6 // m2/s
	anyBore      = 0.1  // m
)

func zielkeChecks(context.Context) ([]Check, error) {
	w := kernel.Zielke(anyViscosity, anyBore)
	var checks []Check
	for _, c := range []struct{ tau, w float64 }{{0.001, 7.7049}, {0.005, 2.819041}, {0.010, 1.686457}, {0.020, 0.913967}, {0.050, 0.297603}, {0.100, 0.072382}, {0.200, 0.005119}} {
		checks = append(checks, ratio(fmt.Sprintf("W at tau = %g", c.tau), "1", c.w, w.At(c.tau), 5e-4))
	}
	jump := 0.0
	for _, tau := range []float64{0.01, 0.02} { // where one series may give way to the other
		jump = math.Max(jump, math.Abs(w.At(tau*(1+1e-9))/w.At(tau*(1-1e-9))-1))
	}
	return append(checks, within("greatest jump of W at tau = 0.01 and 0.02, over W", "1", 0, jump, 3e-4)), nil
}

// decayRates take B from W = A exp(-B tau)/sqrt(tau) at two times.
func decayRates(context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct{ re, b float64 }{{1e4, 526.2}, {1e5, 2484.8}, {1e6, 9036.6}} {
		w := kernel.VardyBrown(anyViscosity, anyBore, c.re)
		scaled := func(tau float64) float64 { return w.At(tau) * math.Sqrt(tau) }
		const early, late = 1e-5, 2e-4
		b := math.Log(scaled(early)/scaled(late)) / (late - early)
		at := fmt.Sprintf("at Re = %g", c.re)
		checks = append(checks,
			ratio("decay rate of W "+at, "1", c.b, b, 1e-3),
			ratio("scale of W "+at, "1", 0.282095, scaled(early)*math.Exp(b*early), 1e-3))
	}
	return checks, nil
}

func shearDecays(context.Context) ([]Check, error) {
	checks := []Check{
		ratio("shear decay coefficient, laminar", "1", 0.00476, kernel.LaminarDecay, 1e-3),
		ratio("acceleration coefficient, laminar", "1", 0.034496, float64(kernel.AccelerationAt(1000)), 1e-3),
	}
	for _, c := range []struct{ re, decay float64 }{{1870, 0.0042169}, {3750, 0.0023950}, {5600, 0.0017452}, {1e4, 0.0011181}, {1e5, 2.2036e-4}, {1e6, 5.4677e-5}, {1e7, 1.7079e-5}} {
		at := fmt.Sprintf(" at Re = %g", c.re)
		checks = append(checks, ratio("shear decay coefficient, turbulent,"+at, "1", c.decay, kernel.ShearDecay(c.re), 1e-3))
		if c.re >= 2000 { // below, the flow counts as laminar
			checks = append(checks, ratio("acceleration coefficient sqrt(C)/2"+at, "1", math.Sqrt(c.decay)/2, float64(kernel.AccelerationAt(c.re)), 1e-3))
		}
	}
	return checks, nil
}
