package plots

import (
	"image/color"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// panel is one pair of axes with what is drawn between them, in this order: fills, grid, lines, dots, labels.
type panel struct {
	head   string // a few words above the axes
	x, y   axis
	fills  []fill
	lines  []line
	dots   []dot
	marks  []label // texts at dots: they have the first choice of place
	labels []label
}

// fill is a closed area.
type fill struct {
	pts []point
	col color.Color
}

// line is a polyline.
type line struct {
	pts []point
	sty stroke
}

// dot marks a point of a line.
type dot struct {
	at  point
	col color.Color
}

// horizontal and vertical are lines across the whole panel.
func (p *panel) horizontal(y float64, sty stroke) {
	p.lines = append(p.lines, line{[]point{{p.x.min, y}, {p.x.max, y}}, sty})
}

func (p *panel) vertical(x float64, sty stroke) {
	p.lines = append(p.lines, line{[]point{{x, p.y.min}, {x, p.y.max}}, sty})
}

// holds tells whether the point is inside the axes.
func (p *panel) holds(q point) bool {
	x, y := p.x.at(q.x), p.y.at(q.y)
	return x >= 0 && x <= 1 && y >= 0 && y <= 1
}

// mark puts a dot with its text on a point, when that point is inside the axes.
func (p *panel) mark(at point, col color.Color, txt string) bool {
	if !p.holds(at) {
		return false
	}
	p.dots = append(p.dots, dot{at, col})
	p.marks = append(p.marks, label{text: txt, spots: around(at)})
	return true
}

// area is the data rectangle of a panel on the paper.
type area struct {
	draw.Canvas
	x, y axis
}

func (a area) place(p point) vg.Point {
	return vg.Point{X: a.X(a.x.at(p.x)), Y: a.Y(a.y.at(p.y))}
}

func (a area) places(pts []point) []vg.Point {
	out := make([]vg.Point, len(pts))
	for i, p := range pts {
		out[i] = a.place(p)
	}
	return out
}

// tickWidth is the widest tick label of the vertical axis.
func (p *panel) tickWidth() vg.Length {
	var w vg.Length
	sty := textStyle(smallSize, ink)
	for _, t := range p.y.ticks {
		w = max(w, sty.Width(t.label))
	}
	return w
}

// gutter is the room that the vertical axis needs to its left.
func (p *panel) gutter() vg.Length {
	if p.y.bare {
		return tickLength
	}
	w := tickLength + 3 + p.tickWidth()
	if p.y.label != "" {
		w += labelSize + 6
	}
	return w
}

// footer is the room that the horizontal axis needs below.
func (p *panel) footer() vg.Length {
	if p.x.bare {
		return 8
	}
	h := tickLength + 2 + smallSize + 4
	if p.x.label != "" {
		h += labelSize + 4
	}
	return h
}

// header is the room above the axes.
func (p *panel) header() vg.Length {
	if p.head == "" {
		return 8
	}
	return smallSize + 7
}

// draw draws the panel with its data area on the canvas; axis labels go outside of it, that of the vertical axis at the left of the gutter.
func (p *panel) draw(c draw.Canvas, gutter vg.Length) {
	a := area{c, p.x, p.y}
	for _, f := range p.fills {
		if pts := a.ClipPolygonXY(a.places(f.pts)); len(pts) > 2 {
			a.FillPolygon(f.col, pts)
		}
	}
	p.grid(a)
	taken := newCover(c.Rectangle)
	for _, l := range p.lines {
		for _, pts := range a.ClipLinesXY(a.places(l.pts)) {
			a.StrokeLines(l.sty.LineStyle, pts)
			l.sty.stamp(a.Canvas, pts)
			taken.trace(pts, weight(l.sty.LineStyle))
		}
	}
	p.frame(a, gutter)
	for _, d := range p.dots {
		at := a.place(d.at)
		a.DrawGlyphNoClip(draw.GlyphStyle{Color: paper, Radius: 3.4, Shape: draw.CircleGlyph{}}, at)
		a.DrawGlyphNoClip(draw.GlyphStyle{Color: d.col, Radius: 2.4, Shape: draw.CircleGlyph{}}, at)
		taken.dot(at)
	}
	for _, l := range slices.Concat(p.marks, p.labels) {
		l.draw(a, taken)
	}
	if p.head != "" {
		a.FillText(textStyle(smallSize, ink), vg.Point{X: a.Min.X, Y: a.Max.Y + 3}, p.head)
	}
}

// weight is how much it matters to see a piece of a line: thin lines say the same all along.
func weight(sty draw.LineStyle) uint8 {
	if sty.Width < dataWidth {
		return 1
	}
	return 3
}

func (p *panel) grid(a area) {
	sty := draw.LineStyle{Color: hair, Width: gridWidth}
	for _, t := range p.x.ticks {
		if x := a.X(p.x.at(t.at)); t.label != "" && x > a.Min.X+1 && x < a.Max.X-1 {
			a.StrokeLine2(sty, x, a.Min.Y, x, a.Max.Y)
		}
	}
	for _, t := range p.y.ticks {
		if y := a.Y(p.y.at(t.at)); t.label != "" && y > a.Min.Y+1 && y < a.Max.Y-1 {
			a.StrokeLine2(sty, a.Min.X, y, a.Max.X, y)
		}
	}
}

// frame draws the two axes with their ticks and words.
func (p *panel) frame(a area, gutter vg.Length) {
	sty := draw.LineStyle{Color: ink, Width: axisWidth}
	a.StrokeLines(sty, []vg.Point{{X: a.Min.X, Y: a.Max.Y}, a.Min, {X: a.Max.X, Y: a.Min.Y}})
	small := textStyle(smallSize, ink)

	small.XAlign, small.YAlign = draw.XCenter, draw.YTop
	for _, t := range p.x.ticks {
		x := a.X(p.x.at(t.at))
		a.StrokeLine2(sty, x, a.Min.Y, x, a.Min.Y-length(t))
		if !p.x.bare {
			a.FillText(small, vg.Point{X: x, Y: a.Min.Y - tickLength - 2}, t.label)
		}
	}
	small.XAlign, small.YAlign = draw.XRight, draw.YCenter
	for _, t := range p.y.ticks {
		y := a.Y(p.y.at(t.at))
		a.StrokeLine2(sty, a.Min.X, y, a.Min.X-length(t), y)
		if !p.y.bare {
			a.FillText(small, vg.Point{X: a.Min.X - tickLength - 3, Y: y + lift}, t.label)
		}
	}

	big := textStyle(labelSize, ink)
	big.XAlign, big.YAlign = draw.XCenter, draw.YTop
	if !p.x.bare {
		a.FillText(big, vg.Point{X: a.Center().X, Y: a.Min.Y - tickLength - 2 - smallSize - 4}, p.x.label)
	}
	if !p.y.bare {
		big.Rotation = quarterTurn
		a.FillText(big, vg.Point{X: a.Min.X - gutter, Y: a.Center().Y}, p.y.label)
	}
}

// quarterTurn turns text to run upwards, rad.
const quarterTurn = 1.5707963267948966

func length(t tick) vg.Length {
	if t.label == "" {
		return tickLength / 2
	}
	return tickLength
}
