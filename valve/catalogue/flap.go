package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// preBend is the angle by which the rubber of a shut flap is bent, so that it seals without pressure.
const preBend = 10 * math.Pi / 180

// flap has on its stop a load between that of a plate in a free stream and that in the stream which it narrows, faster by 1/(1 - n), n = A_s
// cos b/A the share of the bore that it covers: C = C_free/(1 - n), the geometric mean of C_free and C_free/(1 - n)^2. For the swing disc of
// DN300 the mean is 0.88, and C = 60 asks for 0.74. The full-open velocity follows.
var flap = family{
	Family: Family{"flap", "short-stroke flap of reinforced rubber on a sloped seat; full bore, for sewage",
		append(hingedKeys(),
			Key{"arm", "m", "clamped edge to the centre of the seat", 1e-3, 3},
			Key{"rubber modulus", "Pa", "modulus of elasticity of the reinforced rubber", 1e5, 1e10},
		), discTables},
	soft: true,
	build: func(d *draft) (valve.Valve, error) {
		if d.given("rubber modulus") && d.given("spring rate") {
			return valve.Valve{}, fmt.Errorf("%w: rubber modulus and spring rate say the same; give one of them", ErrValue)
		}
		size := d.spec.Size
		f := valve.Flap{Body: d.body(bySize(size, 1.0, 0.8, 0.7), generic, practice, "hinge friction")}
		f.FlapMass = d.about(generic, "moving mass", d.class(16)*mass(150, size), valve.Catalogue, practice)
		f.FlapDensity = d.about(0.2, "disc density", 1800, valve.Catalogue, practice+", rubber on steel")
		f.SeatAngle = d.about(0.15, "seat angle", math.Pi/4, valve.Catalogue, practice)
		f.Arm = d.about(0.1, "arm", f.Bore/2/math.Cos(f.SeatAngle)+0.05*f.Bore, valve.Catalogue, derived+": half the length of the seat and a clamp")
		f.Travel = d.about(0.15, "travel", 35*math.Pi/180, valve.Catalogue, practice)
		seat := 1 / math.Cos(f.SeatAngle)
		f.LiquidMass = d.about(0.2, "added mass", confinement*valve.SwingLiquidMass(f.Density, f.Bore*math.Sqrt(seat), f.Arm), valve.Estimated, confined)
		modulus := d.about(0.5, "rubber modulus", 6e6, valve.Catalogue, practice)
		f.SpringRate = d.about(0.5, "spring rate", valve.RubberRate(modulus, 0.6*f.Bore, 0.065*f.Bore, 0.1*f.Bore), valve.Estimated,
			derived+": a strip of rubber 0.6 D wide, 0.065 D thick as a swing disc, 0.1 D long")
		f.Preload = d.about(0.5, "preload", f.SpringRate*preBend, valve.Estimated, "rubber bent by 10° on its seat, "+practice)
		open := f.Travel + f.SeatAngle
		f.LoadOpen = valve.PlateForce(open) * seat / math.Max(0.1, 1-seat*math.Cos(open))
		var err error
		if f.FullOpenVelocity, err = d.opensAt(f.Body); err != nil {
			return valve.Valve{}, err
		}
		l, err := f.Law()
		if err != nil {
			return valve.Valve{}, err
		}
		d.opened(l, "from the force of the stream on the open flap, derived, with weight and rubber")
		return d.finish(l, f.Bore, 2*f.Arm, 1.2), nil
	},
}
