package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// tiltingData are the generic data of one body of tilting-disc valve. Open, its disc stands at an angle of 5 or 15 degrees to the flow:
// the steeper one costs more and is held by less flow.
type tiltingData struct {
	loss        [3]float64
	terms       string
	coefficient float64 // C of valve.MinimumVelocity
	open        float64 // degrees to the flow
}

var tiltingDisc = family{
	Family: Family{"tilting disc", "disc with its pin inside the bore; open at 5° to the flow", tiltingKeys(), discTables},
	build:  tiltingData{loss: [3]float64{0.7, 0.4, 0.24}, terms: "40, 30, 20 f_T", coefficient: 80, open: 5}.build,
}

var tiltingSteep = family{
	Family: Family{"tilting disc steep", "disc with its pin inside the bore; open at 15° to the flow", tiltingKeys(), discTables},
	build:  tiltingData{loss: [3]float64{2.1, 1.2, 0.72}, terms: "120, 90, 60 f_T", coefficient: 30, open: 15}.build,
}

func tiltingKeys() []Key {
	return append(hingedKeys(),
		Key{"disc diameter", "m", "diameter of the disc", 0.01, 3},
		Key{"eccentricity", "m", "distance of the pin from the centre of the disc", 1e-4, 1},
		Key{"rotation drag", "1", "drag coefficient of the disc's rotation in the liquid", 0, 10},
	)
}

func (g tiltingData) build(d *draft) (valve.Valve, error) {
	size := d.spec.Size
	t := valve.TiltingDisc{Body: d.body(bySize(size, g.loss[0], g.loss[1], g.loss[2]), 0.3, "handbook practice ("+g.terms+"), "+memory, "hinge friction")}
	heavier := d.class(16)
	t.DiscMass = d.about(generic, "moving mass", heavier*mass(550, size), valve.Catalogue, practice)
	t.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
	t.DiscDiameter = d.about(0.05, "disc diameter", 1.05*t.Bore, valve.Catalogue, practice)
	t.Eccentricity = d.about(0.3, "eccentricity", 0.15*t.Bore, valve.Catalogue, practice)
	t.SeatAngle = d.about(0.5, "seat angle", 15*math.Pi/180, valve.Catalogue, practice)
	t.Travel = d.about(0.15, "travel", math.Pi/2-15*math.Pi/180-g.open*math.Pi/180, valve.Catalogue, fmt.Sprintf("to %.0f° from the axis, %s", g.open, practice))
	t.LiquidMass = d.about(0.2, "added mass", confinement*valve.TiltingLiquidMass(t.Density, t.DiscDiameter, t.Eccentricity), valve.Estimated, confined)
	t.RotationDrag = d.about(0.35, "rotation drag", 1.5, valve.Catalogue, practice+", 1-2, a plate broadside")

	plain := t
	plain.Slope, plain.Friction = 0, 0
	plain.FullOpenVelocity = valve.MinimumVelocity(g.coefficient, t.Density) * math.Sqrt(heavier)
	t.LoadOpen = plain.LoadCoefficient()
	t.Preload = d.take("preload", 0, valve.Default, "no spring")
	t.SpringRate = d.take("spring rate", 0, valve.Default, "no spring")
	var err error
	if t.FullOpenVelocity, err = d.opensAt(t.Body); err != nil {
		return valve.Valve{}, err
	}
	l, err := t.Law()
	if err != nil {
		return valve.Valve{}, err
	}
	d.opened(l, fmt.Sprintf("C = %.0f in a level pipe, %s, with the given slope and spring", g.coefficient, memory))
	return d.finish(l, t.Bore, t.Eccentricity+t.DiscDiameter/2, 2), nil
}
