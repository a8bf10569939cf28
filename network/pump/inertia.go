package pump

import "math"

// EstimateInertia returns the moments of inertia, kg m2, to expect of a pump with
// its shaft and entrained water and of its motor, from the rated shaft power, W,
// and speed, rad/s, both above zero:
//
//	pump  = 1.5e7 (P/N^3)^0.9556    motor = 118 (P/N)^1.48    P in kW, N in rpm
//
// Real machines scatter by a factor of about 2 either way. Source: Thorley,
// Fluid Transients in Pipeline Systems, 2nd ed. 2004 (from memory).
func EstimateInertia(power, speed float64) (pump, motor float64) {
	P, N := power/1e3, speed*30/math.Pi
	return 1.5e7 * math.Pow(P/(N*N*N), 0.9556), 118 * math.Pow(P/N, 1.48)
}
