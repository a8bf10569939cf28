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
	s := &object{}
	costs(s, c)
	var out bytes.Buffer
	require.NoError(t, s.write(&out))
	require.JSONEq(t, `{"costs": {"currency": null, "years": 20, "discount_rate_fraction": 0, "candidates": [
		{"name": "a", "present_value": 5147, "purchase": 4000, "energy_per_year": 100, "upkeep_per_year": 0, "slam_per_year": 0},
		{"name": "b", "present_value": null, "purchase": null, "energy_per_year": null, "upkeep_per_year": null, "slam_per_year": null,
		 "reasons": {"present_value": "no price", "purchase": "no price", "energy_per_year": "no price", "upkeep_per_year": "no price", "slam_per_year": "no price"}}],
		"reasons": {"currency": "not given"}}}`, out.String())

	s = &object{}
	costs(s, &choice.Comparison{Case: &choice.Case{}})
	require.Empty(t, s.fields)
}
