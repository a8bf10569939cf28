package choice

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/cost"
)

// priced weighs the same outcomes by money.
func priced(r *Comparison, e Economics, l Limits) *Comparison {
	c := *r.Case
	c.Economics = &e
	with := *r
	with.Case = &c
	return again(&with, l)
}

func (c *Comparison) remarks() string {
	return strings.ReplaceAll(strings.Join(c.CostRemarks, "\n"), space, " ")
}

// The recommendation is the least present value of those that meet the limits, and the reasons give its parts and what would turn it.
func TestRecommendationByCost(t *testing.T) {
	r := compare(t, quick(t, three()...))
	q := r.Scenarios[0].Outcomes[0].InitialFlow.SI
	e := Economics{Terms: cost.Terms{Currency: "EUR", Years: 20, Rate: 0.06, EnergyPrice: 0.12, Efficiency: 0.75, SwingPrice: 4000,
		Duty: []cost.Run{{Flow: q, Time: 6000 * 3600}}}}
	require.Nil(t, r.Costs)

	energy := priced(r, e, Limits{ReverseVelocity: some(0.3)})
	for i, k := range energy.Costs {
		o := r.Scenarios[0].Outcomes[i]
		require.Empty(t, k.Reason)
		loss, ok := o.lossAt()
		require.True(t, ok)
		require.InEpsilon(t, o.HeadLoss.SI, loss(o.InitialFlow.SI), 1e-9, "at the flow of its run the head loss is that of the run")
		require.InEpsilon(t, cost.EnergyCost(o.Valve.Density, q, loss(q), 6000, 0.12, 0.75), k.Energy, 1e-12)
		require.InEpsilon(t, 4000*o.PriceRatio.SI, k.Purchase, 1e-12)
	}
	best := energy.Costs[1] // swing fails
	if energy.Costs[2].Present < best.Present {
		best = energy.Costs[2]
	}
	require.Equal(t, best.Candidate, energy.Recommended)
	require.Contains(t, energy.text(), "it has the least present value of all costs of the 2 candidates")
	require.Contains(t, energy.remarks(), "The damage of slam is left out")

	// Cheap energy leaves the purchase, dear energy the head loss, to decide.
	e.EnergyPrice = 0.0001
	require.Equal(t, "spring", priced(r, e, Limits{ReverseVelocity: some(0.3)}).Recommended)
	e.EnergyPrice = 100
	require.Equal(t, "nozzle", priced(r, e, Limits{ReverseVelocity: some(0.3)}).Recommended)

	// Where every valve meets the limits a swing disc is good enough, until its slam costs more than that at par.
	e.EnergyPrice, e.Trips, e.Damage = 0, 6, []cost.Slam{{Velocity: 0.3, Amount: 1}}
	loose := priced(r, e, Limits{ReverseVelocity: some(2)})
	require.Equal(t, "swing", loose.Recommended)
	require.Contains(t, loose.text(), "A plain swing disc is good enough here.")
	require.Contains(t, loose.remarks(), "spring pays back against swing if one slam of swing costs more than ")
	at, ok := e.SlamAtPar(loose.Costs[0].Cost, loose.Costs[1].Cost)
	require.True(t, ok)
	e.Damage = []cost.Slam{{Velocity: 0.3, Amount: 0.99 * at}}
	require.Equal(t, "swing", priced(r, e, Limits{ReverseVelocity: some(2)}).Recommended)
	e.Damage = []cost.Slam{{Velocity: 0.3, Amount: 1.01 * at}}
	require.Equal(t, "spring", priced(r, e, Limits{ReverseVelocity: some(2)}).Recommended)

	// A price that is not known is said, and its candidate not recommended.
	e.SwingPrice, e.Offers = 0, map[string]Offer{"spring": {Price: some(5200)}}
	one := priced(r, e, Limits{ReverseVelocity: some(2)})
	require.Equal(t, "spring", one.Recommended)
	require.Contains(t, one.Costs[0].Reason, "its price in money is not known")
	require.Contains(t, one.text(), "swing meets every limit, but its price in money is not known")
	require.NotContains(t, one.text(), "NaN")

	// The hardest closing counts, the first or a later one.
	later := *r
	later.Scenarios = append([]ScenarioOutcomes(nil), r.Scenarios...)
	later.Scenarios[0].Outcomes = append([]Outcome(nil), r.Scenarios[0].Outcomes...)
	later.Scenarios[0].Outcomes[1].LaterReverseVelocity = Value{SI: 5}
	e.Damage = []cost.Slam{{Velocity: 4, Amount: 2500}}
	hard, once := priced(&later, e, Limits{}).Costs[1], priced(r, e, Limits{}).Costs[1]
	require.Equal(t, "later closing, "+r.Scenarios[0].Name, hard.SlamFrom())
	require.Equal(t, "first closing, "+r.Scenarios[0].Name, once.SlamFrom())
	require.InDelta(t, 0, once.Slam, 1e-12)
	require.InEpsilon(t, 6*2500, hard.Slam, 1e-12)

	// A slam of which nothing is known costs not nothing.
	blind := *r
	blind.Scenarios = append([]ScenarioOutcomes(nil), r.Scenarios...)
	blind.Scenarios[0].Outcomes = append([]Outcome(nil), r.Scenarios[0].Outcomes...)
	for i := range blind.Scenarios[0].Outcomes {
		o := &blind.Scenarios[0].Outcomes[i]
		o.EventTime, o.MaxReverseVelocity = -1, none("no event")
	}
	require.Contains(t, priced(&blind, e, Limits{}).Costs[1].Reason, "nothing happens in this case")
}

