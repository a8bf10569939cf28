package sheets

import (
	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// column is one of a table with a row for each thing: its head and its unit, and what a row says.
type column[T any] struct {
	label string
	d     quantity.Dimension
	part  bool // measured as a part of a valve
	get   func(T) choice.Value
}

// unit is that of the column.
func (c column[T]) unit(system quantity.System) quantity.Unit {
	if c.part {
		return report.Part(c.d, system)
	}
	return system.Unit(c.d)
}

// head is the label with the unit.
func (c column[T]) head(system quantity.System) string {
	if u := c.unit(system); u.Symbol != "" {
		return c.label + ", " + u.Symbol
	}
	return c.label
}

// cell is what a row says, or that it says nothing.
func (c column[T]) cell(row T, system quantity.System) workbook.Cell {
	v := c.get(row)
	if !exists(v) {
		return workbook.Text("none").Right().In(workbook.Faint)
	}
	return fourDigits(c.unit(system).From(v.SI))
}

// stayingOpen is how the discs stay open in the duty of the case and what they wear; no sheet where that was not asked.
func (b *builder) stayingOpen() {
	if len(b.Staying) == 0 {
		return
	}
	s := b.book.Sheet("Staying open", 22, 22, 13, 13, 13, 30, 13, 13, 13, 13, 13, 13, 13)
	type at struct {
		of   *choice.StayingOpen
		flow *choice.HeldFlow
	}
	flows := []column[at]{
		{"flow", quantity.Flow, false, func(x at) choice.Value { return x.flow.Flow }},
		{"velocity", quantity.Velocity, false, func(x at) choice.Value { return x.flow.Velocity }},
		{"full-open margin", quantity.Number, false, func(x at) choice.Value { return x.flow.Margin }},
		{"opening", quantity.Fraction, false, func(x at) choice.Value { return x.flow.Opening }},
		{"head loss", quantity.Length, false, func(x at) choice.Value { return x.flow.HeadLoss }},
		{"natural frequency of the disc", quantity.Frequency, false, func(x at) choice.Value { return x.flow.Frequency }},
		{"damping", quantity.Fraction, false, func(x at) choice.Value { return x.flow.Damping }},
		{"frequency of the fluctuation over the natural one", quantity.Number, false, func(x at) choice.Value { return x.flow.Ratio }},
		{"response of the disc", quantity.Number, false, func(x at) choice.Value { return x.flow.Response }},
		{"amplitude of the opening", quantity.Fraction, false, func(x at) choice.Value { return x.flow.Amplitude }},
	}
	const words = 3 // columns of numbers before the words
	head := heads("candidate", "at")
	for i, c := range flows {
		if i == words {
			head = append(head, heads("hold of the disc")...)
		}
		head = append(head, heads(c.head(b.Units))...)
	}
	s.Row(head...)
	s.Freeze(1, 1)
	for i := range b.Staying {
		k := &b.Staying[i]
		for n := range k.Flows {
			x := at{k, &k.Flows[n]}
			row := texts(k.Candidate, x.flow.Name)
			for j, c := range flows {
				if j == words {
					row = append(row, workbook.Text(x.flow.Class).Wrapped())
				}
				row = append(row, c.cell(x, b.Units))
			}
			s.Row(row...)
		}
	}
	s.Gap()
	b.worn(s)
	s.Gap()
	s.Row(workbook.Text("Formulas and sources").In(workbook.Heading))
	for _, text := range b.StayingNotes() {
		s.Paragraph("- "+text, workbook.Faint)
	}
}

// worn is what does not hang on the flow, and the wear of a year.
func (b *builder) worn(s *workbook.Sheet) {
	type of = *choice.StayingOpen
	hinged := func(v choice.Value, yes bool) choice.Value {
		if !yes {
			return choice.Value{Reason: "another kind of disc"}
		}
		return v
	}
	s.Row(workbook.Text("Velocities, fitting upstream and wear").In(workbook.Heading))
	all := []column[of]{
		{"full-open velocity", quantity.Velocity, false, func(k of) choice.Value { return k.FullOpenVelocity }},
		{"least velocity", quantity.Velocity, false, func(k of) choice.Value { return k.LeastVelocity }},
		{"highest velocity, from", quantity.Velocity, false, func(k of) choice.Value { return k.HighestFrom }},
		{"highest velocity, to", quantity.Velocity, false, func(k of) choice.Value { return k.HighestTo }},
		{"straight pipe upstream", quantity.Length, false, func(k of) choice.Value { return k.Distance }},
		{"the same in bores", quantity.Number, false, func(k of) choice.Value { return k.Bores }},
		{"margin needed behind the fitting", quantity.Number, false, func(k of) choice.Value { return k.NeededMargin }},
		{"full strokes a year", quantity.Number, false, func(k of) choice.Value { return k.Strokes }},
		{"travel of the hinge a year", quantity.Angle, false, func(k of) choice.Value { return hinged(k.Travel, k.Hinged) }},
		{"travel of the guide a year", quantity.Length, false, func(k of) choice.Value { return hinged(k.Travel, !k.Hinged) }},
		{"taps on the stop a year", quantity.Number, false, func(k of) choice.Value { return k.StopTaps }},
		{"energy of the taps a year", quantity.Energy, false, func(k of) choice.Value { return k.StopTapEnergy }},
		{"closures a year", quantity.Number, false, func(k of) choice.Value { return k.Closures }},
		{"energy of the closures a year", quantity.Energy, false, func(k of) choice.Value { return k.ClosuresEnergy }},
	}
	head := heads("")
	for i := range b.Staying {
		head = append(head, workbook.Text(b.Staying[i].Candidate).In(workbook.Head).Right())
	}
	s.Row(head...)
	row := texts("fitting upstream")
	for i := range b.Staying {
		row = append(row, workbook.Text(orNone(b.Staying[i].Upstream)).Right())
	}
	s.Row(row...)
	for _, c := range all {
		row := []workbook.Cell{workbook.Text(c.head(b.Units)).Wrapped()}
		for i := range b.Staying {
			row = append(row, c.cell(&b.Staying[i], b.Units))
		}
		s.Row(row...)
	}
}

func orNone(text string) string {
	if text == "" {
		return "none given"
	}
	return text
}
