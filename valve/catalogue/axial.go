package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

var axialSpring = family{
	Family: Family{"axial spring", "ring disc on springs in a compact body", append(axialKeys(), Key{"ring ratio", "1", "inner over outer diameter of the ring", 0, 0.9}), discTables},
	build: func(d *draft) (valve.Valve, error) {
		size := d.spec.Size
		b := d.body(3, guess+", 2-6", "guide friction")
		a := valve.AxialSpring{Body: b}
		a.RingRatio = d.take("ring ratio", 0.6, valve.Catalogue, guess)
		a.DiscMass = d.take("moving mass", mass(150, size), valve.Catalogue, practice)
		a.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
		a.LiquidMass = d.take("added mass", valve.DiscLiquidMass(b.Density, b.Bore)/4, valve.Estimated, "a quarter of a free disc, "+guess)
		a.Travel = d.take("travel", 0.12*b.Bore, valve.Catalogue, practice)
		load := d.force(1 - a.RingRatio*a.RingRatio)
		var err error
		a.Spring, a.Force, err = d.spring(b, load, a.Travel, weight(b, a.DiscMass, a.DiscDensity), 2.0)
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

var nozzle = family{
	Family: Family{"nozzle", "solid disc on a spring in a streamlined body", axialKeys(), discTables},
	build: func(d *draft) (valve.Valve, error) {
		size := d.spec.Size
		b := d.body(bySize(size, 2.0, 1.0, 0.7), practice, "guide friction")
		n := valve.Nozzle{Body: b}
		n.DiscMass = d.take("moving mass", mass(300, size), valve.Catalogue, practice)
		n.DiscDensity = d.take("disc density", 7850, valve.Default, "steel")
		n.LiquidMass = d.take("added mass", valve.DiscLiquidMass(b.Density, b.Bore), valve.Estimated, "free disc, from memory")
		n.Travel = d.take("travel", 0.2*b.Bore, valve.Catalogue, practice)
		load := d.force(1)
		var err error
		n.Spring, n.Force, err = d.spring(b, load, n.Travel, weight(b, n.DiscMass, n.DiscDensity), 1.5)
		if err != nil {
			return valve.Valve{}, err
		}
		l, err := n.Law()
		if err != nil {
			return valve.Valve{}, err
		}
		return d.finish(l, b.Bore, 1, 3), nil
	},
}

func axialKeys() []Key {
	return append(discKeys("N", "m", "guide friction"),
		Key{"force coefficient", "1", "force on the open disc over velocity head and bore area", 0.1, 20},
	)
}

// weight is the closing force of gravity, N.
func weight(b valve.Body, mass, density float64) float64 {
	return mass * b.Gravity * (1 - b.Density/density) * math.Sin(b.Slope)
}

// force is the coefficient C_F of the open disc; ratio is seat over bore area.
func (d *draft) force(ratio float64) float64 {
	if t := d.spec.Tables["load table"]; len(t.Value) > 0 {
		return ratio * math.Max(1e-3, t.Value[len(t.Value)-1]) // the table's own check refuses less
	}
	return d.take("force coefficient", 2, valve.Catalogue, guess+", 1.5-3")
}

// spring finds preload and rate from the full-open velocity, or the full-open velocity, or with all three the force coefficient:
//
//	C_F rho/2 V^2 A = F_0 + k s + weight
func (d *draft) spring(b valve.Body, force, travel, weight, velocity float64) (valve.Spring, float64, error) {
	f0, hasPreload := d.spec.Set["preload"]
	k, hasRate := d.spec.Set["spring rate"]
	head := b.Density / 2 * math.Pi / 4 * b.Bore * b.Bore // C_F V^2 times this is a force
	if hasPreload && hasRate {
		full := f0 + k*travel + weight
		d.take("preload", 0, valve.Given, "")
		d.take("spring rate", 0, valve.Given, "")
		if !d.given("full-open velocity") {
			d.record("full-open velocity", math.Sqrt(math.Max(0, full)/(head*force)), valve.Estimated, fromGiven)
			return valve.Spring{Preload: f0, Rate: k}, force, nil
		}
		if d.given("force coefficient") || len(d.spec.Tables["load table"].Value) > 0 {
			return valve.Spring{}, 0, fmt.Errorf("%w: preload, spring rate, full-open velocity and load are tied to each other; leave one of them out", ErrValue)
		}
		v := d.take("full-open velocity", 0, valve.Given, "")
		force = full / (head * v * v)
		for i := range d.data {
			if d.data[i].Key == "force coefficient" {
				d.data[i].Value, d.data[i].Origin, d.data[i].Status = force, valve.Estimated, fromGiven
			}
		}
		return valve.Spring{Preload: f0, Rate: k}, force, nil
	}
	// The catalogue's spring is that of a level pipe; a rising pipe adds the weight of the disc to what the flow has to hold.
	velocity *= math.Sqrt(water/b.Density + math.Max(0, weight)/(head*force*velocity*velocity))
	v := d.take("full-open velocity", velocity, valve.Catalogue, guess+", with the weight of the disc where the pipe rises")
	s := valve.SpringFor(b, force, v, travel, 0.5, weight)
	full := s.Preload + s.Rate*travel
	preloadStatus, rateStatus := guess+": half of the force on the stop", derived+" from the full-open velocity"
	switch {
	case hasPreload:
		s.Rate = (full - f0) / travel
		s.Preload, rateStatus = f0, fromGiven
	case hasRate:
		s.Preload = full - k*travel
		s.Rate, preloadStatus = k, fromGiven
	}
	if s.Rate < 0 || s.Preload < 0 {
		return valve.Spring{}, 0, fmt.Errorf("%w: a spring of %.4g N on the seat and %.4g N/m does not agree with a full-open velocity of %.3g m/s, at which the flow lifts the disc with %.4g N",
			ErrValue, s.Preload, s.Rate, v, full)
	}
	d.take("preload", s.Preload, valve.Estimated, preloadStatus)
	d.take("spring rate", s.Rate, valve.Estimated, rateStatus)
	return s, force, nil
}
