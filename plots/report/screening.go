package report

import (
	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/screen"
)

// screening is what the estimate before any run says: how demanding the installation is, and which types that leaves. There is none where nothing trips.
func (b *builder) screening() Section {
	sc := b.Screening
	if sc == nil && b.Unscreened != "" {
		return Section{Heading: "Screening before the runs", Blocks: []Block{Paragraph("There is no estimate: " + b.Unscreened + ".")}}
	}
	if sc == nil {
		return Section{}
	}
	s := Section{Heading: "Screening before the runs"}
	for _, text := range sc.Sentences(b.Units) {
		s.Blocks = append(s.Blocks, Paragraph(text))
	}
	s.Blocks = append(s.Blocks, Paragraph("An estimate, no run: the rotor runs down by the pump's own data, the liquid of pump, suction and branch is one rigid column, the pipes answer with their waves. "+screen.Rough))
	t := &Table{Caption: "Types of check valves, " + b.part(sc.Size) + ", at a deceleration of " + choice.NewScale(quantity.Acceleration, b.Units, sc.Worst.Bound).With(sc.Worst.Bound) + ".",
		Head: append([]string{"type", "verdict"}, screen.Columns(b.Units)...)}
	for i := range sc.Families {
		f := &sc.Families[i]
		t.add(append([]string{f.Name, f.Verdict.String()}, sc.Cells(f, b.Units)...)...)
	}
	s.Blocks = append(s.Blocks, t, Paragraph(sc.Key(b.Units)))
	if reasons := sc.Reasons(); len(reasons) > 0 {
		s.Blocks = append(s.Blocks, Subheading("Ruled out"), List(reasons))
	}
	s.Blocks = append(s.Blocks, Paragraph(sc.Conclusion()))
	return s
}
