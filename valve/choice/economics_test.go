package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

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
	require.Contains(t, energy.text(), "no slam damage is given")

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
	require.Contains(t, loose.text(), "spring pays back against swing if one slam of swing costs more than ")
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
	require.Contains(t, one.text(), "The cost of swing is not reckoned: its price in money is not known")
	require.NotContains(t, one.text(), "NaN")

	// A slam of which nothing is known costs not nothing.
	blind := *r
	blind.Scenarios = append([]ScenarioOutcomes(nil), r.Scenarios...)
	blind.Scenarios[0].Outcomes = append([]Outcome(nil), r.Scenarios[0].Outcomes...)
	for i := range blind.Scenarios[0].Outcomes {
		o := &blind.Scenarios[0].Outcomes[i]
		o.EventTime, o.MaxReverseVelocity = -1, none("no event")
	}
	require.Contains(t, priced(&blind, e, Limits{}).text(), "The cost of spring is not reckoned: nothing happens in this case")
}
