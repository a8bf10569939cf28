package plots

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// closesAt is a valve that seats at a reverse velocity of its own; see [valve.Ideal].
func closesAt(v float64) valve.Valve {
	return valve.Valve{Bore: 0.25, Motion: &valve.Ideal{Loss: 1, ClosesAt: v, Density: 1000}}
}

// The figures of a comparison end with the characteristics of its sound valves about the installation's own deceleration, in the scenario where that is
// greatest, and the figures at the dots are those of the bench there.
func TestOwnCharacteristic(t *testing.T) {
	c := synthetic(3, 2)
	c.Scenarios[1].Own.SI = 9.1
	for k := range c.Scenarios {
		for i, v := range []float64{0.4, 0.1, 0.05} {
			c.Scenarios[k].Outcomes[i].Valve = closesAt(v)
			if k == 0 {
				c.Case.Candidates = append(c.Case.Candidates, valve.Spec{Name: c.Scenarios[0].Outcomes[i].Candidate})
			}
		}
	}
	c.Case.Candidates[2].Failure = valve.BrokenSpring
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	f := figs[len(figs)-1]
	require.Equal(t, CharacteristicName, f.Name)
	text := svgText(t, f)
	require.Contains(t, text, "installation 9.1 m/s²")
	require.Contains(t, text, "scenario two-trip")
	require.NotContains(t, text, "nozzle", "one with a failed part is left out")
	for _, o := range c.Scenarios[1].Outcomes[:2] {
		want := characteristic.At(o.Valve, 9.1, characteristic.Settings{}).ReverseVelocity
		require.Contains(t, text, o.Candidate+", "+twoFigures(want)+" m/s")
	}

	for k := range c.Scenarios {
		c.Scenarios[k].Own = choice.Value{Reason: "nothing happens"}
	}
	figs, err = Figures(c, quantity.SI)
	require.NoError(t, err)
	require.NotEqual(t, CharacteristicName, figs[len(figs)-1].Name)
}
