package export

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve/choice"
)

// The summary has the costs of a case with economics; what is not reckoned is null with its reason.
func TestCosts(t *testing.T) {
	c := &choice.Comparison{Case: &choice.Case{Economics: &choice.Economics{}}, Costs: []choice.Costing{{Candidate: "a"}, {Candidate: "b", Reason: "no price"}}}
	c.Case.Economics.Years = 20
	c.Costs[0].Purchase, c.Costs[0].Energy, c.Costs[0].Present = 4000, 100, 5147
	c.Costs[0].Low, c.Costs[0].High, c.Costs[0].Spread, c.Costs[0].Reverse = 4647, 5647, 0.125, 0.25
	c.CostRemarks = []string{"b has no price"}
	s := &object{}
	costs(s, c)
	var out bytes.Buffer
	require.NoError(t, s.write(&out))
	require.JSONEq(t, `{"costs": {"currency": null, "years": 20, "discount_rate_fraction": 0, "annuity_factor": 20, "remarks": ["b has no price"], "candidates": [
		{"name": "a", "present_value": 5147, "present_value_low": 4647, "present_value_high": 5647, "purchase": 4000, "price_spread_fraction": 0.125, "reverse_velocity_m_s": 0.25, "energy_per_year": 100, "upkeep_per_year": 0, "slam_per_year": 0},
		{"name": "b", "present_value": null, "present_value_low": null, "present_value_high": null, "price_spread_fraction": null, "reverse_velocity_m_s": null, "purchase": null, "energy_per_year": null, "upkeep_per_year": null, "slam_per_year": null,
		 "reasons": {"present_value": "no price", "present_value_low": "no price", "present_value_high": "no price", "price_spread_fraction": "no price", "reverse_velocity_m_s": "no price", "purchase": "no price", "energy_per_year": "no price", "upkeep_per_year": "no price", "slam_per_year": "no price"}}],
		"reasons": {"currency": "not given"}}}`, out.String())

	s = &object{}
	costs(s, &choice.Comparison{Case: &choice.Case{}})
	require.Empty(t, s.fields)

	out.Reset()
	c.Costs[0].Ratio = choice.Value{SI: 1.5}
	require.NoError(t, Costs(&out, c))
	require.Equal(t, `candidate,price from,purchase currency of the case,energy currency of the case a year,upkeep currency of the case a year,slam currency of the case a year,present value currency of the case,lowest present value currency of the case,highest present value currency of the case,reverse velocity m/s,reason
a,ratio 1.5 ±12.5 %,4000,100,0,0,5147,4647,5647,0.25,
b,,,,,,,,,,no price
`, out.String())
	out.Reset()
	c.Case.Economics.Currency = "EUR, net"
	require.NoError(t, Costs(&out, c))
	require.Contains(t, out.String(), `,"purchase EUR, net","energy EUR, net a year",`)
}
