package verify

import (
	"context"
	"encoding/json"
	"fmt"
	"math"

	"seatwise/testdata"
	"seatwise/valve"
	"seatwise/valve/characteristic"
)

func dualPlates() []Case {
	return []Case{
		{"D15", Disc, "SciPy, Radau: testdata/dualplate, two unequal plates on a level pin under constant deceleration", unequalPlates},
	}
}

// plateReference is testdata/dualplate/reference.json; of each pair the first is the plate above the pin.
type plateReference struct {
	Data struct {
		Bore        float64    `json:"bore_m"`
		Travel      float64    `json:"travel_rad"`
		Solid       float64    `json:"disc_density_kg_m3"`
		Loss        float64    `json:"loss_open"`
		Load        float64    `json:"load_open"`
		Contraction float64    `json:"contraction"`
		Mass        [2]float64 `json:"mass_kg"`
		Preload     [2]float64 `json:"preload_n_m"`
		Rate        [2]float64 `json:"rate_n_m_rad"`
		Density     float64    `json:"density_kg_m3"`
		Gravity     float64    `json:"gravity_m_s2"`
		Velocity    float64    `json:"velocity_start_m_s"`
	} `json:"data"`
	Inertia [2]float64 `json:"inertia_kg_m2"`
	Cases   []struct {
		Deceleration float64    `json:"deceleration_m_s2"`
		Seated       [2]float64 `json:"seated_s"`
		Rate         [2]float64 `json:"rate_at_seat_rad_s"`
		Velocity     [2]float64 `json:"velocity_at_seat_m_s"`
	} `json:"cases"`
}

func (r *plateReference) pair() (*valve.Pair, error) {
	d := r.Data
	p := valve.DualPlate{
		Body:         valve.Body{Bore: d.Bore, Density: d.Density, Gravity: d.Gravity, LossOpen: d.Loss, Contraction: d.Contraction},
		DiscDiameter: d.Bore, DiscDensity: d.Solid, Travel: d.Travel, PinAngle: math.Pi / 2, LoadOpen: d.Load,
	}
	for i := range p.Plates {
		p.Plates[i] = valve.HalfPlate{Mass: d.Mass[i], LiquidMass: valve.HalfPlateLiquidMass(d.Density, d.Bore), Preload: d.Preload[i], SpringRate: d.Rate[i]}
	}
	return p.Law()
}

// arrivals notes the states in which discs meet their ends.
type arrivals struct {
	valve.Motion
	seen *[]valve.State
}

func (a arrivals) Touch(s valve.State, dpRest float64) valve.State {
	*a.seen = append(*a.seen, s)
	return a.Motion.Touch(s, dpRest)
}

func unequalPlates(context.Context) ([]Check, error) {
	var ref plateReference
	if err := json.Unmarshal(testdata.DualPlate, &ref); err != nil {
		return nil, err
	}
	p, err := ref.pair()
	if err != nil {
		return nil, err
	}
	var checks []Check
	for i, l := range p.Halves {
		checks = append(checks, ratio(fmt.Sprintf("inertia of plate %d", i+1), "kg·m2", ref.Inertia[i], l.Inertia, exact))
	}
	const tolerance = 1e-4
	for _, c := range ref.Cases {
		var seen []valve.State
		v := valve.Valve{Motion: arrivals{p, &seen}, FullOpenVelocity: p.FullOpenVelocity()}
		at := characteristic.At(v, c.Deceleration, characteristic.Settings{InitialVelocity: ref.Data.Velocity, Step: 2e-4})
		say := fmt.Sprintf("at %g m/s2", c.Deceleration)
		if len(seen) != 2 {
			return nil, fmt.Errorf("%s the plates meet their ends %d times", say, len(seen))
		}
		checks = append(checks,
			ratio("rate of the first plate to seat "+say, "rad/s", c.Rate[0], seen[0].W, tolerance),
			ratio("rate of the other plate "+say, "rad/s", c.Rate[1], seen[1].Second.W, tolerance),
			ratio("time when both are seated "+say, "s", c.Seated[1], at.Time, tolerance),
			ratio("reverse velocity then "+say, "m/s", -c.Velocity[1], at.ReverseVelocity, tolerance))
	}
	return checks, nil
}
