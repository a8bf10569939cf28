package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/plots/export"
	"seatwise/valve/choice"
)

// results are the files of a comparison and its summary.
type results struct {
	files   []artefact
	summary []byte
}

// newResults gathers figures and tables, and more files of the same results. The files are written when they are published; the summary, which lists them, is whole.
func newResults(c *choice.Comparison, block casefile.TitleBlock, system quantity.System, bin float64, withFiles bool, more ...artefact) (*results, error) {
	r := &results{}
	tables, err := export.Files(c, bin)
	if err != nil {
		return nil, err
	}
	for _, f := range tables {
		r.files = append(r.files, artefact{f.Name, f.Write})
	}
	figures, err := plots.Figures(c, system)
	if err != nil {
		return nil, err
	}
	for _, f := range figures {
		r.files = append(r.files, drawn(f)...)
	}
	r.files = append(r.files, more...)
	if !withFiles {
		r.files = nil
	}
	var buf bytes.Buffer
	if err := export.Summary(&buf, c, choice.Measures(c.Service), export.About{Program: version(), Files: names(r.files), Bin: bin, Report: export.TitleBlock(block)}); err != nil {
		return nil, err
	}
	r.summary = buf.Bytes()
	r.files = append(r.files, whole(summaryFile, r.summary))
	return r, nil
}

// resultNames are those that the files of a comparison can have.
func resultNames(c *choice.Case) ([]string, error) {
	all, err := export.Names(c)
	if err != nil {
		return nil, badInput("", "%w", err)
	}
	figures := []string{plots.PeakSurge}
	if c.Economics != nil {
		figures = append(figures, plots.CostMakeUp)
	}
	for i, s := range c.Scenarios {
		kinds := []string{plots.PressureHistory, plots.DiscMotion, plots.Envelope}
		if s.Network.Runs() > 0 {
			kinds = append(kinds, plots.AnchorForce)
		}
		for _, f := range kinds {
			if i > 0 {
				f += "-" + s.Name
			}
			figures = append(figures, f)
		}
	}
	for _, f := range figures {
		all = append(all, f+".png", f+".svg")
	}
	return all, nil
}

// drawn are the files of a figure.
func drawn(f plots.Figure) []artefact {
	return []artefact{{f.Name + ".png", f.PNG}, {f.Name + ".svg", f.SVG}}
}

// usualOut is the folder of the results of a case when none is named.
const usualOut = "seatwise-out/<case>"

// target is the folder of the results of a case, looked at before anything is run; nil when no files are wanted. Usual names the folder when the user does
// not, names are those that the results can have.
func (p *program) target(manifest, caseName, usual string, inputs, names []string) (*folder, error) {
	switch {
	case p.noFiles && (p.out != usualOut || p.force):
		return nil, badInput("leave one out", "--no-files does not go with --out and --force")
	case p.noFiles:
		return nil, nil
	case strings.TrimSpace(p.out) == "":
		return nil, badInput("name a folder, or leave --out out", "--out names no folder")
	}
	path := p.out
	if path == usualOut {
		path = filepath.Join("seatwise-out", fileName(usual))
	}
	return newFolder(path, manifest, caseName, inputs, names, p.force)
}

// deliver writes the files and prints the JSON if it is wanted in place of the table, which print makes.
func (p *program) deliver(ctx context.Context, to *folder, files []artefact, json []byte, print func(*screen)) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if to != nil {
		if err := to.publish(ctx, files); err != nil {
			return err
		}
	}
	switch {
	case p.json:
		_, err := bytes.NewReader(json).WriteTo(p.stdout)
		return err
	case p.quiet:
		return nil
	}
	s := p.screen()
	print(s)
	if to != nil {
		s.heading(fmt.Sprintf("%s in %s", count(len(files), "file"), to.path))
		s.paragraph(inLine(names(files)))
	}
	return nil
}
