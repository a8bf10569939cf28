package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The table of the rule in SI for water of 998.2 kg/m3, worked out apart from this package: 1.2199 C/sqrt(rho).
func TestLeastVelocity(t *testing.T) {
	for c, v := range map[float64]float64{30: 1.158, 35: 1.351, 40: 1.544, 48: 1.853, 55: 2.124, 60: 2.317, 80: 3.089, 100: 3.861, 140: 5.406} {
		require.InDelta(t, v, LeastVelocity(c, 998.2), 5.1e-4, "C = %g", c)
	}
	require.InDelta(t, 11.57, LeastVelocity(60, 40), 5e-3, "gas by its density")
}

func TestMarginWords(t *testing.T) {
	for m, words := range map[Margin]string{1.5: "good", 1.2: "good", 1.19: "close", 1: "close", 0.99: "flutters", 0.6: "flutters", 0.59: "flutters severely", 0: "flutters severely"} {
		require.Equal(t, words, m.Words(), "%g", float64(m))
	}
}
