package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

var axialSpring = family{
	Family: Family{"axial spring", "ring disc on springs in a compact body", append(axialKeys(), Key{"ring ratio", "1", "inner over outer diameter of the ring", 0, 0.9}), discTables},
	build: func(d *draft) (valve.Valve, error) {
		b := d.body(3, 0.5, practice+", 2-6", "guide friction")
		a := valve.AxialSpring{Body: b}
		a.RingRatio = d.about(0.15, "ring ratio", 0.6, valve.Catalogue, practice)
		a.DiscMass = d.about(generic, "moving mass", d.class(16)*mass(150, d.spec.Size), valve.Catalogue, practice)
		a.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
		a.LiquidMass = d.about(0.5, "added mass", valve.DiscLiquidMass(b.Density, b.Bore)/4, valve.Estimated, "a quarter of a free disc, "+practice)
		a.Travel = d.about(0.3, "travel", 0.12*b.Bore, valve.Catalogue, practice)
		load := d.force(1 - a.RingRatio*a.RingRatio)
		var err error
		a.Spring, a.Force, err = d.spring(b, load, a.Travel, b.Weight(a.DiscMass, a.DiscDensity, 0), 2.0)
		if err != nil {
			return valve.Valve{}, err
		}
		l, err := a.Law()
		if err != nil {
			return valve.Valve{}, err
		}
		return d.finish(l, b.Bore, 1, 1.5), nil
	},
}

// solidDisc are the generic data of one body with a solid disc on the axis of the bore.
type solidDisc struct {
	mass       float64 // over D^3, kg/m3
	loss       [3]float64
	lossSpread float64
	velocity   float64 // full-open velocity in water, m/s
	price      float64
}

var nozzle = family{
	Family: Family{"nozzle", "solid disc on a spring in a streamlined body", axialKeys(), discTables},
	build:  solidDisc{mass: 300, loss: [3]float64{2.0, 1.0, 0.7}, lossSpread: generic, velocity: 1.5, price: 3}.build,
}

// In a gas line the disc is to be on its stop at the least flow. The weaker spring does that at rho V^2 of 1000 Pa, 5 m/s in a gas of 40 kg/m3.
var nozzleGas = family{
	Family: Family{"nozzle gas", "nozzle with a weaker spring, for gas", axialKeys(), discTables},
	build:  solidDisc{mass: 300, loss: [3]float64{2.0, 1.0, 0.7}, lossSpread: generic, velocity: math.Sqrt(1000 / water), price: 3}.build,
}

// A short body that fits between flanges has less metal and a narrower way round the same disc than a streamlined one.
var springDisc = family{
	Family: Family{"spring disc", "solid disc, guided in its centre, on a spring in a compact body", axialKeys(), discTables},
	build:  solidDisc{mass: 200, loss: [3]float64{4, 4, 4}, lossSpread: 0.5, velocity: 1.8, price: 1.2}.build,
}

func (g solidDisc) build(d *draft) (valve.Valve, error) {
	size := d.spec.Size
	b := d.body(bySize(size, g.loss[0], g.loss[1], g.loss[2]), g.lossSpread, practice, "guide friction")
	n := valve.Nozzle{Body: b}
	n.DiscMass = d.about(generic, "moving mass", d.class(16)*mass(g.mass, size), valve.Catalogue, practice)
	n.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
	n.LiquidMass = d.about(generic, "added mass", valve.DiscLiquidMass(b.Density, b.Bore), valve.Estimated, "free disc, "+memory)
	n.Travel = d.about(0.2, "travel", 0.2*b.Bore, valve.Catalogue, practice)
	load := d.force(1)
	var err error
	n.Spring, n.Force, err = d.spring(b, load, n.Travel, b.Weight(n.DiscMass, n.DiscDensity, 0), g.velocity)
	if err != nil {
		return valve.Valve{}, err
	}
	l, err := n.Law()
	if err != nil {
		return valve.Valve{}, err
	}
	return d.finish(l, b.Bore, 1, g.price), nil
}

// liftKeys are those of everything that lifts along a path.
func liftKeys() []Key {
	return append(discKeys("N", "m", "guide friction"),
		Key{"force coefficient", "1", "force on the open disc over velocity head and bore area", 0.1, 20},
	)
}

func axialKeys() []Key { return append(liftKeys(), classKey) }

// force is the coefficient C_F of the open disc; ratio is seat over bore area.
func (d *draft) force(ratio float64) float64 {
	if c, ok := d.tabled(ratio); ok {
		return c
	}
	return d.about(generic, "force coefficient", 2, valve.Catalogue, practice+", 1.5-3")
}

