package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A stronger spring closes with its factor; the load on the open disc stays, so that the velocity that holds it grows with the root. The given valve stays as it is.
func TestStronger(t *testing.T) {
	v := lifting(t, 0, 60)
	s, err := v.Stronger(1.5)
	require.NoError(t, err)
	l := s.Motion.(*Law)
	require.InEpsilon(t, 90, l.Preload, 1e-12)
	require.InEpsilon(t, 3000, l.SpringRate, 1e-12)
	require.InEpsilon(t, math.Sqrt(1.5), s.FullOpenVelocity/v.FullOpenVelocity, 1e-3)
	require.Equal(t, []float64{60, 2000}, []float64{v.Motion.(*Law).Preload, v.Motion.(*Law).SpringRate})

	_, err = Valve{Motion: &Ideal{Loss: 1, Density: 1000}}.Stronger(1.5)
	require.ErrorIs(t, err, ErrNoPart)
	for _, factor := range []float64{0, -1, math.NaN()} {
		_, err = v.Stronger(factor)
		require.ErrorIs(t, err, ErrLaw)
	}
}
