package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// peakMeasure is the key of the measure whose verdicts the figure tells.
const peakMeasure = "peak_pressure_pa"

// bar is one candidate in one scenario.
type bar struct {
	name        string
	value, less float64 // peak and its error estimate, in the unit of the figure
	sty         stroke
	figure      string // value with its error
	verdict     string
}

// group is the bars of one scenario.
type group struct {
	head string // empty when there is one scenario only
	bars []bar
}

// chart is the body of the figure: names on the left, bars on an axis, values and verdicts on the right.
type chart struct {
	groups         []group
	limits         []limit
	x              axis
	valueHead      string
	names, figures vg.Length // widths of the columns
	verdicts       vg.Length
}

// peakSurge is the greatest pressure of every candidate against the limits.
func (b *book) peakSurge() (Figure, bool) {
	u, symbol := b.unit(quantity.Pressure)
	ch := chart{limits: b.pressureLimits(), valueHead: "Peak (" + symbol + ")"}
	var notes []string
	greatest, lowest := 0.0, 0.0
	for _, l := range ch.limits {
		greatest, lowest = math.Max(greatest, l.value), math.Min(lowest, l.value)
	}
	for _, s := range b.Scenarios {
		for i := range s.Outcomes {
			if v := s.Outcomes[i].PeakPressure; exists(v) {
				greatest, lowest = math.Max(greatest, u.From(v.SI)), math.Min(lowest, u.From(v.SI))
			}
		}
	}
	count := 0
	for k := range b.Scenarios {
		s, g := &b.Scenarios[k], group{}
		sc := s.Scale(peak, b.units)
		if len(b.Scenarios) > 1 {
			g.head = "Scenario " + clean(s.Name)
		}
		for i := range s.Outcomes {
			o := &s.Outcomes[i]
			if !exists(o.PeakPressure) {
				what := "peak pressure"
				if g.head != "" {
					what += " in " + clean(s.Name)
				}
				notes = append(notes, because(o, what, o.PeakPressure))
				continue
			}
			x := b.bar(o, sc)
			greatest, lowest = math.Max(greatest, x.value+x.less), math.Min(lowest, x.value-x.less)
			g.bars = append(g.bars, x)
			count++
		}
		if len(g.bars) > 0 {
			ch.groups = append(ch.groups, g)
		}
	}
	if count == 0 {
		return Figure{}, false
	}
	ch.measure()
	ch.x = linear("Greatest gauge pressure on the line ("+symbol+")", lowest, greatest+0.02*(greatest-lowest), int(ch.free()/38))
	about := "Greatest gauge pressure with each check valve; thin bars: numerical error"
	if len(ch.limits) > 0 {
		about = "Greatest gauge pressure with each check valve against the limit; thin bars: numerical error"
	}
	return Figure{
		Name:    PeakSurge,
		Caption: "Greatest gauge pressure on the line with each check valve, with the numerical error estimate, and the limits.",
		page:    page{title: b.title(-1), about: about, body: ch, notes: b.notes(notes...)},
	}, true
}

// peak is the measure of the figure; with it the figure has the rounding of the table.
var peak = choice.Measure{Key: peakMeasure, Dimension: quantity.Pressure, Get: func(o *choice.Outcome) choice.Value { return o.PeakPressure }}

func (b *book) bar(o *choice.Outcome, sc choice.Scale) bar {
	u := sc.Unit
	x := bar{name: clean(o.Candidate), value: u.From(o.PeakPressure.SI), sty: b.lineOf(o)}
	x.figure = fixed(x.value, sc.Places)
	if exists(o.PeakError) {
		x.less = math.Abs(u.From(o.PeakError.SI) - u.From(0))
		x.figure += " ± " + fixed(x.less, sc.Places)
		if least := math.Pow(10, -float64(sc.Places)); x.less > 0 && x.less < least/2 {
			x.figure = fixed(x.value, sc.Places) + " ± <" + fixed(least, sc.Places)
		}
	}
	for _, v := range o.Verdicts {
		if v.Measure == peakMeasure {
			x.verdict = v.Words(sc)
		}
	}
	return x
}

const (
	barPitch  = vg.Length(17) // at ease
	tightest  = vg.Length(12)
	tallest   = vg.Length(600) // of all bars, where they can be made to fit: a page
	headPitch = vg.Length(17)
	nameLimit = vg.Length(130)
	gap       = vg.Length(10)
	bandPitch = smallSize + 4
)

// measure finds the widths of the columns of text.
func (ch *chart) measure() {
	sty := textStyle(smallSize, ink)
	ch.figures = sty.Width(ch.valueHead)
	for _, g := range ch.groups {
		ch.names = min(nameLimit, max(ch.names, sty.Width(g.head)))
		for _, x := range g.bars {
			ch.names = min(nameLimit, max(ch.names, sty.Width(x.name)))
			ch.figures = max(ch.figures, sty.Width(x.figure))
			ch.verdicts = max(ch.verdicts, sty.Width(x.verdict))
		}
	}
	if ch.verdicts > 0 {
		ch.verdicts = max(ch.verdicts, sty.Width(verdictHead))
	}
}

const verdictHead = "Against the limit"

// free is the width left for the bars.
func (ch chart) free() vg.Length {
	w := pageWidth - margin - rightEdge - ch.names - 6 - gap - ch.figures
	if ch.verdicts > 0 {
		w -= gap + ch.verdicts
	}
	return w
}

