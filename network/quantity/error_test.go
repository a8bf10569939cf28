package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// mistakes holds every message. The caret in at stands below the offset.
var mistakes = []struct {
	want Dimension
	text string
	at   int
	err  string
}{
	{Length, "", 0, "no value, a length is wanted: e.g. 52 m"},
	{Area, " \u00a0", 0, "no value, an area is wanted: e.g. 0.05 m2"},
	{Length, "52", 2, `"52" has no unit, a length is wanted: write 52 m`},
	{Length, " 52 ", 4, `"52" has no unit, a length is wanted: write 52 m`},
	{Inertia, "\u22122.2", 6, `"−2.2" has no unit, a moment of inertia is wanted: write −2.2 kg·m2`},
	{Flow, "8 bar", 2, `"8 bar" is a pressure, a flow is wanted: e.g. 430 m3/h`},
	{Length, "8 bara", 2, `"8 bara" is an absolute pressure, a length is wanted: e.g. 52 m`},
	{Pressure, "52 m", 3, `"52 m" is a length, a pressure is wanted: e.g. 8 bar`},
	{Number, "52 m", 3, `"52 m" is a length, a number is wanted: e.g. 0.65`},
	{Number, "50 %", 3, `"50 %" is a fraction, a number is wanted: e.g. 0.65`},
	{Acceleration, "3 m/s", 2, `"3 m/s" is a velocity, an acceleration is wanted: e.g. 6.8 m/s2`},
	{AbsolutePressure, "1 barg", 2, `"1 barg" is a gauge pressure, an absolute pressure is wanted: e.g. 101.3 kPa`},
	{PressureDifference, "1 bar abs", 2, `"1 bar abs" is a pressure level, a pressure difference is wanted: e.g. 0.3 bar`},
	{Modulus, "1 psig", 2, `"1 psig" is a pressure level, a modulus is wanted: e.g. 1.5 GPa`},

	{Flow, "430 M3/H", 4, `unknown unit "M3/H": write m3/h, the case of letters matters`},
	{Pressure, "8 Bar", 2, `unknown unit "Bar": write bar, the case of letters matters`},
	{Pressure, "8 PSIG", 2, `unknown unit "PSIG": write psig, the case of letters matters`},
	{Rotation, "1480 RPM", 5, `unknown unit "RPM": write rpm, the case of letters matters`},
	{Inertia, "2 KG M2", 2, `unknown unit "KG M2": write kg·m2, the case of letters matters`},
	{Pressure, "8 barr", 2, `unknown unit "barr": did you mean bar, bara or barg?`},
	{Flow, "8 gmp", 2, `unknown unit "gmp": did you mean gpm?`},
	{Temperature, "15 C", 3, `unknown unit "C": did you mean °C?`},
	{Time, "5 minutos", 2, `unknown unit "minutos": did you mean minutes?`},
	{TemperatureDifference, "10 °C difference", 3, `unknown unit "°C difference": e.g. 10 K`},
	{Length, "5 q", 2, `unknown unit "q": e.g. 52 m`},
	{Length, "5 furlongs per fortnight and more", 2, `unknown unit "furlongs per fortnight and more": e.g. 52 m`},
	{Length, "5 " + strings.Repeat("x", 70), 2, `unknown unit "` + strings.Repeat("x", 60) + `...": e.g. 52 m`},
	{Pressure, "8 psgi", 2, `unknown unit "psgi": did you mean psi or psig?`},
	{Volume, "8 litr", 2, `unknown unit "litr": did you mean litre or liter?`},
	{Length, "5 \xff\x1b", 2, `unknown unit "\xff\x1b": e.g. 52 m`},
	{Length, "6\"", 1, "a quotation mark is no unit: write in for inches"},
	{Length, "6''", 1, "a quotation mark is no unit: write in for inches"},
	{Length, "6\u2033", 1, "a double prime is no unit: write in for inches"},
	{Length, "6'", 1, "an apostrophe is no unit: write ft for feet, min for minutes"},
	{Length, "6 \u2032", 2, "a prime is no unit: write ft for feet, min for minutes"},
	{Flow, "6 Nm3/h", 2, "a volume at reference conditions depends on the gas: write a mass flow (kg/s) or the flow at line conditions (m3/h)"},
	{Flow, "6 SCFM", 2, "a volume at reference conditions depends on the gas: write a mass flow (kg/s) or the flow at line conditions (m3/h)"},
	{Inertia, "GD2 = 8.8 kg·m2", 0, "GD2 = 4 I: write the inertia I as kg·m2"},
	{Inertia, "8.8 kg·m2 gd²", 11, "GD2 = 4 I: write the inertia I as kg·m2"},
	{Inertia, "GD^2", 0, "GD2 = 4 I: write the inertia I as kg·m2"},
	{Inertia, "8.8 kgf m2", 4, "GD2 = 4 I: write the inertia I as kg·m2"},

	{Inertia, "2,2 kg·m2", 1, "comma in a number: write 2.2 kg·m2"},
	{Length, "1,5 m", 1, "comma in a number: write 1.5 m"},
	{Length, ",5 m", 0, "comma in a number: write 0.5 m"},
	{Length, "5, m", 1, "comma in a number: write 5 m"},
	{Length, "-1,5e3 m", 2, "comma in a number: write -1.5e3 m"},
	{Rotation, "1,480 rpm", 1, "comma in a number: write 1480 rpm or 1.480 rpm"},
	{Length, "0,480 m", 1, "comma in a number: write 0.480 m"},
	{Length, "1,480,000 m", 1, "comma in a number: write 1480000 m"},
	{Length, "1,480.5 m", 1, "comma in a number: write 1480.5 m"},
	{Length, "1.480,5 m", 5, "comma in a number: write 1480.5 m"},
	{Length, "1,48,5 m", 1, "comma in a number: write one point for the decimals and no thousands mark"},
	{Length, "1.480.000 m", 5, "two points in a number: write 1480000 m"},
	{Length, "1.4.5 m", 3, "two points in a number: write one point for the decimals and no thousands mark"},
	{Length, "5. m", 1, "no digit after the point: write 5 m"},
	{Length, "007 m", 0, "leading zero in a number: write 7 m"},
	{Length, "-00.5 m", 1, "leading zero in a number: write -0.5 m"},
	{Length, "00 m", 0, "leading zero in a number: write 0 m"},
	{Length, "1_000 m", 1, "underscore in a number: write 1000 m"},
	{Length, "1'480 m", 1, "thousands mark in a number: write 1480 m"},
	{Length, "1\u2019480 m", 1, "thousands mark in a number: write 1480 m"},
	{Rotation, "1 480 rpm", 2, "space inside a number: write 1480 rpm"},
	{Length, "1\u202f480\u202f000 m", 4, "space inside a number: write 1480000 m"},
	{Length, "5 2 m", 2, "a second number follows the first: write one number, e.g. 52 m"},
	{Length, "1.5 480 m", 4, "a second number follows the first: write one number, e.g. 52 m"},
	{Length, "1/2 in", 1, "a common fraction is not read: write a decimal number, e.g. 52 m"},
	{Length, "1 1/2 in", 2, "a common fraction is not read: write a decimal number, e.g. 52 m"},
	{Length, "- 5 m", 0, "space after the sign: write -5 m"},
	{Length, "--5 m", 1, `a number is wanted at "-5 m": e.g. 52 m`},
	{Length, "-", 1, `a number is wanted at "the end": e.g. 52 m`},
	{Length, "m 5", 0, `a number is wanted at "m 5": e.g. 52 m`},
	{Length, "e5 m", 0, `a number is wanted at "e5 m": e.g. 52 m`},
	{Length, "٥ m", 0, `a number is wanted at "٥ m": e.g. 52 m`},
	{Length, "inf m", 0, "the value is not a finite number: write a finite number, e.g. 52 m"},
	{Length, "-.Inf", 1, "the value is not a finite number: write a finite number, e.g. 52 m"},
	{Length, ".nan", 0, "the value is not a finite number: write a finite number, e.g. 52 m"},
	{Length, "Infinity", 0, "the value is not a finite number: write a finite number, e.g. 52 m"},
	{Length, "∞ m", 0, "the value is not a finite number: write a finite number, e.g. 52 m"},
	{Length, "0x1F m", 0, "only decimal numbers are read: e.g. 52 m"},
	{Length, "-0o17 m", 1, "only decimal numbers are read: e.g. 52 m"},
	{Length, "0b101", 0, "only decimal numbers are read: e.g. 52 m"},
	{Length, "1e400 m", 0, "the number is too large: the largest is about 1e308"},
	{Length, "1e308 km", 0, "the number is too large: the largest is about 1e308 in SI units"},
	{Length, "1e-400 m", 0, "the number is too small: write 0 m"},
	{Length, "5e-324 mm", 0, "the number is too small: write 0"},
	{Length, "1" + strings.Repeat(" 480", 100) + " m", 0, "the text is too long for a value: e.g. 52 m"},
	{Length, "5\tm", 1, "tab in a value: write a space"},
	{Pressure, "-1 bar abs", 0, "an absolute pressure is never negative: write a gauge pressure, or check the sign"},
	{AbsolutePressure, " -1 bar", 1, "an absolute pressure is never negative: write a gauge pressure, or check the sign"},
	{Temperature, "-300 °C", 0, "the temperature is below absolute zero: write it like 15 °C"},
}

