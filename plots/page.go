package plots

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	pageWidth = 16 * vg.Centimeter
	margin    = vg.Length(4) // on the left, above and below
	rightEdge = vg.Length(14)
)

// page is one figure on paper: title, a second line that says what is shown, the key, the body and notes.
type page struct {
	title, about string
	key          []entry
	body         body
	notes        []string
}

// entry is one line of the key: a line, or an area where it is filled.
type entry struct {
	text string
	sty  stroke
	fill pattern
}

// body is the middle of a page.
type body interface {
	height() vg.Length
	draw(c draw.Canvas)
}

const (
	swatch   = vg.Length(26)
	keyGap   = vg.Length(5)
	keySpace = vg.Length(16)
	rowPitch = smallSize + 4
)

// columns are the widths of the key's columns: all in one row where they fit, of one width otherwise.
func (p page) columns() []vg.Length {
	const room = pageWidth - 2*margin + keySpace
	sty := textStyle(smallSize, ink)
	var each []vg.Length
	var sum, widest vg.Length
	for _, e := range p.key {
		w := min(swatch+keyGap+sty.Width(e.text)+keySpace, room)
		each = append(each, w)
		sum, widest = sum+w, max(widest, w)
	}
	if sum <= room {
		return each
	}
	return slices.Repeat([]vg.Length{widest}, int(room/widest))
}

func (p page) keyRows() int {
	if len(p.key) == 0 {
		return 0
	}
	n := len(p.columns())
	return (len(p.key) + n - 1) / n
}

func (p page) noteLines() []string {
	var lines []string
	for _, n := range p.notes {
		lines = append(lines, wrap(clean(n), textStyle(smallSize, faint), pageWidth-2*margin)...)
	}
	return lines
}

func (p page) aboutLines() []string {
	return wrap(clean(p.about), textStyle(smallSize, faint), pageWidth-2*margin)
}

// top is the height of the title and what is below it.
func (p page) top() vg.Length {
	return margin + titleSize + 3 + rowPitch*vg.Length(len(p.aboutLines())) + 4
}

func (p page) height() vg.Length {
	h := p.top() + vg.Length(p.keyRows())*rowPitch + p.body.height() + margin
	if n := len(p.noteLines()); n > 0 {
		h += 4 + vg.Length(n)*rowPitch
	}
	return h
}

func (p page) draw(c draw.Canvas) {
	c.SetColor(paper)
	c.Fill(c.Rectangle.Path())
	width := pageWidth - 2*margin
	y := c.Max.Y - margin

	sty := textStyle(titleSize, ink)
	sty.YAlign = draw.YTop
	c.FillText(sty, vg.Point{X: c.Min.X + margin, Y: y}, shorten(clean(p.title), sty, width))
	y -= titleSize + 5
	sty = textStyle(smallSize, faint)
	sty.YAlign = draw.YTop
	for _, l := range p.aboutLines() {
		c.FillText(sty, vg.Point{X: c.Min.X + margin, Y: y}, l)
		y -= rowPitch
	}
	y = c.Max.Y - p.top()

	y = p.drawKey(c, y)

	b := c
	b.Max.Y, b.Min.Y = y, y-p.body.height()
	p.body.draw(b)
	y = b.Min.Y - 4

	for _, n := range p.noteLines() {
		c.FillText(sty, vg.Point{X: c.Min.X + margin, Y: y}, n)
		y -= rowPitch
	}
}

// drawKey draws the key row by row below y and returns where it ends.
func (p page) drawKey(c draw.Canvas, y vg.Length) vg.Length {
	widths := p.columns()
	sty := textStyle(smallSize, ink)
	sty.YAlign = draw.YCenter
	x := c.Min.X + margin
	for i, e := range p.key {
		col, row := i%len(widths), i/len(widths)
		if col == 0 {
			x = c.Min.X + margin
		}
		mid := y - (vg.Length(row)+0.5)*rowPitch
		if e.fill.ground.A > 0 {
			e.fill.draw(c, vg.Rectangle{Min: vg.Point{X: x, Y: mid - 4}, Max: vg.Point{X: x + swatch, Y: mid + 4}})
		} else {
			c.StrokeLine2(e.sty.LineStyle, x, mid, x+swatch, mid)
			e.sty.stamp(c, []vg.Point{{X: x + swatch/2 - badgeEvery/3, Y: mid}, {X: x + swatch, Y: mid}}) // one in the middle
		}
		c.FillText(sty, vg.Point{X: x + swatch + keyGap, Y: mid + lift}, shorten(e.text, sty, widths[col]-swatch-keyGap))
		x += widths[col]
	}
	return y - vg.Length(p.keyRows())*rowPitch
}

// grid is a body of panels in rows and columns whose axes line up.
type grid struct {
	rows   [][]*panel
	inside vg.Length // height of each panel's data area
	right  vg.Length // room on the right of the axes
	shares []float64 // of the columns in the width; nil: all alike
}

func (g grid) height() vg.Length {
	var h vg.Length
	for _, row := range g.rows {
		h += g.inside + rowHead(row) + rowFoot(row)
	}
	return h
}

func rowHead(row []*panel) (h vg.Length) {
	for _, p := range row {
		h = max(h, p.header())
	}
	return h
}

func rowFoot(row []*panel) (h vg.Length) {
	for _, p := range row {
		h = max(h, p.footer())
	}
	return h
}

func (g grid) draw(c draw.Canvas) {
	gutters := make([]vg.Length, len(g.rows[0]))
	for _, row := range g.rows {
		for i, p := range row {
			gutters[i] = max(gutters[i], p.gutter())
		}
	}
	free := c.Size().X - margin
	for _, w := range gutters {
		free -= w + rightEdge
	}
	free -= g.right
	widths := make([]vg.Length, len(gutters))
	for i := range widths {
		widths[i] = free / vg.Length(len(widths))
		if g.shares != nil {
			widths[i] = free * vg.Length(g.shares[i])
		}
	}
	y := c.Max.Y
	for _, row := range g.rows {
		y -= rowHead(row)
		x := c.Min.X + margin
		for i, p := range row {
			x += gutters[i]
			d := c
			d.Rectangle = vg.Rectangle{Min: vg.Point{X: x, Y: y - g.inside}, Max: vg.Point{X: x + widths[i], Y: y}}
			p.draw(d, gutters[i])
			x += widths[i] + rightEdge
		}
		y -= g.inside + rowFoot(row)
	}
}
