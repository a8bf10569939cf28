package screen

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

// The steps of a screening give the reverse velocity as the finer ones of the characteristic do, within what their comment says.
func TestBench(t *testing.T) {
	for _, name := range []string{"swing", "tilting disc", "ball", "axial spring", "nozzle", "dual plate"} {
		v, err := catalogue.Complete(valve.Spec{Name: name, Type: name, Size: 0.25}, catalogue.Setting{Density: 999, Gravity: network.Gravity})
		require.NoError(t, err)
		for _, a := range []float64{0.3, 1, 7, 25} {
			fine := characteristic.At(v, a, characteristic.Settings{})
			for _, steps := range []float64{200, 25} {
				rough := characteristic.At(v, a, bench(v, a, steps))
				require.InDelta(t, fine.ReverseVelocity, rough.ReverseVelocity, math.Max(0.005, 0.03*fine.ReverseVelocity), fmt.Sprintf("%s at %g m/s2 in %g steps", name, a, steps))
			}
		}
	}
}
