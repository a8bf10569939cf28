package fluid

import "fmt"

// Bounds of region 1 of IF97.
const (
	minTemperature = 273.15 // K
	maxTemperature = 623.15 // K
	maxPressure    = 100e6  // Pa
)

// Water returns liquid water at temperature T, K, and absolute pressure p, Pa,
// for 273.15 <= T <= 623.15 and saturation <= p <= 100 MPa. The error wraps
// ErrRange.
func Water(T, p float64) (Fluid, error) {
	if !(T >= minTemperature && T <= maxTemperature) {
		return Fluid{}, fmt.Errorf("%w: water at %g K (liquid water is covered from %g to %g K)", ErrRange, T, minTemperature, maxTemperature)
	}
	if !(p <= maxPressure) {
		return Fluid{}, fmt.Errorf("%w: water at %g Pa (covered up to %g Pa absolute)", ErrRange, p, maxPressure)
	}
	pv := saturationPressure(T)
	if p < pv {
		return Fluid{}, fmt.Errorf("%w: water at %g K boils below %.6g Pa absolute, and the pressure is %g Pa (is it a gauge pressure?)", ErrRange, T, pv, p)
	}
	g := region1(T, p)
	rho, w := g.density(), g.soundSpeed()
	return Fluid{
		Name:           "water",
		Temperature:    T,
		Density:        rho,
		BulkModulus:    rho * w * w,
		Viscosity:      viscosity(T, rho),
		VapourPressure: pv,
	}, nil
}
