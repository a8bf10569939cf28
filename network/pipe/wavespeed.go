package pipe

import (
	"math"

	"seatwise/network/fluid"
)

// thinFrom is the ratio of bore to wall from which a wall counts as thin.
const thinFrom = 25

// GasContent is free gas in the liquid. The zero value is none.
type GasContent struct {
	Fraction float64 // by volume, below 1
	Pressure float64 // of the gas, Pa absolute; needed with a fraction
}

// WaveSpeed returns the wave speed in a full pipe, m/s; bore and wall in m, both
// above zero. The wall is taken as thick when bore/wall < 25.
func WaveSpeed(f fluid.Fluid, bore, wall float64, m Material, r Restraint, gas GasContent) float64 {
	return WallWaveSpeed(f, bore, wall, m.Young, r.factor(bore, wall, m.Poisson), gas)
}

// Stretch returns c1 D/e, dimensionless: of a pressure p, Pa, and the compliance J of the wall, 1/Pa, the bore area grows by the fraction
// (c1 D/e) J p. Bore and wall in m, both above zero; the wall is taken as in [WaveSpeed].
func Stretch(bore, wall float64, m Material, r Restraint) float64 {
	return r.factor(bore, wall, m.Poisson) * bore / wall
}

// WallWaveSpeed returns the wave speed, m/s, for a given restraint factor c1 and
// Young's modulus of the wall, Pa, +Inf for a rigid wall.
func WallWaveSpeed(f fluid.Fluid, bore, wall, young, c1 float64, gas GasContent) float64 {
	K, rho := f.BulkModulus, f.Density
	if phi := gas.Fraction; phi > 0 {
		K = 1 / ((1-phi)/K + phi/gas.Pressure)
		rho *= 1 - phi
	}
	return math.Sqrt(K / rho / (1 + K/young*(bore/wall)*c1))
}
