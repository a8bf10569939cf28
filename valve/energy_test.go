package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A disc on a spring, 17 kg with its liquid, 92 N on the seat, 2283 N/m, 60 mm: what the spring gives up over the travel, F_0 s + k s^2/2, is the
// energy at the seat, 9.629 J.
func TestImpactEnergyIsThatOfTheSpring(t *testing.T) {
	const m, f0, k, s = 17, 92, 2283, 0.06
	w := math.Sqrt(float64(k)/m) * math.Sqrt(math.Pow(s+float64(f0)/k, 2)-math.Pow(float64(f0)/k, 2))
	for _, motion := range []Motion{&Law{Inertia: m}, &Carried{Law: &Law{Inertia: m}}} {
		e, ok := Valve{Motion: motion}.ImpactEnergy(-w)
		require.True(t, ok)
		require.InDelta(t, 9.629, e, 5e-4)
		require.InEpsilon(t, f0*s+k*s*s/2., e, 1e-12)
	}
	_, ok := Valve{Motion: &Pair{}}.ImpactEnergy(w)
	require.False(t, ok)
}
