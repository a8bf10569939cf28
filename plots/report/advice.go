package report

// advice is what single steps away from the case would do; a section of nothing where it was not asked.
func (b *builder) advice() Section {
	a := b.Advice
	if a == nil {
		return Section{}
	}
	s := Section{Heading: "What would help"}
	if len(a.Tried) > 0 {
		t := &Table{Caption: "Single steps from the case with " + a.Candidate + ", the candidate closest to its limits.", Head: append([]string{"step"}, a.Head(b.Units)...), Words: true}
		var notes footnotes
		for _, r := range a.Rows(b.Units) {
			t.Rows = append(t.Rows, Row{Cells: notes.row(r.Label, r.Cells)})
		}
		s.Blocks = append(append(s.Blocks, t), notes.block()...)
	}
	s.Blocks = append(s.Blocks, List(a.Reasons))
	return s
}
