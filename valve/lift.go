package valve

import "math"

// Lift is a guided disc or piston that rises from a seat across the bore, closed by its weight and, where fitted, a spring. Its path
// stands across the pipe in a body in which the flow turns twice (psi = 90 degrees, the loss of a globe valve), or leans:
//
//	closing force = m g (1 - rho/rho_s) sin(psi + phi) + F_0 + k y
//	curtain area ratio = 4 y/D: a travel of D/4 opens the full bore
//
// With psi = 90 degrees the weight presses the disc on its seat in a level pipe and not at all in a vertical one, where a spring has
// to close it.
type Lift struct {
	Body
	DiscMass    float64 // kg
	DiscDensity float64 // kg/m3
	LiquidMass  float64 // kg
	PathAngle   float64 // psi, rad
	Travel      float64 // s, m
	Spring      Spring
	Force       float64 // C_F of the open disc
}

// Law is the lifting disc's law of motion.
func (l Lift) Law() (*Law, error) {
	a := disc(l.Body, 0, l.DiscMass, l.DiscDensity, l.LiquidMass, l.Travel, l.Spring, l.Force)
	a.path = l.PathAngle
	a.needs = "a spring, or a pipe nearer to level"
	if l.PathAngle < math.Pi/4 {
		a.needs = "a spring, or a rising pipe"
	}
	return a.law()
}
