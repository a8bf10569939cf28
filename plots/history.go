package plots

import (
	"cmp"
	"math"
	"slices"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// perPanel is how many candidates one panel of histories holds before they share several panels out.
const perPanel = 4

// view is a span of time with its heading.
type view struct {
	head string
	span span
}

// pressureHistory is the pressure at the valves' downstream faces: the closing, and all that follows where that is much longer.
func (b *book) pressureHistory(scenario int) (Figure, bool) {
	all := b.Scenarios[scenario].Outcomes
	outs, notes := drawn(all, pressureKey, "pressure history")
	if len(outs) == 0 {
		return Figure{}, false
	}
	var rows [][]*panel
	for _, band := range bands(outs, perPanel) {
		rows = append(rows, b.pressureRow(scenario, band, outs))
	}
	about := "Gauge pressure at the downstream face of the check valve" + watched(all)
	return Figure{
		Name:    b.name(PressureHistory, scenario),
		Caption: about + " against time, with the greatest value of each candidate where it exceeds the initial pressure.",
		page:    page{title: b.title(scenario), about: about, key: b.entries(outs), body: banded(rows), notes: b.notes(notes...)},
	}, true
}

// banded is a body of histories, a row per band of candidates and a column per view; the views of a single band stand one above the other at full width.
func banded(rows [][]*panel) grid {
	if len(rows) == 1 {
		g := grid{inside: cm(5.2)}
		for _, p := range rows[0] {
			p.y.bare = false
			g.rows = append(g.rows, []*panel{p})
		}
		return g
	}
	for _, row := range rows[:len(rows)-1] {
		for _, p := range row {
			p.x.bare = true
		}
	}
	for _, row := range rows[1:] {
		for _, p := range row {
			p.head = ""
		}
	}
	return grid{rows: rows, inside: cm(5)}
}

// views are the spans of time worth a panel.
func (b *book) views(scenario int, outs []*choice.Outcome) []view {
	whole := interesting(outs)
	near, ok := b.closing(scenario, outs)
	if !ok {
		return []view{{"From the first event on", whole}}
	}
	whole.to = math.Max(whole.to, near.to)
	if whole.to-whole.from < 1.5*(near.to-near.from) {
		return []view{{"From the first event on", whole}}
	}
	return []view{{"The first closing", near}, {"From the first event on", whole}}
}

// pressureRow draws a band of candidates in every view, on the scales that all candidates share. A peak is marked in the first view
// that holds it.
func (b *book) pressureRow(scenario int, band, all []*choice.Outcome) []*panel {
	u, symbol := b.unit(quantity.Pressure)
	limits := b.pressureLimits()
	y := b.pressureAxis(all, limits, span{math.Inf(-1), math.Inf(1)}, 6)
	ticks := 9
	if len(all) > perPanel {
		ticks = 5
	}
	var row []*panel
	marked := map[string]bool{}
	for _, v := range b.views(scenario, all) {
		p := &panel{head: v.head, x: window(timeLabel, v.span.from, v.span.to, ticks), y: y}
		p.y.bare = len(row) > 0 // the first panel of the row has the scale
		b.events(p, scenario)
		p.limits(limits)
		for _, o := range band {
			p.curve(o, pressureKey, u, v.span, b.lineOf(o))
		}
		for _, o := range byPeak(band) {
			values := series(o, pressureKey)
			i, ok := extreme(o.Time, values, span{eventTime(all), math.Inf(1)}, 1)
			if !ok || marked[o.Candidate] {
				continue
			}
			peak := u.From(values[i])
			if peak-u.From(values[0]) < 0.01*(y.max-y.min) { // no surge
				continue
			}
			marked[o.Candidate] = p.mark(point{o.Time[i], peak}, b.lineOf(o).Color, fixed(peak, b.places)+" "+symbol)
		}
		row = append(row, p)
	}
	return row
}

// byPeak puts the greatest pressure first: it has the most room above it.
func byPeak(outs []*choice.Outcome) []*choice.Outcome {
	peak := func(o *choice.Outcome) float64 { return slices.Max(series(o, pressureKey)) }
	return slices.SortedStableFunc(slices.Values(outs), func(a, b *choice.Outcome) int { return cmp.Compare(peak(b), peak(a)) })
}

// pressureAxis holds the pressures at the valves within a span and the limits.
func (b *book) pressureAxis(outs []*choice.Outcome, limits []limit, s span, ticks int) axis {
	u, symbol := b.unit(quantity.Pressure)
	lo, hi := 0.0, 0.0
	for _, o := range outs {
		y := series(o, pressureKey)
		if i, ok := extreme(o.Time, y, s, 1); ok {
			hi = math.Max(hi, u.From(y[i]))
		}
		if i, ok := extreme(o.Time, y, s, -1); ok {
			lo = math.Min(lo, u.From(y[i]))
		}
	}
	for _, l := range limits {
		hi = math.Max(hi, l.value)
	}
	return linear("Gauge pressure ("+symbol+")", lo, hi+0.05*(hi-lo), ticks)
}
