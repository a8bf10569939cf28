package main

import "seatwise/network/quantity"

// stayingOpen prints how the candidates stay open and what they wear.
func (v *view) stayingOpen() {
	if len(v.Staying) == 0 {
		return
	}
	v.heading("Staying open")
	t := &table{}
	for _, k := range v.Staying {
		t.head = append(t.head, k.Candidate)
	}
	for _, r := range v.StayingRows(v.system) {
		cells := make([]cell, len(r.Cells))
		for i, c := range r.Cells {
			cells[i] = cell{quantity.Printable(c.Text), c.Alarm}
			if c.Reason != "" {
				cells[i].text = v.notes.mark(c.Reason)
			}
		}
		label := r.Label
		if r.Detail {
			label = "  " + label
		}
		t.add(label, cells, "")
	}
	t.print(v.screen)
	v.notes.print(v.screen)
}