func TestMessages(t *testing.T) {
	for _, m := range mistakes {
		_, err := Parse(m.text, m.want)
		var e *Error
		require.ErrorAs(t, err, &e, "%q", m.text)
		require.Equal(t, m.err, e.Error(), "%q", m.text)
		require.Equal(t, m.at, e.Offset, "%q", m.text)
		require.Equal(t, m.text, e.Text)
	}
}

// A hint "write ..." for a number is itself readable.
func TestHintsAreReadable(t *testing.T) {
	checked := 0
	for _, m := range mistakes {
		_, err := Parse(m.text, m.want)
		var e *Error
		require.ErrorAs(t, err, &e)
		hint, ok := strings.CutPrefix(e.Hint, "write ")
		if !ok || !strings.ContainsAny(strings.TrimLeft(hint, "-\u2212")[:1], "0123456789") {
			continue
		}
		for _, text := range strings.Split(hint, " or ") {
			if text == "0" {
				continue // too small: the unit follows from the text
			}
			_, err := Parse(text, m.want)
			require.NoError(t, err, "%q suggests %q", m.text, text)
			checked++
		}
	}
	require.Greater(t, checked, 20)
}

func TestZeroBar(t *testing.T) {
	for _, text := range []string{"0bar", "0 bar", "0.0bar", "0e5 bar"} {
		q, err := Parse(text, Pressure)
		require.NoError(t, err, text)
		require.Zero(t, q.SI)
	}
}

func TestCaret(t *testing.T) {
	for _, c := range []struct {
		want  Dimension
		text  string
		caret string
	}{
		{Flow, "8 bar", "8 bar\n  ^"},
		{Length, "52", "52\n  ^"},
		{Length, "\u22121,5 m", "−1,5 m\n  ^"}, // counted in letters, not bytes
		{Length, "5\tm", "5 m\n ^"},
		{Length, "", "\n^"},
	} {
		_, err := Parse(c.text, c.want)
		var e *Error
		require.ErrorAs(t, err, &e)
		require.Equal(t, c.caret, e.Caret())
	}
}

func TestPrintableAndQuote(t *testing.T) {
	require.Equal(t, "a b c é", Printable("a\x1bb\u200bc é"))
	require.Equal(t, `"a\"b"`, Quote(" a\"b\u00a0"))
	require.Equal(t, `"`+strings.Repeat("µ", 60)+`..."`, Quote(strings.Repeat("µ", 61)))
}
