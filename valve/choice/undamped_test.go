package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/valve"
)

// What damps late waves and is left out is told as the case has it.
func TestUndamped(t *testing.T) {
	ask := func(f moc.Friction, late float64, origin valve.Origin, friction float64) []string {
		o := Outcome{Verdicts: []Verdict{{Limit: "design pressure", Late: late}},
			Valve: valve.Valve{Data: []valve.Datum{{Key: "hinge friction", Origin: origin, Value: friction}}}}
		r := &reasons{Comparison: &Comparison{Case: &Case{Friction: f}}}
		r.undamped([]*standing{{name: "swing", outcomes: []*Outcome{&o}}})
		return r.out
	}
	const start = "Late waves of swing are damped less here than in the plant: "
	require.Equal(t, []string{start + "unsteady friction in the pipes is not modelled, and no dry friction at hinge or guide is given."}, ask(moc.QuasiSteady, 5, valve.Default, 0))
	require.Equal(t, []string{start + "unsteady friction in the pipes is not modelled."}, ask(moc.QuasiSteady, 5, valve.Given, 3))
	require.Equal(t, []string{start + "no dry friction at hinge or guide is given."}, ask(moc.Weighted, 5, valve.Default, 0))
	require.Empty(t, ask(moc.Accelerated, 5, valve.Given, 3))
	require.Empty(t, ask(moc.QuasiSteady, 0, valve.Default, 0), "nothing is late")
}
