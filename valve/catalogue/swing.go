package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// swingData are the generic data of one body of swing valve.
type swingData struct {
	mass        float64 // over D^3, kg/m3
	loss        [3]float64
	lossStatus  string
	coefficient float64 // C of valve.MinimumVelocity
	price       float64
}

var swing = family{
	Family: Family{"swing", "disc on a hinge, closed by its weight; full-bore body", swingKeys(), discTables},
	build: swingData{
		mass:        650,
		loss:        [3]float64{0.85, 0.65, 0.60},
		lossStatus:  practice,
		coefficient: 60,
		price:       1,
	}.build,
}

// The heavier body has the mass of class PN 40, times (40/16)^0.4, on the same load: the full-open velocity grows as its square root.
var swingHeavy = family{
	Family: Family{"swing heavy", "swing disc of a heavier class in a body of high loss", swingKeys(), discTables},
	build: swingData{
		mass:        650 * math.Pow(40./16, 0.4),
		loss:        [3]float64{1.7, 1.3, 1.2},
		lossStatus:  "handbook practice (100 f_T), from memory",
		coefficient: 60 * math.Pow(40./16, 0.2),
		price:       1.3,
	}.build,
}

// confinement is the added mass in a valve body over that in the open.
const confinement = 1.25

func swingKeys() []Key {
	return append(discKeys("N·m", "rad", "hinge friction"),
		Key{"disc diameter", "m", "diameter of the disc", 0.01, 3},
		Key{"arm", "m", "hinge to disc centre", 1e-3, 3},
		Key{"seat angle", "rad", "inclination of the seat from the perpendicular, pressing the shut disc", 0, 0.8},
		Key{"counterweight", "kg", "mass on an outside lever parallel to the arm", 0, 1e5},
		Key{"counterweight arm", "m", "lever of the counterweight, positive where it helps to close", -5, 5},
	)
}

func (g swingData) build(d *draft) (valve.Valve, error) {
	size := d.spec.Size
	s := valve.Swing{Body: d.body(bySize(size, g.loss[0], g.loss[1], g.loss[2]), g.lossStatus, "hinge friction")}
	s.DiscMass = d.take("moving mass", mass(g.mass, size), valve.Catalogue, practice)
	s.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
	s.DiscDiameter = d.take("disc diameter", 1.1*s.Bore, valve.Catalogue, guess)
	s.Arm = d.take("arm", 0.6*s.Bore, valve.Catalogue, practice)
	s.Travel = d.take("travel", 65*math.Pi/180, valve.Catalogue, guess+", 60-70°")
	s.SeatAngle = d.take("seat angle", 5*math.Pi/180, valve.Default, guess+", 0-10°")
	s.LiquidMass = d.take("added mass", confinement*valve.SwingLiquidMass(s.Density, s.DiscDiameter, s.Arm), valve.Estimated, "potential flow in the open, from memory, times 1.25 for the body, 1-1.5, "+guess)

	// The load of the open body is that of its plain disc in a level pipe.
	plain := s
	plain.Slope = 0
	plain.FullOpenVelocity = valve.MinimumVelocity(g.coefficient, s.Density)
	s.LoadOpen = plain.LoadCoefficient()
	s.Preload = d.take("preload", 0, valve.Default, "no spring")
	s.SpringRate = d.take("spring rate", 0, valve.Default, "no spring")
	s.Counterweight = d.take("counterweight", 0, valve.Default, "none")
	s.CounterweightArm = d.take("counterweight arm", 0, valve.Default, "none")
	if d.given("full-open velocity") {
		if len(s.LoadTable.Value) > 0 {
			return valve.Valve{}, fmt.Errorf("%w: full-open velocity and load table say the same; give one of them", ErrValue)
		}
		s.FullOpenVelocity = d.take("full-open velocity", 0, valve.Given, "")
	}

	l, err := s.Law()
	if err != nil {
		return valve.Valve{}, err
	}
	if !d.given("full-open velocity") {
		status := fmt.Sprintf("C = %.0f in a level pipe, from memory, with the given slope, spring and weights", g.coefficient)
		if len(s.LoadTable.Value) > 0 {
			status = fromGiven
		}
		d.record("full-open velocity", l.FullOpenVelocity(), valve.Estimated, status)
	}
	return d.finish(l, s.Bore, s.Arm+s.DiscDiameter/2, g.price), nil
}
