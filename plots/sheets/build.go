package sheets

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// builder makes the sheets of a comparison.
type builder struct {
	*choice.Comparison
	report.Input
	book *workbook.Book
}

// Comparison puts a comparison into a workbook that bears a date.
func Comparison(c *choice.Comparison, in report.Input, date time.Time) *workbook.Book {
	title := cmp.Or(strings.TrimSpace(quantity.Printable(c.Case.Title)), c.Case.Name)
	b := &builder{c, in, workbook.New(workbook.About{Title: title, Mark: strings.Join(marks(c), ", "), Program: in.Program, Date: date})}
	b.summary(title)
	b.comparison()
	verdicts := b.verdicts()
	charts := b.book.Sheet("Charts", 22, 18, 24, 24)
	b.peaks(charts, verdicts)
	for i := range b.Scenarios {
		h := b.histories(i)
		e := b.envelopes(i)
		h.draw(charts)
		e.draw(charts)
	}
	b.advice()
	b.forces()
	b.stayingOpen()
	b.costs(charts)
	b.data()
	b.assumptions()
	b.warnings()
	b.numerics()
	b.input()
	return b.book
}

// marks are on every page.
func marks(c *choice.Comparison) []string {
	var all []string
	if c.Case.Example {
		all = append(all, report.ExampleMark)
	}
	if c.Interrupted {
		all = append(all, "INCOMPLETE")
	}
	return all
}

// of names what a sheet or a chart of a scenario shows; with one scenario it needs no name.
func (b *builder) of(what string, scenario int) string {
	if len(b.Scenarios) > 1 {
		return what + " " + b.Scenarios[scenario].Name
	}
	return what
}

// measure looks a measure up by its key.
func (b *builder) measure(key string) (choice.Measure, bool) {
	i := slices.IndexFunc(b.Measures, func(m choice.Measure) bool { return m.Key == key })
	if i < 0 {
		return choice.Measure{}, false
	}
	return b.Measures[i], true
}

// number is a value in the unit of a scale.
func number(sc choice.Scale, si float64) workbook.Cell {
	return workbook.Number(sc.Unit.From(si), sc.Places)
}

// difference is the distance of two values in the unit of a scale, which may have an offset.
func difference(sc choice.Scale, si float64) workbook.Cell {
	return workbook.Number(sc.Unit.From(si)-sc.Unit.From(0), sc.Places)
}

func texts(all ...string) []workbook.Cell {
	cells := make([]workbook.Cell, len(all))
	for i, t := range all {
		cells[i] = workbook.Text(t)
	}
	return cells
}

// heads are the heads of columns.
func heads(all ...string) []workbook.Cell {
	cells := texts(all...)
	for i := range cells {
		cells[i] = cells[i].In(workbook.Head)
	}
	return cells
}

func exists(v choice.Value) bool { return v.Reason == "" }
