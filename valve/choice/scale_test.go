package choice

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
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
		{quantity.Volume, quantity.SI, []float64{0.0123, 2}, "0.012 m3"},
		{quantity.Pressure, quantity.US, []float64{6894.757293168}, "1.00 psi"},
		{quantity.Number, quantity.SI, []float64{1.5}, "1.50"},
		{quantity.Velocity, quantity.SI, []float64{0}, "0 m/s"},
		{quantity.Velocity, quantity.SI, []float64{-1e-9, 1}, "0.00 m/s"},
	} {
		require.Equal(t, c.want, NewScale(c.dimension, c.system, c.values...).With(c.values[0]))
	}
}

// Rounding never makes a value that misses its bound look like the bound, nor the margin like nothing.
func TestScaleTellsApart(t *testing.T) {
	s := NewScale(quantity.Pressure, quantity.SI, 8.8e5, 8.8004e5).Apart(8.8004e5, 8.8e5)
	require.Equal(t, "8.8004", s.Text(8.8004e5))
	require.Equal(t, "8.8000", s.Text(8.8e5))
	rapid.Check(t, func(t *rapid.T) {
		bound := rapid.Float64Range(1e4, 1e7).Draw(t, "bound")
		value := bound + rapid.Float64Range(1, 1e6).Draw(t, "above") // 1 Pa is 1e-5 bar
		s := NewScale(quantity.Pressure, quantity.SI, bound, value).Apart(value, bound)
		if s.Text(value) == s.Text(bound) || zero(s.Difference(value, bound)) {
			t.Fatalf("%s and %s, apart by %s", s.Text(value), s.Text(bound), s.Difference(value, bound))
		}
	})
}

// A figure reads alike in a table and in a sentence.
func TestSentencesRoundLikeTheTable(t *testing.T) {
	r := compare(t, quick(t))
	sc := &r.Scenarios[0]
	said := slices.DeleteFunc(slices.Clone(sc.Outcomes[0].Verdicts), passing) // what speaks against the swing disc, and all about the spring disc
	require.NotEmpty(t, said)
	for _, v := range append(said, sc.Outcomes[1].Verdicts...) {
		m := measure(LiquidPump, v.Measure)
		s := sc.Scale(m, quantity.SI)
		require.Contains(t, r.text(), "the "+m.Label+" of "+s.With(v.Value)+" is ")
		require.NotEqual(t, s.Text(v.Value), s.Text(v.Bound))
	}
	require.Equal(t, "8.8 bar", NewScale(quantity.Pressure, quantity.SI, 8.8e5).Bare().With(8.8e5))
	require.Equal(t, "1996 m", NewScale(quantity.Length, quantity.SI, 1996).Bare().With(1996))
	require.Equal(t, "0", NewScale(quantity.Number, quantity.SI, 1).Bare().Text(-1e-9))
	require.False(t, strings.Contains(r.text(), "0000"))
}

// Volumes differ by powers of ten: the small one of a row is no zero.
func TestSmallVolumesAreSeen(t *testing.T) {
	s := NewScale(quantity.Volume, quantity.SI, 5.04e-3, 4.3e-6)
	require.Equal(t, []string{"5.0400", "0.0043"}, []string{s.Text(5.04e-3), s.Text(4.3e-6)})
	require.Equal(t, "5.04 l", NewScale(quantity.Volume, quantity.SI, 5.04e-3, 1e-12, 0).With(5.04e-3), "noise asks for nothing")
}

// A cavity of 4.05 ml that is known to 4.2 ml has one digit, one known to 0.04 l of 1.08 l two decimals; the surest of a row decides, and no error is no reason.
func TestCavityIsNoSurerThanItsError(t *testing.T) {
	row := func(values, errors []float64) []string {
		var s ScenarioOutcomes
		for i, v := range values {
			s.Outcomes = append(s.Outcomes, Outcome{CavityMax: Value{SI: v}, Errors: map[string]float64{keyCavity: errors[i]}})
		}
		s.Outcomes = append(s.Outcomes, Outcome{CavityMax: none("no cavity formed")})
		sc := s.Scale(measure(LiquidPump, keyCavity), quantity.SI)
		var out []string
		for _, v := range values {
			out = append(out, sc.With(v))
		}
		return out
	}
	require.Equal(t, []string{"0.004 l"}, row([]float64{4.05e-6}, []float64{4.2e-6}))
	require.Equal(t, []string{"1.08 l"}, row([]float64{1.08e-3}, []float64{0.04e-3}))
	require.Equal(t, []string{"1.1 l"}, row([]float64{1.08e-3}, []float64{0.3e-3}))
	require.Equal(t, []string{"2 l"}, row([]float64{1.6e-3}, []float64{9e-3}))
	require.Equal(t, []string{"1.08 l", "0.13 l"}, row([]float64{1.08e-3, 0.13e-3}, []float64{0.5e-3, 0.02e-3}))
	require.Equal(t, []string{"0.00405 l"}, row([]float64{4.05e-6}, []float64{0})[:1])
}
