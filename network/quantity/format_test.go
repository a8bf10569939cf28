package quantity

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		si   float64
		dim  Dimension
		s    System
		text string
	}{
		{430.0 / 3600, Flow, SI, "430 m3/h"},
		{430.0 / 3600, Flow, US, "1893 gpm"},
		{8e5, Pressure, SI, "8 bar"},
		{8e5, Pressure, US, "116 psi"},
		{-5e4, Pressure, SI, "-0.5 bar"},
		{101325, AbsolutePressure, SI, "1.013 bar abs"},
		{101325, AbsolutePressure, US, "14.7 psi abs"},
		{0.638, Velocity, SI, "0.638 m/s"},
		{52, Length, US, "170.6 ft"},
		{0.81, Fraction, SI, "81 %"},
		{0.65, Number, SI, "0.65"},
		{288.15, Temperature, SI, "15 °C"},
		{288.15, Temperature, US, "59 °F"},
		{10, TemperatureDifference, SI, "10 K"},
		{10, TemperatureDifference, US, "18 °F"},
		{1480 * 2 * math.Pi / 60, Rotation, SI, "1480 rpm"},
		{12345.6, Length, SI, "12350 m"},
		{9999.6, Length, SI, "10000 m"},
		{9999600, Length, SI, "1e7 m"},
		{1.23456e7, Length, SI, "1.235e7 m"},
		{0.000123456, Length, SI, "0.0001235 m"},
		{-0.00001234, Length, SI, "-1.234e-5 m"},
		{math.Copysign(0, -1), Length, SI, "0 m"},
		{math.NaN(), Length, SI, "no value"},
		{math.Inf(-1), Length, SI, "no value"},
		{math.MaxFloat64, Flow, SI, "no value"}, // more m3/h than a float64 holds
		{math.MaxFloat64, Length, SI, "1.7976931348623157e308 m"},
	} {
		require.Equal(t, c.text, Format(c.si, c.dim, c.s))
	}
	mm, err := ParseUnit("mm", Length)
	require.NoError(t, err)
	require.Equal(t, "6.3 mm", FormatIn(0.0063, mm))
}

func TestSystems(t *testing.T) {
	require.Equal(t, "si", SI.String())
	require.Equal(t, "us", US.String())
	for _, d := range Dimensions() {
		for _, s := range []System{SI, US} {
			u := s.Unit(d)
			require.Equal(t, d, u.Dim)
			require.Equal(t, outputUnits[d][s], u.Symbol, "an alias, not the symbol")
		}
	}
}

// What is written in a unit reads back as it was, to half a unit of the fourth
// digit.
func TestFormatParseRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(Dimensions()).Draw(t, "dimension")
		u := rapid.SampledFrom(Units(d)).Draw(t, "unit")
		v := drawValue(t, u)
		text := FormatIn(u.To(v), u)
		q, err := Parse(text, d)
		require.NoError(t, err, text)
		require.Equal(t, u.Absolute, q.Absolute, text)
		cancel := 1e-15 * math.Abs(u.offset) // digits lost in °C near 0
		require.InDelta(t, v, u.From(q.SI), 5.01e-4*math.Abs(v)+4*cancel, text)
	})
}

// Every spelling of every unit gives its value back to rounding.
func TestSpellingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(Dimensions()).Draw(t, "dimension")
		s := rapid.SampledFrom(index[dimensionTable[d].units].spellings).Draw(t, "spelling")
		u, problem := as(s.unit, d)
		if problem != "" {
			t.Skip(problem)
		}
		v := drawValue(t, u)
		text := strconv.FormatFloat(v, 'g', -1, 64) + " " + s.text
		q, err := Parse(text, d)
		require.NoError(t, err, text)
		require.InDelta(t, v, u.From(q.SI), 1e-15*(math.Abs(v)+2*math.Abs(u.offset)), text)
	})
}

// drawValue draws a value in unit u that an installation may have.
func drawValue(t *rapid.T, u Unit) float64 {
	v := math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, "decade"))
	if u.offset == 0 && !u.Absolute && u.Dim != Temperature && rapid.Bool().Draw(t, "negative") {
		v = -v
	}
	return v
}
