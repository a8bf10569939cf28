package catalogue

import (
	"math"

	"seatwise/valve"
)

// lift stands across the pipe in a globe body. C = 40 of valve.MinimumVelocity fixes the load on the open disc, as in the swing valve.
var lift = family{
	Family: Family{"lift", "guided disc or piston that its weight closes, in a globe body; a spring is optional",
		append(axialKeys(), Key{"path angle", "rad", "angle of the path to the pipe", 0.1, math.Pi / 2}), discTables},
	build: func(d *draft) (valve.Valve, error) {
		size := d.spec.Size
		l := valve.Lift{Body: d.body(bySize(size, 10.2, 7.8, 7.2), 0.3, "handbook practice (600 f_T), "+memory, "guide friction")}
		b, heavier := l.Body, d.class(16)
		l.DiscMass = d.about(generic, "moving mass", heavier*mass(450, size), valve.Catalogue, practice+", a plate of 0.06 D with its guide")
		l.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
		l.LiquidMass = d.about(generic, "added mass", valve.DiscLiquidMass(b.Density, b.Bore), valve.Estimated, "free disc, "+memory)
		l.PathAngle = d.take("path angle", math.Pi/2, valve.Default, "across the pipe")
		l.Travel = d.about(0.2, "travel", b.Bore/4, valve.Catalogue, derived+": the gap equals the bore")
		level := b
		level.Slope = 0
		v := valve.MinimumVelocity(40, b.Density) * math.Sqrt(heavier)
		open := level.Weight(l.DiscMass, l.DiscDensity, l.PathAngle) / (headForce(b) * v * v)
		var err error
		l.Spring, l.Force, err = d.held(b, b.Weight(l.DiscMass, l.DiscDensity, l.PathAngle), l.Travel, open, "C = 40 in a level pipe, "+memory)
		if err != nil {
			return valve.Valve{}, err
		}
		m, err := l.Law()
		if err != nil {
			return valve.Valve{}, err
		}
		return d.finish(m, b.Bore, 1, 1.2), nil
	},
}
