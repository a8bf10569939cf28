package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
)

func TestVerdictInWords(t *testing.T) {
	pressure := NewScale(quantity.Pressure, quantity.SI, 11.4e5)
	for _, c := range []struct {
		v    Verdict
		want string
	}{
		{Verdict{Value: 11.4e5, Bound: 8.8e5}, "exceeds by 2.6 bar"},
		{Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5}, "meets"},
		{Verdict{Value: 8.6e5, Bound: 8.8e5, Met: true, Margin: 0.2e5}, "meets by 0.2 bar"},
		{Verdict{Value: 8.6e5, Bound: 8.8e5, Met: true, Margin: 0.2e5, Narrow: true}, "meets narrowly by 0.2 bar"},
		{Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5, Narrow: true}, "meets narrowly"},
		{Verdict{Value: 8.8e5, Bound: 8.8e5, Met: true}, "meets"},
		{Verdict{Value: -0.9e5, Bound: -0.5e5}, "short by 0.4 bar"},
		{Verdict{Value: 8.6e5, Bound: 8.8e5, Margin: 0.2e5, Asked: 0.88e5}, "too little to spare, 0.2 bar"},
		{Verdict{Value: 11.4e5, Bound: 8.8e5, Margin: -2.6e5, Asked: 0.88e5}, "exceeds by 2.6 bar"},
		{Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5, Unsure: true}, "meets, unsure"},
	} {
		require.Equal(t, c.want, c.v.Words(pressure))
	}
	require.Equal(t, "exceeds by 2", Verdict{Value: 3, Bound: 1}.Words(Scale{Unit: quantity.SI.Unit(quantity.Number)}))
	require.Equal(t, "exceeds", Verdict{Value: math.Inf(1), Bound: 8.8e5}.Words(pressure))
}
