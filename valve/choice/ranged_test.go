package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

func TestRanged(t *testing.T) {
	for _, c := range []struct {
		texts []string
		want  string
	}{
		{[]string{"as it is, 5 of 7"}, "as it is, 5 of 7"},
		{[]string{"uncertain by 2.5 bar (target 0.41 bar)", "uncertain by 1.2 bar (target 0.41 bar)", "uncertain by 5 bar (target 0.41 bar)"}, "uncertain by 1.2 to 5 bar (target 0.41 bar)"},
		{[]string{"depends on it (14 and 7)", "depends on it (3 and 11)"}, "depends on it (3 to 14 and 7 to 11)"},
	} {
		require.Equal(t, c.want, ranged(c.texts))
	}
	frame := func(text string) string { f, _ := cut(text); return f }
	require.Equal(t, frame("floats at 22 % of its travel"), frame("floats at 7 % of its travel"))
	require.NotEqual(t, frame("at lift, unit 1, 5 bar"), frame("at lift, unit 2, 5 bar"), "another valve")
	require.NotEqual(t, frame("main-2: 5 bar"), frame("main-3: 5 bar"), "another pipe")
}

// A warning that comes back in every scenario is told once; that of one scenario, or of another candidate, stays apart.
func TestWarningsOfScenarios(t *testing.T) {
	c := &Comparison{Case: &Case{Candidates: []valve.Spec{{Name: "a"}, {Name: "b"}}}, Scenarios: []ScenarioOutcomes{
		{Name: "base", Outcomes: []Outcome{{Candidate: "a", Warnings: []string{"peak 5 bar", "same for all"}}, {Candidate: "b", Warnings: []string{"peak 9 bar", "same for all"}}}},
		{Name: "late", Outcomes: []Outcome{{Candidate: "a", Warnings: []string{"peak 7 bar", "same for all"}}, {Candidate: "b", Warnings: []string{"same for all"}}}},
		{Name: "all", Outcomes: []Outcome{{Candidate: "a", Warnings: []string{"same for all", "peak 6 bar", "peak 8 bar"}}, {Candidate: "b", Warnings: []string{"same for all"}}}},
	}}
	c.warn()
	require.Equal(t, []string{"a: peak 5 to 7 bar", "same for all", "b, scenario base: peak 9 bar", "a, scenario all: peak 8 bar"}, c.Warnings)
}
