package plots

import (
	"math"

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
	heads, from := b.headLimits(scenario, outs)
	y := b.headAxis(outs, heads)
	g := grid{inside: cm(9)}
	split := bands(outs, 3)
	if len(split) > 1 {
		g.inside = cm(6)
	}
	for i, band := range split {
		p := b.profilePanel(band, heads, y)
		p.x.bare = i < len(split)-1
		g.rows = append(g.rows, []*panel{p})
	}
	key := append(b.entries(outs), entry{"steady", steadyLine()}, entry{"pipe", profileLine()})
	about := "Highest and lowest hydraulic gradient lines along the route" + from
	return Figure{
		Name:    b.name(Envelope, scenario),
		Caption: "Profile of the route with the steady, highest and lowest hydraulic gradient lines of each candidate.",
		page:    page{title: b.title(scenario), about: about, key: key, body: g, notes: b.notes(notes...)},
	}, true
}

func steadyLine() draw.LineStyle  { return draw.LineStyle{Color: faint, Width: steadyWidth} }
func profileLine() draw.LineStyle { return draw.LineStyle{Color: soil, Width: profileWidth} }

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
	over float64
	text string
	side float64 // of the line on which the words stand
	sty  draw.LineStyle
}

// near is how close to the vapour line, or to the least pressure allowed, a gradient line comes before that line is drawn, m.
const near = 5.0

// headLimits are the limits as heights over the profile, and a word on the watched valve.
func (b *book) headLimits(scenario int, outs []*choice.Outcome) ([]headLimit, string) {
	from := ""
	if outs[0].Watched != "" {
		from = " of the check valve (" + outs[0].Watched + ")"
	}
	if b.Case == nil || scenario >= len(b.Case.Scenarios) || b.Case.Scenarios[scenario].Network == nil {
		return nil, from
	}
	n := b.Case.Scenarios[scenario].Network
	u := b.units.Unit(quantity.Length)
	perHead := n.Fluid.Density * n.G()
	if !(perHead > 0) {
		return nil, from
	}
	var out []headLimit
	for _, l := range b.pressureLimits() {
		pa := b.units.Unit(quantity.Pressure).To(l.value)
		out = append(out, headLimit{u.From(pa / perHead), l.text, l.side, limitLine()})
	}
	least := math.Inf(1) // lowest pressure head, m
	for _, o := range outs {
		for _, p := range o.Route {
			for i := range p.Lowest {
				least = math.Min(least, p.Lowest[i]-p.Elevation[i])
			}
		}
	}
	if m := b.limits().MinimumPressure; m != nil && finite(*m) && least < *m/perHead+near {
		out = append(out, headLimit{u.From(*m / perHead), "minimum pressure " + b.pressure(*m), -1, limitLine()})
	}
	if vapour := n.Fluid.VapourHead(n.Atmosphere, n.G()); finite(vapour) && least < vapour+near {
		out = append(out, headLimit{u.From(vapour), "vapour pressure", -1, draw.LineStyle{Color: faint, Width: limitWidth, Dashes: dotted}})
	}
	return out, from
}

// headAxis holds everything that is drawn.
func (b *book) headAxis(outs []*choice.Outcome, heads []headLimit) axis {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, o := range outs {
		s := b.route(o)
		for i := range s.x {
			lo = math.Min(lo, math.Min(s.elevation[i], s.lowest[i]))
			hi = math.Max(hi, math.Max(s.elevation[i], math.Max(s.highest[i], s.steady[i])))
			for _, h := range heads {
				lo, hi = math.Min(lo, s.elevation[i]+h.over), math.Max(hi, s.elevation[i]+h.over)
			}
		}
	}
	_, symbol := b.unit(quantity.Length)
	return linear("Elevation and head ("+symbol+")", lo-0.04*(hi-lo), hi, 7)
}

// profilePanel draws a band of candidates over the profile.
func (b *book) profilePanel(band []*choice.Outcome, heads []headLimit, y axis) *panel {
	_, symbol := b.unit(quantity.Length)
	first := b.route(band[0])
	end := first.x[len(first.x)-1]
	p := &panel{x: window("Distance along the route ("+symbol+")", first.x[0], end, 8), y: y}

	land := reduce(first.x, first.elevation, first.x[0], end, pixelColumns)
	p.fills = append(p.fills, fill{append(append([]point{{first.x[0], y.min}}, land...), point{end, y.min}), ground})
	for _, o := range band {
		s := b.route(o)
		p.lines = append(p.lines, line{reduce(s.x, s.steady, first.x[0], end, pixelColumns), steadyLine()})
	}
	p.lines = append(p.lines, line{land, profileLine()})
	for _, h := range heads {
		pts := make([]point, len(land))
		for i, q := range land {
			pts[i] = point{q.x, q.y + h.over}
		}
		p.lines = append(p.lines, line{pts, h.sty})
		p.labels = append(p.labels, label{text: h.text, spots: along(backwards(pts), h.side), bare: true})
	}
	for _, o := range band {
		s, sty := b.route(o), b.lineOf(o)
		p.lines = append(p.lines, line{reduce(s.x, s.highest, first.x[0], end, pixelColumns), sty},
			line{reduce(s.x, s.lowest, first.x[0], end, pixelColumns), sty})
		b.cavities(p, o, s)
	}
	p.labels = append(p.labels, b.word("highest", band, 1), b.word("lowest", band, -1))
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

// cavities marks where a candidate's largest cavity stands on the pipe.
func (b *book) cavities(p *panel, o *choice.Outcome, s stretch) {
	most := 0
	for i := range s.cavity {
		if s.cavity[i] > s.cavity[most] {
			most = i
		}
	}
	if s.cavity[most] <= 0 {
		return
	}
	u, symbol := b.unit(quantity.Volume)
	if b.units == quantity.SI && s.cavity[most] < 0.1 {
		u, symbol = litre, litre.Symbol
	}
	if p.mark(point{s.x[most], s.elevation[most]}, b.lineOf(o).Color,
		"cavity "+short(u.From(s.cavity[most]), 2)+" "+symbol+", "+clean(o.Candidate)) {
		p.marks[len(p.marks)-1].bare = true
	}
}

// word names the outermost of a band's gradient lines: sign 1 the highest, -1 the lowest.
func (b *book) word(text string, band []*choice.Outcome, sign float64) label {
	var outer []point
	for k, o := range band {
		s := b.route(o)
		y := s.highest
		if sign < 0 {
			y = s.lowest
		}
		for i := range s.x {
			switch {
			case k == 0:
				outer = append(outer, point{s.x[i], y[i]})
			case i < len(outer): // the grids of the candidates are the same, or nearly
				outer[i].y = sign * math.Max(sign*outer[i].y, sign*y[i])
			}
		}
	}
	return label{text: text, spots: along(backwards(outer), sign), bare: true}
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
