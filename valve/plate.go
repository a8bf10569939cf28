package valve

import "math"

// Plate is the load coefficient of a flat plate that a stream meets at the angle pi/2 - y:
//
//	C(y) = C_stop k(y)/k(y_stop),   k = cos y/(4 + pi cos y)
//
// the normal force of free-streamline theory, pi sin a/(4 + pi sin a) rho V^2 per unit area at incidence a (Lord Rayleigh, "On the
// resistance of fluids", Phil. Mag., 1876, from memory). Outside seat and stop it is constant.
type Plate struct {
	AtStop float64 // C_stop
	Stop   float64 // y_stop, rad
}

// At returns the coefficient and its derivative.
func (p Plate) At(y float64) (c, dc float64) {
	k := func(y float64) (f, df float64) {
		sin, cos := math.Sincos(y)
		d := 4 + math.Pi*cos
		return cos / d, -4 * sin / (d * d)
	}
	stop, _ := k(p.Stop)
	if y <= 0 || y >= p.Stop {
		f, _ := k(math.Max(0, math.Min(y, p.Stop)))
		return p.AtStop * f / stop, 0
	}
	f, df := k(y)
	return p.AtStop * f / stop, p.AtStop * df / stop
}
