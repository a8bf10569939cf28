package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// view prints a comparison in the units of the reader.
type view struct {
	*screen
	*choice.Comparison
	system   quantity.System
	measures []choice.Measure
	notes    notes
}

// notes are the reasons for values that do not exist, each with its number.
type notes struct{ texts []string }

// mark is what stands in a table for a value that does not exist.
func (n *notes) mark(reason string) string {
	i := slices.Index(n.texts, reason)
	if i < 0 {
		i = len(n.texts)
		n.texts = append(n.texts, reason)
	}
	return fmt.Sprintf("none (%d)", i+1)
}

func (n *notes) print(s *screen) {
	for i, text := range n.texts {
		s.hang(fmt.Sprintf("(%d) ", i+1), text)
	}
	n.texts = nil
}

// exampleMark is on every result of the built-in example.
const exampleMark = "example, not your installation"

// title prints what the case is.
func title(s *screen, c *choice.Case) {
	t := printable(c.Title)
	if strings.TrimSpace(t) == "" {
		t = c.Name
	}
	for _, l := range wrap(t, s.width) {
		s.line("%s", s.strong(l))
	}
	if c.Example {
		s.paragraph("(" + exampleMark + ")")
	}
	if c.Note != "" {
		s.paragraph(c.Note)
	}
}

// print prints the comparison.
func (v *view) print() {
	title(v.screen, v.Case)
	for i := range v.Scenarios {
		v.scenario(i)
	}
	v.governing()
	v.recommendation()
	v.section("Warnings", v.Warnings)
	v.section("Cautions", choice.Cautions())
}

// scenario prints one block: measures and verdicts, candidates side by side.
func (v *view) scenario(i int) {
	s := &v.Scenarios[i]
	v.heading(heading(v.Case, i, v.system))
	t := &table{corner: "", last: "limit"}
	for k := range s.Outcomes {
		t.head = append(t.head, s.Outcomes[k].Candidate)
	}
	t.add("valve", v.each(s, func(o *choice.Outcome) string { return o.Type + " " + size(o.Valve.Bore) }), "")
	shown := map[string]bool{}
	for _, m := range v.measures {
		judged := slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return len(verdicts(&o, m.Key)) > 0 })
		if m.Rank == choice.Main || judged {
			v.measure(t, s, m)
			shown[m.Key] = true
		}
	}
	if !hasLimit(t) {
		t.last = ""
	}
	t.print(v.screen)
	v.notes.print(v.screen)
	v.errors(s)
	if s.Own.Reason == "" && s.Own.SI != 0 {
		v.paragraph("The installation itself, with the valve held open: deceleration " + quantity.Format(s.Own.SI, quantity.Acceleration, v.system) + ".")
	}
}

// notable is the numerical error, relative to the greatest value of its row, below which it is only summed up.
const notable = 1e-3

// errors prints the numerical errors that matter beside the figures of the table.
func (v *view) errors(s *choice.ScenarioOutcomes) {
	var parts []string
	estimated := false
	for _, m := range v.measures {
		if m.Rank != choice.Main {
			continue
		}
		worst, greatest := 0.0, 0.0
		for k := range s.Outcomes {
			o := &s.Outcomes[k]
			e, ok := o.Errors[m.Key]
			estimated = estimated || ok
			worst, greatest = max(worst, e), max(greatest, math.Abs(m.Get(o).SI))
		}
		if worst > notable*greatest {
			d := m.Dimension
			if d == quantity.Pressure {
				d = quantity.PressureDifference
			}
			parts = append(parts, m.Label+" "+newScale(d, v.system, worst).coarser().with(worst))
		}
	}
	if !estimated {
		return
	}
	parts = append(parts, fmt.Sprintf("all else less than %g %%", 100*notable))
	v.paragraph("Numerical error, estimated by halving the time step: " + inLine(parts) + ".")
}

func hasLimit(t *table) bool {
	return slices.ContainsFunc(t.rows, func(r row) bool { return r.last != "" })
}

func (v *view) each(s *choice.ScenarioOutcomes, text func(*choice.Outcome) string) []cell {
	cells := make([]cell, len(s.Outcomes))
	for k := range s.Outcomes {
		cells[k].text = printable(text(&s.Outcomes[k]))
	}
	return cells
}

// measure adds the row of a measure, where it was met, and a row for every limit that it has. One scale holds for all of them.
func (v *view) measure(t *table, s *choice.ScenarioOutcomes, m choice.Measure) {
	sc := v.scale(s, m)
	t.add(sc.label(m.Label), v.each(s, func(o *choice.Outcome) string { return v.value(o, m, sc) }), "")
	if where := v.each(s, func(o *choice.Outcome) string { return place(o, m.Key) }); filled(where) {
		t.add("  where", where, "")
	}
	for _, words := range limits(s, m.Key) {
		cells := make([]cell, len(s.Outcomes))
		bound := ""
		for k := range s.Outcomes {
			for _, d := range verdicts(&s.Outcomes[k], m.Key) {
				if d.Limit == words {
					cells[k] = cell{verdict(d, sc), !d.Met}
					bound = sc.text(d.Bound)
				}
			}
		}
		label := "  " + words
		if strings.Contains(m.Label, words) {
			label = "  limit"
		}
		t.add(label, cells, bound)
	}
}

