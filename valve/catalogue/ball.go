package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// ball follows from its diameter and density: the full-open velocity grows as sqrt(D). It is the same in every pressure class.
var ball = family{
	Family: Family{"ball", "ball that rolls up a side path and back by its weight; full bore, for sewage",
		append(liftKeys(),
			Key{"ball diameter", "m", "diameter of the ball", 0.01, 3},
			Key{"rolling inertia", "1", "rotational inertia of the rolling ball over mass times radius squared, 0 if it slides", 0, 1},
			Key{"path angle", "rad", "angle of the path to the pipe", 0.1, math.Pi / 2},
		), discTables},
	soft: true, // coated
	build: func(d *draft) (valve.Valve, error) {
		b := valve.Ball{Body: d.body(bySize(d.spec.Size, 1.5, 1.0, 1.0), generic, practice, "guide friction")}
		if d.given("moving mass") && d.given("disc density") {
			return valve.Valve{}, fmt.Errorf("%w: moving mass and disc density of a ball say the same; give one of them", ErrValue)
		}
		b.Diameter = d.about(0.08, "ball diameter", 1.2*b.Bore, valve.Catalogue, practice)
		volume := valve.SphereVolume(b.Diameter)
		if d.given("moving mass") {
			b.BallMass = d.take("moving mass", 0, valve.Given, "")
			d.record("disc density", b.BallMass/volume, valve.Estimated, fromGiven)
		} else {
			density := d.about(0.15, "disc density", 1250, valve.Catalogue, practice+", a coated ball")
			b.BallMass = density * volume
			d.about(0.3, "moving mass", b.BallMass, valve.Estimated, derived+" from diameter and density")
		}
		b.LiquidMass = d.about(generic, "added mass", b.Density/2*volume, valve.Estimated, "half of the displaced liquid, "+memory)
		b.Rolling = d.take("rolling inertia", 0.4, valve.Default, derived+": a solid ball that rolls without slip")
		b.PathAngle = d.about(0.3, "path angle", math.Pi/4, valve.Catalogue, practice)
		b.Travel = d.about(0.2, "travel", b.Bore, valve.Catalogue, practice)
		var err error
		b.Spring, b.Force, err = d.held(b.Body, b.Body.Weight(b.BallMass, b.BallMass/volume, b.PathAngle), b.Travel, 0.75, practice+", 0.5-1")
		if err != nil {
			return valve.Valve{}, err
		}
		m, err := b.Motion()
		if err != nil {
			return valve.Valve{}, err
		}
		v := d.finish(m.Law, b.Bore, 1, 1)
		v.Motion = m
		return v, nil
	},
}
