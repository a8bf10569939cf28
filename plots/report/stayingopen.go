package report

import (
	"slices"

	"seatwise/valve/choice"
)

// stayingOpen is how the candidates stay open in steady flow and what they wear; without blocks where that was not asked.
func (b *builder) stayingOpen() Section {
	s := Section{Heading: "Staying open"}
	if len(b.Staying) == 0 {
		return s
	}
	s.Blocks = append(s.Blocks, Paragraph("A disc that rests on its stop does not wear its hinge or guide; one that the flow cannot hold there moves with every disturbance. "+
		"The flows are those through one unit in the duty of the case."))
	rows, n := b.StayingRows(b.Units), len(b.Staying)
	for from := 0; from < n; from += beside {
		s.Blocks = append(s.Blocks, b.heldSideBySide(rows, from, min(from+beside, n))...)
	}
	s.Blocks = append(s.Blocks, Subheading("Formulas and sources"), List(b.StayingNotes()))
	return s
}

// heldSideBySide is the table of some candidates and the reasons for values that do not exist.
func (b *builder) heldSideBySide(rows []choice.Row, from, to int) []Block {
	t := &Table{Caption: "Discs in steady flow, candidates side by side.", Head: []string{""}}
	for i := from; i < to; i++ {
		t.Head = append(t.Head, b.Staying[i].Candidate)
	}
	var notes footnotes
	for _, r := range rows {
		row := notes.row(r.Label, r.Cells[from:to])
		if slices.ContainsFunc(row[1:], func(c Cell) bool { return c.Text != "" }) {
			t.Rows = append(t.Rows, Row{Cells: row, Detail: r.Detail})
		}
	}
	return append([]Block{t}, notes.block()...)
}
