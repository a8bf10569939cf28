package main

import (
	"fmt"
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
	shown    map[string]bool // keys of the measures in the tables
	advised  bool            // what would help was asked
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
	return fmt.Sprintf("– (%d)", i+1)
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
	t := quantity.Printable(c.Title)
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
	if v.Interrupted {
		text := "INCOMPLETE: the comparison was interrupted."
		if lacks := v.Lacks(); lacks != "" {
			text += " There are no results of " + lacks + "."
		}
		for _, l := range wrap(text, v.width) {
			v.line("%s", v.alarm(l))
		}
	}
	v.shown = map[string]bool{}
	for i := range v.Scenarios {
		v.scenario(i)
	}
	v.stayingOpen()
	v.governing()
	v.recommendation()
	v.costs()
	v.advice()
	v.section("With a part failed", v.Failures)
	v.definitions()
	v.section("Warnings", v.Warnings)
	v.section("Cautions", v.Cautions())
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
	if v.Places(i) > 1 {
		t.add("watched at", v.each(s, func(o *choice.Outcome) string { return o.Watched }), "")
	}
	var rows []choice.Measure
	for _, m := range v.measures {
		judged := slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return o.Judged(m.Key) })
		found := slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return m.Get(&o).Reason == "" })
		if m.Rank == choice.Main || m.Rank == choice.Seldom && found || judged {
			v.measure(t, s, m)
			rows = append(rows, m)
			v.shown[m.Key] = true
		}
	}
	if !hasLimit(t) {
		t.last = ""
	}
	t.print(v.screen)
	v.notes.print(v.screen)
	v.errors(s, rows)
	if s.Own.Reason == "" && s.Own.SI != 0 {
		v.paragraph("The installation itself: deceleration " + own(s.Own.SI, s.OwnBore, v.system) + ".")
	}
}

func hasLimit(t *table) bool {
	return slices.ContainsFunc(t.rows, func(r row) bool { return r.last != "" })
}

func (v *view) each(s *choice.ScenarioOutcomes, text func(*choice.Outcome) string) []cell {
	cells := make([]cell, len(s.Outcomes))
	for k := range s.Outcomes {
		cells[k].text = quantity.Printable(text(&s.Outcomes[k]))
	}
	return cells
}

// measure adds the rows of a measure.
func (v *view) measure(t *table, s *choice.ScenarioOutcomes, m choice.Measure) {
	v.rows(t, s.Rows(m, v.system))
}

// rows adds rows to a table; where there is no value stands the number of the note that says why.
func (v *view) rows(t *table, rows []choice.Row) {
	for _, row := range rows {
		cells := make([]cell, len(row.Cells))
		for k, c := range row.Cells {
			cells[k] = cell{printable(c.Text), c.Alarm}
			if c.Reason != "" {
				cells[k].text = v.notes.mark(c.Reason)
			}
		}
		label := row.Label
		if row.Detail {
			label = "  " + label
		}
		t.add(label, cells, row.Bound)
	}
}

// governing prints, where there are several scenarios, the worst of them per candidate, for the measures that have a limit and the greatest loads.
func (v *view) governing() {
	if len(v.Scenarios) < 2 || len(v.Governing) == 0 {
		return
	}
	v.heading("Governing scenario of each measure and limit")
	v.joint(choice.Join(v.Comparison))
}

// joint prints the worst of every candidate, and where it was met.
func (v *view) joint(j *choice.Joint) {
	t := &table{last: "limit"}
	for _, k := range j.Candidates {
		t.head = append(t.head, k.Name)
	}
	v.rows(t, j.Rows(v.system))
	if !hasLimit(t) {
		t.last = ""
	}
	t.print(v.screen)
	v.notes.print(v.screen)
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

// costs prints what the candidates cost over their life, and what the order hangs on; nothing without economics.
func (v *view) costs() {
	rows := v.CostRows(v.system)
	if len(rows) == 0 {
		return
	}
	v.heading(v.CostHeading())
	t := &table{}
	for _, k := range v.Costs {
		t.head = append(t.head, k.Candidate)
	}
	v.rows(t, rows)
	t.print(v.screen)
	v.notes.print(v.screen)
	for _, text := range v.CostRemarks {
		v.item(text)
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
		parts = append(parts, inWords(e, system))
	}
	return strings.Join(parts, ", ")
}

// size is the nominal size of a valve. Bores that are no whole millimetres are given as such.
func size(bore float64) string {
	sc := choice.Scale{Unit: millimetre}
	text := sc.Text(bore)
	if diff := bore - millimetre.To(float64(int(millimetre.From(bore)+0.5))); diff < 1e-6 && diff > -1e-6 {
		return "DN" + text
	}
	return quantity.FormatIn(bore, millimetre)
}

// inWords is an event as one would say it.
func inWords(e network.Event, system quantity.System) string {
	at := written(e.Time, quantity.Time, system)
	units, s := "", "s"
	if e.Units > 0 {
		units = count(e.Units, "unit") + " of "
		if e.Units > 1 {
			s = ""
		}
	}
	switch e.Kind {
	case network.Start:
		return fmt.Sprintf("%s%s start%s at %s, up to speed in %s", units, e.Target, s, at, written(e.Over, quantity.Time, system))
	case network.Stroke:
		return fmt.Sprintf("%s moves to %s of its area from %s on, over %s", e.Target, written(e.To, quantity.Fraction, system), at, written(e.Over, quantity.Time, system))
	case network.Fail:
		what := "check valve of " + e.Target
		if e.Units > 0 {
			what = "check valve of " + units + e.Target
		}
		return fmt.Sprintf("%s stays at %s of its travel from %s on", what, written(e.To, quantity.Fraction, system), at)
	}
	return fmt.Sprintf("%s%s trip%s at %s", units, e.Target, s, at)
}
