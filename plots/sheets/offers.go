package sheets

import (
	"cmp"
	"strings"
	"time"

	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
	"seatwise/valve/offers"
)

// Offers puts an evaluation of offers into a workbook that bears a date, the comparison behind it on the last sheets.
func Offers(c *choice.Comparison, e *offers.Evaluation, in report.Input, date time.Time) *workbook.Book {
	title := cmp.Or(strings.TrimSpace(quantity.Printable(c.Case.Title)), c.Case.Name)
	b := &builder{c, in, workbook.New(workbook.About{Title: title, Mark: strings.Join(marks(c), ", "), Program: in.Program, Date: date})}
	b.tabulation(title, e)
	b.compliance(e)
	b.missing(e)
	b.questions(e)
	b.comparison()
	b.data()
	b.assumptions()
	b.warnings()
	b.numerics()
	b.input()
	return b.book
}

// tabulation is the offers side by side: what is offered, and the answer to each limit.
func (b *builder) tabulation(title string, e *offers.Evaluation) {
	widths := []float64{42}
	for range e.Offers {
		widths = append(widths, 24)
	}
	s := b.book.Sheet("Offers", append(widths, 14)...)
	s.Row(workbook.Text(title).In(workbook.Title))
	s.Row(workbook.Text("Offers for the check valve").In(workbook.Faint))
	for _, m := range marks(b.Comparison) {
		s.Row(workbook.Text(m).In(workbook.Alarm))
	}
	s.Gap()
	for _, a := range e.Advice {
		s.Paragraph(a, workbook.Strong)
	}
	for _, x := range b.Events {
		s.Paragraph(x+".", workbook.Plain)
	}
	s.Gap()
	head := heads("offer")
	for i := range e.Offers {
		head = append(head, workbook.Text(e.Offers[i].Name).In(workbook.Head).Right())
	}
	s.Row(append(head, workbook.Text("limit").In(workbook.Head).Right())...)
	said := func(label string, text func(*offers.Assessment) string) {
		row := texts(label)
		for i := range e.Offers {
			row = append(row, workbook.Text(cmp.Or(text(&e.Offers[i]), "not given")).Right().Wrapped())
		}
		s.Row(row...)
	}
	said("maker", func(a *offers.Assessment) string { return a.Maker })
	said("model", func(a *offers.Assessment) string { return a.Model })
	said("reference", func(a *offers.Assessment) string { return a.Reference })
	said("type", func(a *offers.Assessment) string { return a.Spec.Type })
	size := report.Part(quantity.Length, b.Units)
	row := texts("nominal size, " + size.Symbol)
	for i := range e.Offers {
		row = append(row, fourDigits(size.From(e.Offers[i].Spec.Size)))
	}
	s.Row(row...)
	money := func(label string, of func(*offers.Assessment) choice.Value) {
		if e.Currency != "" {
			label += ", " + e.Currency
		}
		row := texts(label)
		for i := range e.Offers {
			if v := of(&e.Offers[i]); exists(v) {
				row = append(row, workbook.Number(v.SI, 0))
			} else {
				row = append(row, workbook.Text("not given").Right())
			}
		}
		s.Row(row...)
	}
	money("price of one valve", func(a *offers.Assessment) choice.Value {
		if a.Price == nil {
			return choice.Value{Reason: "not given"}
		}
		return choice.Value{SI: *a.Price}
	})
	if b.Case.Economics != nil {
		money("present value of all costs", func(a *offers.Assessment) choice.Value { return a.Present })
	}
	said("delivery", func(a *offers.Assessment) string { return a.Delivery })
	s.Gap()
	s.Row(workbook.Text("Limits").In(workbook.Heading))
	for _, l := range rows(e) {
		scale := b.scaleOf(e, l)
		row := []workbook.Cell{workbook.Text(scale.Label(l.label)).Wrapped()}
		var bound workbook.Cell
		var first *float64 // another offer's bound: an allowance may depend on the outcome
		several := false
		for i := range e.Offers {
			x := l.of(&e.Offers[i])
			if x == nil {
				row = append(row, workbook.Text("-").Right())
				continue
			}
			cell := workbook.Text(wordOf(x, scale)).Right().Wrapped()
			switch x.Word {
			case offers.Fails:
				cell = cell.In(workbook.Alarm)
			case offers.Open:
				cell = cell.In(workbook.Strong)
			}
			row = append(row, cell)
			if x.Verdict != nil {
				bound = number(scale, x.Verdict.Bound)
				several = several || first != nil && *first != x.Verdict.Bound
				first = &x.Verdict.Bound
			}
		}
		if several {
			bound = workbook.Text("see Compliance").Right()
		}
		s.Row(append(row, bound)...)
	}
	row = []workbook.Cell{workbook.Text("taken together").In(workbook.Strong)}
	for i := range e.Offers {
		st := workbook.Strong
		if e.Offers[i].Word() == offers.Fails {
			st = workbook.Alarm
		}
		row = append(row, workbook.Text(e.Offers[i].Word().String()).Right().In(st))
	}
	s.Row(row...)
	s.Gap()
	for _, text := range offers.Meaning {
		s.Paragraph(text, workbook.Faint)
	}
	for _, c := range choice.Cautions() {
		s.Paragraph("- "+c, workbook.Faint)
	}
}

