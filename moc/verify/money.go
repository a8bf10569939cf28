package verify

import (
	"context"
	"math"

	"seatwise/valve/cost"
)

func money() []Case {
	return []Case{
		{"M1", Formula, "derived: 1000 kg/m3 x 9.81 m/s2 x 0.1 m3/s x 1 m x 8000 h x 0.10 per kWh/(1000 x 0.75) is 1046.4 a year, brought to the program's gravity", energyCosts},
		{"M2", Formula, "Engineering Fundamentals, An Introduction to Engineering, 4th ed. 2010, ch. 20, pages 672 and 674 as read (by S. Moaveni, the author from memory): two alternatives over ten years at 8 %", alternatives},
	}
}

func energyCosts(context.Context) ([]Check, error) {
	const sourceGravity, gravity = 9.81, 9.80665 // m/s2
	return []Check{
		ratio("energy of a head loss of 1 m a year", "1", 1046.4*gravity/sourceGravity, cost.EnergyCost(1000, 0.1, 1, 8000, 0.10, 0.75), 1e-9),
	}, nil
}

// alternatives are cooling units: first cost, yearly cost, what is got back at the end, and the book's future cost of all of it. What is got back is no
// cost of a valve and is taken off here.
func alternatives(context.Context) ([]Check, error) {
	terms := cost.Terms{Years: 10, Rate: 0.08}
	future := func(first, yearly, back float64) float64 {
		c := terms.Of(first, yearly/first, 1000, nil, 0)
		return c.Present*math.Pow(1+terms.Rate, terms.Years) - back
	}
	return []Check{
		within("present value of 1 a year, 4 years at 8 %", "1", 3.31212684, cost.Annuity(0.08, 4), 1e-8),
		within("future cost of 100 000, then 3500 a year, 10 000 got back", "1", 256595.46, future(100000, 3500, 10000), 0.01),
		within("future cost of 85 000, then 4600 a year, 5000 got back", "1", 245146.81, future(85000, 4600, 5000), 0.01),
	}, nil
}
