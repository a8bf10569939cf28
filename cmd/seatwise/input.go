package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"seatwise/examples"
	"seatwise/moc"
	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// builtIn is the example that stands in for a case that is not given.
const builtIn = "lift-station.yaml"

// largestFile is more than any case or table needs, bytes.
const largestFile = 4 << 20

// input is a case that has been read, and the files that it came from.
type input struct {
	*choice.Case
	files []string            // paths, the case first; empty for standard input and examples
	block casefile.TitleBlock // for the report
	doc   *casefile.Document
}

// placed is an error with the place in the case that it is about, where it is about one.
func (in *input) placed(err error) error {
	var reason *moc.ReasonError
	if !errors.As(err, &reason) || reason.Path == "" {
		return err
	}
	return &placedError{in.doc.Fault(reason.Path, err.Error(), reason.Hint), err}
}

// placedError reads as the fault of the case, and is the error that it was.
type placedError struct {
	fault *casefile.Error
	cause error
}

func (e *placedError) Error() string { return e.fault.Error() }
func (e *placedError) Unwrap() error { return e.cause }

// given is the case that the arguments name, and the system of units of the output.
func (p *program) given(args []string) (*input, quantity.System, error) {
	in, err := p.read(args, p.stdin)
	if err != nil {
		return nil, 0, err
	}
	system, err := p.system()
	return in, system, err
}

// read reads the case that the arguments name: a file, "-" for standard input, nothing for the built-in example. Values set by the user
// replace those of the file.
func (o *options) read(args []string, stdin io.Reader) (*input, error) {
	doc, files, err := o.document(args, stdin)
	if err != nil {
		return nil, err
	}
	return taken(doc, files, len(args) == 0)
}

// taken is the case of a document, with the files that it came from.
func taken(doc *casefile.Document, files []string, example bool) (*input, error) {
	c, err := doc.Case()
	if err != nil {
		return nil, err
	}
	own := *c
	own.Example = example
	if len(files) > 0 {
		for _, f := range doc.Files() {
			files = append(files, filepath.Join(filepath.Dir(files[0]), filepath.FromSlash(f)))
		}
	}
	return &input{&own, files, doc.TitleBlock(), doc}, nil
}

// document is what read reads, before it is judged as a case.
func (o *options) document(args []string, stdin io.Reader) (doc *casefile.Document, files []string, err error) {
	switch {
	case len(args) == 0:
		doc, err = o.example()
	case args[0] == "-":
		var raw []byte
		if raw, err = readAll(stdin, "standard input"); err == nil {
			doc, err = casefile.Read("-", raw, nil)
		}
	default:
		doc, files, err = open(args[0])
	}
	if err != nil {
		return nil, nil, err
	}
	for _, s := range o.set {
		p, value, ok := strings.Cut(s, "=")
		if !ok || strings.TrimSpace(p) == "" {
			return nil, nil, badInput(`write path=value, e.g. --set "pipes.rising-main.bore=600 mm"`, "--set %q has no path or no =", s)
		}
		if doc, err = doc.With(strings.TrimSpace(p), strings.TrimSpace(value)); err != nil {
			return nil, nil, err
		}
	}
	return doc, files, nil
}

func (o *options) example() (*casefile.Document, error) {
	raw, err := examples.Files.ReadFile(builtIn)
	if err != nil {
		return nil, fmt.Errorf("the built-in example: %w", err)
	}
	return casefile.Read(builtIn, raw, exampleFile)
}

// exampleFile reads a file that an example names.
func exampleFile(name string) ([]byte, error) { return examples.Files.ReadFile(path.Clean(name)) }

// open reads a case file. The files that it names are opened below its folder, which no path and no link leaves.
func open(name string) (*casefile.Document, []string, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, cannotRead(name, err)
	}
	defer f.Close()
	raw, err := readAll(f, name)
	if err != nil {
		return nil, nil, err
	}
	dir := filepath.Dir(name)
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, nil, badInput("", "cannot open the folder of the case: %w", err)
	}
	side := func(p string) ([]byte, error) {
		p = filepath.FromSlash(p)
		if is, err := root.Stat(p); err == nil && !is.Mode().IsRegular() { // a pipe or a device may never end
			return nil, errors.New("it is no plain file")
		}
		f, err := root.Open(p)
		if err != nil {
			return nil, reason(err)
		}
		defer f.Close()
		return readAll(f, p)
	}
	doc, err := casefile.Read(name, raw, side)
	if err != nil {
		root.Close()
		return nil, nil, err
	}
	return doc, []string{name}, nil
}

// install puts a candidate into a scenario's installation, where it must be able to work.
func install(c *choice.Case, s *choice.Scenario, candidate valve.Spec) (*choice.Installed, error) {
	in, err := choice.Install(c, s, candidate)
	if err == nil && in.Unfit != nil {
		err = fmt.Errorf("valve %s: %w", candidate.Name, in.Unfit)
	}
	return in, err
}

// readAll reads up to the bound; a longer text is no case.
func readAll(r io.Reader, name string) ([]byte, error) {
	var buf bytes.Buffer
	n, err := io.Copy(&buf, io.LimitReader(r, largestFile+1))
	switch {
	case err != nil:
		return nil, cannotRead(name, err)
	case n > largestFile:
		return nil, badInput("a case file is text of a few kilobytes", "%s is larger than %d MB", name, largestFile>>20)
	}
	return buf.Bytes(), nil
}

// cannotRead says why a file cannot be read, and whether an example has that name.
func cannotRead(name string, err error) error {
	hint := ""
	var cause *fs.PathError
	if errors.As(err, &cause) {
		err = cause.Err
	}
	if base := strings.TrimSuffix(filepath.Base(name), ".yaml"); errors.Is(err, fs.ErrNotExist) && isExample(base) {
		hint = fmt.Sprintf("%s is a built-in example: seatwise examples %s > %s.yaml writes it here", base, base, base)
	}
	if errors.Is(err, fs.ErrNotExist) { // what stands there goes before what could be written
		for _, end := range []string{".yaml", ".yml"} {
			if is, gone := os.Stat(name + end); gone == nil && is.Mode().IsRegular() {
				hint = "there is " + name + end
				break
			}
		}
	}
	return badInput(hint, "cannot read %s: %w", name, err)
}
