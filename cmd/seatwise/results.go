package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"

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

// newResults gathers figures and tables. The files are written when they are published; the summary, which lists them, is whole.
func newResults(c *choice.Comparison, system quantity.System, withFiles bool) (*results, error) {
	r := &results{}
	made, err := export.Files(c, choice.Measures(c.Service), version())
	if err != nil {
		return nil, err
	}
	for _, f := range made {
		if f.Name != summaryFile {
			r.files = append(r.files, artefact{f.Name, f.Write})
		}
	}
	figures, err := plots.Figures(c, system)
	if err != nil {
		return nil, err
	}
	for _, f := range figures {
		r.files = append(r.files, drawn(f)...)
	}
	if !withFiles {
		r.files = nil
	}
	last := made[len(made)-1]
	if last.Name != summaryFile {
		return nil, fmt.Errorf("the last file is %s instead of %s", last.Name, summaryFile)
	}
	if r.summary, err = listed(last.Write, key{"files", names(r.files)}); err != nil {
		return nil, err
	}
	r.files = append(r.files, whole(summaryFile, r.summary))
	return r, nil
}

// drawn are the files of a figure.
func drawn(f plots.Figure) []artefact {
	return []artefact{{f.Name + ".png", f.PNG}, {f.Name + ".svg", f.SVG}}
}

// target is the folder of the results of a case, looked at before anything is run; nil when no files are wanted.
func (p *program) target(manifest, caseName, usual string, inputs []string) (*folder, error) {
	if p.noFiles {
		if p.out != "" || p.force {
			return nil, badInput("leave one out", "--no-files does not go with --out and --force")
		}
		return nil, nil
	}
	path := p.out
	if path == "" {
		path = filepath.Join("seatwise-out", fileName(usual))
	}
	return newFolder(path, manifest, caseName, inputs, p.force)
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
