package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// label is a text inside the axes. It takes the spot that covers least of what is already there, an early one where several are as good.
type label struct {
	text  string
	brief string // in place of the text where room is short; may be empty
	spots []spot
	bare  bool // no white behind it: it stands on a fill
}

// spot is a place for a text: an anchor, how the text lies about it (-1 left or below, 0 centred, 1 right or above) and how far off.
type spot struct {
	at     point
	dx, dy float64
	off    vg.Length
}

// around are the spots about a point, near ones first; far ones are joined to it by a hairline.
func around(at point) []spot {
	var s []spot
	for _, off := range []vg.Length{5, 11, 18, 26, 36, 48} {
		for _, d := range [][2]float64{{1, 1}, {-1, 1}, {1, 0}, {0, 1}, {1, -1}, {-1, 0}, {-1, -1}, {0, -1}} {
			s = append(s, spot{at, d[0], d[1], off})
		}
	}
	return s
}

// offset are the spots at some distances on one side of a line given by its points: dy = 1 is above, -1 below.
func offset(pts []point, dy float64, far ...vg.Length) []spot {
	var s []spot
	for _, f := range far {
		for _, p := range pts {
			s = append(s, spot{p, 0, dy, f})
		}
	}
	return s
}

// along are spots beside a line, near ones first.
func along(pts []point, dy float64) []spot { return offset(pts, dy, 2.5, 5, 8, 14, 24) }

// hung are spots so far from a line that a hairline leads to it.
func hung(pts []point, dy float64) []spot { return offset(pts, dy, 15, 21, 28, 40) }

// under are spots so close below a line that the words can belong to no other.
func under(pts []point) []spot { return offset(pts, -1, 2) }

// across gives points along a level line, from the right to the left.
func across(x axis, y float64) []point {
	var pts []point
	for f := 0.98; f > 0; f -= 0.04 {
		pts = append(pts, point{x.value(f), y})
	}
	return pts
}

// box is where the text would be at a spot.
func (s spot) box(a area, w, h vg.Length) vg.Rectangle {
	at := a.place(s.at)
	lo := vg.Point{
		X: at.X + vg.Length(s.dx)*s.off - w/2 + vg.Length(s.dx)*w/2,
		Y: at.Y + vg.Length(s.dy)*s.off - h/2 + vg.Length(s.dy)*h/2,
	}
	if s.dx == 0 { // a centred text may slide along, not leave the axes
		lo.X = min(max(lo.X, a.Min.X+2), a.Max.X-w-2)
	}
	return vg.Rectangle{Min: lo, Max: lo.Add(vg.Point{X: w, Y: h})}
}

// placed is a text at a spot, with what it hides there.
type placed struct {
	text  string
	where vg.Rectangle
	from  spot
	cost  float64
}

// place finds the best spot for one wording.
func (l label) place(text string, a area, taken *cover) placed {
	w, h := textStyle(smallSize, ink).Width(text), smallSize+1
	best := placed{text: text, cost: math.Inf(1)}
	for i, s := range l.spots {
		b := s.box(a, w, h)
		const air = 1.5 // on either side
		cost := taken.cost(vg.Rectangle{Min: b.Min.Sub(vg.Point{X: air}), Max: b.Max.Add(vg.Point{X: air})}) + 0.3*float64(i)
		if s.off > tether {
			at := a.place(s.at)
			end := nearest(b, at)
			cost += 30 + taken.crossed(at, end)
			if max(at.X, end.X) < a.Min.X+4 { // it would be lost in the axis
				cost += 60
			}
		}
		if s.off <= tether && taken.astray(b, a.place(s.at)) {
			cost += 60
		}
		if cost < best.cost {
			best.where, best.from, best.cost = b, s, cost
		}
	}
	return best
}

func (l label) draw(a area, taken *cover) {
	best := l.place(l.text, a, taken)
	const worse = 20 // of a text that says less
	if l.brief != "" {
		if p := l.place(l.brief, a, taken); p.cost+worse < best.cost {
			best = p
		}
	}
	if math.IsInf(best.cost, 1) {
		return
	}
	where := best.where
	if best.from.off > tether {
		at := a.place(best.from.at)
		const air = 1.5
		end := nearest(vg.Rectangle{Min: where.Min.Sub(vg.Point{X: air}), Max: where.Max.Add(vg.Point{X: air})}, at)
		a.StrokeLine2(draw.LineStyle{Color: faint, Width: gridWidth}, at.X, at.Y, end.X, end.Y)
		for _, dx := range []vg.Length{0, cell} { // two cells wide, or another could slip through
			taken.trace([]vg.Point{at.Add(vg.Point{X: dx}), end.Add(vg.Point{X: dx})}, leaderWeight)
		}
		if !taken.blocked(at) { // no dot there yet: which line is meant
			a.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 1.3, Shape: draw.CircleGlyph{}}, at)
		}
	}
	if !l.bare {
		a.SetColor(paper)
		a.Fill(where.Path())
	}
	sty := textStyle(smallSize, ink)
	sty.YAlign = draw.YCenter
	a.FillText(sty, vg.Point{X: where.Min.X, Y: (where.Min.Y+where.Max.Y)/2 + lift}, best.text)
	apart := vg.Point{X: 8, Y: 3} // from the next text, or the two would read as one
	taken.block(vg.Rectangle{Min: where.Min.Sub(apart), Max: where.Max.Add(apart)})
}