// scale fits all values and bounds of a measure in a scenario, and tells each value from its bound.
func (v *view) scale(s *choice.ScenarioOutcomes, m choice.Measure) scale {
	var values []float64
	for k := range s.Outcomes {
		o := &s.Outcomes[k]
		if x := m.Get(o); x.Reason == "" {
			values = append(values, x.SI)
		}
		for _, d := range verdicts(o, m.Key) {
			values = append(values, d.Bound)
		}
	}
	sc := newScale(m.Dimension, v.system, values...)
	if counted(m, values) {
		sc.places = 0
	}
	for k := range s.Outcomes {
		for _, d := range verdicts(&s.Outcomes[k], m.Key) {
			sc = sc.apart(d.Value, d.Bound)
		}
	}
	return sc
}

// counted tells whether a measure is a count.
func counted(m choice.Measure, values []float64) bool {
	return m.Dimension == quantity.Number && !slices.ContainsFunc(values, func(x float64) bool { return x != float64(int(x)) })
}

// value is a figure, or the number of the note that says why there is none.
func (v *view) value(o *choice.Outcome, m choice.Measure, sc scale) string {
	switch x := m.Get(o); {
	case x.Reason == "":
		return sc.text(x.SI)
	case o.Failed != "":
		return v.notes.mark(o.Failed)
	default:
		return v.notes.mark(x.Reason)
	}
}

// verdict is a judgement in words.
func verdict(d choice.Verdict, sc scale) string {
	unit := ""
	if sc.name() != "" {
		unit = " " + sc.name()
	}
	text := "meets"
	if !d.Met {
		by := sc.difference(d.Value, d.Bound)
		text = "exceeds by " + by + unit
		if d.Value < d.Bound {
			text = "short by " + by + unit
		}
	}
	if d.Unsure {
		text += ", unsure"
	}
	return text
}

// verdicts are those of one measure.
func verdicts(o *choice.Outcome, key string) []choice.Verdict {
	var out []choice.Verdict
	for _, d := range o.Verdicts {
		if d.Measure == key {
			out = append(out, d)
		}
	}
	return out
}

// limits are the limits of a measure in a scenario, in words, in order of appearance.
func limits(s *choice.ScenarioOutcomes, key string) []string {
	var out []string
	for k := range s.Outcomes {
		for _, d := range verdicts(&s.Outcomes[k], key) {
			if !slices.Contains(out, d.Limit) {
				out = append(out, d.Limit)
			}
		}
	}
	return out
}

// place is where an extreme was met.
func place(o *choice.Outcome, key string) string {
	switch key {
	case "peak_pressure_pa":
		return o.PeakNode
	case "min_pressure_pa":
		return o.MinNode
	}
	return ""
}

// governing prints, where there are several scenarios, the worst of them per measure and candidate.
func (v *view) governing() {
	if len(v.Scenarios) < 2 || len(v.Governing) == 0 {
		return
	}
	v.heading("Governing scenario of each measure")
	t := &table{}
	for k := range v.Scenarios[0].Outcomes {
		t.head = append(t.head, v.Scenarios[0].Outcomes[k].Candidate)
	}
	for _, m := range v.measures {
		if m.Rank != choice.Main {
			continue
		}
		var values []float64
		found := make([]*choice.Governing, len(t.head))
		for i := range v.Governing {
			g := &v.Governing[i]
			if k := slices.Index(t.head, g.Candidate); k >= 0 && g.Measure == m.Key {
				found[k] = g
				values = append(values, g.Value)
			}
		}
		if len(values) == 0 {
			continue
		}
		sc := newScale(m.Dimension, v.system, values...)
		cells := make([]cell, len(t.head))
		for k, g := range found {
			if g != nil {
				cells[k].text = sc.text(g.Value) + " " + g.Scenario
			}
		}
		t.add(sc.label(m.Label), cells, "")
	}
	t.print(v.screen)
}

// recommendation prints which candidate to take and why, or why none.
func (v *view) recommendation() {
	text := "No recommendation"
	if v.Recommended != "" {
		text = "Recommended: " + v.Recommended
	}
	v.section(text, v.Reasons)
	if len(v.Reasons) == 0 {
		v.heading(text)
	}
}

// heading names a scenario and what happens in it.
func heading(c *choice.Case, i int, system quantity.System) string {
	text := "Scenario " + c.Scenarios[i].Name
	if len(c.Scenarios) == 1 {
		text = "Event"
	}
	return text + ": " + events(c.Scenarios[i].Events, system)
}

// events says what happens, in a sentence without a full stop.
func events(list []network.Event, system quantity.System) string {
	if len(list) == 0 {
		return "nothing happens, steady flow"
	}
	var parts []string
	for _, e := range list {
		verb := e.Kind.String()
		if e.Units == 1 {
			verb += "s"
		}
		parts = append(parts, fmt.Sprintf("%s of %s %s at %s", count(e.Units, "unit"), e.Target, verb, quantity.Format(e.Time, quantity.Time, system)))
	}
	return strings.Join(parts, ", ")
}

// size is the nominal size of a valve. Bores that are no whole millimetres are given as such.
func size(bore float64) string {
	sc := scale{unit: millimetre}
	text := sc.text(bore)
	if diff := bore - millimetre.To(float64(int(millimetre.From(bore)+0.5))); diff < 1e-6 && diff > -1e-6 {
		return "DN" + text
	}
	return quantity.FormatIn(bore, millimetre)
}
