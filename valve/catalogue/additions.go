package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// What stands outside the body of a swing valve is chosen by its share q of the closing moment on the stop of a level pipe; the disc has
// W L sin(y_max + beta), W its weight in the fluid. With an arm L_w parallel to that of the disc
//
//	lever:   m_w g L_w = q/(1 - q) W L
//	spring:  T_0 + k y_max = q/(1 - q) W L sin(y_max + beta),   half of it T_0
//
// so that either asks for the same full-open velocity, 1/sqrt(1 - q) of the plain disc's. A shaft through the body needs packing; its
// friction is a share of W L.
const (
	closingShare  = 0.3
	packingShare  = 0.05
	packingSpread = 1.0
)

var shareKey = Key{"closing share", "1", "share of the closing moment on the stop that lever or spring have", 0.01, 0.9}

var swingLever = family{
	Family: Family{"swing lever", "swing disc with an outside lever and weight that help to close", append(swingKeys(), shareKey), discTables},
	build:  lightSwing.with(1.3, lever),
}

var swingSpring = family{
	Family: Family{"swing spring", "swing disc with an outside spring", append(swingKeys(), shareKey), discTables},
	build:  lightSwing.with(1.3, outsideSpring),
}

var swingDashpot = family{
	Family: Family{"swing dashpot", "swing disc with an oil dashpot over the last part of its travel", append(swingKeys(),
		Key{"piston diameter", "m", "diameter of the dashpot's piston", 1e-3, 1},
		Key{"piston arm", "m", "hinge to the line of the piston", 1e-3, 3},
		Key{"orifice diameter", "m", "diameter of the bore through which the dashpot's oil leaves", 1e-5, 0.1},
		Key{"oil density", "kg/m3", "density of the dashpot's oil", 500, 2000},
	), discTables},
	build: lightSwing.with(2.1, dashpot),
}

func (g swingData) with(price float64, addition func(*draft, *valve.Swing) error) func(*draft) (valve.Valve, error) {
	g.price, g.addition = price, addition
	return g.build
}

// moment is W L, N·m.
func moment(s *valve.Swing) float64 {
	return s.Gravity * s.DiscMass * (1 - s.Density/s.DiscDensity) * s.Arm
}

// packed is the friction of a shaft that leaves the body.
func packed(d *draft, s *valve.Swing) {
	if !d.given("hinge friction") {
		s.Friction = packingShare * moment(s)
		d.amend(packingSpread, "hinge friction", s.Friction, valve.Estimated, "packing of the outside shaft, 5 % of the moment of the disc, "+practice)
	}
}

// agreed is q/(1 - q), unless the share and what follows from it are both given.
func agreed(d *draft, keys ...string) (float64, error) {
	if d.given("closing share") {
		for _, k := range keys {
			if d.given(k) {
				return 0, fmt.Errorf("%w: closing share and %s say the same; give one of them", ErrValue, k)
			}
		}
	}
	q := d.about(0.3, "closing share", closingShare, valve.Catalogue, practice+", 0.2-0.4")
	return q / (1 - q), nil
}

func lever(d *draft, s *valve.Swing) error {
	part, err := agreed(d, "counterweight")
	if err != nil {
		return err
	}
	packed(d, s)
	s.Preload = d.take("preload", 0, valve.Default, "no spring")
	s.SpringRate = d.take("spring rate", 0, valve.Default, "no spring")
	s.CounterweightArm = d.about(0.3, "counterweight arm", 1.5*s.Bore, valve.Catalogue, practice)
	if !d.given("counterweight") && !(s.CounterweightArm > 0) {
		return fmt.Errorf("%w: a weight on a lever of %.3g m does not help to close; give its mass as counterweight too", ErrValue, s.CounterweightArm)
	}
	s.Counterweight = d.about(generic, "counterweight", part*moment(s)/(s.Gravity*s.CounterweightArm), valve.Estimated, derived+" from the closing share")
	return nil
}

func outsideSpring(d *draft, s *valve.Swing) error {
	part, err := agreed(d, "preload", "spring rate")
	if err != nil {
		return err
	}
	packed(d, s)
	onStop := part * moment(s) * math.Sin(s.Travel+s.SeatAngle)
	s.Preload = d.about(generic, "preload", onStop/2, valve.Estimated, derived+" from the closing share, half of the moment on the stop")
	s.SpringRate = d.about(generic, "spring rate", onStop/2/s.Travel, valve.Estimated, derived+" from the closing share")
	s.Counterweight = d.take("counterweight", 0, valve.Default, "none")
	s.CounterweightArm = d.take("counterweight arm", 0, valve.Default, "none")
	return nil
}

// A dashpot has a piston of 0.2 D on an arm of 0.3 D. Its orifice lets the disc through the damped span in cushion seconds under a reverse
// pressure drop of cushionDrop, so that the reverse flow is throttled to rest instead of stopped at once:
//
//	c_d (span y_max/cushion)^2 = cushionDrop A_s L
//
// unless orifice or damper are given.
const (
	cushion     = 0.5 // s
	cushionDrop = 1e5 // Pa
)

func dashpot(d *draft, s *valve.Swing) error {
	if d.given("damper") {
		for _, k := range []string{"piston diameter", "piston arm", "orifice diameter", "oil density"} {
			if d.given(k) {
				return fmt.Errorf("%w: damper and %s say the same; give one of them", ErrValue, k)
			}
		}
	}
	packed(d, s)
	piston := d.about(0.3, "piston diameter", 0.2*s.Bore, valve.Catalogue, practice)
	arm := d.about(0.3, "piston arm", 0.3*s.Bore, valve.Catalogue, practice)
	oil := d.about(0.05, "oil density", 870, valve.Default, "mineral oil")
	rate := s.Damper.Span * s.Travel / cushion
	held := cushionDrop * math.Pi / 4 * s.DiscDiameter * s.DiscDiameter * s.Arm / (rate * rate)
	orifice := math.Sqrt(math.Sqrt(valve.Dashpot(oil, piston, arm, 1) / held)) // c_d falls with its fourth power
	orifice = d.about(0.3, "orifice diameter", orifice, valve.Estimated, "0.5 s through the damped span under 1 bar of reverse pressure, "+practice+", adjustable")
	if !d.given("damper") {
		s.Damper.Coefficient = valve.Dashpot(oil, piston, arm, orifice)
		d.amend(0, "damper", s.Damper.Coefficient, valve.Estimated, derived+" from piston and orifice")
	}
	return bare(d, s)
}
