package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// swingData are the generic data of one body of swing valve.
type swingData struct {
	class       float64 // PN
	loss        [3]float64
	lossSpread  float64
	lossStatus  string
	coefficient float64 // C of valve.MinimumVelocity at PN 16; the mass of a heavier class on the same load raises the velocity as its root
	price       float64
	addition    func(*draft, *valve.Swing) error // what stands outside the body
}

// lightSwing is the full-bore body.
var lightSwing = swingData{class: 16, loss: [3]float64{0.85, 0.65, 0.60}, lossSpread: generic, lossStatus: practice, coefficient: 60, price: 1, addition: bare}

var swing = family{
	Family: Family{"swing", "disc on a hinge, closed by its weight; full-bore body", swingKeys(), discTables},
	build:  lightSwing.build,
}

var swingHeavy = family{
	Family: Family{"swing heavy", "swing disc of a heavier class in a body of high loss", swingKeys(), discTables},
	build: swingData{
		class:       40,
		loss:        [3]float64{1.7, 1.3, 1.2},
		lossSpread:  0.3,
		lossStatus:  "handbook practice (100 f_T), " + memory,
		coefficient: 60,
		price:       1.3,
		addition:    bare,
	}.build,
}

func swingKeys() []Key {
	return append(hingedKeys(),
		Key{"disc diameter", "m", "diameter of the disc", 0.01, 3},
		Key{"arm", "m", "hinge to disc centre", 1e-3, 3},
		Key{"counterweight", "kg", "mass on an outside lever parallel to the arm", 0, 1e5},
		Key{"counterweight arm", "m", "lever of the counterweight, positive where it helps to close", -5, 5},
	)
}

func (g swingData) build(d *draft) (valve.Valve, error) {
	size := d.spec.Size
	s := valve.Swing{Body: d.body(bySize(size, g.loss[0], g.loss[1], g.loss[2]), g.lossSpread, g.lossStatus, "hinge friction")}
	heavier := d.class(g.class)
	s.DiscMass = d.about(generic, "moving mass", heavier*mass(650, size), valve.Catalogue, practice)
	s.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
	s.DiscDiameter = d.about(0.05, "disc diameter", 1.1*s.Bore, valve.Catalogue, practice)
	s.Arm = d.about(0.1, "arm", 0.6*s.Bore, valve.Catalogue, practice)
	s.Travel = d.about(0.08, "travel", 65*math.Pi/180, valve.Catalogue, practice)
	s.SeatAngle = d.about(1, "seat angle", 5*math.Pi/180, valve.Default, practice)
	s.LiquidMass = d.about(0.2, "added mass", confinement*valve.SwingLiquidMass(s.Density, s.DiscDiameter, s.Arm), valve.Estimated, confined)

	// The load of the open body is that of its plain disc, free of friction, in a level pipe.
	plain := s
	plain.Slope, plain.Friction = 0, 0
	plain.FullOpenVelocity = valve.MinimumVelocity(g.coefficient, s.Density) * math.Sqrt(heavier)
	s.LoadOpen = plain.LoadCoefficient()
	if err := g.addition(d, &s); err != nil {
		return valve.Valve{}, err
	}
	var err error
	if s.FullOpenVelocity, err = d.opensAt(s.Body); err != nil {
		return valve.Valve{}, err
	}
	l, err := s.Law()
	if err != nil {
		return valve.Valve{}, err
	}
	d.opened(l, fmt.Sprintf("C = %.0f in a level pipe, %s, with the given slope, spring and weights", g.coefficient*math.Sqrt(heavier), memory))
	return d.finish(l, s.Bore, s.Arm+s.DiscDiameter/2, g.price), nil
}

// bare is a disc with nothing outside its body.
func bare(d *draft, s *valve.Swing) error {
	s.Preload = d.take("preload", 0, valve.Default, "no spring")
	s.SpringRate = d.take("spring rate", 0, valve.Default, "no spring")
	s.Counterweight = d.take("counterweight", 0, valve.Default, "none")
	s.CounterweightArm = d.take("counterweight arm", 0, valve.Default, "none")
	return nil
}
