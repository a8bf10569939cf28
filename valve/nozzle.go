package valve

// Nozzle is a spring-closed solid disc. In a streamlined body the least flow area lies behind the open disc, which gives a
// high load at a low loss (Botros, nozzle check valve springs, ASME GT2011, abstract read); a compact body costs more.
type Nozzle struct {
	Body
	DiscMass    float64 // kg
	DiscDensity float64 // kg/m3
	LiquidMass  float64 // kg
	Travel      float64 // s, m
	Spring      Spring
	Force       float64 // C_F of the open disc
}

// Law is the solid disc's law of motion.
func (n Nozzle) Law() (*Law, error) {
	return disc(n.Body, 0, n.DiscMass, n.DiscDensity, n.LiquidMass, n.Travel, n.Spring, n.Force).law()
}
