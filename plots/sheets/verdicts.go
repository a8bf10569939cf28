package sheets

import (
	"seatwise/network/quantity"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// verdicts holds every candidate in every scenario against every limit, a row for each, fit to be sorted and filtered.
func (b *builder) verdicts() *workbook.Sheet {
	s := b.book.Sheet("Verdicts", 22, 16, 42, 26, 8, 12, 12, 12, 12, 26, 22, 10)
	s.Row(heads("candidate", "scenario", "limit", "measure", "unit", "value", "bound", "margin", "margin asked for", "verdict", "where", "when, s")...)
	s.Freeze(1, 1)
	for i := range b.Scenarios {
		sc := &b.Scenarios[i]
		for k := range sc.Outcomes {
			o := &sc.Outcomes[k]
			if len(o.Verdicts) == 0 {
				text := "no limits given"
				switch {
				case o.Failed != "":
					text = "no result: " + o.Failed
				case o.Unseated != "":
					text = "not judged: " + o.Unseated
				}
				s.Row(append(texts(o.Candidate, sc.Name, "", "", "", "", "", "", ""), workbook.Text(text).Wrapped())...)
				continue
			}
			for _, v := range o.Verdicts {
				b.verdict(s, sc, o, v)
			}
		}
	}
	return s
}

func (b *builder) verdict(s *workbook.Sheet, sc *choice.ScenarioOutcomes, o *choice.Outcome, v choice.Verdict) {
	m, ok := b.measure(v.Measure)
	if !ok {
		return
	}
	scale := sc.Scale(m, b.Units)
	words := workbook.Text(v.Words(scale)).Wrapped()
	if !v.Met {
		words = words.In(workbook.Alarm)
	}
	row := append(texts(o.Candidate, sc.Name), workbook.Text(v.Limit).Wrapped(), workbook.Text(m.Label), workbook.Text(scale.Name()),
		number(scale, v.Value), number(scale, v.Bound), difference(scale, v.Margin), difference(scale, v.Asked), words, workbook.Text(quantity.Printable(v.Place)).Wrapped())
	if v.Time >= 0 {
		row = append(row, workbook.Number(v.Time, 3))
	}
	s.Row(row...)
}
