package kernel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The polynomial of the friction against the root it stands for, of which float64 knows four parts in 1e16.
func TestSeries(t *testing.T) {
	largest, atZero := 0.0, 0.0
	for i := range 100_001 {
		u := series * float64(i) / 100_000
		c := 2 / (1 + math.Sqrt(1+4*u))
		e := e0 - u*(e1-u*(e2-u*(e3-u*e4)))
		largest = math.Max(largest, u*math.Abs(e-c*c))
		if u < 1e-6 {
			atZero = math.Max(atZero, math.Abs(e-c*c))
		}
	}
	require.Less(t, largest, 3e-17)
	require.Less(t, atZero, 2e-15)
}

func TestName(t *testing.T) {
	require.Equal(t, fastest().name, Name())
	require.Contains(t, []string{"AVX2", "Go"}, Name())
}
