package plots

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The figure has every peak once in each panel, at its place, and names each group of them once.
func TestAgreement(t *testing.T) {
	peaks := []Peak{{"one", 50, 51}, {"one", 50, 50.5}, {"one", 70, 69}, {"other", 100, 88}}
	f, err := Agreement(peaks, "a note")
	require.NoError(t, err)
	require.Equal(t, "reported-peaks", f.Name)
	rows := f.page.body.(grid).rows
	require.Len(t, rows, 1)
	both, apart := rows[0][0], rows[0][1]
	require.Len(t, both.dots, 4)
	require.Len(t, apart.dots, 4)
	require.Len(t, both.marks, 3)
	for i, want := range []point{{50, 2}, {50, 1}, {70, -100.0 / 70}, {100, -12}} {
		require.InDelta(t, want.x, apart.dots[i].at.x, 1e-12)
		require.InDelta(t, want.y, apart.dots[i].at.y, 1e-12)
	}
	require.Equal(t, point{100, 88}, both.dots[3].at)
	require.NotEqual(t, both.dots[0].col, both.dots[3].col)
	require.Equal(t, both.marks[0].text+": one", f.page.key[0].text)
	require.Equal(t, []string{"a note"}, f.page.notes)
	var png, svg bytes.Buffer
	require.NoError(t, f.PNG(&png))
	require.NoError(t, f.SVG(&svg))
	require.Contains(t, svg.String(), "Computed greatest head (m)")
}

func TestNoAgreement(t *testing.T) {
	_, err := Agreement(nil)
	require.ErrorIs(t, err, ErrNoPeak)
	for _, p := range []Peak{{"x", 0, 1}, {"x", 1, math.NaN()}, {"x", math.Inf(1), 1}} {
		_, err := Agreement([]Peak{p})
		require.ErrorIs(t, err, ErrSeries)
	}
}