// offered is a comparison with costs alone: a year's costs at given parts, prices as they are or from a ratio that is known to 40 %.
func offered(e Economics, limits bool, costs ...Costing) *Comparison {
	c := &Comparison{Case: &Case{Economics: &e}, Scenarios: []ScenarioOutcomes{{}}}
	for _, k := range costs {
		k.Present = k.Purchase + cost.Annuity(e.Rate, e.Years)*(k.Energy+k.Upkeep+k.Slam)
		k.Low, k.High = e.Range(k.Cost, k.Spread)
		c.Costs = append(c.Costs, k)
		c.Case.Candidates = append(c.Case.Candidates, valve.Spec{Name: k.Candidate})
		o := Outcome{Candidate: k.Candidate}
		if limits {
			o.Verdicts = []Verdict{{Met: k.Candidate != "swing"}}
			o.LimitsMet = &o.Verdicts[0].Met
		}
		c.Scenarios[0].Outcomes = append(c.Scenarios[0].Outcomes, o)
	}
	c.CostRemarks = c.costRemarks(Settings{})
	return c
}

// Whether the band of the price ratios can change the cheapest is said in either case, against what is found by trying the ends of the band.
func TestCostBand(t *testing.T) {
	e := Economics{Terms: cost.Terms{Currency: "EUR", Years: 20, EnergyPrice: 0.1, Duty: []cost.Run{{Flow: 0.1, Time: 3600}}, Trips: 5}}
	swing := Costing{Candidate: "swing", Cost: cost.Cost{Purchase: 4000, Energy: 100}, Reverse: 0.6, Ratio: Value{SI: 1}}
	spring := Costing{Candidate: "spring", Cost: cost.Cost{Purchase: 6000, Energy: 400, Upkeep: 100}, Reverse: 0.1, Ratio: Value{SI: 1.5}, Spread: 0.4}
	nozzle := Costing{Candidate: "nozzle", Cost: cost.Cost{Purchase: 12000, Energy: 150, Upkeep: 100}, Reverse: 0.05, Ratio: Value{SI: 3}, Spread: 0.4}

	// spring 16 000, from 12 800 to 19 200; nozzle 17 000, from 11 400 to 22 600.
	open := offered(e, true, swing, spring, nozzle)
	require.Contains(t, open.remarks(), "spring has the least present value of the valves that meet every limit: 16 000 EUR.")
	require.Contains(t, open.remarks(), "swing would cost less, 6 000 EUR, but does not meet the limits.")
	require.Contains(t, open.remarks(), "±40 %: within that band the cheapest can change. spring costs from 12 800 EUR to 19 200 EUR.")
	require.Contains(t, open.remarks(), "nozzle costs from 11 400 EUR to 22 600 EUR, and would be cheaper than spring at a purchase price below 11 143 EUR (by its price ratio 12 000 EUR)")
	require.Contains(t, open.remarks(), "spring pays back against swing if one slam of swing costs more than 100 EUR.")
	require.Contains(t, open.remarks(), "nozzle becomes cheaper than spring at an energy price above 0.12 EUR per kWh (given: 0.1).")

	nozzle.Purchase = 30000
	require.Contains(t, offered(e, true, swing, spring, nozzle).remarks(), "with the prices alone varied within that band, head losses and slam as reckoned, spring stays the cheapest")
	require.Contains(t, offered(e, false, swing, spring, nozzle).remarks(), "swing has the least present value of all")
	spring.Spread, nozzle.Spread = 0, 0
	require.Contains(t, offered(e, true, swing, spring, nozzle).remarks(), "no generic price ratio is behind this order")

	dear := swing
	dear.Energy = 2000
	require.Contains(t, offered(e, true, dear, spring).remarks()+offered(e, false, dear, spring, nozzle).remarks(), "spring pays back against swing even if a slam costs nothing.")
}

