package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Part is a kind of thing in a [Diagram].
type Part uint8

// The parts, drawn with simple symbols of our own.
const (
	PipePart       Part = iota // a line
	PumpPart                   // a pump with its check valve
	CheckValvePart             // a check valve alone
	ThrottlePart               // a throttling valve, an orifice
	ReservoirPart              // an open tank, at a node
	OtherPart                  // anything else, at a node
)

// Diagram is an installation as nodes with links between them.
type Diagram struct {
	Title string
	Links []Link
	At    []Fitting // what stands at nodes
}

// Link leads from a node to another in the direction of the flow as it is meant.
type Link struct {
	From, To string
	Part     Part
	Label    []string // lines, the name first
}

// Fitting stands at a node.
type Fitting struct {
	Node  string
	Part  Part
	Label []string
}

// mostColumns is how many links one after the other have room on a page.
const mostColumns = 5

// Sketch draws an installation: the nodes from left to right by how many links lead to them, links with their symbol and data. It tells whether there is
// something to draw and room for it: a line, or lines that join, but no meshes, in which links would lie on each other. It is not to scale.
func Sketch(d Diagram) (Figure, bool) {
	b := newScheme(d)
	if len(d.Links) == 0 || b.columns > mostColumns || !b.clear() {
		return Figure{}, false
	}
	return Figure{Name: "installation", Caption: "The installation, not to scale. Circle: pump; triangle at a bar: check valve; two triangles: throttling valve or orifice; open box: reservoir; square: other equipment.",
		page: page{title: d.Title, about: "Installation, not to scale", body: b}}, true
}

// scheme is a diagram with its places.
type scheme struct {
	Diagram
	nodes       []string // in order of appearance
	column, row map[string]int
	lane        []int // of each link, how far from the straight line
	columns     int
	rows        int
}

func newScheme(d Diagram) *scheme {
	b := &scheme{Diagram: d, column: map[string]int{}, row: map[string]int{}}
	var nodes []string
	entered := map[string]bool{}
	for _, l := range d.Links {
		for _, n := range []string{l.From, l.To} {
			if !slices.Contains(nodes, n) {
				nodes = append(nodes, n)
			}
		}
		entered[l.To] = true
	}
	for range nodes { // the longest way, as long as the links do not go round
		for _, l := range d.Links {
			if c := b.column[l.From] + 1; c > b.column[l.To] && c < len(nodes) {
				b.column[l.To] = c
			}
		}
	}
	b.nodes = nodes
	used := map[int]int{}
	for _, n := range nodes {
		c := b.column[n]
		b.row[n] = used[c]
		used[c]++
		b.columns, b.rows = max(b.columns, c), max(b.rows, used[c])
	}
	seen := map[[2]string]int{}
	for _, l := range d.Links {
		k := [2]string{l.From, l.To}
		b.lane = append(b.lane, seen[k])
		seen[k]++
	}
	return b
}

// clear tells whether every link leads to the next column, so that none runs over a node.
func (b *scheme) clear() bool {
	return !slices.ContainsFunc(b.Links, func(l Link) bool { return b.column[l.To] != b.column[l.From]+1 })
}

const (
	rowHeight  = vg.Length(90)
	laneHeight = vg.Length(54)
	edge       = vg.Length(40)
	headroom   = vg.Length(10)
	symbolSize = vg.Length(8) // half of it
)

func (b *scheme) lanes() int { return slices.Max(b.lane) }

func (b *scheme) height() vg.Length {
	return headroom + 72 + rowHeight*vg.Length(b.rows-1) + laneHeight*vg.Length(b.lanes())
}

func (b *scheme) at(c draw.Canvas, node string) vg.Point {
	step := (c.Size().X - 2*edge) / vg.Length(max(b.columns, 1))
	return vg.Point{X: c.Min.X + edge + step*vg.Length(b.column[node]), Y: c.Max.Y - headroom - 20 - rowHeight*vg.Length(b.row[node])}
}

