package plots

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// stretch is a route put end to end, in the unit of the figure.
type stretch struct {
	x, elevation, steady, lowest, highest, cavity []float64
}

// envelope is the route's profile with the gradient lines.
func (b *book) envelope(scenario int) (Figure, bool) {
	all := b.Scenarios[scenario].Outcomes
	var outs []*choice.Outcome
	var notes []string
	for i := range all {
		if o := &all[i]; len(b.route(o).x) > 1 {
			outs = append(outs, o)
		} else {
			notes = append(notes, absent(o, "profile"))
		}
	}
	if len(outs) == 0 {
		return Figure{}, false
	}
	heads, far := b.within(outs, b.headLimits(scenario))
	notes = append(notes, far...)
	y := b.headAxis(outs, heads)
	g := grid{inside: cm(9)}
	split := bands(outs, 3)
	if len(split) > 1 {
		g.inside = cm(6)
	}
	parts := b.stretches(outs)
	for _, part := range parts {
		g.shares = append(g.shares, part.share)
	}
	if len(parts) > 1 { // its panel may be too narrow for the words at the dot
		for _, o := range outs {
			s := b.route(o)
			if most, volume, ok := b.largestCavity(s); ok && s.x[most] <= parts[0].to {
				notes = append(notes, "Dot: largest cavity of "+o.Candidate+", "+volume+".")
			}
		}
	}
	for i, band := range split {
		var row []*panel
		if len(parts) == 1 { // routes may differ
			parts[0] = b.wholeRoute(band[0])
		}
		for k, part := range parts {
			p := b.profilePanel(band, heads, y, part)
			p.x.bare = i < len(split)-1
			p.y.bare = k > 0 // the first panel of the row has the scale
			if i > 0 {
				p.head = ""
			}
			row = append(row, p)
		}
		g.rows = append(g.rows, row)
	}
	key := append(b.entries(outs), entry{text: "steady", sty: steadyLine()}, entry{text: "pipe", sty: profileLine()})
	for _, h := range heads {
		if h.keyed {
			key = append(key, entry{text: h.text, sty: h.sty})
		}
	}
	about := "Highest and lowest hydraulic gradient lines along the route"
	if outs[0].RouteFrom != "" {
		about += " of the check valve (" + outs[0].RouteFrom + ")"
	}
	return Figure{
		Name:    b.name(Envelope, scenario),
		Caption: "Profile of the route with the steady, highest and lowest hydraulic gradient lines of each candidate.",
		page:    page{title: b.title(scenario), about: about, key: key, body: g, notes: b.notes(notes...)},
	}, true
}

func steadyLine() stroke { return plain(draw.LineStyle{Color: faint, Width: steadyWidth}) }
func vapourLine() stroke {
	return plain(draw.LineStyle{Color: mist, Width: steadyWidth, Dashes: []vg.Length{6, 3.5}})
}
func profileLine() stroke { return plain(draw.LineStyle{Color: soil, Width: profileWidth}) }

// route puts an outcome's profiles end to end.
func (b *book) route(o *choice.Outcome) stretch {
	u := b.units.Unit(quantity.Length)
	var s stretch
	for _, p := range o.Route {
		for i := range p.Chainage {
			s.x = append(s.x, u.From(p.Chainage[i]))
			s.elevation = append(s.elevation, u.From(p.Elevation[i]))
			s.steady = append(s.steady, u.From(p.Steady[i]))
			s.lowest = append(s.lowest, u.From(p.Lowest[i]))
			s.highest = append(s.highest, u.From(p.Highest[i]))
			c := 0.0
			if p.Cavity != nil {
				c = p.Cavity[i]
			}
			s.cavity = append(s.cavity, c)
		}
	}
	return s
}

// headLimit is a pressure that becomes a line at a constant height over the profile, m or ft.
type headLimit struct {
	over  float64
	text  string
	brief string
	side  float64 // above or below the heads: 1, -1
	words float64 // above or below the line
	sty   stroke
	keyed bool // named in the key, not on the line
}

