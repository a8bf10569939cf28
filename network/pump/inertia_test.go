package pump

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEstimateInertia checks the arithmetic of Thorley's two fits within 0.1 %
// against values worked out with the other published form of the constants,
// 0.03768 (P/N^3)^0.9556 and 0.0043 (P/N)^1.48 with N in thousands of rpm.
func TestEstimateInertia(t *testing.T) {
	for _, c := range []struct{ kW, rpm, pump, motor float64 }{
		{100, 1480, 0.9972, 2.1872},
		{11, 2900, 0.01759, 0.03082},
		{1000, 990, 28.510, 119.77},
	} {
		pump, motor := EstimateInertia(c.kW*1e3, c.rpm*rpm)
		require.InEpsilon(t, c.pump, pump, 1e-3)
		require.InEpsilon(t, c.motor, motor, 1e-3)
	}
	s := bare(35)
	p := build(t, s)
	pump, motor := EstimateInertia(p.RatedPower, s.Speed)
	require.Equal(t, pump+motor, p.Inertia)
	s.Inertia = 2.2
	p = build(t, s)
	require.Equal(t, 2.2, p.Inertia)
	require.False(t, p.InertiaEstimated)
}
