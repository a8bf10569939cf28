package sheets

import (
	"seatwise/network/quantity"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// advice is what single steps away from the case would do; no sheet where that was not asked.
func (b *builder) advice() {
	a := b.Advice
	if a == nil {
		return
	}
	s := b.book.Sheet("What would help", 26, 60, 14, 14, 10, 16, 18, 18, 18, 50)
	m, known := b.measure(a.Governing.Measure)
	if len(a.Tried) > 0 && known {
		scale := b.adviceScale(m)
		s.Row(workbook.Text("Single steps from the case with " + a.Candidate + ", the candidate closest to its limits").In(workbook.Heading))
		s.Row(heads("step", "change", m.Label, "bound", "unit", "effect", "on the bore now", "full-open margin", "meets all limits", "why there is no result")...)
		s.Row(workbook.Text("as the case is"), workbook.Cell{}, number(scale, a.Governing.Value), number(scale, a.Governing.Bound), workbook.Text(scale.Name()), workbook.Cell{}, number(scale, a.Governing.Value), margin(a.Margin), workbook.Text("no").In(workbook.Alarm))
		for i := range a.Tried {
			t := &a.Tried[i]
			row := []workbook.Cell{workbook.Text(t.Name), workbook.Text(t.Change).Wrapped()}
			if t.Reason != "" {
				s.Row(append(row, append(texts("none", "", "", "", "", "", ""), workbook.Text(t.Reason).Wrapped())...)...)
				continue
			}
			meets := workbook.Text("yes")
			if !t.Meets {
				meets = workbook.Text("no").In(workbook.Alarm)
			}
			s.Row(append(row, number(scale, t.After.Value), number(scale, t.After.Bound), workbook.Text(scale.Name()), workbook.Text(string(t.Effect)), number(scale, t.Alike), margin(t.Margin), meets)...)
		}
		s.Gap()
	}
	for _, r := range a.Reasons {
		s.Paragraph("- "+r, workbook.Plain)
	}
}

// adviceScale fits the values of all steps.
func (b *builder) adviceScale(m choice.Measure) choice.Scale {
	values := []float64{b.Advice.Governing.Value, b.Advice.Governing.Bound}
	for i := range b.Advice.Tried {
		if t := &b.Advice.Tried[i]; t.Reason == "" {
			values = append(values, t.After.Value, t.After.Bound)
		}
	}
	return choice.NewScale(m.Dimension, b.Units, values...)
}

// margin is a full-open margin, or none of a valve that needs no flow to stay open.
func margin(m choice.Value) workbook.Cell {
	if m.Reason != "" {
		return workbook.Text("none").Right()
	}
	return number(choice.NewScale(quantity.Number, quantity.SI, m.SI), m.SI)
}
