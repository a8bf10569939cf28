package sheets

import (
	"strings"

	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// numerics is how each outcome was reached, and its estimated numerical errors.
func (b *builder) numerics() {
	s := b.book.Sheet("Numerics", 22, 30, 14, 12, 12, 12, 14, 18, 40)
	s.Row(workbook.Text("Grid and audit").In(workbook.Heading))
	s.Row(heads("candidate", "scenario", "time step, ms", "steps", "nodes", "grids compared", "volume residual", "greatest change of a length, %", "form")...)
	for i := range b.Scenarios {
		for k := range b.Scenarios[i].Outcomes {
			o := &b.Scenarios[i].Outcomes[k]
			n := o.Numerics
			s.Row(workbook.Text(o.Candidate), workbook.Text(b.Scenarios[i].Name), workbook.Number(1000*n.TimeStep, 4), workbook.Number(float64(n.Steps), 0), workbook.Number(float64(n.Nodes), 0),
				workbook.Number(float64(n.Grids), 0), workbook.Number(n.VolumeResidual, workbook.Science), workbook.Number(100*n.LengthChangeMax, 3), workbook.Text(n.Kernel).Wrapped())
		}
	}
	s.Gap()
	s.Row(workbook.Text("Estimated numerical error").In(workbook.Heading))
	s.Row(heads("candidate", "measure", "scenario", "error", "unit")...)
	for i := range b.Scenarios {
		for k := range b.Scenarios[i].Outcomes {
			o := &b.Scenarios[i].Outcomes[k]
			for _, m := range b.Measures {
				x, ok := o.Errors[m.Key]
				if !ok || strings.Contains(m.Key, "_error_") {
					continue
				}
				u := choice.NewScale(m.Dimension, b.Units, x).Unit
				s.Row(workbook.Text(o.Candidate), workbook.Text(m.Label), workbook.Text(b.Scenarios[i].Name), fourDigits(u.From(x)-u.From(0)), workbook.Text(u.Symbol))
			}
		}
	}
	s.Gap()
	s.Paragraph("Every run is repeated at half the time step or less; the error is estimated from the difference. It is that of the arithmetic alone, not of the data.", workbook.Faint)
}
