package plots

import (
	"cmp"
	"math"
	"slices"
	"strings"

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
	s, ok := b.closing(scenario, outs)
	if !ok {
		s = interesting(outs)
	}
	s = withLater(outs, s)
	about := "The closing" + watched(all) + "; in the key and at the dots: greatest reverse velocity before the first seating"
	for _, o := range outs {
		if at, ok := laterGoverns(o); ok {
			about = "The closings" + watched(all) + "; key and dots: greatest reverse velocity before the first seating, and later"
			notes = append(notes, b.later(o, at, s))
		}
		if !exists(o.MaxReverseVelocity) {
			notes = append(notes, because(o, "reverse velocity", o.MaxReverseVelocity))
		}
		if !exists(o.Seated) {
			notes = append(notes, because(o, "time of seating", o.Seated))
		}
	}
	if beyond := b.peaksBeyond(outs, s); beyond != "" {
		notes = append(notes, beyond)
	}
	panels := []*panel{b.velocityPanel(scenario, outs, s), b.openingPanel(outs, s), b.facePanel(outs, s)}
	g := grid{inside: cm(4.2)}
	for i, p := range panels {
		p.x.bare = i < len(panels)-1
		g.rows = append(g.rows, []*panel{p})
	}
	return Figure{
		Name: b.name(DiscMotion, scenario),
		Caption: "Velocity on the valve's bore, with the greatest reverse velocity before the first seating, and after it where that is greater; opening as a fraction of travel, of two plates their mean; " +
			"gauge pressure at the downstream face" + watched(all) + ".",
		page: page{title: b.title(scenario), about: about, key: b.reverseEntries(outs), body: g, notes: b.notes(notes...)},
	}, true
}

// laterKey is the key of the greatest reverse velocity after the first seating.
const laterKey = "later_reverse_velocity_m_s"

// laterGoverns tells whether the flow turns back faster after the first seating than before it, by more than what is uncertain, and when, s.
func laterGoverns(o *choice.Outcome) (float64, bool) {
	if !exists(o.LaterReverseVelocity) || !exists(o.MaxReverseVelocity) {
		return 0, false
	}
	unsure := 0.005 // m/s, what the numbers aim at
	if exists(o.ReverseVelocityError) {
		unsure = math.Max(unsure, o.ReverseVelocityError.SI)
	}
	if o.LaterReverseVelocity.SI <= o.MaxReverseVelocity.SI+unsure {
		return 0, false
	}
	at, ok := o.Spots[laterKey]
	return at.Time, ok && at.Time >= 0 && finite(at.Time)
}

// later says in words what happens after the first seating.
func (b *book) later(o *choice.Outcome, at float64, s span) string {
	speed, speedSymbol := b.unit(quantity.Velocity)
	text := o.Candidate + ": greatest reverse velocity " + twoFigures(speed.From(o.LaterReverseVelocity.SI)) + " " + speedSymbol +
		" at " + short(at, 3) + " s, after the first seating"
	if at > s.to {
		text += " and after the time shown"
	}
	if exists(o.PeakPressure) && exists(o.PeakTime) {
		u, symbol := b.unit(quantity.Pressure)
		text += "; highest pressure on the line " + fixed(u.From(o.PeakPressure.SI), b.places) + " " + symbol + " at " + short(o.PeakTime.SI, 3) + " s"
	}
	return text + "."
}

// peaksBeyond says when the highest pressures that decide a verdict come, where that is not in the time shown and [book.later] has not said so.
func (b *book) peaksBeyond(outs []*choice.Outcome, s span) string {
	u, symbol := b.unit(quantity.Pressure)
	var each []string
	for _, o := range outs {
		judged := slices.ContainsFunc(o.Verdicts, func(v choice.Verdict) bool { return v.Measure == peakMeasure })
		if !judged || !exists(o.PeakPressure) || !exists(o.PeakTime) || o.PeakTime.SI >= s.from && o.PeakTime.SI <= s.to {
			continue
		}
		if _, told := laterGoverns(o); told {
			continue
		}
		each = append(each, o.Candidate+" "+fixed(u.From(o.PeakPressure.SI), b.places)+" "+symbol+" at "+short(o.PeakTime.SI, 3)+" s")
	}
	if len(each) == 0 {
		return ""
	}
	return "Highest pressure on the line, outside of the time shown: " + strings.Join(each, "; ") + "."
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
		if _, ok := laterGoverns(o); ok {
			es[i].text += ", later " + twoFigures(u.From(o.LaterReverseVelocity.SI)) + " " + symbol
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
	if limited { // with room for its words below
		lo = math.Min(lo, -bound.value-0.12*(hi+bound.value))
	}
	p := &panel{x: window(timeLabel, s.from, s.to, 9), y: linear("Bore velocity ("+symbol+")", lo-0.04*(hi-lo), hi, 6)}
	p.horizontal(0, plain(draw.LineStyle{Color: ink, Width: axisWidth}))
	if limited {
		p.horizontal(-bound.value, limitLine())
		p.labels = append(p.labels, label{text: bound.text, spots: under(across(p.x, -bound.value))})
	}
	b.events(p, scenario)
	for _, o := range outs {
		p.curve(o, velocityKey, u, s, b.lineOf(o))
	}
	for _, o := range outs {
		reverse := func(at float64, v choice.Value) {
			q := point{at, -u.From(v.SI)}
			switch {
			case !exists(v) || v.SI <= 0 || !p.holds(q):
			case len(outs) <= perPanel:
				p.mark(q, b.lineOf(o).Color, twoFigures(u.From(v.SI))+" "+symbol)
			default: // the figures stand in the key
				p.dots = append(p.dots, dot{q, b.lineOf(o).Color})
			}
		}
		reverse(reverseTime(o), o.MaxReverseVelocity)
		if at, ok := laterGoverns(o); ok {
			reverse(at, o.LaterReverseVelocity)
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
	p := &panel{x: window(timeLabel, s.from, s.to, 9), y: linear("Opening ("+symbol+" of travel)", 0, 100, 5)}
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
	p := &panel{x: window(timeLabel, s.from, s.to, 9), y: b.pressureAxis(outs, limits, s, 6)}
	p.limits(limits)
	for _, o := range outs {
		if series(o, pressureKey) != nil {
			p.curve(o, pressureKey, u, s, b.lineOf(o))
		}
	}
	return p
}
