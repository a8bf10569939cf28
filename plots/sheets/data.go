package sheets

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/plots/workbook"
	"seatwise/valve"
)

// data are the data of each candidate and where each comes from.
func (b *builder) data() {
	s := b.book.Sheet("Valve data", 24, 44, 14, 14, 12, 14, 70)
	s.Row(heads("candidate", "datum", "value", "unit", "spread, ± %", "from", "status")...)
	s.Freeze(1, 1)
	if len(b.Scenarios) == 0 {
		return
	}
	for i, spec := range b.Case.Candidates {
		for _, d := range b.Scenarios[0].Outcomes[i].Valve.Data {
			label, value, unit := b.datum(d)
			spread := workbook.Cell{}
			if d.Spread > 0 {
				spread = workbook.Number(100*d.Spread, 0)
			}
			s.Row(workbook.Text(spec.Name), workbook.Text(label).Wrapped(), value, workbook.Text(unit), spread, workbook.Text(string(d.Origin)), workbook.Text(d.Status).Wrapped())
		}
	}
}

// datum is a value of a valve in the reader's unit, four digits shown.
func (b *builder) datum(d valve.Datum) (label string, value workbook.Cell, unit string) {
	if d.Key == "kv" && b.Units == quantity.US { // the flow at 1 psi in place of 1 bar
		flow := b.Units.Unit(quantity.Flow)
		v := flow.From(d.Value * math.Sqrt(b.Units.Unit(quantity.PressureDifference).To(1)/1e5))
		return "flow of water at 1 psi when open (Cv)", fourDigits(v), flow.Symbol
	}
	if d.Word != "" {
		return d.Label, workbook.Text(d.Word), ""
	}
	if dim, ok := quantity.Measured(d.Unit); ok {
		u := report.Part(dim, b.Units)
		return d.Label, fourDigits(u.From(d.Value)), u.Symbol
	}
	if unit = d.Unit; unit == "1" {
		unit = ""
	}
	return d.Label, fourDigits(d.Value), unit
}

// fourDigits shows a number with about four significant digits.
func fourDigits(v float64) workbook.Cell {
	a := math.Abs(v)
	switch {
	case a == 0:
		return workbook.Number(v, 0)
	case a < 1e-4 || a >= 1e7:
		return workbook.Number(v, workbook.Science)
	}
	places := max(0, 3-int(math.Floor(math.Log10(a))))
	_, decimals, _ := strings.Cut(fmt.Sprintf("%.*f", places, v), ".")
	return workbook.Number(v, len(strings.TrimRight(decimals, "0")))
}

// list is a sheet of sentences.
func (b *builder) list(name string, parts ...part) {
	s := b.book.Sheet(name, 130)
	for i, p := range parts {
		if i > 0 {
			s.Gap()
		}
		s.Row(workbook.Text(p.heading).In(workbook.Heading))
		if len(p.texts) == 0 {
			s.Row(workbook.Text("None."))
		}
		for _, t := range p.texts {
			s.Paragraph(t, workbook.Plain)
		}
	}
}

// part is sentences under a heading.
type part struct {
	heading string
	texts   []string
}

func (b *builder) assumptions() {
	b.list("Assumptions", part{"What the case does not say and was taken for granted, with how well it is known", b.Assumptions})
}

func (b *builder) warnings() {
	b.list("Warnings", part{"Warnings", b.Warnings}, part{"Cautions", b.Cautions()})
}

// input is what the numbers come from.
func (b *builder) input() {
	s := b.book.Sheet("Input", 24, 120)
	s.Row(workbook.Text("program").In(workbook.Strong), workbook.Text(b.Program))
	s.Row(workbook.Text("case").In(workbook.Strong), workbook.Text(b.Case.Name))
	s.Row(workbook.Text("SHA-256 of the input").In(workbook.Strong), workbook.Text(b.Case.InputSHA256))
	s.Paragraph("The files as they were read. Who runs the same files with the same program gets the same numbers.", workbook.Plain)
	for _, l := range b.Sources {
		s.Gap()
		s.Row(workbook.Text(l.Name).In(workbook.Heading))
		for line := range strings.SplitSeq(strings.TrimRight(l.Text, "\n"), "\n") {
			if row := s.Next(); strings.TrimSpace(line) == "" {
				s.Gap()
			} else {
				s.Put(row, 0, workbook.Text(strings.TrimRight(line, "\r")).In(workbook.Listing))
			}
		}
	}
}
