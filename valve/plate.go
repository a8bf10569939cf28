package valve

import "math"

// Plate is the load coefficient of a flat plate that a stream meets at the angle pi/2 - lean - y:
//
//	C(y) = C_stop k(y + lean)/k(y_stop + lean),   k(b) = cos b/(4 + pi cos b)
//
// the normal force of free-streamline theory, pi sin a/(4 + pi sin a) rho V^2 per unit area at incidence a (Lord Rayleigh, "On the
// resistance of fluids", Phil. Mag., 1876, from memory). Outside seat and stop it is constant.
type Plate struct {
	AtStop float64 // C_stop
	Stop   float64 // y_stop, rad
	Lean   float64 // of the shut plate from the perpendicular to the stream, rad
}

// At returns the coefficient and its derivative.
func (p Plate) At(y float64) (c, dc float64) {
	stop, _ := inclined(p.Stop + p.Lean)
	if y <= 0 || y >= p.Stop {
		f, _ := inclined(math.Max(0, math.Min(y, p.Stop)) + p.Lean)
		return p.AtStop * f / stop, 0
	}
	f, df := inclined(y + p.Lean)
	return p.AtStop * f / stop, p.AtStop * df / stop
}

// inclined is k and its derivative at the angle b from the perpendicular.
func inclined(b float64) (k, dk float64) {
	sin, cos := math.Sincos(b)
	d := 4 + math.Pi*cos
	return cos / d, -4 * sin / (d * d)
}

// PlateForce is the normal force of a stream on a plate over its velocity head and the area of the plate, 2 pi sin a/(4 + pi sin a), at
// the angle b = pi/2 - a from the perpendicular, rad (Rayleigh, as above). In a duct it is greater: the stream cannot turn away.
func PlateForce(b float64) float64 {
	k, _ := inclined(b)
	return 2 * math.Pi * k
}
