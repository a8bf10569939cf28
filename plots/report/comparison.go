package report

import (
	"slices"

	"seatwise/valve/choice"
)

// beside is how many candidates a table holds side by side on a page.
const beside = 4

// comparison is the candidates side by side in every scenario, all measures and all limits.
func (b *builder) comparison() Section {
	s := Section{Heading: "Results", NewPage: true}
	for i := range b.Scenarios {
		if i < len(b.Events) {
			s.Blocks = append(s.Blocks, Subheading(b.Events[i]))
		}
		n := len(b.Scenarios[i].Outcomes)
		for from := 0; from < n; from += beside {
			s.Blocks = append(s.Blocks, b.sideBySide(i, from, min(from+beside, n))...)
		}
		if own := b.Scenarios[i].Own; own.Reason == "" && own.SI != 0 {
			sc := choice.NewScale(b.measure("deceleration_m_s2").Dimension, b.Units, own.SI)
			s.Blocks = append(s.Blocks, Paragraph("The installation itself, with an ideal valve held open: deceleration "+sc.With(own.SI)+" on a bore of "+b.part(b.Scenarios[i].OwnBore)+"."))
		}
	}
	if len(b.Scenarios) > 1 {
		s.Blocks = append(s.Blocks, b.governing())
		if t := b.governingLimits(); len(t.Rows) > 0 {
			s.Blocks = append(s.Blocks, t)
		}
	}
	if len(b.Reasons) > 0 {
		s.Blocks = append(s.Blocks, Subheading("Reasons"), List(b.Reasons))
	}
	var definitions List
	for _, m := range b.Measures {
		if m.Rank != choice.Main && !b.found(m) {
			continue
		}
		definitions = append(definitions, m.Label+": "+m.Meaning)
	}
	if n := b.SlamNote(b.Units); n != "" {
		definitions = append(definitions, n)
	}
	s.Blocks = append(s.Blocks, Subheading("Definitions"), definitions)
	return s
}

// found tells whether any outcome has the measure.
func (b *builder) found(m choice.Measure) bool {
	return slices.ContainsFunc(b.Scenarios, func(s choice.ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return m.Get(&o).Reason == "" })
	})
}

// sideBySide is the table of some candidates in a scenario and the reasons for values that do not exist.
func (b *builder) sideBySide(i, from, to int) []Block {
	s := &b.Scenarios[i]
	some := s.Outcomes[from:to]
	t := &Table{Caption: "Candidates side by side"}
	if len(b.Scenarios) > 1 {
		t.Caption += " in scenario " + s.Name
	}
	t.Caption += "; under a measure its limits, with the bound at the right."
	t.Head = []string{""}
	var notes footnotes
	add := func(cells []Cell, detail bool) {
		if slices.ContainsFunc(cells[1:], func(c Cell) bool { return c.Text != "" }) {
			t.Rows = append(t.Rows, Row{Cells: cells, Detail: detail})
		}
	}
	said := func(label string, text func(o *choice.Outcome) string) {
		row := cells(label)
		for k := range some {
			row = append(row, Cell{Text: text(&some[k])})
		}
		add(append(row, Cell{}), false)
	}
	for k := range some {
		t.Head = append(t.Head, some[k].Candidate)
	}
	t.Head = append(t.Head, "limit")
	said("valve", func(o *choice.Outcome) string { return o.Type + " " + b.part(o.Valve.Bore) })
	said("watched at", func(o *choice.Outcome) string { return o.Watched })
	for _, m := range b.Measures {
		found := slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return m.Get(&o).Reason == "" })
		if m.Rank != choice.Main && !found {
			continue
		}
		for _, r := range s.Rows(m, b.Units) {
			row := notes.row(r.Label, r.Cells[from:to])
			add(append(row, Cell{Text: r.Bound}), r.Detail)
		}
	}
	return append([]Block{t}, notes.block()...)
}

// governing names the worst scenario of every measure and candidate.
func (b *builder) governing() Block {
	t := &Table{Caption: "Governing scenario of each measure.", Head: []string{"measure", "candidate", "value", "scenario"}, Words: true}
	for _, m := range b.Measures {
		var values []float64
		for _, g := range b.Governing {
			if g.Measure == m.Key {
				values = append(values, g.Value)
			}
		}
		sc := choice.NewScale(m.Dimension, b.Units, values...)
		for _, g := range b.Governing {
			if g.Measure == m.Key && m.Rank != choice.Detail {
				t.add(m.Label, g.Candidate, sc.With(g.Value), g.Scenario)
			}
		}
	}
	return t
}

// governingLimits names the scenario of the worst verdict of every limit and candidate.
func (b *builder) governingLimits() *Table {
	t := &Table{Caption: "Governing scenario of each limit.", Head: []string{"limit", "candidate", "verdict", "scenario"}, Words: true}
	j := choice.Join(b.Comparison)
	for _, m := range b.Measures {
		for i := range j.Candidates {
			for _, v := range j.Candidates[i].Verdicts {
				if v.Measure == m.Key {
					sc := choice.NewScale(m.Dimension, b.Units, v.Value, v.Bound).Apart(v.Value, v.Bound)
					t.add(v.Limit, j.Candidates[i].Name, v.Words(sc), v.Verdict.Scenario)
				}
			}
		}
	}
	return t
}
