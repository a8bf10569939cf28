package sheets

import (
	"cmp"

	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// summary is the sheet that can be read alone.
func (b *builder) summary(title string) {
	s := b.book.Sheet("Summary", 26, 22, 100)
	s.Row(workbook.Text(title).In(workbook.Title))
	s.Row(workbook.Text("Choice of a check valve").In(workbook.Faint))
	for _, m := range marks(b.Comparison) {
		s.Row(workbook.Text(m).In(workbook.Alarm))
	}
	s.Gap()
	t := b.Block
	for _, x := range [][2]string{{"Project", t.Project}, {"Document", t.Document}, {"Revision", t.Revision}, {"Date", cmp.Or(t.Date, b.Date)}, {"Prepared", t.Prepared}, {"Checked", t.Checked}} {
		s.Row(workbook.Text(x[0]).In(workbook.Strong), workbook.Text(x[1]))
	}
	s.Gap()
	if b.Interrupted {
		text := "The comparison was interrupted before all was finished."
		if lacks := b.Lacks(); lacks != "" {
			text += " There are no results of " + lacks + "."
		}
		s.Paragraph(text, workbook.Alarm)
	}
	if b.Recommended != "" {
		s.Paragraph("Recommended: "+b.Recommended, workbook.Heading)
	} else {
		s.Paragraph("No recommendation", workbook.Heading)
	}
	s.Paragraph(quantity.Printable(b.Case.Note), workbook.Plain)
	for _, e := range b.Events {
		s.Paragraph(e+".", workbook.Plain)
	}
	for _, r := range b.Reasons {
		s.Paragraph("- "+r, workbook.Plain)
	}
	s.Gap()
	s.Row(workbook.Text("Limits, worst scenario of each").In(workbook.Heading))
	v := report.Verdicts(b.Comparison, b.Input)
	s.Row(heads(v.Head...)...)
	for _, r := range v.Rows {
		cells := make([]workbook.Cell, len(r.Cells))
		for i, c := range r.Cells {
			cells[i] = workbook.Text(c.Text).Wrapped()
			if c.Alarm {
				cells[i] = cells[i].In(workbook.Alarm)
			}
		}
		s.Row(cells...)
	}
	s.Gap()
	s.Row(workbook.Text("Cautions").In(workbook.Heading))
	for _, c := range choice.Cautions() {
		s.Paragraph("- "+c, workbook.Plain)
	}
}