// tether is how far off a text may stand without a hairline to its anchor.
const tether = vg.Length(8)

// leaderWeight keeps later texts off a hairline.
const leaderWeight = 12

// nearest is the point of a rectangle that is nearest to at.
func nearest(r vg.Rectangle, at vg.Point) vg.Point {
	return vg.Point{X: min(max(at.X, r.Min.X), r.Max.X), Y: min(max(at.Y, r.Min.Y), r.Max.Y)}
}

// cover is a coarse map of what is drawn in an area: the weight of the lines that pass each cell, and which cells hold text or dots.
type cover struct {
	in         vg.Rectangle
	cols, rows int
	cells      []uint8
	dots       []vg.Point
}

const (
	cell    = vg.Length(2) // points
	blocked = 255
)

func newCover(in vg.Rectangle) *cover {
	c := &cover{in: in, cols: int(in.Size().X/cell) + 1, rows: int(in.Size().Y/cell) + 1}
	c.cells = make([]uint8, c.cols*c.rows)
	return c
}

// trace adds a polyline that is clipped to the area.
func (c *cover) trace(pts []vg.Point, weight uint8) {
	last := -1
	for i := 1; i < len(pts); i++ {
		d := pts[i].Sub(pts[i-1])
		n := int(min(max(d.X, -d.X, d.Y, -d.Y)/cell, vg.Length(c.cols+c.rows))) + 1
		for k := range n + 1 {
			f := vg.Length(k) / vg.Length(n)
			j := c.index(pts[i-1].Add(vg.Point{X: f * d.X, Y: f * d.Y}))
			if j >= 0 && j != last && c.cells[j] < 24 {
				c.cells[j] += weight
				last = j
			}
		}
	}
}

// index is the cell at a point; -1 outside of the area.
func (c *cover) index(at vg.Point) int {
	at = at.Sub(c.in.Min)
	if !(at.X >= 0 && at.X < cell*vg.Length(c.cols) && at.Y >= 0 && at.Y < cell*vg.Length(c.rows)) {
		return -1
	}
	return int(at.Y/cell)*c.cols + int(at.X/cell)
}

// blocked tells whether there is a text or a dot.
func (c *cover) blocked(at vg.Point) bool {
	j := c.index(at)
	return j >= 0 && c.cells[j] == blocked
}

// dot takes the place of a dot.
func (c *cover) dot(at vg.Point) {
	c.dots = append(c.dots, at)
	c.block(vg.Rectangle{Min: at.Sub(vg.Point{X: 3, Y: 3}), Max: at.Add(vg.Point{X: 3, Y: 3})})
}

// astray tells whether a text that belongs to one dot stands as near to another.
func (c *cover) astray(text vg.Rectangle, own vg.Point) bool {
	if !slices.Contains(c.dots, own) {
		return false
	}
	far := func(at vg.Point) float64 {
		d := nearest(text, at).Sub(at)
		return math.Hypot(float64(d.X), float64(d.Y))
	}
	return slices.ContainsFunc(c.dots, func(other vg.Point) bool { return other != own && far(other) < far(own)+3 })
}

// block takes a rectangle for good.
func (c *cover) block(r vg.Rectangle) {
	c.each(r, func(j int) { c.cells[j] = blocked })
}

// crossed is how much a hairline between two points runs across, beyond what belongs to its anchor; a text or another hairline counts most.
func (c *cover) crossed(from, to vg.Point) float64 {
	const own, step = 5, 1.5 // points
	d := to.Sub(from)
	length := math.Hypot(float64(d.X), float64(d.Y))
	sum := 0.0
	for at := float64(own); at < length; at += step {
		j := c.index(from.Add(d.Scale(vg.Length(at / length))))
		switch {
		case j < 0 || c.cells[j] == 0:
		case c.cells[j] == blocked:
			sum += 40
		case c.cells[j] >= leaderWeight:
			sum += 20
		default:
			sum += 3
		}
	}
	return sum
}

// cost is how much a text in the rectangle would hide; a rectangle that leaves the area is refused.
func (c *cover) cost(r vg.Rectangle) float64 {
	if r.Min.X < c.in.Min.X || r.Max.X > c.in.Max.X || r.Min.Y < c.in.Min.Y || r.Max.Y > c.in.Max.Y+4 {
		return math.Inf(1)
	}
	sum := 0.0
	c.each(r, func(j int) {
		if c.cells[j] == blocked {
			sum += 200
			return
		}
		sum += 2 * float64(c.cells[j])
	})
	return sum
}

func (c *cover) each(r vg.Rectangle, do func(j int)) {
	lo, hi := r.Min.Sub(c.in.Min), r.Max.Sub(c.in.Min)
	for y := max(0, int(lo.Y/cell)); y <= min(c.rows-1, int(hi.Y/cell)); y++ {
		for x := max(0, int(lo.X/cell)); x <= min(c.cols-1, int(hi.X/cell)); x++ {
			do(y*c.cols + x)
		}
	}
}