// tabled is C_F in the last row of a load table.
func (d *draft) tabled(ratio float64) (float64, bool) {
	t := d.spec.Tables["load table"]
	if len(t.Value) == 0 {
		return 0, false
	}
	return ratio * math.Max(1e-3, t.Value[len(t.Value)-1]), true // the table's own check refuses less
}

// spring finds preload and rate from the full-open velocity, or the full-open velocity, or with all three the force coefficient:
//
//	C_F rho/2 V^2 A = F_0 + k s + weight + friction
func (d *draft) spring(b valve.Body, force, travel, weight, velocity float64) (valve.Spring, float64, error) {
	f0, hasPreload := d.spec.Set["preload"]
	k, hasRate := d.spec.Set["spring rate"]
	head := headForce(b) // C_F V^2 times this is a force
	if hasPreload && hasRate {
		full := f0 + k*travel + weight
		d.take("preload", 0, valve.Given, "")
		d.take("spring rate", 0, valve.Given, "")
		if !d.given("full-open velocity") {
			d.record("full-open velocity", math.Sqrt((math.Max(0, full)+b.Friction)/(head*force)), valve.Estimated, fromGiven)
			return valve.Spring{Preload: f0, Rate: k}, force, nil
		}
		if d.given("force coefficient") || len(d.spec.Tables["load table"].Value) > 0 {
			return valve.Spring{}, 0, errTied
		}
		v := d.take("full-open velocity", 0, valve.Given, "")
		force = (full + b.Friction) / (head * v * v)
		d.amend(0, "force coefficient", force, valve.Estimated, fromGiven)
		return valve.Spring{Preload: f0, Rate: k}, force, nil
	}
	// The catalogue's spring is that of a level pipe; a rising pipe adds the weight of the disc to what the flow has to bear, a guide its friction.
	velocity *= math.Sqrt(water/b.Density + (math.Max(0, weight)+b.Friction)/(head*force*velocity*velocity))
	v := d.about(0.25, "full-open velocity", velocity, valve.Catalogue, practice+", with guide friction, and the weight of the disc where the pipe rises")
	s := valve.SpringFor(b, force, v, travel, 0.5, weight)
	full := s.Preload + s.Rate*travel
	preloadSpread, rateSpread := generic, generic
	preloadStatus, rateStatus := practice+": half of the force on the stop", derived+" from the full-open velocity"
	switch {
	case hasPreload:
		s.Rate = (full - f0) / travel
		s.Preload, rateSpread, rateStatus = f0, 0, fromGiven
	case hasRate:
		s.Preload = full - k*travel
		s.Rate, preloadSpread, preloadStatus = k, 0, fromGiven
	}
	if s.Rate < 0 || s.Preload < 0 {
		return valve.Spring{}, 0, fmt.Errorf("%w: a spring of %.4g N on the seat and %.4g N/m does not agree with a full-open velocity of %.3g m/s, at which the flow lifts the disc with %.4g N",
			ErrValue, s.Preload, s.Rate, v, full)
	}
	d.about(preloadSpread, "preload", s.Preload, valve.Estimated, preloadStatus)
	d.about(rateSpread, "spring rate", s.Rate, valve.Estimated, rateStatus)
	return s, force, nil
}

var errTied = fmt.Errorf("%w: preload, spring rate, full-open velocity and load are tied to each other; leave one of them out", ErrValue)

// headForce is rho/2 A, N per (m/s)^2.
func headForce(b valve.Body) float64 { return b.Density / 2 * math.Pi / 4 * b.Bore * b.Bore }

// held takes preload, rate and force coefficient of a disc that its weight closes, and records the velocity that brings it to its stop.
// Force and its origin are those of the catalogue.
func (d *draft) held(b valve.Body, weight, travel, force float64, status string) (valve.Spring, float64, error) {
	s := valve.Spring{
		Preload: d.take("preload", 0, valve.Default, "no spring"),
		Rate:    d.take("spring rate", 0, valve.Default, "no spring"),
	}
	full := s.Preload + s.Rate*travel + weight
	fixed, tabled := d.tabled(1)
	if d.given("full-open velocity") {
		if d.given("force coefficient") || tabled {
			return s, 0, errTied
		}
		v := d.take("full-open velocity", 0, valve.Given, "")
		force = (full + b.Friction) / (headForce(b) * v * v)
		d.record("force coefficient", force, valve.Estimated, fromGiven)
		return s, force, nil
	}
	if tabled {
		force = fixed
	} else {
		force = d.about(generic, "force coefficient", force, valve.Estimated, status)
	}
	d.record("full-open velocity", math.Sqrt((math.Max(0, full)+b.Friction)/(headForce(b)*force)), valve.Estimated, "from force coefficient, weight, spring and friction")
	return s, force, nil
}
