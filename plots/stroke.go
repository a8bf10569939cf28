package plots

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// stroke is how a line is drawn: its style, and a badge that stands on it now and then.
type stroke struct {
	draw.LineStyle
	badge draw.GlyphDrawer // nil: none
}

// badges tell candidates apart whose dashes are the same, in print without colour: none on the lines of the first round of dashes, then one after the other.
var badges = []draw.GlyphDrawer{nil, draw.BoxGlyph{}, draw.PyramidGlyph{}, draw.CrossGlyph{}, draw.PlusGlyph{}}

// badgeEvery is how far apart the badges of a line stand, along it.
const badgeEvery = vg.Length(64)

// plain is a line without badges.
func plain(sty draw.LineStyle) stroke { return stroke{LineStyle: sty} }

// stamp draws the badges of a line.
func (s stroke) stamp(c draw.Canvas, pts []vg.Point) {
	if s.badge == nil {
		return
	}
	next := badgeEvery / 3
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		length := vg.Length(math.Hypot(float64(d.X), float64(d.Y)))
		for ; next <= length; next += badgeEvery {
			c.DrawGlyphNoClip(draw.GlyphStyle{Color: s.Color, Radius: 2.4, Shape: s.badge}, pts[i-1].Add(d.Scale(next/length)))
		}
		next -= length
	}
}