// headLimits are the limits as heights over the profile.
func (b *book) headLimits(scenario int) []headLimit {
	if b.Case == nil || scenario >= len(b.Case.Scenarios) || b.Case.Scenarios[scenario].Network == nil {
		return nil
	}
	n := b.Case.Scenarios[scenario].Network
	u := b.units.Unit(quantity.Length)
	perHead := n.Fluid.Density * n.G()
	if !(perHead > 0) {
		return nil
	}
	var out []headLimit
	for _, l := range b.pressureLimits() {
		pa := b.units.Unit(quantity.Pressure).To(l.value)
		out = append(out, headLimit{over: u.From(pa / perHead), text: l.text, brief: l.brief, side: 1, words: l.side, sty: limitLine()})
	}
	if m := b.limits().MinimumPressure; m != nil && finite(*m) {
		out = append(out, headLimit{over: u.From(*m / perHead), text: "minimum pressure " + b.pressure(*m), side: -1, sty: limitLine()})
	}
	if vapour := n.Fluid.VapourHead(n.Atmosphere, n.G()); finite(vapour) {
		out = append(out, headLimit{over: u.From(vapour), text: "vapour pressure", side: -1, sty: vapourLine(), keyed: true})
	}
	return out
}

// reach is how far beyond the profile and the heads a limit may lengthen the axis, as a multiple of their own height.
const reach = 1.25

// within sorts the limits into those that are drawn, because a head comes to them or they are near enough for the scale, and notes on the
// others.
func (b *book) within(outs []*choice.Outcome, heads []headLimit) (shown []headLimit, notes []string) {
	_, symbol := b.unit(quantity.Length)
	lo, hi := b.heights(outs)
	for _, h := range heads {
		gap, beyond := math.Inf(1), 0.0
		for _, o := range outs {
			s := b.route(o)
			for i := range s.x {
				at := s.elevation[i] + h.over
				outer := math.Max(s.highest[i], s.steady[i])
				if h.side < 0 {
					outer = s.lowest[i]
				}
				gap = math.Min(gap, h.side*(at-outer))
				beyond = math.Max(beyond, math.Max(at-hi, lo-at))
			}
		}
		switch {
		case gap <= 0 || beyond <= reach*(hi-lo):
			shown = append(shown, h)
		case h.side > 0:
			notes = append(notes, "Not shown: "+h.text+", at least "+twoFigures(gap)+" "+symbol+" above the highest head.")
		default:
			notes = append(notes, "Not shown: "+h.text+", at least "+twoFigures(gap)+" "+symbol+" below the lowest head.")
		}
	}
	return shown, notes
}

// heights are the least and greatest of the profile and the heads.
func (b *book) heights(outs []*choice.Outcome) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, o := range outs {
		s := b.route(o)
		for i := range s.x {
			lo = math.Min(lo, math.Min(s.elevation[i], s.lowest[i]))
			hi = math.Max(hi, math.Max(s.elevation[i], math.Max(s.highest[i], s.steady[i])))
		}
	}
	return lo, hi
}

// headAxis holds everything that is drawn, with room below for the words of a lower limit.
func (b *book) headAxis(outs []*choice.Outcome, heads []headLimit) axis {
	lo, hi := b.heights(outs)
	below := 0.04 // of the height
	for _, h := range heads {
		if h.side < 0 && !h.keyed {
			below = 0.1
		}
		for _, o := range outs {
			for _, z := range b.route(o).elevation {
				lo, hi = math.Min(lo, z+h.over), math.Max(hi, z+h.over)
			}
		}
	}
	_, symbol := b.unit(quantity.Length)
	return snug("Elevation and head ("+symbol+")", lo-below*(hi-lo), hi+0.05*(hi-lo), 7)
}

