package report

import (
	"fmt"
	"io"
	"strings"
	"time"

	"seatwise/network/quantity"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

// RequirementBook writes the sheet for the makers of valves as a workbook, whose numbers are exact and whose blanks can be filled in. Day is that of the document. Errors
// are those of the writer.
func RequirementBook(w io.Writer, r *requirement.Requirement, in Input, day time.Time) error {
	d := Requirement(r, in)
	b := workbook.New(workbook.About{Title: d.Title + ": requirement for a check valve", Mark: strings.Join(d.Marks, "; "), Program: in.Program, Date: day})
	s := b.Sheet("Requirement", 44, 18, 12, 110)
	s.Row(workbook.Text(d.Title).In(workbook.Title))
	s.Row(workbook.Text(d.Subtitle))
	for _, m := range d.Marks {
		s.Row(workbook.Text(m).In(workbook.Alarm))
	}
	s.Gap()
	for _, x := range d.Boxes {
		s.Row(workbook.Text(x.Label).In(workbook.Faint), workbook.Text(x.Value))
	}
	s.Gap()
	for _, e := range in.Events {
		s.Paragraph(e+".", workbook.Plain)
	}
	for _, g := range r.Sheet(in.Units) {
		s.Gap()
		head(s, g.Title, "required or given", "unit", "remark")
		for _, i := range g.Items {
			cell, unit := workbook.Text(i.Words), ""
			switch {
			case i.Words != "":
			case i.Blank():
				unit = i.Unit(in.Units).Symbol
			default:
				u := i.Unit(in.Units)
				v := u.From(i.Value.SI)
				_, decimals, _ := strings.Cut(strings.Fields(quantity.FormatIn(i.Value.SI, u))[0], ".")
				cell, unit = workbook.Number(v, len(decimals)), u.Symbol
			}
			s.Row(workbook.Text(i.Label), cell, workbook.Text(unit), workbook.Text(i.Remark()).In(workbook.Faint).Wrapped())
		}
	}
	s.Gap()
	lines(s, "Evidence asked for", r.Evidence())
	lines(s, "Cautions", append(r.Cautions(), choice.Cautions()...))

	a := b.Sheet("Answers of the maker", 48, 16, 30, 44)
	for _, m := range d.Marks {
		a.Row(workbook.Text(m).In(workbook.Alarm))
	}
	head(a, "item", "unit", "answer", "remark")
	for _, q := range requirement.Questions(in.Units) {
		a.Row(workbook.Text(q.Label), workbook.Text(q.Unit), workbook.Cell{}, workbook.Text(q.Note).In(workbook.Faint).Wrapped())
	}
	a.Gap()
	head(a, "test point", "deceleration, "+in.Units.Unit(quantity.Acceleration).Symbol, "reverse velocity, "+in.Units.Unit(quantity.Velocity).Symbol, "size, liquid, orientation, definition, date")
	for i := range requirement.TestPoints {
		a.Row(workbook.Text(fmt.Sprint(i + 1)))
	}
	return b.Write(w)
}

// head is the head of a table.
func head(s *workbook.Sheet, texts ...string) {
	var row []workbook.Cell
	for _, t := range texts {
		row = append(row, workbook.Text(t).In(workbook.Head))
	}
	s.Row(row...)
}

// lines are texts under a heading.
func lines(s *workbook.Sheet, heading string, texts []string) {
	s.Row(workbook.Text(heading).In(workbook.Heading))
	for _, t := range texts {
		s.Paragraph(t, workbook.Plain)
	}
}
