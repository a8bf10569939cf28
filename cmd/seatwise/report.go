package main

import (
	"context"
	"errors"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/plots/report"
	"seatwise/plots/sheets"
	"seatwise/valve/choice"
	screening "seatwise/valve/screen"
)

const reportHelp = `Compare the candidates as "seatwise compare" does, and write the design report
beside the files of the comparison, as HTML and as PDF: summary, results,
figures, a page for the checker with calculations by hand, installation, data,
assumptions, method, numerical errors, cautions, and the case file itself. The
same numbers go into comparison.xlsx, a workbook with charts, unrounded.

The section "report" of a case fills the title block: project, document,
revision, date, prepared, checked. Boxes without a text are left blank. The date
is that of the case, or that of SOURCE_DATE_EPOCH; never the clock's.`

// reportFile is the report as one page that needs no other file.
const reportFile = "report.html"

// reportPDF is the report for paper and archive.
const reportPDF = "report.pdf"

// workbookFile is the comparison for who goes on reckoning.
const workbookFile = "comparison.xlsx"

// report writes the design report.
func (p *program) report() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "report [CASE]",
		Short: "Compare all candidates and write the design report",
		Long:  reportHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise report",
			"seatwise report my-line.yaml --units us --out results",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			if p.noFiles {
				return badInput("seatwise compare shows the results without files", "a report is a file: --no-files leaves nothing to do")
			}
			in, err := p.read(args, p.stdin)
			if err != nil {
				return err
			}
			date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
			if err != nil {
				return err
			}
			return p.answer(cmd, in, in.Name, &documents{date})
		},
	}
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	p.answerFlags(cmd)
	return cmd
}

// sourceDate is the day of a number of seconds since 1970 in UTC; "" gives "".
func sourceDate(epoch string) (string, error) {
	if epoch == "" {
		return "", nil
	}
	s, err := strconv.ParseInt(epoch, 10, 64)
	if err != nil || s < 0 || s > 253402300799 { // the end of the year 9999
		return "", badInput("give seconds since 1970, e.g. 1764028800, or unset it", "SOURCE_DATE_EPOCH %q is no date", epoch)
	}
	return time.Unix(s, 0).UTC().Format(time.DateOnly), nil
}

// day is the first of the dates that is one, written as 2026-11-25; without any the beginning of 1970, never today.
func day(dates ...string) time.Time {
	for _, d := range dates {
		if t, err := time.Parse(time.DateOnly, d); err == nil {
			return t
		}
	}
	return time.Unix(0, 0).UTC()
}

// documents are files for reading that are made of a comparison; nil are none.
type documents struct {
	date string // for the title block of a case that gives none
}

func (d *documents) names() []string {
	if d == nil {
		return nil
	}
	return []string{reportFile, reportPDF, workbookFile}
}

// make makes the files of a comparison.
func (d *documents) make(ctx context.Context, c *choice.Comparison, figures []plots.Figure, in *input, system quantity.System) []artefact {
	if d == nil {
		return nil
	}
	about, date := reportInput(c, in, system, d.date), day(in.block.Date, d.date)
	about.Figures = figures
	switch sc, err := screening.Screen(ctx, c.Case, choice.Settings{Units: system}); {
	case err == nil:
		about.Screening = sc
	case errors.Is(err, screening.ErrNothing):
	case ctx.Err() != nil:
		about.Unscreened = "it was interrupted"
	default:
		about.Unscreened = strings.TrimSuffix(strings.TrimPrefix(err.Error(), "there is no estimate: "), "; run seatwise compare")
	}
	doc := report.Build(c, about)
	return []artefact{
		{reportFile, func(w io.Writer) error { return report.HTML(w, doc) }},
		{reportPDF, func(w io.Writer) error { return report.PDF(w, doc, date) }},
		{workbookFile, func(w io.Writer) error { return sheets.Comparison(c, about, date).Write(w) }},
	}
}

// reportInput is what a report says beside the comparison.
func reportInput(c *choice.Comparison, in *input, system quantity.System, date string) report.Input {
	r := report.Input{Units: system, Block: report.TitleBlock(in.block), Date: date, Record: record(c), Program: version(), Measures: choice.Measures(c.Service)}
	for i := range c.Case.Scenarios {
		r.Events = append(r.Events, heading(c.Case, i, system))
	}
	for _, s := range in.doc.Sources() {
		r.Sources = append(r.Sources, report.Listing(s))
	}
	return r
}
