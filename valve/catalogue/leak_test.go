package catalogue

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

func TestLeakageClass(t *testing.T) {
	complete := func(set map[string]float64) (valve.Valve, error) {
		return Complete(valve.Spec{Name: "v", Type: "swing", Size: 0.3, Set: set}, Setting{Density: 998.2, Gravity: 9.81})
	}
	v, err := complete(map[string]float64{leakageClass: 0.1, "pressure class": 40})
	require.NoError(t, err)
	require.InEpsilon(t, valve.SeatConductance(0.1, 0.3, 40), v.Motion.(*valve.Law).Leak, 1e-12)
	v, err = complete(map[string]float64{leakageClass: 0.1})
	require.NoError(t, err)
	require.InEpsilon(t, valve.SeatConductance(0.1, 0.3, 16), v.Motion.(*valve.Law).Leak, 1e-12)
	_, err = complete(map[string]float64{leakageClass: 0.1, "leak": 0.01})
	require.ErrorIs(t, err, ErrValue)
	require.ErrorContains(t, err, "leak and leakage class say the same")
}
