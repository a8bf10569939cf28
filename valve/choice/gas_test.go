package choice

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The slam of the swing disc draws a cavity in its branch; that of the spring disc does not.
func TestCavitiesDependOnTheirGas(t *testing.T) {
	r := compare(t, liftStation(t))
	swing, spring := &r.Scenarios[0].Outcomes[0], &r.Scenarios[0].Outcomes[1]
	require.Positive(t, swing.CavityMax.SI)
	require.True(t, swing.AtVapour)
	require.NotEmpty(t, swing.Spots[keyCavity].Place)
	n := r.Case.Scenarios[0].Network
	require.InDelta(t, n.Fluid.VapourPressure-n.Atmosphere, swing.MinPressure.SI, tenfold*n.Atmosphere)
	require.NotEmpty(t, swing.GasErrors)
	for key, e := range swing.GasErrors {
		require.GreaterOrEqual(t, swing.Errors[key], e, key)
	}
	require.Positive(t, swing.GasErrors[keyLater], "what follows the cavity depends on it")
	require.Equal(t, swing.Errors[keyPeak], swing.PeakError.SI)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "plain-swing: the results depend on the free gas that is assumed in the cavities")
	require.Contains(t, r.text(), "(vapour pressure, branch at ")

	require.Equal(t, "no cavity formed", spring.CavityMax.Reason)
	require.False(t, spring.AtVapour)
	require.Nil(t, spring.GasErrors)

	single, err := Run(context.Background(), liftStation(t), Settings{GridsAtMost: 1})
	require.NoError(t, err)
	require.Nil(t, single.Scenarios[0].Outcomes[0].GasErrors, "without an error estimate nothing is added to it")
}

// A difference that the gas makes is added to the error, and told when it is more than 1 %.
func TestScatter(t *testing.T) {
	outcome := func(peak float64) Outcome {
		return *silent(func(o *Outcome) {
			o.PeakPressure, o.EventTime, o.Errors = Value{SI: peak}, 1, map[string]float64{keyPeak: 1e4}
		})
	}
	o, other := outcome(20e5), grid{outcome: outcome(18e5)}
	o.scatter(&other, Settings{})
	require.InDelta(t, 2.1e5, o.PeakError.SI, 1e-6)
	require.InDelta(t, 2e5, o.GasErrors[keyPeak], 1e-6)
	require.Len(t, o.Warnings, 1)
	require.Contains(t, o.Warnings[0], "with ten times as much the highest pressure is 18.0 bar instead of 20.0 bar; the difference is part of the error")

	o, other.outcome.Failed = outcome(20e5), "lost"
	o.scatter(&other, Settings{})
	require.Nil(t, o.GasErrors)
	require.Contains(t, o.Warnings[0], "is unknown, as the run with ten times as much failed: lost")

	o = outcome(20e5)
	o.scatter(nil, Settings{})
	require.Empty(t, o.Warnings)
}
