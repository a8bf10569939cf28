package sheets

import (
	"seatwise/plots/workbook"
)

// costs are the candidates over their life; no sheet without economics.
func (b *builder) costs() {
	e := b.Case.Economics
	if e == nil {
		return
	}
	s := b.book.Sheet("Cost", 26, 18, 18, 18, 18, 18, 60)
	money := func(label string) string {
		if e.Currency == "" {
			return label
		}
		return label + ", " + e.Currency
	}
	s.Row(heads("candidate", money("present value"), money("purchase"), money("energy a year"), money("upkeep a year"), money("slam a year"), "why there is no cost")...)
	s.Freeze(1, 1)
	for _, k := range b.Costs {
		if k.Reason != "" {
			s.Row(append(texts(k.Candidate, "none", "none", "none", "none", "none"), workbook.Text(k.Reason).Wrapped())...)
			continue
		}
		row := texts(k.Candidate)
		for _, x := range []float64{k.Present, k.Purchase, k.Energy, k.Upkeep, k.Slam} {
			row = append(row, workbook.Number(x, 0))
		}
		s.Row(row...)
	}
	s.Gap()
	s.Row(workbook.Text("years"), workbook.Number(e.Years, 0))
	s.Row(workbook.Text("discount rate, %"), workbook.Number(100*e.Rate, 1))
	s.Paragraph("Of one valve. Present value: purchase, and every year energy of the pressure drop, upkeep and slam, discounted. A price that was not given is a price ratio (common practice, ±40 %) times that of a swing valve.", workbook.Faint)
}
