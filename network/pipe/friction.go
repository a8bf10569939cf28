package pipe

import "math"

// Bounds of the Reynolds number between which the flow is neither laminar nor
// turbulent.
const (
	laminarTo     = 2000
	turbulentFrom = 4000
)

// FrictionFactor returns the Darcy friction factor at Reynolds number re, of
// either sign, and relative roughness k/D; see the package comment. Below
// |re| = 1 it stays at 64, so that f V|V| is zero and not undefined at rest; |re|
// is taken up to 1e15 and roughness within 0..0.1. The Colebrook-White law is
// solved to 1e-12.
func FrictionFactor(re, relRough float64) float64 {
	re = min(max(math.Abs(re), 1), 1e15)
	relRough = min(max(relRough, 0), 0.1)
	switch {
	case re <= laminarTo:
		return 64 / re
	case re >= turbulentFrom:
		return colebrook(re, relRough)
	}
	s := (re - laminarTo) / (turbulentFrom - laminarTo)
	w := s * s * (3 - 2*s)
	return (1-w)*64/re + w*colebrook(re, relRough)
}

// colebrook solves g(x) = x + 2 log10(a + b x) = 0 for x = 1/sqrt(f) by Newton's
// method. g rises and is concave, so that after the first step the iterates rise
// to the root and every one has a positive argument.
func colebrook(re, relRough float64) float64 {
	a, b := relRough/3.7, 2.51/re
	x := -1.8 * math.Log10(math.Pow(a, 1.11)+6.9/re) // Haaland, J. Fluids Eng. 105 (1983) 89-90
	for range 20 {
		y := a + b*x
		dx := (x + 2*math.Log10(y)) / (1 + 2*b/(math.Ln10*y))
		x -= dx
		if math.Abs(dx) <= 1e-12*x {
			break
		}
	}
	return 1 / (x * x)
}
