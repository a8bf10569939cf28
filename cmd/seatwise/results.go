package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
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

// newResults puts the summary, which lists them, behind the files of the same results; without any there is the summary alone.
func newResults(c *choice.Comparison, block casefile.TitleBlock, bin float64, files []artefact) (*results, error) {
	var buf bytes.Buffer
	if err := export.Summary(&buf, c, choice.Measures(c.Service), export.About{Program: version(), Files: names(files), Bin: bin, Report: export.TitleBlock(block)}); err != nil {
		return nil, err
	}
	return &results{append(files, whole(summaryFile, buf.Bytes())), buf.Bytes()}, nil
}

// resultFiles are tables, figures and documents of a comparison. They are written when they are published.
func resultFiles(ctx context.Context, c *choice.Comparison, in *input, system quantity.System, bin float64, d *documents) ([]artefact, error) {
	tables, err := export.Files(c, bin)
	if err != nil {
		return nil, err
	}
	var files []artefact
	for _, f := range tables {
		files = append(files, artefact{f.Name, f.Write})
	}
	figures, err := plots.Figures(c, system)
	if err != nil {
		return nil, err
	}
	for _, f := range figures {
		files = append(files, drawn(f)...)
	}
	return append(files, d.make(ctx, c, figures, in, system)...), nil
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
		if len(s.Events) > 0 && !slices.Contains(figures, plots.CharacteristicName) {
			figures = append(figures, plots.CharacteristicName)
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
