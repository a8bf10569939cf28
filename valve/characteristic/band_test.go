package characteristic

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
	"seatwise/valve/catalogue"
)

func TestBand(t *testing.T) {
	for _, kind := range []string{"swing", "nozzle", "dual plate"} {
		spec := valve.Spec{Name: kind, Type: kind, Size: 0.3, Set: map[string]float64{}}
		remake := func(key string, value float64) (valve.Valve, error) {
			s := spec
			s.Set = map[string]float64{key: value}
			return catalogue.Complete(s, level)
		}
		v, err := catalogue.Complete(spec, level)
		require.NoError(t, err)
		curve, err := Curve(v, []float64{2, 10}, Settings{})
		require.NoError(t, err)
		band, tried, left := Band(v, curve, Settings{}, remake)
		require.Greater(t, tried, 4, kind)
		require.Less(t, left, tried, kind)
		for i, r := range band {
			require.Less(t, r.Low, curve[i].ReverseVelocity, kind)
			require.Greater(t, r.High, curve[i].ReverseVelocity, kind)
		}
		// A heavier disc alone is inside, and reaches one of the ends at no deceleration it should not.
		for _, d := range v.Data {
			if d.Key == "moving mass" && d.Spread > 0 {
				heavy, err := remake(d.Key, (1+d.Spread)*d.Value)
				require.NoError(t, err)
				p := At(heavy, 10, Settings{})
				require.LessOrEqual(t, p.ReverseVelocity, band[1].High)
				require.GreaterOrEqual(t, p.ReverseVelocity, band[1].Low)
			}
		}
		for i := range v.Data {
			v.Data[i].Spread = 0
		}
		band, tried, _ = Band(v, curve, Settings{}, remake)
		require.Zero(t, tried)
		require.Equal(t, curve[0].ReverseVelocity, band[0].Low)
		require.Equal(t, curve[0].ReverseVelocity, band[0].High)
	}
}

func TestBetween(t *testing.T) {
	all, err := Between(0.5, 50)
	require.NoError(t, err)
	require.Equal(t, Decelerations(), all)
	some, err := Between(0.9, 2.2)
	require.NoError(t, err)
	require.Equal(t, []float64{0.9, 1, 1.25, 1.6, 2, 2.2}, some)
	for _, bad := range [][2]float64{{0, 1}, {2, 1}, {1, 1}, {1, 1e9}} {
		_, err := Between(bad[0], bad[1])
		require.Error(t, err)
	}
}