// The rows show each part as present value and a year; the parts add up to the sum, and a part without data is left out.
func TestCostRows(t *testing.T) {
	e := Economics{Terms: cost.Terms{Currency: "EUR", Years: 20, EnergyPrice: 0.1, Duty: []cost.Run{{Flow: 0.1, Time: 3600}}, Trips: 5, Damage: []cost.Slam{{Velocity: 0.3, Amount: 1}}}}
	text := func(c *Comparison) map[string]string {
		out := map[string]string{}
		for _, r := range c.CostRows(quantity.SI) {
			out[r.Label] += " " + strings.ReplaceAll(r.Cells[0].Text, space, " ")
		}
		return out
	}
	k := Costing{Candidate: "spring", Cost: cost.Cost{Purchase: 1234567, Energy: 400, Upkeep: 100, Slam: 5}, Reverse: 0.31, Scenario: "base", Later: true, Ratio: Value{SI: 1.5}, Spread: 0.4}
	require.Equal(t, map[string]string{"purchase, EUR": " 1 234 567", "price from": " ratio 1.5 ±40 %", "energy, EUR": " 8 000", "upkeep, EUR": " 2 000", "slam, EUR": " 100", "a year": " 400 100 5",
		"reverse velocity, m/s": " 0.310", "greatest at": " later closing, base", "sum, EUR": " 1 244 667", "by the band of the price ratio": " 750 040 to 1 739 294"}, text(offered(e, true, k)))
	e.Duty, e.Damage, k.Spread = nil, nil, 0
	k.Energy, k.Slam, k.Ratio = 0, 0, none("given")
	require.Equal(t, map[string]string{"purchase, EUR": " 1 234 567", "price from": " offer", "upkeep, EUR": " 2 000", "a year": " 100", "sum, EUR": " 1 236 567"}, text(offered(e, true, k)))
	require.Nil(t, (&Comparison{Case: &Case{}}).CostRows(quantity.SI))
}

// The spread of the generic losses and reverse velocities is held against the gap of the costs: 20 years without interest.
func TestCostSpreads(t *testing.T) {
	e := Economics{Terms: cost.Terms{Currency: "EUR", Years: 20, EnergyPrice: 0.1, Duty: []cost.Run{{Flow: 0.1, Time: 3600}}, Trips: 5, Damage: []cost.Slam{{Velocity: 0.3, Amount: 50}}}}
	swing := Costing{Candidate: "swing", Cost: cost.Cost{Purchase: 4000, Energy: 100, Slam: 250}, Reverse: 0.4, Loss: 0.4}
	spring := Costing{Candidate: "spring", Cost: cost.Cost{Purchase: 6000, Energy: 120}, Reverse: 0.1, Loss: 0.4}
	text := offered(e, false, swing, spring).remarks() // 11 000 and 8 400
	require.Contains(t, text, "present value of the energy swing 2 000 EUR ± 800 EUR, spring 2 400 EUR ± 960 EUR. That alone does not change the order of spring and any other.")
	require.Contains(t, text, "swing would pay 0 EUR to 5 000 EUR for slam in place of 5 000 EUR, which alone can change the order.")
	require.Contains(t, text, "spring pays back against swing if")
	spring.Energy, spring.Purchase = 300, 3500 // 9 500, ± 2 400 and ± 800 against a gap of 1 500
	text = offered(e, false, swing, spring).remarks()
	require.Contains(t, text, "That alone can change the order of spring and swing: ask for tested losses.")
	require.Contains(t, text, "spring costs less than swing if one slam of swing costs more than 35 EUR", "it is the cheaper one to buy")
	swing.Loss, spring.Loss = 0, 0
	require.NotContains(t, offered(e, false, swing, spring).remarks(), "Head losses are generic")
}
