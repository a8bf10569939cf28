package main

import "slices"

// advice prints what single steps would do, or, where no candidate meets the limits, how to ask for it.
func (v *view) advice() {
	a := v.Advice
	switch {
	case a == nil && !v.advised && v.Case.Limits.Any() && !v.Interrupted && !slices.ContainsFunc(candidateNames(v.Case.Candidates), v.Meets):
		v.paragraph("No candidate meets every limit: run with --advise to see what would help.")
		return
	case a == nil:
		return
	}
	v.heading("What would help")
	if len(a.Tried) > 0 {
		t := &table{corner: "one step from the case", head: a.Head(v.system)}
		for _, r := range a.Rows(v.system) {
			cells := make([]cell, len(r.Cells))
			for k, c := range r.Cells {
				cells[k] = cell{c.Text, c.Alarm}
				if c.Reason != "" {
					cells[k].text = v.notes.mark(c.Reason)
				}
			}
			t.add(r.Label, cells, "")
		}
		t.print(v.screen)
		v.notes.print(v.screen)
	}
	for _, text := range a.Reasons {
		v.item(text)
	}
}
