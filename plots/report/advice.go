package report

import "fmt"

// advice is what single steps away from the case would do; a section of nothing where it was not asked.
func (b *builder) advice() Section {
	a := b.Advice
	if a == nil {
		return Section{}
	}
	s := Section{Heading: "What would help"}
	if len(a.Tried) > 0 {
		t := &Table{Caption: "Single steps from the case with " + a.Candidate + ", the candidate closest to its limits.", Head: append([]string{"step"}, a.Head(b.Units)...), Words: true}
		var notes []string
		for _, r := range a.Rows(b.Units) {
			row := Row{Cells: cells(r.Label)}
			for _, c := range r.Cells {
				if c.Reason != "" {
					notes = append(notes, fmt.Sprintf("(%d) %s", len(notes)+1, c.Reason))
					c.Text = fmt.Sprintf("– (%d)", len(notes))
				}
				row.Cells = append(row.Cells, Cell{c.Text, c.Alarm})
			}
			t.Rows = append(t.Rows, row)
		}
		s.Blocks = append(s.Blocks, t)
		for _, n := range notes {
			s.Blocks = append(s.Blocks, Paragraph(n+"."))
		}
	}
	s.Blocks = append(s.Blocks, List(a.Reasons))
	return s
}
