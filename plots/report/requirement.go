package report

import (
	"cmp"
	"fmt"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

// Requirement makes the sheet that goes to the makers of valves. Of the input it takes units, title block, date, events and program.
func Requirement(r *requirement.Requirement, in Input) *Document {
	c := r.Case
	d := &Document{Title: cmp.Or(strings.TrimSpace(quantity.Printable(c.Title)), c.Name), Subtitle: "Requirement for a check valve", Foot: fmt.Sprintf("%s; case %s, input SHA-256 %s", in.Program, c.Name, c.InputSHA256),
		Boxes: in.boxes()}
	if c.Example {
		d.Marks = append(d.Marks, ExampleMark)
	}
	asked := Section{Heading: "What the installation requires"}
	for _, e := range in.Events {
		asked.Blocks = append(asked.Blocks, Paragraph(e+"."))
	}
	if v := r.Allowed.Velocity; v.Reason != "" && r.Allowed.Unbound == 0 {
		asked.Blocks = append(asked.Blocks, Notice("No reverse velocity can be allowed: "+v.Reason+"."))
	}
	for _, g := range r.Sheet(in.Units) {
		t := &Table{Caption: g.Title + ".", Head: []string{"item", "required or given", "remark"}, Words: true, Shares: []float64{0.31, 0.22, 0.47}}
		for _, i := range g.Items {
			text := i.Text(in.Units)
			if i.Blank() {
				text = strings.TrimSpace("........ " + i.Unit(in.Units).Symbol)
			}
			t.add(i.Label, text, i.Remark())
		}
		asked.Blocks = append(asked.Blocks, t)
	}
	tests := Section{Heading: "Evidence asked for", Blocks: []Block{List(r.Evidence())}}
	answers := Section{Heading: "The maker's answers", NewPage: true}
	t := &Table{Caption: "Data of the valve offered.", Head: []string{"item", "unit", "answer", "remark"}, Words: true, Shares: []float64{0.34, 0.15, 0.21, 0.3}}
	for _, q := range requirement.Questions(in.Units) {
		t.add(q.Label, q.Unit, "", q.Note)
	}
	curve := &Table{Caption: "Test points of the dynamic response, with one near the design deceleration.", Head: []string{"point", "deceleration, " + in.Units.Unit(quantity.Acceleration).Symbol, "reverse velocity, " + in.Units.Unit(quantity.Velocity).Symbol, "size, liquid, orientation, definition, date"}, Words: true,
		Shares: []float64{0.1, 0.2, 0.2, 0.5}}
	for i := range requirement.TestPoints {
		curve.add(fmt.Sprint(i+1), "", "", "")
	}
	answers.Blocks = []Block{t, curve}
	cautions := Section{Heading: "Cautions", Blocks: []Block{List(append(r.Cautions(), choice.Cautions()...))}}
	d.Sections = []Section{asked, tests, answers, cautions}
	for i := range d.Sections {
		d.Sections[i].Heading = fmt.Sprintf("%d  %s", i+1, d.Sections[i].Heading)
	}
	return d
}

// boxes are the title block.
func (in Input) boxes() []Box {
	t := in.Block
	return []Box{{"Project", t.Project}, {"Document", t.Document}, {"Revision", t.Revision}, {"Date", cmp.Or(t.Date, in.Date)}, {"Prepared", t.Prepared}, {"Checked", t.Checked}}
}