// crown is the height above the bars: the words of the limits and below them the heads of the columns.
func (ch chart) crown() vg.Length { return 4 + bandPitch*vg.Length(1+len(ch.limits)) }

func (ch chart) barsHeight() vg.Length {
	h := vg.Length(6)
	for _, g := range ch.groups {
		if g.head != "" {
			h += headPitch
		}
		h += ch.pitch() * vg.Length(len(g.bars))
	}
	return h
}

// pitch is the height of a row: less when there are many.
func (ch chart) pitch() vg.Length {
	rows, heads := 0, 0
	for _, g := range ch.groups {
		rows += len(g.bars)
		if g.head != "" {
			heads++
		}
	}
	return min(barPitch, max(tightest, (tallest-headPitch*vg.Length(heads))/vg.Length(rows)))
}

func (ch chart) height() vg.Length {
	p := panel{x: ch.x}
	return ch.crown() + ch.barsHeight() + p.footer()
}

func (ch chart) draw(c draw.Canvas) {
	left := c.Min.X + margin + ch.names + 6
	d := c
	d.Rectangle = vg.Rectangle{
		Min: vg.Point{X: left, Y: c.Max.Y - ch.crown() - ch.barsHeight()},
		Max: vg.Point{X: left + ch.free(), Y: c.Max.Y - ch.crown()},
	}
	p := panel{x: ch.x, y: axis{min: 0, max: 1}}
	p.grid(area{d, p.x, p.y})

	sty := textStyle(smallSize, ink)
	sty.YAlign = draw.YCenter
	right := sty
	right.XAlign = draw.XRight
	valueEdge := d.Max.X + gap + ch.figures
	headY := d.Max.Y + 2 + bandPitch/2
	c.FillText(right, vg.Point{X: valueEdge, Y: headY}, ch.valueHead)
	if ch.verdicts > 0 {
		c.FillText(sty, vg.Point{X: valueEdge + gap, Y: headY}, verdictHead)
	}

	y, pitch := d.Max.Y-3, ch.pitch()
	for i, g := range ch.groups {
		if g.head != "" {
			if i > 0 {
				c.StrokeLine2(draw.LineStyle{Color: hair, Width: axisWidth}, c.Min.X+margin, y, c.Max.X-margin, y)
			}
			y -= headPitch
			grey := textStyle(smallSize, faint)
			grey.YAlign = draw.YCenter
			c.FillText(grey, vg.Point{X: c.Min.X + margin, Y: y + headPitch/2 - 2 + lift}, shorten(g.head, grey, ch.names))
		}
		for _, x := range g.bars {
			mid := y - pitch/2
			ch.drawBar(d, x, mid, 0.55*pitch)
			c.FillText(right, vg.Point{X: d.Min.X - 6, Y: mid + lift}, shorten(x.name, sty, nameLimit))
			c.FillText(right, vg.Point{X: valueEdge, Y: mid + lift}, x.figure)
			c.FillText(sty, vg.Point{X: valueEdge + gap, Y: mid + lift}, x.verdict)
			y -= pitch
		}
	}
	ch.drawLimits(d, c.Max.X-margin)
	p.frame(area{d, p.x, p.y}, 0)
}

// drawBar draws a bar from zero with its error.
func (ch chart) drawBar(d draw.Canvas, x bar, mid, thick vg.Length) {
	zero, end := d.X(ch.x.at(math.Max(0, ch.x.min))), d.X(ch.x.at(x.value))
	d.FillPolygon(x.sty.Color, []vg.Point{
		{X: zero, Y: mid - thick/2}, {X: end, Y: mid - thick/2}, {X: end, Y: mid + thick/2}, {X: zero, Y: mid + thick/2}})
	if x.less == 0 {
		return
	}
	sty := draw.LineStyle{Color: ink, Width: axisWidth}
	lo, hi := d.X(ch.x.at(x.value-x.less)), d.X(ch.x.at(x.value+x.less))
	const cap = vg.Length(2.5)
	for _, part := range []struct {
		at  vg.Length
		col color.Color
	}{{lo, paper}, {hi, ink}} { // white on the bar, dark beyond it
		sty.Color = part.col
		d.StrokeLine2(sty, part.at, mid, end, mid)
		d.StrokeLine2(sty, part.at, mid-cap, part.at, mid+cap)
	}
}

// drawLimits runs a dotted line from the axis up to its words, which stand on its right; the lowest limit has the topmost line of words, so
// that no line of another passes through them.
func (ch chart) drawLimits(d draw.Canvas, rightmost vg.Length) {
	sty := textStyle(smallSize, ink)
	sty.YAlign = draw.YCenter
	for i, l := range ch.limits {
		x := d.X(ch.x.at(l.value))
		mid := d.Max.Y + 2 + bandPitch*(vg.Length(len(ch.limits)-i)+0.5)
		d.StrokeLine2(draw.LineStyle{Color: paper, Width: limitWidth}, x, d.Min.Y, x, d.Max.Y)
		d.StrokeLine2(limitLine().LineStyle, x, d.Min.Y, x, mid+smallSize/2)
		const off = 4
		text := l.text
		if sty.Width(text) > rightmost-x-off {
			text = l.brief
		}
		d.FillText(sty, vg.Point{X: x + off, Y: mid + lift}, shorten(text, sty, rightmost-x-off))
	}
}
