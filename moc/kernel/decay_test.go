package kernel

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The fastest form against the other, byte for byte, and nothing beyond the nodes asked for.
func TestDecay(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 20 {
		var e, b [terms]float64
		for k := range e {
			e[k], b[k] = r.Float64(), r.Float64()*1e3
		}
		fill := func() (past [][terms]float64, dq, z []float64) {
			past, dq, z = make([][terms]float64, n+2), make([]float64, n+2), make([]float64, n+2)
			s := rand.New(rand.NewPCG(3, 4))
			for i := range past {
				dq[i], z[i] = s.NormFloat64(), s.NormFloat64()
				for k := range past[i] {
					past[i][k] = s.NormFloat64()
				}
			}
			return past, dq, z
		}
		past, dq, z := fill()
		other, _, sum := fill()
		for range 5 {
			fade(past[1:n+1], dq[1:n+1], z[1:n+1], &e, &b)
			scalarDecay(other[1:n+1], dq[1:n+1], sum[1:n+1], &e, &b)
		}
		require.Equal(t, other, past)
		require.Equal(t, sum, z)
	}
}
