package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
)

func TestRows(t *testing.T) {
	m := measure(LiquidPump, keyMin)
	s := &ScenarioOutcomes{Outcomes: []Outcome{
		{Candidate: "a", MinPressure: Value{SI: -1e5}, MinNode: "crest", AtVapour: true, Verdicts: []Verdict{{Measure: keyMin, Limit: "minimum pressure", Value: -1e5, Bound: -0.5e5, Margin: -0.5e5}}},
		{Candidate: "b", MinPressure: Value{Reason: "no pipe"}},
		{Candidate: "c", MinPressure: Value{SI: 1e5}, Failed: "it burst", MinNode: ""},
	}}
	rows := s.Rows(m, quantity.SI)
	var labels []string
	for _, r := range rows {
		require.Len(t, r.Cells, 3)
		require.Equal(t, len(labels) > 0, r.Detail)
		labels = append(labels, r.Label)
	}
	require.Equal(t, []string{"lowest pressure, bar", "where", "reached", "minimum pressure"}, labels)
	require.Equal(t, "no pipe", rows[0].Cells[1].Reason)
	require.Empty(t, rows[0].Cells[1].Text)
	require.Equal(t, []Cell{{Text: "crest"}, {}, {}}, rows[1].Cells)
	require.Equal(t, []Cell{{Text: "vapour pressure"}, {}, {}}, rows[2].Cells)
	require.Equal(t, s.Scale(m, quantity.SI).Text(-0.5e5), rows[3].Bound)
	require.True(t, rows[3].Cells[0].Alarm)
	require.Empty(t, rows[3].Cells[1])

	// A measure without place and limit is one line.
	require.Len(t, s.Rows(measure(LiquidPump, keySlam), quantity.SI), 1)
}
