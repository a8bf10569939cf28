package sheets

import (
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// costs are the candidates over their life, with their make-up among the charts; no sheet without economics.
func (b *builder) costs(charts *workbook.Sheet) {
	e := b.Case.Economics
	if e == nil {
		return
	}
	s := b.book.Sheet("Cost", 24, 15, 15, 15, 15, 15, 15, 15, 44)
	money := func(label string) string {
		if e.Currency == "" {
			return label
		}
		return label + ", " + e.Currency
	}
	s.Row(workbook.Text(b.CostHeading()).In(workbook.Heading))
	s.Row(heads("candidate", money("present value"), money("lowest present value"), money("highest present value"), money("purchase"), money("energy a year"), money("upkeep a year"), money("slam a year"), "price from")...)
	for i := range b.Costs {
		k := &b.Costs[i]
		if k.Reason != "" {
			s.Row(append(texts(k.Candidate, "none", "none", "none", "none", "none", "none", "none"), workbook.Text(k.Reason).Wrapped())...)
			continue
		}
		row := texts(k.Candidate)
		for _, x := range []float64{k.Present, k.Low, k.High, k.Purchase, k.Energy, k.Upkeep, k.Slam} {
			row = append(row, workbook.Number(x, 0))
		}
		s.Row(append(row, workbook.Text(k.PriceFrom()).Wrapped())...)
	}
	s.Gap()
	s.Row(workbook.Text("years"), workbook.Number(e.Years, 0))
	s.Row(workbook.Text("discount rate, %"), workbook.Number(100*e.Rate, 1))
	s.Row(workbook.Text("annuity factor"), workbook.Number(e.Annuity(), 3))
	s.Paragraph("Of one valve. Present value: purchase, and the annuity factor times what falls due every year: energy of the pressure drop, upkeep and slam. A price that was not given is a price ratio (common practice, ±40 %) times that of a swing valve; lowest and highest are what that spread makes of it.", workbook.Faint)
	if len(b.CostRemarks) > 0 {
		s.Gap()
		s.Row(workbook.Text("What the order hangs on").In(workbook.Heading))
		for _, r := range b.CostRemarks {
			s.Paragraph("- "+r, workbook.Plain)
		}
	}
	b.makeUp(s, charts, money, e)
}

// makeUp is the present value of every part, as a table and as bars in layers.
func (b *builder) makeUp(s, charts *workbook.Sheet, money func(string) string, e *choice.Economics) {
	s.Gap()
	row := s.Next()
	s.Put(row, 0, workbook.Text(money("present value of each part")).In(workbook.Head).Wrapped())
	var first, last workbook.Range
	var layers []workbook.Line
	for i, part := range [][2]string{{"purchase", "0072B2"}, {"energy", "E69F00"}, {"upkeep", "009E73"}, {"slam", "882255"}} { // neighbours differ in grey too
		layers = append(layers, workbook.Line{Name: s.Put(row, 1+i, workbook.Text(part[0]).In(workbook.Head)), Colour: part[1]})
	}
	for i := range b.Costs {
		k := &b.Costs[i]
		if k.Reason != "" {
			continue
		}
		row++
		last = s.Put(row, 0, workbook.Text(k.Candidate))
		if first == (workbook.Range{}) {
			first = last
		}
		for n, x := range []float64{k.Purchase, e.Annuity() * k.Energy, e.Annuity() * k.Upkeep, e.Annuity() * k.Slam} {
			s.Put(row, 1+n, workbook.Number(x, 0))
		}
	}
	if first == (workbook.Range{}) {
		return
	}
	for i := range layers {
		layers[i].X = first.To(last)
		layers[i].Y = layers[i].X.Beside(1 + i)
	}
	charts.Layers(charts.Next(), 0, workbook.Chart{Title: "Life-cycle cost of one valve, present value of each part", Y: workbook.Axis{Label: money("Present value")}, Lines: layers})
}
