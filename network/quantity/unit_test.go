package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// No spelling of a dimension stands for two units, and none can be missed
// because it is not in normal form.
func TestSpellingsAreUnambiguous(t *testing.T) {
	for d, l := range index {
		seen := map[string]Unit{}
		folded := map[string]Unit{}
		for _, s := range l.spellings {
			require.Equal(t, s.text, normalise(s.text), "not in normal form")
			_, twice := seen[s.text]
			require.False(t, twice, "%q twice in %s", s.text, Dimension(d))
			seen[s.text] = s.unit
			spaceless := strings.ReplaceAll(s.text, " ", "·")
			if u, ok := seen[spaceless]; ok {
				require.Equal(t, u, s.unit, "%q with and without space", s.text)
			}
			// Letters in another case get a hint: it must be the only one.
			fold := strings.ToLower(s.text)
			if u, ok := folded[fold]; ok {
				require.Equal(t, u, s.unit, "%q in another case", s.text)
			}
			folded[fold] = s.unit
		}
	}
}

func TestRefusedSpellingsAreNotUnits(t *testing.T) {
	for text := range refused {
		require.Equal(t, strings.ToLower(text), text)
		for d := range dimensions {
			for _, s := range index[d].spellings {
				require.NotEqual(t, text, s.text)
			}
		}
	}
}

// The test for two meanings can fail: a table with two units alike is found.
func TestIndexKeepsDuplicates(t *testing.T) {
	l := buildIndex([]entry{{Length, "m", 1, 1, 0, nil}, {Length, "ft", foot, 1, 0, also{"m"}}})[Length]
	require.Len(t, l.spellings, 3)
	require.Len(t, l.byText, 2)
}

func TestDimensionNames(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range Dimensions() {
		require.NotEmpty(t, d.String())
		require.False(t, seen[d.String()], d.String())
		seen[d.String()] = true
		q, err := Parse(d.Example(), d)
		require.NoError(t, err, "the example of %s", d)
		require.Equal(t, d, q.Dim)
		require.NotEmpty(t, Units(d), d.String())
	}
	require.Equal(t, "pressure", Pressure.String())
	require.Equal(t, "flow", Flow.String())
	require.Equal(t, "unknown dimension", Dimension(200).String())
}

func TestUnitsOfPressures(t *testing.T) {
	for _, u := range Units(AbsolutePressure) {
		require.True(t, u.Absolute)
		require.True(t, strings.HasSuffix(u.Symbol, " abs"), u.Symbol)
	}
	require.Len(t, Units(Pressure), 2*len(Units(PressureDifference)))
	require.Len(t, Units(Modulus), len(Units(AbsolutePressure)))
}
