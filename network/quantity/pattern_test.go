package quantity

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func patterns() map[Dimension]*regexp.Regexp {
	all := map[Dimension]*regexp.Regexp{}
	for _, d := range Dimensions() {
		all[d] = regexp.MustCompile(Pattern(d))
	}
	return all
}

// TestPatternTakesWhatParseTakes writes units in many ways: what is read as a quantity matches the pattern of its dimension.
func TestPatternTakesWhatParseTakes(t *testing.T) {
	all := patterns()
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(Dimensions()).Draw(t, "dimension")
		number := rapid.SampledFrom([]string{"0", "1", "-1.5", "\u22122", "+.5", "1e3", "2E\u22123", "1480", " 7"}).Draw(t, "number")
		unit := rapid.SampledFrom(index[dimensionTable[d].units].spellings).Draw(t, "unit").text
		for range rapid.IntRange(0, 2).Draw(t, "changes") {
			swap := rapid.SampledFrom([][2]string{{"·", "*"}, {"·", " "}, {"·", "."}, {"·", " · "}, {"·", "-"}, {"2", "²"}, {"2", "^2"}, {"3", "³"}, {"-1", "⁻¹"}, {"-1", "^-1"}, {"/", " / "},
				{"/", "∕"}, {"°C", "℃"}, {"°F", "℉"}, {"°", "º "}, {"K", "\u212a"}, {"µ", "μ"}, {" ", "\u00a0 "}, {"(", " ( "}, {"kg", "Kg"}}).Draw(t, "swap")
			unit = strings.Replace(unit, swap[0], swap[1], 1)
		}
		text := number + rapid.SampledFrom([]string{"", " ", "  ", "\u00a0", "\u202f"}).Draw(t, "space") + unit + rapid.SampledFrom([]string{"", " "}).Draw(t, "end")
		if _, err := Parse(text, d); err == nil {
			taken++
			require.True(t, all[d].MatchString(text), "%s: %q does not match %s", d, text, all[d])
		}
	})
	require.Greater(t, taken, 20)
}

func TestPatternRefuses(t *testing.T) {
	all := patterns()
	for _, x := range []struct {
		d    Dimension
		text string
	}{{Length, "52"}, {Length, "52 bar"}, {Pressure, "8"}, {Pressure, "8 m3/h"}, {Flow, "m3/h"}, {Number, "1,5"}, {Number, "2 m"}, {Fraction, "10 m"}, {Modulus, "2 bar abs"}, {Length, "1 2 m"}, {Inertia, "3 kgf·m2"}} {
		require.False(t, all[x.d].MatchString(x.text), "%s: %q", x.d, x.text)
		_, err := Parse(x.text, x.d)
		require.Error(t, err)
	}
}
