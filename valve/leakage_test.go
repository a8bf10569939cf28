package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// DN300, PN 16, rate D, 0.1 mm3/s per mm: 30 mm3/s at 17.6 bar, by hand. A shut disc with that conductance passes that flow at that pressure.
func TestSeatConductance(t *testing.T) {
	g := SeatConductance(0.1, 0.3, 16)
	area := math.Pi / 4 * 0.3 * 0.3
	require.InEpsilon(t, 30e-9, g*math.Sqrt(2*17.6e5/1000)*area, 1e-12)
	require.InEpsilon(t, math.Sqrt2, SeatConductance(0.1, 0.3, 8)/g, 1e-12, "the same leak at half the pressure is a wider gap")
	require.Zero(t, SeatConductance(0, 0.3, 16))
}
