package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

func TestVerdictInWords(t *testing.T) {
	pressure := choice.NewScale(quantity.Pressure, quantity.SI, 11.4e5)
	for _, c := range []struct {
		v    choice.Verdict
		want string
	}{
		{choice.Verdict{Value: 11.4e5, Bound: 8.8e5}, "exceeds by 2.6 bar"},
		{choice.Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5}, "meets"},
		{choice.Verdict{Value: 8.6e5, Bound: 8.8e5, Met: true, Margin: 0.2e5}, "meets by 0.2 bar"},
		{choice.Verdict{Value: 8.6e5, Bound: 8.8e5, Met: true, Margin: 0.2e5, Narrow: true}, "meets narrowly by 0.2 bar"},
		{choice.Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5, Narrow: true}, "meets narrowly"},
		{choice.Verdict{Value: 8.8e5, Bound: 8.8e5, Met: true}, "meets"},
		{choice.Verdict{Value: -0.9e5, Bound: -0.5e5}, "short by 0.4 bar"},
		{choice.Verdict{Value: 7e5, Bound: 8.8e5, Met: true, Margin: 1.8e5, Unsure: true}, "meets, unsure"},
	} {
		require.Equal(t, c.want, verdict(c.v, pressure))
	}
	require.Equal(t, "exceeds by 2", verdict(choice.Verdict{Value: 3, Bound: 1}, choice.Scale{Unit: quantity.SI.Unit(quantity.Number)}))
}
