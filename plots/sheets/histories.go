package sheets

import (
	"math"
	"slices"

	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/plots/export"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// Keys of the series that are drawn.
const (
	velocityKey = "velocity"
	openingKey  = "opening"
	pressureKey = "pressure_down"
)

// followed are the series whose extremes a reduced history keeps.
var followed = []string{velocityKey, pressureKey}

// bins are the parts into which the closing, and the whole run, are divided; of each a history keeps the first and last row and those of the extremes.
const bins = 250

// span is a stretch of time, s.
type span struct{ from, to float64 }

// curves are the histories of a scenario as they stand on their sheet.
type curves struct {
	*builder
	scenario       int
	closing, whole span
	lines          map[string][]workbook.Line // by key of the series
	limits         []workbook.Line            // on the pressure
}

// histories puts the series of every candidate beside each other, each with a time of its own.
func (b *builder) histories(scenario int) *curves {
	sc := &b.Scenarios[scenario]
	s := b.book.Sheet(b.of("Histories", scenario))
	c := &curves{builder: b, scenario: scenario, lines: map[string][]workbook.Line{}}
	c.closing, c.whole = spans(sc)
	column := 0
	for k := range sc.Outcomes {
		o := &sc.Outcomes[k]
		if len(o.Time) == 0 {
			continue
		}
		rows := c.reduced(o)
		name := s.Put(0, column, workbook.Text(o.Candidate).In(workbook.Heading))
		s.Put(1, column, workbook.Text("time, s").In(workbook.Head))
		s.Width(column, 10)
		time := s.Column(2, column, 4, pick(o.Time, rows))
		for _, h := range o.History {
			column++
			scale := choice.NewScale(h.Dimension, b.Units, h.Values...)
			s.Put(1, column, workbook.Text(scale.Label(h.Label)).In(workbook.Head))
			s.Width(column, 13)
			values := pick(h.Values, rows)
			for i := range values {
				values[i] = scale.Unit.From(values[i])
			}
			y := s.Column(2, column, scale.Places+1, values)
			c.lines[h.Key] = append(c.lines[h.Key], workbook.Line{Name: name, X: time, Y: y, Colour: plots.Colour(k), Dash: k})
		}
		column += 2 // a free one between candidates
	}
	s.Freeze(2, 0)
	u := b.Units.Unit(quantity.Pressure)
	for _, l := range b.pressureLimits() {
		name := s.Put(0, column, workbook.Text(l.words).In(workbook.Faint))
		s.Put(1, column, workbook.Text("time, s").In(workbook.Head))
		s.Put(1, column+1, workbook.Text("bound, "+u.Symbol).In(workbook.Head))
		x := s.Column(2, column, 3, []float64{c.whole.from, c.whole.to})
		y := s.Column(2, column+1, 2, []float64{u.From(l.bound), u.From(l.bound)})
		c.limits = append(c.limits, workbook.Line{Name: name, X: x, Y: y, Colour: "333333", Dash: workbook.Dotted, Thin: true})
		column += 3
	}
	return c
}

// spans are that of the first closings, with what follows at once, and that from the first event to the end; without a seating both are the whole run.
func spans(sc *choice.ScenarioOutcomes) (closing, whole span) {
	whole = span{math.Inf(1), math.Inf(-1)}
	event, seated := math.Inf(1), math.Inf(-1)
	for k := range sc.Outcomes {
		o := &sc.Outcomes[k]
		if n := len(o.Time); n > 0 {
			whole.from, whole.to = math.Min(whole.from, o.Time[0]), math.Max(whole.to, o.Time[n-1])
		}
		if o.EventTime >= 0 {
			event = math.Min(event, o.EventTime)
		}
		if exists(o.Seated) {
			seated = math.Max(seated, o.Seated.SI)
		}
	}
	if math.IsInf(whole.from, 0) {
		return span{}, span{}
	}
	if seated <= event || math.IsInf(event, 0) {
		return whole, whole
	}
	long := seated - event
	return span{math.Max(whole.from, event-0.1*long), math.Min(whole.to, seated+0.5*long)}, whole
}

// reduced are the rows of a history that a chart needs, finer in the closing than before and after it. The rows of the extremes are among them.
func (c *curves) reduced(o *choice.Outcome) []int {
	var extremes [][]float64
	for _, h := range o.History {
		if slices.Contains(followed, h.Key) {
			extremes = append(extremes, h.Values)
		}
	}
	from, _ := slices.BinarySearch(o.Time, c.closing.from)
	to, _ := slices.BinarySearch(o.Time, c.closing.to)
	coarse, fine := (c.whole.to-c.whole.from)/bins, (c.closing.to-c.closing.from)/bins
	var rows []int
	for _, p := range []struct {
		from, to int
		bin      float64
	}{{0, from, coarse}, {from, to, fine}, {to, len(o.Time), coarse}} {
		if p.from >= p.to {
			continue
		}
		part := make([][]float64, len(extremes))
		for i, x := range extremes {
			part[i] = x[p.from:p.to]
		}
		for _, i := range export.Kept(o.Time[p.from:p.to], p.bin, part) {
			rows = append(rows, p.from+i)
		}
	}
	return rows
}

func pick(values []float64, rows []int) []float64 {
	out := make([]float64, len(rows))
	for i, r := range rows {
		out[i] = values[r]
	}
	return out
}

// draw adds the charts of the pressure at the valve and of the disc's motion.
func (c *curves) draw(s *workbook.Sheet) {
	sc := &c.Scenarios[c.scenario]
	if len(c.lines[pressureKey]) == 0 {
		return
	}
	at, seat, stop := watched(sc), 0.0, 100.0
	add := func(what, key, label string, d quantity.Dimension, t span, y workbook.Axis, more ...workbook.Line) {
		if len(c.lines[key]) == 0 {
			return
		}
		if symbol := c.Units.Unit(d).Symbol; symbol != "" {
			label += " (" + symbol + ")"
		}
		from, to := nice(t.from, t.to)
		y.Label = label
		s.Chart(s.Next(), 0, workbook.Chart{Title: c.of(what+at, c.scenario), X: workbook.Axis{Label: "Time from the start of the run (s)", From: &from, To: &to},
			Y: y, Lines: slices.Concat(c.lines[key], more)})
	}
	name := "Pressure behind the valve"
	if c.whole.to-c.whole.from > 1.5*(c.closing.to-c.closing.from) {
		add(name+", the closing", pressureKey, "Gauge pressure", quantity.Pressure, c.closing, workbook.Axis{}, c.limits...)
		add(name+", the whole run", pressureKey, "Gauge pressure", quantity.Pressure, c.whole, workbook.Axis{}, c.limits...)
	} else {
		add(name, pressureKey, "Gauge pressure", quantity.Pressure, c.whole, workbook.Axis{}, c.limits...)
	}
	add("Disc motion: velocity on the valve's bore", velocityKey, "Velocity", quantity.Velocity, c.closing, workbook.Axis{})
	add("Disc motion: opening", openingKey, "Opening", quantity.Fraction, c.closing, workbook.Axis{From: &seat, To: &stop})
}

// watched is the valve that the histories are of, where it is one.
func watched(sc *choice.ScenarioOutcomes) string {
	place := ""
	for k := range sc.Outcomes {
		w := sc.Outcomes[k].Watched
		if place != "" && w != "" && w != place {
			return ""
		}
		place = max(place, w)
	}
	if place == "" {
		return ""
	}
	return " (" + place + ")"
}

// nice widens a stretch to round numbers.
func nice(from, to float64) (float64, float64) {
	step := math.Pow(10, math.Floor(math.Log10(math.Max(to-from, 1e-6)/2)))
	if (to-from)/step > 10 {
		step *= 2
	}
	return step * math.Floor(from/step+1e-9), step * math.Ceil(to/step-1e-9)
}
