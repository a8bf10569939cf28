package fluid

import "math"

// table34 holds the coefficients n_1..n_10 of table 34 of IAPWS R7-97.
var table34 = [10]float64{
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
}

// saturationPressure returns the vapour pressure of water, Pa absolute, at T, K,
// within 273.15..647.096: equation (30) of IAPWS R7-97.
func saturationPressure(T float64) float64 {
	n := &table34
	theta := T + n[8]/(T-n[9])
	A := theta*theta + n[0]*theta + n[1]
	B := n[2]*theta*theta + n[3]*theta + n[4]
	C := n[5]*theta*theta + n[6]*theta + n[7]
	return 1e6 * math.Pow(2*C/(-B+math.Sqrt(B*B-4*A*C)), 4)
}
