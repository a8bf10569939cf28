package plots

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// twin is a sump, two unequal stations side by side, a main with a vessel, and a tower.
func twin() Diagram {
	return Diagram{Title: "Ostermere lift station", Links: []Link{
		{"sump", "header", PumpPart, []string{"lift", "units: 2", "valve: candidate"}},
		{"sump", "header", PumpPart, []string{"jockey", "units: 1", "valve: plain"}},
		{"header", "end", ThrottlePart, []string{"gate", "400 mm"}},
		{"end", "tower", PipePart, []string{"rising-main", "600 m", "700 mm"}},
	}, At: []Fitting{{"sump", ReservoirPart, []string{"101.5 m"}}, {"header", OtherPart, []string{"cushion"}}, {"tower", ReservoirPart, []string{"151.5 m"}}}}
}

func TestSketch(t *testing.T) {
	f, ok := Sketch(twin())
	require.True(t, ok)
	var a, b, svg bytes.Buffer
	require.NoError(t, f.PNG(&a))
	require.NoError(t, f.PNG(&b))
	require.Equal(t, a.Bytes(), b.Bytes())
	var once, again bytes.Buffer
	require.NoError(t, f.SVG(&once))
	require.NoError(t, f.SVG(&again))
	require.Equal(t, once.String(), again.String())
	require.NoError(t, f.SVG(&svg))
	for _, text := range []string{"jockey", "rising-main", "151.5 m", "cushion"} {
		require.Contains(t, svg.String(), text)
	}
	if to := os.Getenv("SKETCH"); to != "" {
		require.NoError(t, os.WriteFile(to, a.Bytes(), 0o666))
	}
}

// TestSketchOfMeshes: where links would lie on nodes or on each other, no sketch is better than a wrong one.
func TestSketchOfMeshes(t *testing.T) {
	d := twin()
	d.Links = append(d.Links, Link{"header", "tower", PipePart, []string{"bypass"}})
	_, ok := Sketch(d)
	require.False(t, ok)
	d = twin()
	d.Links = append(d.Links, Link{"tower", "header", PipePart, []string{"return"}})
	_, ok = Sketch(d)
	require.False(t, ok)
	_, ok = Sketch(Diagram{})
	require.False(t, ok)
}