func (b *scheme) draw(c draw.Canvas) {
	line := draw.LineStyle{Color: ink, Width: dataWidth}
	for i, l := range b.Links {
		from, to := b.at(c, l.From), b.at(c, l.To)
		mid := vg.Point{X: (from.X + to.X) / 2, Y: (from.Y+to.Y)/2 - laneHeight*vg.Length(b.lane[i])}
		room := (to.X - from.X) * 0.9
		switch {
		case b.lane[i] > 0:
			const aside = 18 // clear of what stands at the node
			a, z := from.X+aside, to.X-aside
			c.StrokeLines(line, []vg.Point{from, {X: a, Y: from.Y}, {X: a, Y: mid.Y}, {X: z, Y: mid.Y}, {X: z, Y: to.Y}, to})
		default:
			c.StrokeLines(line, []vg.Point{from, to})
		}
		b.symbol(c, l.Part, mid)
		b.label(c, l.Label, vg.Point{X: mid.X, Y: mid.Y + symbolSize + 3}, max(room, 40), vg.Point{X: mid.X, Y: mid.Y - symbolSize - 3})
	}
	stacked := map[string]int{}
	for _, f := range b.At {
		if _, known := b.row[f.Node]; !known {
			continue
		}
		p := b.at(c, f.Node)
		p.Y -= vg.Length(stacked[f.Node]) * 40
		stacked[f.Node]++
		b.symbol(c, f.Part, vg.Point{X: p.X, Y: p.Y - 14})
		for k, t := range f.Label {
			sty := textStyle(smallSize-1.5, ink)
			sty.XAlign, sty.YAlign = draw.XCenter, draw.YTop
			c.FillText(sty, vg.Point{X: p.X, Y: p.Y - 25 - vg.Length(k)*9}, shorten(clean(t), sty, 2*edge-4))
		}
	}
	for _, node := range b.nodes {
		p := b.at(c, node)
		disc(c, p, 2, true)
		sty := textStyle(smallSize-1, faint)
		sty.XAlign = draw.XCenter
		c.FillText(sty, vg.Point{X: p.X, Y: p.Y + 4}, shorten(clean(node), sty, 2*edge-4))
	}
}

// label puts the name above a symbol and the data below it.
func (b *scheme) label(c draw.Canvas, lines []string, above vg.Point, width vg.Length, below vg.Point) {
	for k, t := range lines {
		sty := textStyle(smallSize-1, ink)
		sty.XAlign = draw.XCenter
		at := above
		if k > 0 {
			sty = textStyle(smallSize-1.5, faint)
			sty.XAlign, sty.YAlign = draw.XCenter, draw.YTop
			at = vg.Point{X: below.X, Y: below.Y - vg.Length(k-1)*9}
		}
		c.FillText(sty, at, shorten(clean(t), sty, width))
	}
}

// symbol draws a part about a point, over the line that it stands in.
func (b *scheme) symbol(c draw.Canvas, part Part, p vg.Point) {
	line := draw.LineStyle{Color: ink, Width: dataWidth}
	const s = symbolSize
	to := func(dx, dy vg.Length) vg.Point { return vg.Point{X: p.X + dx, Y: p.Y + dy} }
	closed := func(pts ...vg.Point) {
		c.FillPolygon(paper, pts)
		c.StrokeLines(line, append(pts, pts[0]))
	}
	check := func(dx vg.Length) {
		closed(to(dx-s*0.6, s*0.6), to(dx+s*0.6, 0), to(dx-s*0.6, -s*0.6))
		c.StrokeLine2(line, p.X+dx+s*0.6, p.Y+s*0.7, p.X+dx+s*0.6, p.Y-s*0.7)
	}
	switch part {
	case PumpPart:
		at := to(-s*1.1, 0)
		disc(c, at, s, false)
		c.StrokeLines(line, []vg.Point{{X: at.X - s*0.3, Y: at.Y + s*0.95}, {X: at.X + s, Y: at.Y}, {X: at.X - s*0.3, Y: at.Y - s*0.95}})
		check(s * 1.3)
	case CheckValvePart:
		check(0)
	case ThrottlePart:
		closed(to(-s, s*0.6), to(0, 0), to(-s, -s*0.6))
		closed(to(s, s*0.6), to(0, 0), to(s, -s*0.6))
	case ReservoirPart:
		c.FillPolygon(paper, []vg.Point{to(-s*1.4, s), to(s*1.4, s), to(s*1.4, -s), to(-s*1.4, -s)})
		c.StrokeLines(line, []vg.Point{to(-s*1.4, s), to(-s*1.4, -s), to(s*1.4, -s), to(s*1.4, s)})
		c.StrokeLine2(draw.LineStyle{Color: palette[0], Width: dataWidth}, p.X-s*1.4, p.Y+s*0.5, p.X+s*1.4, p.Y+s*0.5)
	case OtherPart:
		closed(to(-s*0.7, s*0.7), to(s*0.7, s*0.7), to(s*0.7, -s*0.7), to(-s*0.7, -s*0.7))
	}
}

// disc is a circle, full or empty.
func disc(c draw.Canvas, at vg.Point, radius vg.Length, full bool) {
	var ring vg.Path
	ring.Move(vg.Point{X: at.X + radius, Y: at.Y})
	ring.Arc(at, radius, 0, 2*math.Pi)
	ring.Close()
	if full {
		c.SetColor(ink)
		c.Fill(ring)
		return
	}
	c.SetColor(paper)
	c.Fill(ring)
	c.SetColor(ink)
	c.SetLineStyle(draw.LineStyle{Color: ink, Width: dataWidth})
	c.Stroke(ring)
}
