package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/valve"
	"seatwise/valve/choice"
	"seatwise/valve/screen"
)

// Input is what a report says beside the comparison.
type Input struct {
	Units    quantity.System
	Block    TitleBlock
	Date     string   // for the title block when the case gives none; "": a blank box
	Events   []string // per scenario: its name and what happens, in words
	Sources  []Listing
	Record   string
	Program  string // and its version
	Measures []choice.Measure
	// Screening is the estimate before the runs; nil: there is none.
	Screening *screen.Screening
	// Unscreened is why there is no estimate where something trips; "": there is one, or nothing trips.
	Unscreened string
	Figures    []plots.Figure // those of the comparison
}

// TitleBlock is what the case says for the boxes at the head; "" leaves a box blank.
type TitleBlock struct {
	Project, Document, Revision, Date, Prepared, Checked string
}

// ExampleMark is on every page of a report on a built-in example.
const ExampleMark = "example, not your installation"

// builder makes the sections of a report.
type builder struct {
	*choice.Comparison
	Input
}

// Build makes the report of a comparison.
func Build(c *choice.Comparison, in Input) *Document {
	b := &builder{c, in}
	d := &Document{Title: cmp.Or(strings.TrimSpace(quantity.Printable(c.Case.Title)), c.Case.Name), Subtitle: "Choice of a check valve", Foot: fmt.Sprintf("%s; case %s, input SHA-256 %s", in.Program, c.Case.Name, c.Case.InputSHA256)}
	if c.Case.Example {
		d.Marks = append(d.Marks, ExampleMark)
	}
	if c.Interrupted {
		d.Marks = append(d.Marks, "INCOMPLETE")
	}
	d.Record = in.Record
	d.Boxes = in.boxes()
	d.Sections = []Section{b.summary(), b.comparison(), b.stayingOpen(), b.costs(), b.pictures(), b.screening(), b.checker(), b.installation(), b.candidates(), b.assumptions(), b.method(), b.numerics(), b.cautions(), b.sources()}
	d.Sections = slices.Insert(d.Sections, 2, b.advice())
	d.Sections = slices.DeleteFunc(d.Sections, func(s Section) bool { return len(s.Blocks) == 0 })
	for i := range d.Sections {
		d.Sections[i].Heading = fmt.Sprintf("%d  %s", i+1, d.Sections[i].Heading)
	}
	return d
}

// summary is the page that can be read alone.
func (b *builder) summary() Section {
	s := Section{Heading: "Summary"}
	if b.Interrupted {
		text := "The comparison was interrupted before all was finished."
		if lacks := b.Lacks(); lacks != "" {
			text += " There are no results of " + lacks + "."
		}
		s.Blocks = append(s.Blocks, Notice(text))
	}
	if b.Recommended != "" {
		s.Blocks = append(s.Blocks, Subheading("Recommended: "+b.Recommended))
	} else {
		s.Blocks = append(s.Blocks, Notice("No recommendation"))
	}
	if b.Case.Note != "" {
		s.Blocks = append(s.Blocks, Paragraph(quantity.Printable(b.Case.Note)))
	}
	for _, e := range b.Events {
		s.Blocks = append(s.Blocks, Paragraph(e+"."))
	}
	s.Blocks = append(s.Blocks, b.verdicts())
	for _, f := range b.Figures {
		if f.Name == plots.PeakSurge {
			s.Blocks = append(s.Blocks, Picture{f, f.Caption})
		}
	}
	s.Blocks = append(s.Blocks, List(slices.DeleteFunc(slices.Clone(b.Reasons), b.ofOne)), Paragraph(strings.Join(choice.Cautions(), " ")))
	return s
}

// ofOne tells whether a reason is the record of one candidate, which the table of verdicts has in short.
func (b *builder) ofOne(reason string) bool {
	return slices.ContainsFunc(b.Case.Candidates, func(s valve.Spec) bool {
		return strings.HasPrefix(reason, s.Name+": ") || strings.HasPrefix(reason, s.Name+" (")
	})
}

// Verdicts is the table of a report that has a row for every candidate.
func Verdicts(c *choice.Comparison, in Input) *Table {
	return (&builder{Comparison: c, Input: in}).verdicts()
}

// verdicts has a row for every candidate: whether it meets all limits, and those that it does not.
func (b *builder) verdicts() *Table {
	t := &Table{Caption: "Verdicts, worst scenario of each limit.", Head: []string{"candidate", "limits", "what decides"}, Words: true}
	for _, spec := range b.Case.Candidates {
		var broken, narrow []string
		judged, failed := false, ""
		for i := range b.Scenarios {
			s := &b.Scenarios[i]
			for k := range s.Outcomes {
				o := &s.Outcomes[k]
				if o.Candidate != spec.Name {
					continue
				}
				failed = cmp.Or(failed, o.Failed, o.Unseated)
				for _, v := range o.Verdicts {
					judged = true
					m := b.measure(v.Measure)
					sc := s.Scale(m, b.Units)
					text := v.Limit + ": " + m.Label + " " + sc.With(v.Value) + " against " + sc.With(v.Bound)
					if !v.Met && v.Margin >= 0 && v.Asked > 0 {
						text += ", with " + strings.TrimSpace(sc.Difference(v.Bound, v.Bound+v.Asked)+" "+sc.Name()) + " to spare asked for"
					}
					if len(b.Scenarios) > 1 {
						text += " (scenario " + s.Name + ")"
					}
					switch {
					case !v.Met:
						broken = append(broken, text)
					case v.Narrow || v.Unsure:
						narrow = append(narrow, text)
					}
				}
			}
		}
		r := Row{Cells: cells(spec.Name, "no limits given", "")}
		switch {
		case failed != "":
			r.Cells[1], r.Cells[2].Text = Cell{"no result", true}, failed
		case len(broken) > 0:
			r.Cells[1], r.Cells[2].Text = Cell{"not met", true}, strings.Join(broken, "; ")
		case judged && len(narrow) > 0:
			r.Cells[1].Text, r.Cells[2].Text = "met, narrowly", strings.Join(narrow, "; ")
		case judged:
			r.Cells[1].Text, r.Cells[2].Text = "met", "every limit is met"
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

func (b *builder) measure(key string) choice.Measure {
	i := slices.IndexFunc(b.Measures, func(m choice.Measure) bool { return m.Key == key })
	if i < 0 {
		return choice.Measure{Key: key, Label: key, Get: func(*choice.Outcome) choice.Value { return choice.Value{Reason: "unknown measure"} }}
	}
	return b.Measures[i]
}

// pictures are the figures but those of the summary and of the costs.
func (b *builder) pictures() Section {
	s := Section{Heading: "Figures", NewPage: true}
	for _, f := range b.Figures {
		if f.Name != plots.PeakSurge && f.Name != plots.CostMakeUp {
			s.Blocks = append(s.Blocks, Picture{f, f.Caption})
		}
	}
	return s
}

func (b *builder) cautions() Section {
	s := Section{Heading: "Warnings and cautions"}
	if len(b.Warnings) > 0 {
		s.Blocks = append(s.Blocks, Subheading("Warnings"), List(b.Warnings))
	}
	s.Blocks = append(s.Blocks, Subheading("Cautions"), List(b.Cautions()))
	return s
}

// sources are the files that the numbers come from.
func (b *builder) sources() Section {
	s := Section{Heading: "Case file", NewPage: true, Blocks: []Block{Paragraph("The input as it was read. Who runs the same files with the same program gets the same numbers.")}}
	for _, l := range b.Sources {
		s.Blocks = append(s.Blocks, l)
	}
	return s
}
