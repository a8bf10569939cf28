package choice

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// The installation's own deceleration does not depend on the candidates as long as their size is one; velocities are on its bore.
func TestOwnDecelerationIsOfTheInstallation(t *testing.T) {
	own := func(c *Case) (float64, float64) {
		v, bore, err := Own(context.Background(), c, &c.Scenarios[0], Settings{})
		require.NoError(t, err)
		require.Empty(t, v.Reason)
		return v.SI, bore
	}
	a, bore := own(quick(t))
	require.Equal(t, 0.25, bore)
	b, _ := own(quick(t, spec("spring", "axial spring")))
	require.Equal(t, a, b)
	r := compare(t, quick(t, spec("nozzle", "nozzle")))
	require.Equal(t, a, r.Scenarios[0].Own.SI)
	require.Equal(t, 0.25, r.Scenarios[0].OwnBore)

	mean, _, err := OwnMean(context.Background(), quick(t), &quick(t).Scenarios[0], Settings{})
	require.NoError(t, err)
	require.Empty(t, mean.Reason)
	require.NotEqual(t, a, mean.SI, "a trip is not a constant deceleration")
	require.InDelta(t, a, mean.SI, 0.9*a)

	// Of the valve that closes: a disc that seats later sees more of the fall, which the pump's rotor makes steeper and steeper.
	r = compare(t, quick(t))
	of, bore, err := OwnClosing(context.Background(), quick(t), &quick(t).Scenarios[0], quick(t).Candidates[0], Settings{})
	require.NoError(t, err)
	require.Empty(t, of.Reason)
	require.Equal(t, 0.25, bore)
	require.InEpsilon(t, r.Scenarios[0].Outcomes[0].ClosingDeceleration.SI, of.SI, 0.02, "a run of the comparison at half the step")
	without, _, err := OwnClosing(context.Background(), quick(t), &quick(t).Scenarios[0], spec("ideal", "ideal"), Settings{})
	require.NoError(t, err)
	require.Equal(t, "a valve without a disc", without.Reason)

	small := spec("small", "swing")
	small.Size = 0.2
	c, _ := own(quick(t, small))
	require.InEpsilon(t, 1.25*1.25, c/a, 0.05, "the same flow on a smaller bore, but for the greater loss")
	d, bore := own(quick(t, small, spec("swing", "swing")))
	require.Equal(t, a, d, "sizes differ: the bore of the branch")
	require.Equal(t, 0.25, bore)

	still := quick(t)
	still.Scenarios[0].Events = nil
	v, _, err := Own(context.Background(), still, &still.Scenarios[0], Settings{})
	require.NoError(t, err)
	require.Equal(t, nothingHappens, v.Reason)

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, _, err = Own(ctx, quick(t), &quick(t).Scenarios[0], Settings{})
	require.ErrorIs(t, err, context.Canceled)
}
