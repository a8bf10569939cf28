package pump

import "gonum.org/v1/gonum/interp"

// cubic is a piecewise cubic with continuous slope, constant outside its knots.
type cubic []piece

// piece is the polynomial from its knot x to the next, in powers of the distance
// from the knot.
type piece struct{ x, a, b, c, d float64 }

// fit returns the monotone cubic of Fritsch and Butland through the points; x
// increases strictly. A single point gives a constant.
func fit(x, y []float64) cubic {
	n := len(x)
	pieces := make(cubic, 0, n+1)
	pieces = append(pieces, piece{x: x[0], a: y[0]})
	if n > 1 {
		var fb interp.FritschButland
		_ = fb.Fit(x, y) // never an error: it panics on what validate refuses
		for i := range n - 1 {
			dx := x[i+1] - x[i]
			m, s0, s1 := (y[i+1]-y[i])/dx, fb.PredictDerivative(x[i]), fb.PredictDerivative(x[i+1])
			pieces = append(pieces, piece{x[i], y[i], s0, (3*m - 2*s0 - s1) / dx, (s0 + s1 - 2*m) / (dx * dx)})
		}
	}
	return append(pieces, piece{x: x[n-1], a: y[n-1]})
}

// at returns value and slope at x. The search is linear: pump curves have few
// points.
func (c cubic) at(x float64) (y, dy float64) {
	i := 1
	for i < len(c) && c[i].x <= x {
		i++
	}
	k := &c[i-1]
	u := x - k.x
	return k.a + u*(k.b+u*(k.c+u*k.d)), k.b + u*(2*k.c+u*3*k.d)
}
