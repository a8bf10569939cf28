package plots

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg/draw"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// pixelColumns is how many columns a series is reduced to over the width of a panel: about one per pixel at [DPI].
const pixelColumns = 1000

// limit is a bound in the units of the figure, with its words.
type limit struct {
	value       float64
	text, brief string
	side        float64 // on which side of its line the words stand: 1 above, -1 below
}

// pressureLimits are the design pressure and, where a surge may go beyond it, the pressure with its allowance.
func (b *book) pressureLimits() []limit {
	l := b.limits()
	if l.DesignPressure == nil || !finite(*l.DesignPressure) {
		return nil
	}
	design := *l.DesignPressure
	out := []limit{{b.units.Unit(quantity.Pressure).From(design), "design pressure " + b.pressure(design), "design " + b.pressure(design), 1}}
	if l.SurgeAllowance != nil && *l.SurgeAllowance > 0 && finite(*l.SurgeAllowance) {
		with := design * (1 + *l.SurgeAllowance)
		extra := short(100**l.SurgeAllowance, 3) + " %"
		if l.Rule.Timed() {
			extra = "up to " + extra
		}
		out[0].side = -1
		out = append(out, limit{b.units.Unit(quantity.Pressure).From(with),
			"design pressure + " + extra + ": " + b.pressure(with), b.pressure(design) + " + " + extra, 1})
	}
	return out
}

// reverseLimit is the greatest reverse velocity allowed.
func (b *book) reverseLimit() (limit, bool) {
	v := b.limits().ReverseVelocity
	if v == nil || !finite(*v) || *v <= 0 {
		return limit{}, false
	}
	u, symbol := b.unit(quantity.Velocity)
	words := "reverse velocity limit " + short(u.From(*v), 3) + " " + symbol
	return limit{u.From(*v), words, words, -1}, true
}

// pressure writes a given pressure, as short as it was given.
func (b *book) pressure(pa float64) string {
	u, symbol := b.unit(quantity.Pressure)
	return short(u.From(pa), 3) + " " + symbol
}

// limits draws dotted lines across the panel with their words.
func (p *panel) limits(ls []limit) {
	for _, l := range ls {
		p.horizontal(l.value, limitLine())
		p.labels = append(p.labels, label{text: l.text, brief: l.brief, spots: along(across(p.x, l.value), l.side)})
	}
}

// events marks every event of the scenario within the axes with a hairline and its word; events at one time share the line.
func (b *book) events(p *panel, scenario int) {
	type moment struct {
		at    float64
		words []string
	}
	var moments []moment
	for _, e := range b.course(scenario).Events {
		if !finite(e.Time) || e.Time < p.x.min || e.Time > p.x.max {
			continue
		}
		i := slices.IndexFunc(moments, func(m moment) bool { return m.at == e.Time })
		if i < 0 {
			i, moments = len(moments), append(moments, moment{at: e.Time})
		}
		if word := e.Kind.String(); !slices.Contains(moments[i].words, word) {
			moments[i].words = append(moments[i].words, word)
		}
	}
	for _, m := range moments {
		p.vertical(m.at, plain(draw.LineStyle{Color: faint, Width: gridWidth}))
		var spots []spot
		for _, side := range []float64{1, -1} {
			for f := 0.03; f < 0.94; f += 0.06 {
				spots = append(spots, spot{point{m.at, p.y.value(f)}, side, 0, 3})
			}
		}
		p.labels = append(p.labels, label{text: strings.Join(m.words, ", "), spots: spots})
	}
}

// course is a scenario with its events; one without any where the case does not tell.
func (b *book) course(scenario int) choice.Scenario {
	if b.Case == nil || scenario >= len(b.Case.Scenarios) {
		return choice.Scenario{}
	}
	return b.Case.Scenarios[scenario]
}

// tripWord is the word for an event that cuts the power of pumps.
const tripWord = "trip"

// trip is when the unit whose valve is watched trips, s; false when it does not. It is the first of its station to trip.
func (b *book) trip(scenario int, outs []*choice.Outcome) (float64, bool) {
	at, found := math.Inf(1), false
	for _, e := range b.course(scenario).Events {
		mine := func(o *choice.Outcome) bool {
			return o.Watched == e.Target || strings.HasPrefix(o.Watched, e.Target+", ")
		}
		if e.Kind.String() == tripWord && finite(e.Time) && slices.ContainsFunc(outs, mine) {
			at, found = math.Min(at, e.Time), true
		}
	}
	return at, found
}

func (b *book) lineOf(o *choice.Outcome) stroke { return candidateLine(b.style[o.Candidate]) }

// curve adds the part of a history that lies in the span.
func (p *panel) curve(o *choice.Outcome, key string, u quantity.Unit, s span, sty stroke) {
	p.trace(o.Time, series(o, key), u, s, sty)
}

// trace adds the part of a series that lies in the span.
func (p *panel) trace(time, values []float64, u quantity.Unit, s span, sty stroke) {
	pts := reduce(time, values, s.from, s.to, pixelColumns)
	for i := range pts {
		pts[i].y = u.From(pts[i].y)
	}
	p.lines = append(p.lines, line{pts, sty})
}
