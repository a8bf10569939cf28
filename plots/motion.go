package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg/draw"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// discMotion stacks bore velocity, opening and pressure over the closing on one time axis.
func (b *book) discMotion(scenario int) (Figure, bool) {
	all := b.Scenarios[scenario].Outcomes
	outs, notes := drawn(all, velocityKey, "disc motion")
	if len(outs) == 0 {
		return Figure{}, false
	}
	s, ok := closing(outs)
	if !ok {
		s = interesting(outs)
	}
	for _, o := range outs {
		if !exists(o.MaxReverseVelocity) {
			notes = append(notes, because(o, "reverse velocity", o.MaxReverseVelocity))
		}
		if !exists(o.Seated) {
			notes = append(notes, because(o, "time of seating", o.Seated))
		}
	}
	panels := []*panel{b.velocityPanel(scenario, outs, s), b.openingPanel(outs, s), b.facePanel(outs, s)}
	g := grid{inside: cm(4.2)}
	for i, p := range panels {
		p.x.bare = i < len(panels)-1
		g.rows = append(g.rows, []*panel{p})
	}
	about := "The closing" + watched(all) + "; in the key and at the dots: greatest reverse velocity before the first seating"
	return Figure{
		Name: b.name(DiscMotion, scenario),
		Caption: "Velocity on the valve's bore, with the greatest reverse velocity before the first seating; opening as a fraction of travel; " +
			"gauge pressure at the downstream face" + watched(all) + ".",
		page: page{title: b.title(scenario), about: about, key: b.reverseEntries(outs), body: g, notes: b.notes(notes...)},
	}, true
}

// because says why a value is left out.
func because(o *choice.Outcome, what string, v choice.Value) string {
	reason := cmp.Or(o.Failed, v.Reason)
	if reason == "" {
		reason = "not a finite value"
	}
	return "Not shown: " + o.Candidate + ", " + what + " (" + reason + ")."
}

// reverseEntries are the key with the greatest reverse velocity of each candidate.
func (b *book) reverseEntries(outs []*choice.Outcome) []entry {
	u, symbol := b.unit(quantity.Velocity)
	es := b.entries(outs)
	for i, o := range outs {
		if exists(o.MaxReverseVelocity) {
			es[i].text += ", " + twoFigures(u.From(o.MaxReverseVelocity.SI)) + " " + symbol
		}
	}
	return es
}

// twoFigures writes v with two significant figures.
func twoFigures(v float64) string {
	if v == 0 {
		return "0"
	}
	return fixed(v, max(0, decimals(v)-1))
}

func (b *book) velocityPanel(scenario int, outs []*choice.Outcome, s span) *panel {
	u, symbol := b.unit(quantity.Velocity)
	lo, hi := 0.0, 0.0
	for _, o := range outs {
		y := series(o, velocityKey)
		if i, ok := extreme(o.Time, y, s, 1); ok {
			hi = math.Max(hi, u.From(y[i]))
		}
		if i, ok := extreme(o.Time, y, s, -1); ok {
			lo = math.Min(lo, u.From(y[i]))
		}
	}
	bound, limited := b.reverseLimit()
	lo = math.Min(lo, -bound.value)
	p := &panel{x: window("Time (s)", s.from, s.to, 9), y: linear("Bore velocity ("+symbol+")", lo-0.04*(hi-lo), hi, 6)}
	p.horizontal(0, draw.LineStyle{Color: ink, Width: axisWidth})
	if limited {
		p.horizontal(-bound.value, limitLine())
		p.labels = append(p.labels, label{text: bound.text, spots: slices.Concat(along(across(p.x, -bound.value), -1), along(across(p.x, -bound.value), 1))})
	}
	b.event(p, scenario, outs)
	for _, o := range outs {
		p.curve(o, velocityKey, u, s, b.lineOf(o))
	}
	for _, o := range outs {
		if !exists(o.MaxReverseVelocity) || o.MaxReverseVelocity.SI <= 0 {
			continue
		}
		at := point{reverseTime(o), -u.From(o.MaxReverseVelocity.SI)}
		if !p.holds(at) {
			continue
		}
		if len(outs) <= perPanel {
			p.mark(at, b.lineOf(o).Color, twoFigures(u.From(o.MaxReverseVelocity.SI))+" "+symbol)
		} else { // the figures stand in the key
			p.dots = append(p.dots, dot{at, b.lineOf(o).Color})
		}
	}
	return p
}

// reverseTime is when the greatest reverse velocity before the first seating was reached, s.
func reverseTime(o *choice.Outcome) float64 {
	if spot, ok := o.Spots["max_reverse_velocity_m_s"]; ok && spot.Time >= 0 {
		return spot.Time
	}
	before := span{math.Inf(-1), math.Inf(1)}
	if exists(o.Seated) {
		before.to = o.Seated.SI
	}
	i, ok := extreme(o.Time, series(o, velocityKey), before, -1)
	if !ok {
		return math.Inf(-1)
	}
	return o.Time[i]
}

func (b *book) openingPanel(outs []*choice.Outcome, s span) *panel {
	u, symbol := b.unit(quantity.Fraction)
	p := &panel{x: window("Time (s)", s.from, s.to, 9), y: linear("Opening ("+symbol+" of travel)", 0, 100, 5)}
	for _, o := range outs {
		if series(o, openingKey) != nil {
			p.curve(o, openingKey, u, s, b.lineOf(o))
		}
	}
	return p
}

// facePanel is the pressure at the valve, with the limits where they come near.
func (b *book) facePanel(outs []*choice.Outcome, s span) *panel {
	u, _ := b.unit(quantity.Pressure)
	limits := b.pressureLimits()
	p := &panel{x: window("Time (s)", s.from, s.to, 9), y: b.pressureAxis(outs, limits, s, 6)}
	p.limits(limits)
	for _, o := range outs {
		if series(o, pressureKey) != nil {
			p.curve(o, pressureKey, u, s, b.lineOf(o))
		}
	}
	return p
}
