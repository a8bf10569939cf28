package valve

import "math"

// dashpotDischarge is Cd of the orifice in a dashpot (sharp edge, common practice).
const dashpotDischarge = 0.6

// Dashpot is the coefficient c_d, N·m·s2/rad2, of a piston that drives oil through an orifice: with the piston area A_p at the arm r, the
// orifice area A_o, and the density of the oil
//
//	Q = A_p r w = Cd A_o sqrt(2 p/rho_oil),   moment = p A_p r
//	c_d = rho_oil A_p^3 r^3/(2 Cd^2 A_o^2)
//
// Oil density in kg/m3, diameters and arm in m. The arm is taken as constant over the last part of the travel, and the oil as
// turbulent in the orifice.
func Dashpot(oil, piston, arm, orifice float64) float64 {
	ap, ao := math.Pi/4*piston*piston, math.Pi/4*orifice*orifice
	return oil * math.Pow(ap*arm, 3) / (2 * dashpotDischarge * dashpotDischarge * ao * ao)
}
