package sheets

import (
	"fmt"
	"slices"

	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// comparison is the candidates side by side: measures in rows, their unit in a column of its own, the limits at the right.
func (b *builder) comparison() {
	widths := []float64{38, 8}
	for range b.Case.Candidates {
		widths = append(widths, 23)
	}
	s := b.book.Sheet("Comparison", append(widths, 12)...)
	head := heads("measure", "unit")
	for _, v := range b.Case.Candidates {
		head = append(head, workbook.Text(v.Name).In(workbook.Head).Right())
	}
	s.Row(append(head, workbook.Text("limit").In(workbook.Head).Right())...)
	s.Freeze(1, 2)
	var notes notes
	for i := range b.Scenarios {
		if i > 0 {
			s.Gap()
		}
		if i < len(b.Events) {
			s.Row(workbook.Text(b.Events[i]).In(workbook.Heading))
		}
		b.sideBySide(s, &b.Scenarios[i], &notes)
	}
	b.governing(s)
	if len(notes.texts) > 0 {
		s.Gap()
		s.Row(workbook.Text("Why a value does not exist").In(workbook.Heading))
		for n, text := range notes.texts {
			s.Paragraph(fmt.Sprintf("(%d) %s", n+1, text), workbook.Plain)
		}
	}
	s.Gap()
	s.Row(workbook.Text("Definitions").In(workbook.Heading))
	for _, m := range b.Measures {
		if b.found(m) || m.Rank == choice.Main {
			s.Paragraph(m.Label+": "+m.Meaning, workbook.Plain)
		}
	}
	if n := b.SlamNote(b.Units); n != "" {
		s.Paragraph(n, workbook.Plain)
	}
}

// notes are the reasons for values that do not exist, each with its number.
type notes struct{ texts []string }

func (n *notes) cell(reason string) workbook.Cell {
	i := slices.Index(n.texts, reason)
	if i < 0 {
		i, n.texts = len(n.texts), append(n.texts, reason)
	}
	return workbook.Text(fmt.Sprintf("– (%d)", i+1)).Right()
}

// found tells whether any outcome has the measure.
func (b *builder) found(m choice.Measure) bool {
	return slices.ContainsFunc(b.Scenarios, func(s choice.ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return exists(m.Get(&o)) })
	})
}

func (b *builder) sideBySide(s *workbook.Sheet, sc *choice.ScenarioOutcomes, notes *notes) {
	said := func(label string, text func(*choice.Outcome) string) {
		row := texts(label, "")
		for k := range sc.Outcomes {
			row = append(row, workbook.Text(text(&sc.Outcomes[k])).Right().Wrapped())
		}
		s.Row(row...)
	}
	said("type", func(o *choice.Outcome) string { return o.Type })
	said("watched at", func(o *choice.Outcome) string { return o.Watched })
	for _, m := range b.Measures {
		if !b.found(m) && m.Rank != choice.Main {
			continue
		}
		scale := sc.Scale(m, b.Units)
		rows := sc.Rows(m, b.Units)
		row := texts(m.Label, scale.Name())
		for k := range sc.Outcomes {
			if v := m.Get(&sc.Outcomes[k]); exists(v) {
				row = append(row, number(scale, v.SI))
			} else {
				row = append(row, notes.cell(rows[0].Cells[k].Reason))
			}
		}
		s.Row(row...)
		for _, r := range rows[1:] {
			row := texts("    "+r.Label, "")
			for _, c := range r.Cells {
				cell := workbook.Text(c.Text).Right().Wrapped().In(workbook.Faint)
				if c.Alarm {
					cell = cell.In(workbook.Alarm)
				}
				row = append(row, cell)
			}
			if v, ok := bound(sc, m, scale, r.Bound); ok {
				row[1] = workbook.Text(scale.Name())
				row = append(row, number(scale, v))
			}
			s.Row(row...)
		}
	}
	if exists(sc.Own) && sc.Own.SI != 0 {
		if m, ok := b.measure("deceleration_m_s2"); ok {
			scale := choice.NewScale(m.Dimension, b.Units, sc.Own.SI)
			s.Row(workbook.Text("deceleration of the installation itself, with an ideal valve held open").Wrapped(), workbook.Text(scale.Name()), number(scale, sc.Own.SI))
		}
	}
}

// bound is the limit that stands as a text in a row of a measure.
func bound(sc *choice.ScenarioOutcomes, m choice.Measure, scale choice.Scale, text string) (float64, bool) {
	for k := range sc.Outcomes {
		for _, v := range sc.Outcomes[k].Verdicts {
			if v.Measure == m.Key && text != "" && scale.Text(v.Bound) == text {
				return v.Bound, true
			}
		}
	}
	return 0, false
}

// governing is, where there are several scenarios, the worst value of every measure and the scenario that it is of.
func (b *builder) governing(s *workbook.Sheet) {
	if len(b.Scenarios) < 2 || len(b.Governing) == 0 {
		return
	}
	s.Gap()
	s.Row(workbook.Text("Worst of all scenarios").In(workbook.Heading))
	for _, m := range b.Measures {
		values := make([]workbook.Cell, len(b.Case.Candidates))
		names := make([]workbook.Cell, len(b.Case.Candidates))
		var all []float64
		for _, g := range b.Governing {
			if g.Measure == m.Key {
				all = append(all, g.Value)
			}
		}
		if len(all) == 0 {
			continue
		}
		scale := choice.NewScale(m.Dimension, b.Units, all...)
		for k, v := range b.Case.Candidates {
			for _, g := range b.Governing {
				if g.Measure == m.Key && g.Candidate == v.Name {
					values[k], names[k] = number(scale, g.Value), workbook.Text(g.Scenario).Right().In(workbook.Faint)
				}
			}
		}
		s.Row(append(texts(m.Label, scale.Name()), values...)...)
		s.Row(append(texts("    in scenario", ""), names...)...)
	}
}
