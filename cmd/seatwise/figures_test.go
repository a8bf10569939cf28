package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

func TestScale(t *testing.T) {
	for _, c := range []struct {
		dimension quantity.Dimension
		system    quantity.System
		values    []float64
		want      string // of the first
	}{
		{quantity.Pressure, quantity.SI, []float64{11.42e5, 5.5e5}, "11.4 bar"},
		{quantity.Pressure, quantity.SI, []float64{5.5e5, 11.42e5}, "5.5 bar"},
		{quantity.Velocity, quantity.SI, []float64{0.638, 0.104}, "0.638 m/s"},
		{quantity.Flow, quantity.SI, []float64{430. / 3600}, "430 m3/h"},
		{quantity.Rotation, quantity.SI, []float64{1480 * math.Pi / 30}, "1480 rpm"},
		{quantity.Fraction, quantity.SI, []float64{1, 0.4}, "100 %"},
		{quantity.Volume, quantity.SI, []float64{0.0123}, "12.3 l"},
		{quantity.Volume, quantity.SI, []float64{0.0123, 2}, "0.01 m3"},
		{quantity.Pressure, quantity.US, []float64{6894.757293168}, "1.00 psi"},
		{quantity.Number, quantity.SI, []float64{1.5}, "1.50"},
		{quantity.Velocity, quantity.SI, []float64{0}, "0 m/s"},
		{quantity.Velocity, quantity.SI, []float64{-1e-9, 1}, "0.00 m/s"},
	} {
		require.Equal(t, c.want, newScale(c.dimension, c.system, c.values...).with(c.values[0]))
	}
}

// Rounding never makes a value that misses its bound look like the bound, nor the margin like nothing.
func TestScaleTellsApart(t *testing.T) {
	s := newScale(quantity.Pressure, quantity.SI, 8.8e5, 8.8004e5).apart(8.8004e5, 8.8e5)
	require.Equal(t, "8.8004", s.text(8.8004e5))
	require.Equal(t, "8.8000", s.text(8.8e5))
	rapid.Check(t, func(t *rapid.T) {
		bound := rapid.Float64Range(1e4, 1e7).Draw(t, "bound")
		value := bound + rapid.Float64Range(1, 1e6).Draw(t, "above") // 1 Pa is 1e-5 bar
		s := newScale(quantity.Pressure, quantity.SI, bound, value).apart(value, bound)
		if s.text(value) == s.text(bound) || zero(s.difference(value, bound)) {
			t.Fatalf("%s and %s, apart by %s", s.text(value), s.text(bound), s.difference(value, bound))
		}
	})
}

func TestVerdictInWords(t *testing.T) {
	pressure := newScale(quantity.Pressure, quantity.SI, 11.4e5)
	for _, c := range []struct {
		v    choice.Verdict
		want string
	}{
		{choice.Verdict{Value: 11.4e5, Bound: 8.8e5}, "exceeds by 2.6 bar"},
		{choice.Verdict{Value: 8e5, Bound: 8.8e5, Met: true}, "meets"},
		{choice.Verdict{Value: 8.8e5, Bound: 8.8e5, Met: true}, "meets"},
		{choice.Verdict{Value: -0.9e5, Bound: -0.5e5}, "short by 0.4 bar"},
		{choice.Verdict{Value: 8e5, Bound: 8.8e5, Met: true, Unsure: true}, "meets, unsure"},
	} {
		require.Equal(t, c.want, verdict(c.v, pressure))
	}
	require.Equal(t, "exceeds by 2", verdict(choice.Verdict{Value: 3, Bound: 1}, scale{unit: quantity.SI.Unit(quantity.Number)}))
}
