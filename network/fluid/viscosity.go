package fluid

import "math"

// Coefficients of tables 1 and 2 of IAPWS R12-08; viscosity1 is indexed by the
// powers of 1/T and of rho.
var (
	viscosity0 = [4]float64{1.67752, 2.20462, 0.6366564, -0.241605}
	viscosity1 = [6][7]float64{
		{5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0, 0},
		{8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0, 0, 0},
		{-1.08374, 1.88797, -7.72479e-1, 0, 0, 0, 0},
		{-2.89555e-1, 1.26613, -4.89837e-1, 0, 6.98452e-2, 0, -4.35673e-3},
		{0, 0, -2.57040e-1, 0, 0, 8.72102e-3, 0},
		{0, 1.20573e-1, 0, 0, 0, 0, -5.93264e-4},
	}
)

// viscosity returns the dynamic viscosity of water, Pa s, at T, K, and density
// rho, kg/m3: equations (11) and (12) of IAPWS R12-08.
func viscosity(T, rho float64) float64 {
	t, d := T/647.096, rho/322
	sum, power := 0.0, 1.0
	for _, h := range viscosity0 {
		sum += h * power
		power /= t
	}
	mu0 := 100 * math.Sqrt(t) / sum

	sum, power = 0.0, 1.0
	for i := range viscosity1 {
		inner, factor := 0.0, 1.0
		for _, h := range viscosity1[i] {
			inner += h * factor
			factor *= d - 1
		}
		sum += power * inner
		power *= 1/t - 1
	}
	return 1e-6 * mu0 * math.Exp(d*sum)
}
