package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/examples"
	"seatwise/network"
	"seatwise/network/casefile"
)

const examplesHelp = `List the built-in cases, print one, or write all of them to a folder.

They are invented, and show how a case is written.`

// examples shows the built-in cases.
func (p *program) examples() *cobra.Command {
	var dir string
	cmd := &cobra.Command{
		Use:   "examples [NAME]",
		Short: "List, print or write the built-in cases",
		Long:  examplesHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise examples",
			"seatwise examples lift-station",
			"seatwise examples --write cases",
		),
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case dir != "" && len(args) > 0:
				return badInput("leave one out", "--write writes all examples and takes no name")
			case dir != "":
				return p.writeExamples(dir)
			case len(args) > 0:
				return p.printExample(args[0])
			}
			return p.listExamples()
		},
	}
	cmd.Flags().StringVar(&dir, "write", "", "write all files of the examples to a `folder`")
	_ = cmd.MarkFlagDirname("write")
	return cmd
}

func (p *program) listExamples() error {
	s := p.screen()
	for _, name := range exampleNames() {
		raw, err := examples.Files.ReadFile(name + ".yaml")
		if err != nil {
			return err
		}
		doc, err := casefile.Read(name+".yaml", raw, exampleFile)
		if err != nil {
			return err
		}
		c, err := doc.Case()
		if err != nil {
			return err
		}
		s.line("%s", s.strong(name))
		s.hang("  ", c.Title+". "+c.Note)
	}
	return nil
}

func (p *program) printExample(name string) error {
	raw, err := examples.Files.ReadFile(strings.TrimSuffix(name, ".yaml") + ".yaml")
	if err != nil {
		return badInput(nearExample(name), "there is no example %q", name)
	}
	_, err = p.stdout.Write(raw)
	return err
}

// nearExample is the hint at the example that a name was meant to be: one spelt nearly so, or the only one that begins with it.
func nearExample(name string) string {
	names := exampleNames()
	if near := network.Nearest(name, names); near != "" {
		return "did you mean " + near + "?"
	}
	begun := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return !strings.HasPrefix(n, strings.ToLower(name)) })
	if len(begun) == 1 {
		return "did you mean " + begun[0] + "?"
	}
	return "there are: " + inLine(names)
}

// writeExamples writes every file of the examples. A file that stands there with other contents is never replaced; then none is written.
func (p *program) writeExamples(dir string) error {
	var files []string
	err := fs.WalkDir(examples.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files = append(files, name)
		}
		return err
	})
	if err != nil {
		return err
	}
	var missing []artefact
	for _, name := range files {
		raw, err := examples.Files.ReadFile(name)
		if err != nil {
			return err
		}
		old, err := os.ReadFile(filepath.Join(dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			missing = append(missing, whole(name, raw))
		case err != nil:
			return badInput("give another folder", "cannot look at %s: %w", filepath.Join(dir, name), reason(err))
		case !bytes.Equal(old, raw):
			return badInput("give another folder", "%s exists and is not the example", filepath.Join(dir, name))
		}
	}
	if _, err := makeFolder(dir); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", dir, reason(err))
	}
	for _, a := range missing {
		if _, err := makeFolder(filepath.Dir(filepath.Join(dir, a.name))); err != nil {
			return fmt.Errorf("cannot make the folder of %s: %w", a.name, reason(err))
		}
		if err := a.create(filepath.Join(dir, a.name)); err != nil {
			return err
		}
	}
	s := p.screen()
	s.line("%s in %s", count(len(files), "file"), dir)
	return nil
}

// exampleNames are the names of the cases, the built-in one first.
func exampleNames() []string {
	files, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil {
		panic("seatwise: bad pattern")
	}
	list := []string{strings.TrimSuffix(builtIn, ".yaml")}
	for _, f := range files {
		if f != builtIn {
			list = append(list, strings.TrimSuffix(f, ".yaml"))
		}
	}
	return list
}

func isExample(name string) bool {
	_, err := examples.Files.ReadFile(name + ".yaml")
	return err == nil
}
