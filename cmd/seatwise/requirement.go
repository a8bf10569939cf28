package main

import (
	"bytes"
	"io"
	"os"

	"github.com/spf13/cobra"

	"seatwise/network/quantity"
	"seatwise/plots/export"
	"seatwise/plots/report"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

const requirementHelp = `Write what to send to the makers of check valves, free of any make: service, flow
and pressure at the valve, place and pipe, the full-open velocity and the head
loss allowed, and the greatest reverse velocity that the valve may close with at
the installation's own deceleration; the tests asked for, and blanks for the
maker's answers. As PDF and as a workbook.

The reverse velocity is found by trial: an ideal valve that shuts at a given
reverse velocity is put in place of the candidates, in every scenario, and that
velocity is raised until a limit of the case is just met. Where the case limits
the reverse velocity itself, it is not raised above that. What the case does not
say is left blank.`

// requirementFile is the manifest of the sheet.
const requirementFile = "requirement.json"

// Documents of the sheet.
const (
	requirementPDF  = "requirement.pdf"
	requirementBook = "requirement.xlsx"
)

// requirement writes the sheet for the makers of valves.
func (p *program) requirement() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "requirement [CASE]",
		Short: "Write the requirement to send to makers of valves",
		Long:  requirementHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise requirement",
			"seatwise requirement my-line.yaml --units us --out requirement",
		),
		RunE: func(cmd *cobra.Command, args []string) error { return p.require(cmd, args) },
	}
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	return cmd
}

func (p *program) require(cmd *cobra.Command, args []string) error {
	in, system, err := p.given(args)
	if err != nil {
		return err
	}
	date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	to, err := p.target(requirementFile, in.Name, in.Name, in.files, []string{requirementPDF, requirementBook})
	if err != nil {
		return err
	}
	line := p.progress("finding the reverse velocity allowed")
	r, err := requirement.Find(cmd.Context(), in.Case, choice.Settings{Units: system, Progress: line.set})
	line.clear()
	if err != nil {
		return in.placed(err)
	}
	about := report.Input{Units: system, Block: report.TitleBlock(in.block), Date: date, Program: version()}
	for i := range in.Scenarios {
		about.Events = append(about.Events, heading(in.Case, i, system))
	}
	on := day(in.block.Date, date)
	files := []artefact{
		{requirementPDF, func(w io.Writer) error { return report.PDF(w, report.Requirement(r, about), on) }},
		{requirementBook, func(w io.Writer) error { return report.RequirementBook(w, r, about, on) }},
	}
	if to == nil {
		files = nil
	}
	var json bytes.Buffer
	if err := export.Requirement(&json, r, export.About{Program: version(), Files: names(files), Report: export.TitleBlock(in.block)}); err != nil {
		return err
	}
	files = append(files, whole(requirementFile, json.Bytes()))
	return p.deliver(cmd.Context(), to, files, json.Bytes(), func(s *screen) { printRequirement(s, r, system) })
}

// printRequirement is the sheet on screen, without what is to be filled in.
func printRequirement(s *screen, r *requirement.Requirement, system quantity.System) {
	title(s, r.Case)
	var open []string
	for _, g := range r.Sheet(system) {
		t := &table{corner: g.Title}
		t.head = []string{""}
		for _, i := range g.Items {
			if i.Blank() && i.Value.Reason == requirement.NotGiven {
				open = append(open, i.Label)
				continue
			}
			text := i.Text(system)
			if i.Blank() {
				text = "none"
			}
			t.add(i.Label, []cell{{text: text}}, "")
		}
		s.line("")
		t.print(s)
		for _, i := range g.Items {
			if i.Key == "reverse_velocity_m_s" {
				s.paragraph("The reverse velocity: " + i.Remark() + ".")
			}
		}
	}
	if len(open) > 0 {
		s.heading("Left blank, as the case does not say it")
		s.paragraph(inLine(open))
	}
	s.section("Cautions", append(r.Cautions(), choice.Cautions()...))
}
