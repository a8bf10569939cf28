package valve

import "fmt"

// AxialSpring is a spring-closed ring disc in a compact body. Its two edges open the gap within a short travel.
type AxialSpring struct {
	Body
	RingRatio   float64 // beta, inner over outer diameter
	DiscMass    float64 // kg
	DiscDensity float64 // kg/m3
	LiquidMass  float64 // kg
	Travel      float64 // s, m
	Spring      Spring
	Force       float64 // C_F of the open disc
}

// Law is the ring disc's law of motion.
func (a AxialSpring) Law() (*Law, error) {
	if !(a.RingRatio >= 0 && a.RingRatio < 1) {
		return nil, fmt.Errorf("%w: ratio of ring diameters = %g must be from 0 to below 1", ErrLaw, a.RingRatio)
	}
	return disc(a.Body, a.RingRatio, a.DiscMass, a.DiscDensity, a.LiquidMass, a.Travel, a.Spring, a.Force).law()
}