// profilePanel draws a band of candidates over a part of the profile.
func (b *book) profilePanel(band []*choice.Outcome, heads []headLimit, y axis, part part) *panel {
	p := &panel{head: part.head, x: window(part.label, part.from, part.to, part.ticks), y: y}
	first := b.route(band[0])
	seen := func(x, y []float64) []point { return reduce(x, y, part.from, part.to, pixelColumns) }

	land := seen(first.x, first.elevation)
	p.fills = append(p.fills, fill{append(append([]point{{land[0].x, y.min}}, land...), point{land[len(land)-1].x, y.min}), ground})
	for _, o := range band {
		s := b.route(o)
		p.lines = append(p.lines, line{seen(s.x, s.steady), steadyLine()})
	}
	p.lines = append(p.lines, line{land, profileLine()})
	for _, h := range heads {
		pts := make([]point, len(land))
		for i, q := range land {
			pts[i] = point{q.x, q.y + h.over}
		}
		p.lines = append(p.lines, line{pts, h.sty})
		switch {
		case h.keyed || !part.words:
		case h.side < 0: // between pipe and vapour line there is no room
			p.labels = append(p.labels, label{text: h.text, spots: hung(backwards(pts), -1), bare: true})
		default:
			p.labels = append(p.labels, label{text: h.text, brief: h.brief, spots: slices.Concat(along(backwards(pts), h.words), along(backwards(pts), -h.words)), bare: true})
		}
	}
	for _, o := range band {
		s, sty := b.route(o), b.lineOf(o)
		p.lines = append(p.lines, line{seen(s.x, s.highest), sty}, line{seen(s.x, s.lowest), sty})
		b.cavities(p, o, s)
	}
	if part.words {
		p.labels = append(p.labels, b.word("highest head", band, part, 1), b.word("lowest head", band, part, -1))
	}
	return p
}

// litre is the unit of a small cavity.
var litre = func() quantity.Unit {
	u, err := quantity.ParseUnit("l", quantity.Volume)
	if err != nil {
		panic("plots: no litre in the table of units")
	}
	return u
}()

// largestCavity is where in a route a candidate's largest cavity stands, with its volume in words; false when there is none.
func (b *book) largestCavity(s stretch) (int, string, bool) {
	most := 0
	for i := range s.cavity {
		if s.cavity[i] > s.cavity[most] {
			most = i
		}
	}
	if s.cavity[most] <= 0 {
		return 0, "", false
	}
	u, symbol := b.unit(quantity.Volume)
	if b.units == quantity.SI && s.cavity[most] < 0.1 {
		u, symbol = litre, litre.Symbol
	}
	return most, short(u.From(s.cavity[most]), 2) + " " + symbol, true
}

// cavities marks where a candidate's largest cavity stands on the pipe.
func (b *book) cavities(p *panel, o *choice.Outcome, s stretch) {
	most, volume, ok := b.largestCavity(s)
	if ok && p.mark(point{s.x[most], s.elevation[most]}, b.lineOf(o).Color, "cavity "+volume+", "+clean(o.Candidate)) {
		m := &p.marks[len(p.marks)-1]
		m.bare, m.brief = true, "cavity "+volume
	}
}

// word names the outermost of a band's gradient lines in a part of the route: sign 1 the highest, -1 the lowest.
func (b *book) word(text string, band []*choice.Outcome, part part, sign float64) label {
	var outer []point
	for _, x := range b.route(band[0]).x {
		if x < part.from || x > part.to {
			continue
		}
		outer = append(outer, point{x, math.Inf(int(-sign))})
	}
	for _, o := range band {
		s := b.route(o)
		y := s.highest
		if sign < 0 {
			y = s.lowest
		}
		for i := range outer { // every candidate has its own grid
			outer[i].y = sign * math.Max(sign*outer[i].y, sign*between(s.x, y, outer[i].x))
		}
	}
	pts := backwards(outer)
	return label{text: text, spots: slices.Concat(offset(pts, sign, 2.5, 5), hung(pts, sign)), bare: true}
}

// between is y at a place, straight between its points and level beyond them.
func between(x, y []float64, at float64) float64 {
	i := sort.SearchFloat64s(x, at)
	switch {
	case i == 0:
		return y[0]
	case i == len(x):
		return y[i-1]
	case x[i] == x[i-1]:
		return y[i]
	}
	return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
}

// backwards picks two dozen points of a line, the last first, away from the very ends.
func backwards(pts []point) []point {
	const n = 24
	var out []point
	for k := n - 1; k > 0; k-- {
		out = append(out, pts[k*(len(pts)-1)/n])
	}
	return out
}
