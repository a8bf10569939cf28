package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

var dualPlate = family{
	Family: Family{"dual plate", "two half discs on a hinge pin across the bore, closed by torsion springs", dualPlateKeys(), discTables},
	build: func(d *draft) (valve.Valve, error) {
		size := d.spec.Size
		p := valve.DualPlate{Body: d.body(bySize(size, 2.5, 1.2, 0.7), generic, practice, "hinge friction")}
		heavier := d.class(16)
		p.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
		p.DiscDiameter = d.about(0.05, "disc diameter", p.Bore, valve.Catalogue, practice)
		p.Travel = d.about(0.06, "travel", 80*math.Pi/180, valve.Catalogue, practice)
		p.PinAngle = d.take("hinge pin", 0, valve.Default, practice+", vertical")
		liquid := d.about(0.5, "added mass", valve.HalfPlateLiquidMass(p.Density, p.DiscDiameter), valve.Estimated, "half of a disc about its diameter in the open, "+memory)
		metal := d.about(generic, "moving mass", heavier*mass(125, size), valve.Catalogue, practice)
		p.Plates[0] = valve.HalfPlate{Mass: metal, LiquidMass: liquid}
		p.Plates[1] = valve.HalfPlate{Mass: metal * d.take("second plate mass", 1, valve.Default, "equal plates"), LiquidMass: liquid}
		if err := d.torsion(&p); err != nil {
			return valve.Valve{}, err
		}
		m, err := p.Law()
		if err != nil {
			return valve.Valve{}, err
		}
		if !d.given("full-open velocity") {
			spread := 0.25
			if len(p.LoadTable.Value) > 0 {
				spread = 0
			}
			d.about(spread, "full-open velocity", m.FullOpenVelocity(), valve.Estimated, "from load, springs and weight, "+practice)
		}
		v := d.complete(m, p.Travel, p.Bore, p.DiscDiameter/2, 0.65)
		for i, l := range m.Halves {
			if l.Preload == 0 && l.SpringRate == 0 && l.Weight.(valve.Sine).Amplitude == 0 {
				v.Warnings = append(v.Warnings, fmt.Sprintf("nothing closes the %s plate but reverse flow: it has no spring, and its weight has no closing moment here", [...]string{"first", "second"}[i]))
			}
		}
		return v, nil
	},
}

func dualPlateKeys() []Key {
	keys := discKeys("N·m", "rad", "hinge friction")
	own := map[string]string{
		"moving mass": "mass of the first plate",
		"added mass":  "liquid that moves with each plate, spread as its metal is",
		"preload":     "spring of the first plate on the seat",
		"spring rate": "spring rate of the first plate",
		"damper":      "dashpot of each plate, closing moment over rate squared",
	}
	for i, k := range keys {
		if help, ok := own[k.Name]; ok {
			keys[i].Help = help
		}
	}
	return append(keys, classKey,
		Key{"disc diameter", "m", "diameter of the two plates together", 0.01, 3},
		Key{"hinge pin", "rad", "turn of the hinge pin from the vertical; at 90° it is horizontal and the first plate above it", 0, math.Pi / 2},
		Key{"load coefficient", "1", "load on the open plates over velocity head and bore area", 0.01, 100},
		Key{"second plate mass", "1", "mass of the second plate over that of the first", 0.01, 100},
		Key{"second plate preload", "1", "preload of the second plate over that of the first; 0 for a broken spring", 0, 100},
		Key{"second plate spring rate", "1", "spring rate of the second plate over that of the first; 0 for a broken spring", 0, 100},
	)
}