// line is a limit on a measure, a row of the tabulation.
type line struct{ limit, measure, label string }

// rows are the limits of any offer, in order of appearance.
func rows(e *offers.Evaluation) []line {
	var out []line
	seen := map[line]bool{}
	for i := range e.Offers {
		for _, l := range e.Offers[i].Limits {
			if x := (line{l.Limit, l.Measure.Key, l.Label()}); !seen[x] {
				seen[x] = true
				out = append(out, x)
			}
		}
	}
	return out
}

func (l line) of(a *offers.Assessment) *offers.Compliance {
	for i := range a.Limits {
		if x := &a.Limits[i]; x.Limit == l.limit && x.Measure.Key == l.measure {
			return x
		}
	}
	return nil
}

// scaleOf fits the values and bounds of all offers in a row.
func (b *builder) scaleOf(e *offers.Evaluation, l line) choice.Scale {
	var values []float64
	var d quantity.Dimension
	for i := range e.Offers {
		if x := l.of(&e.Offers[i]); x != nil {
			d = x.Measure.Dimension
			if x.Verdict != nil {
				values = append(values, x.Verdict.Value, x.Verdict.Bound)
			}
		}
	}
	scale := choice.NewScale(d, b.Units, values...)
	for i := 0; i+1 < len(values); i += 2 {
		scale = scale.Apart(values[i], values[i+1])
	}
	return scale
}

// wordOf is an answer with the value that it is about.
func wordOf(x *offers.Compliance, scale choice.Scale) string {
	if x.Verdict == nil {
		return x.Word.String()
	}
	return x.Word.String() + ", " + scale.Text(x.Verdict.Value)
}

// compliance is a row for every offer and limit, fit to be sorted and filtered.
func (b *builder) compliance(e *offers.Evaluation) {
	s := b.book.Sheet("Compliance", 14, 22, 30, 24, 10, 10, 10, 8, 18, 12, 56)
	s.Row(heads("offer", "maker", "limit", "measure", "value", "bound", "margin", "unit", "answer", "scenario", "because")...)
	s.Freeze(1, 1)
	for i := range e.Offers {
		a := &e.Offers[i]
		for _, l := range rows(e) {
			x := l.of(a)
			if x == nil {
				continue
			}
			scale := b.scaleOf(e, l)
			word := workbook.Text(x.Word.String())
			if x.Word == offers.Fails {
				word = word.In(workbook.Alarm)
			}
			row := append(texts(a.Name, a.Maker), workbook.Text(x.Limit).Wrapped(), workbook.Text(x.Measure.Label))
			scenario := ""
			if v := x.Verdict; v != nil {
				row = append(row, number(scale, v.Value), number(scale, v.Bound), difference(scale, v.Margin))
				scenario = v.Scenario
			} else {
				row = append(row, texts("not known", "", "")...)
			}
			s.Row(append(row, workbook.Text(scale.Name()), word, workbook.Text(scenario), workbook.Text(x.Because).Wrapped())...)
		}
	}
}

// missing is what each offer leaves out, and what was taken in its place.
func (b *builder) missing(e *offers.Evaluation) {
	s := b.book.Sheet("Gaps", 14, 22, 44, 20, 14, 10, 10, 50)
	s.Row(heads("offer", "maker", "not given", "decides", "generic value", "unit", "spread, ± %", "status")...)
	s.Freeze(1, 1)
	for i := range e.Offers {
		a := &e.Offers[i]
		for _, g := range a.Gaps {
			row := texts(a.Name, a.Maker, g.Label, g.Decides)
			if g.Used != nil {
				_, value, unit := b.datum(*g.Used)
				spread := workbook.Cell{}
				if g.Used.Spread > 0 {
					spread = workbook.Number(100*g.Used.Spread, 0)
				}
				row = append(row, value, workbook.Text(unit), spread, workbook.Text(g.Used.Status).Wrapped())
			} else {
				row = append(row, workbook.Text("none"))
			}
			s.Row(row...)
		}
		if len(a.Gaps) == 0 {
			s.Row(texts(a.Name, a.Maker, "nothing is missing")...)
		}
	}
}

// questions are sentences to be sent to each maker as they stand.
func (b *builder) questions(e *offers.Evaluation) {
	var parts []part
	for i := range e.Offers {
		a := &e.Offers[i]
		parts = append(parts, part{"To " + a.Maker + ", offer " + cmp.Or(a.Reference, a.Name), a.Questions})
	}
	b.list("Questions", parts...)
}
