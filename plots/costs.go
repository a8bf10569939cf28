package plots

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"seatwise/valve/choice"
)

// costPart is a part of the life-cycle cost.
type costPart struct {
	name  string
	fill  pattern
	value func(*choice.Costing) float64 // present value
}

// costParts are the parts in the order of the stack. Their patterns differ in print without colour.
func costParts(annuity float64) []costPart {
	return []costPart{
		{"purchase", solid(palette[0]), func(k *choice.Costing) float64 { return k.Purchase }},
		{"energy", hatched(palette[4], 1), func(k *choice.Costing) float64 { return annuity * k.Energy }},
		{"upkeep", solid(hair), func(k *choice.Costing) float64 { return annuity * k.Upkeep }},
		{"slam", hatched(palette[1], 1, -1), func(k *choice.Costing) float64 { return annuity * k.Slam }},
	}
}

// stack is the bar of one candidate.
type stack struct {
	name, figure string
	parts        []float64 // as costParts
	low, high    float64   // of the sum, over the spread of its price
}

// stacks is the body of the figure: names on the left, stacked bars on an axis, each with its sum at its end.
type stacks struct {
	all   []stack
	fills []pattern
	x     axis
	names vg.Length
}

// costMakeUp is the present value of every candidate's cost by its parts.
func (b *book) costMakeUp() (Figure, bool) {
	if b.Case == nil || b.Case.Economics == nil {
		return Figure{}, false
	}
	e := b.Case.Economics
	var body stacks
	var key []entry
	var notes []string
	shown := costParts(e.Annuity())
	shown = slices.DeleteFunc(shown, func(p costPart) bool {
		return !slices.ContainsFunc(b.Costs, func(k choice.Costing) bool { return k.Reason == "" && p.value(&k) > 0 })
	})
	for _, p := range shown {
		body.fills = append(body.fills, p.fill)
		key = append(key, entry{text: p.name, fill: p.fill})
	}
	greatest, spread := 0.0, 0.0
	sty := textStyle(smallSize, ink)
	for i := range b.Costs {
		k := &b.Costs[i]
		if k.Reason != "" || !finite(k.High) {
			notes = append(notes, "Not shown: "+k.Candidate+", "+k.Reason+".")
			continue
		}
		s := stack{name: clean(k.Candidate), low: k.Low, high: k.High, figure: choice.Amount(k.Present)}
		for _, p := range shown {
			s.parts = append(s.parts, p.value(k))
		}
		spread = math.Max(spread, k.Spread)
		greatest = math.Max(greatest, k.High)
		body.names = min(nameLimit, max(body.names, sty.Width(s.name)))
		body.all = append(body.all, s)
	}
	if len(body.all) == 0 {
		return Figure{}, false
	}
	label := "Present value"
	if unit := clean(e.Currency); unit != "" {
		label += " (" + unit + ")"
	}
	about := b.CostHeading()
	if spread > 0 {
		about += "; thin bars: band of the generic price ratios, ±" + short(100*spread, 3) + "\u00a0% (common practice)"
		key = append(key, entry{text: "band", sty: plain(draw.LineStyle{Color: ink, Width: axisWidth})})
	}
	body.x = money(label, greatest, int(body.free()/60))
	return Figure{
		Name:    CostMakeUp,
		Caption: "What one valve of each candidate costs over its life, as present value, by its parts.",
		page:    page{title: b.title(-1), about: about, key: key, body: body, notes: b.notes(notes...)},
	}, true
}

// money is an axis of amounts from nothing up, in groups of three digits.
func money(label string, most float64, want int) axis {
	x := linear(label, 0, 1.02*most, want)
	for i := range x.ticks {
		if t := &x.ticks[i]; t.label != "" && math.Abs(t.at) >= 1000 {
			t.label = choice.Amount(t.at)
		}
	}
	return x
}

// sumWidth is the room for the sums beside the longest bar.
func (s stacks) sumWidth() (w vg.Length) {
	for _, k := range s.all {
		w = max(w, textStyle(smallSize, ink).Width(k.figure))
	}
	return w + 5
}

func (s stacks) free() vg.Length { return pageWidth - margin - rightEdge - s.names - 6 - s.sumWidth() }

// pitch is the height of a row.
func (s stacks) pitch() vg.Length {
	return min(22, max(tightest, tallest/vg.Length(len(s.all))))
}

func (s stacks) height() vg.Length {
	p := panel{x: s.x}
	return 8 + s.pitch()*vg.Length(len(s.all)) + p.footer()
}

func (s stacks) draw(c draw.Canvas) {
	left := c.Min.X + margin + s.names + 6
	d := c
	d.Rectangle = vg.Rectangle{
		Min: vg.Point{X: left, Y: c.Max.Y - 8 - s.pitch()*vg.Length(len(s.all))},
		Max: vg.Point{X: left + s.free(), Y: c.Max.Y - 4},
	}
	p := panel{x: s.x, y: axis{min: 0, max: 1}}
	p.grid(area{d, p.x, p.y})
	sty := textStyle(smallSize, ink)
	sty.YAlign = draw.YCenter
	right := sty
	right.XAlign = draw.XRight
	y := d.Max.Y - 2
	for _, k := range s.all {
		mid, thick := y-s.pitch()/2, 0.62*s.pitch()
		c.FillText(right, vg.Point{X: d.Min.X - 6, Y: mid + lift}, shorten(k.name, sty, nameLimit))
		sum := 0.0
		for i, v := range k.parts {
			from, to := d.X(s.x.at(sum)), d.X(s.x.at(sum+v))
			sum += v
			s.fills[i].draw(d, vg.Rectangle{Min: vg.Point{X: from, Y: mid - thick/2}, Max: vg.Point{X: to, Y: mid + thick/2}})
		}
		end := d.X(s.x.at(math.Max(sum, k.high)))
		if k.high > k.low {
			lo, hi := d.X(s.x.at(k.low)), d.X(s.x.at(k.high))
			for _, l := range []draw.LineStyle{{Color: paper, Width: 3 * axisWidth}, {Color: ink, Width: axisWidth}} {
				d.StrokeLine2(l, lo, mid, hi, mid)
				d.StrokeLine2(l, lo, mid-3, lo, mid+3)
				d.StrokeLine2(l, hi, mid-3, hi, mid+3)
			}
		}
		c.FillText(sty, vg.Point{X: end + 4, Y: mid + lift}, strings.ReplaceAll(k.figure, "-", "\u2212"))
		y -= s.pitch()
	}
	p.frame(area{d, p.x, p.y}, 0)
}
