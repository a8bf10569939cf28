package valve

import "math"

// SeatConductance is the conductance of a seat on the velocity of the bore, that leaks in its test with cold water by rate, mm3/s per mm of nominal
// bore, behind a valve of nominal bore d, m, and pressure class pn, bar. The test pressure is 1.1 times that of the class (ISO 5208, from memory):
//
//	g = v sqrt(rho/(2 dp)),   v = 1e-6 rate d/(pi d^2/4),   dp = 1.1 pn,   rho = 1000 kg/m3
//
// The leak is taken as a small opening, whose flow goes with the root of the pressure drop; a film between faces leaks in proportion to it,
// less below the test pressure. Not covered: a disc that the pressure presses on its seat may leak more at a low back pressure, where the faces do not yet close on
// each other (common practice; tests at low pressure are separate).
func SeatConductance(rate, d, pn float64) float64 {
	v := 1e-6 * rate * d / (math.Pi / 4 * d * d)
	return v * math.Sqrt(1000/(2*1.1e5*pn))
}
