package plots

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A text that would hide what is drawn gives way to its short form, and no hairline runs through a text.
func TestLabelPlaces(t *testing.T) {
	box := vg.Rectangle{Max: vg.Point{X: 100, Y: 60}}
	a := area{Canvas: draw.Canvas{Rectangle: box}, x: axis{max: 1}, y: axis{max: 1}}
	taken := newCover(box)
	l := label{text: "design pressure + 10 %: 8.8 bar", brief: "8 bar", spots: along([]point{{0.2, 0.5}}, 1)}
	require.True(t, math.IsInf(l.place(l.text, a, taken).cost, 1), "wider than the axes")
	require.Less(t, l.place(l.brief, a, taken).cost, 1.0)

	taken.block(vg.Rectangle{Min: vg.Point{X: 40, Y: 20}, Max: vg.Point{X: 60, Y: 30}})
	require.Greater(t, taken.crossed(vg.Point{X: 50, Y: 5}, vg.Point{X: 50, Y: 50}), 100.0)
	require.Zero(t, taken.crossed(vg.Point{X: 10, Y: 5}, vg.Point{X: 10, Y: 50}))

	one, two := vg.Point{X: 20, Y: 40}, vg.Point{X: 30, Y: 40}
	taken.dot(one)
	taken.dot(two)
	require.True(t, taken.astray(vg.Rectangle{Min: vg.Point{X: 24, Y: 46}, Max: vg.Point{X: 50, Y: 56}}, one))
	require.False(t, taken.astray(vg.Rectangle{Min: vg.Point{X: 1, Y: 42}, Max: vg.Point{X: 15, Y: 52}}, one))
}
