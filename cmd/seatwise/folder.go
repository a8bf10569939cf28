package main

import (
	"bufio"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"
)

// artefact is a file to be made.
type artefact struct {
	name  string
	write func(io.Writer) error
}

// folder is where results go. Every set of results has a manifest, a JSON object that names its case and lists its files; the manifest
// appears last, so that a folder with a manifest is whole.
//
//   - A folder that holds files but no manifest of the same case is taken only by force.
//   - A file that no manifest lists is never replaced or removed, force or not.
//   - Files that the manifest of the previous run lists and this run does not make are removed.
type folder struct {
	path     string
	manifest string   // name of this run's manifest
	caseName string   // of this run
	inputs   []string // paths of files read
	force    bool

	previous map[string]bool // files that the previous run's manifest lists, and the manifest itself
	own      map[string]bool // those and the files of the other sets of results
}

// Manifests by the set of results.
const (
	summaryFile        = "summary.json"
	characteristicFile = "characteristic.json"
)

var manifests = []string{summaryFile, characteristicFile}

// newFolder looks at a folder before anything is run. It writes nothing.
func newFolder(path, manifest, caseName string, inputs []string, force bool) (*folder, error) {
	f := &folder{path: path, manifest: manifest, caseName: caseName, inputs: inputs, force: force, previous: map[string]bool{}, own: map[string]bool{}}
	entries, err := os.ReadDir(path)
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err != nil {
		return nil, badInput("give another folder with --out", "cannot use the folder %s: %w", path, reason(err))
	}
	same := len(entries) == 0
	for _, name := range manifests {
		c, files := f.list(name)
		if files == nil {
			continue
		}
		same = same || c == caseName
		for _, file := range append(files, name) {
			f.own[file] = true
			if name == manifest {
				f.previous[file] = true
			}
		}
	}
	if !same && !force {
		return nil, badInput("give another folder with --out, or --force to add files to this one", "the folder %s holds files that are not results of case %s", path, caseName)
	}
	return f, nil
}

// list reads a manifest: the case and the files it lists; nil when there is none or it is not ours.
func (f *folder) list(manifest string) (string, []string) {
	raw, err := os.ReadFile(filepath.Join(f.path, manifest))
	if err != nil {
		return "", nil
	}
	var m struct {
		Format int      `json:"format"`
		Case   string   `json:"case"`
		Files  []string `json:"files"`
	}
	if json.Unmarshal(raw, &m) != nil || m.Format == 0 || m.Case == "" {
		return "", nil
	}
	files := []string{}
	for _, name := range m.Files {
		if filepath.IsLocal(name) && filepath.Base(name) == name {
			files = append(files, name)
		}
	}
	return m.Case, files
}

// publish makes all files or none: each is written under a temporary name, and renamed when all are whole, the manifest last.
func (f *folder) publish(ctx context.Context, files []artefact) (err error) {
	for _, a := range files {
		if err := f.mayReplace(a.name); err != nil {
			return err
		}
	}
	made, err := makeFolder(f.path)
	if err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", f.path, reason(err))
	}
	defer func() {
		if err != nil {
			for _, dir := range made {
				os.Remove(dir) // removes only what is empty
			}
		}
	}()
	draft, err := os.MkdirTemp(f.path, ".unfinished-")
	if err != nil {
		return fmt.Errorf("cannot write to the folder %s: %w", f.path, reason(err))
	}
	defer os.RemoveAll(draft)
	if err := write(ctx, draft, files); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	return f.move(draft, files)
}

// write makes the files in a folder, several at a time.
func write(ctx context.Context, dir string, files []artefact) error {
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.GOMAXPROCS(0))
	for _, a := range files {
		g.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			return a.create(filepath.Join(dir, a.name))
		})
	}
	return g.Wait()
}

func (a artefact) create(path string) error {
	file, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", a.name, reason(err))
	}
	b := bufio.NewWriterSize(file, 1<<16)
	if err := cmp.Or(a.write(b), b.Flush(), file.Close()); err != nil {
		file.Close()
		return fmt.Errorf("cannot write %s: %w", a.name, reason(err))
	}
	return nil
}

// move gives the finished files their names and removes what the previous run left.
func (f *folder) move(draft string, files []artefact) error {
	stale := f.previous
	last := func(a artefact) int {
		if a.name == f.manifest {
			return 1
		}
		return 0
	}
	files = slices.Clone(files)
	slices.SortStableFunc(files, func(a, b artefact) int { return cmp.Compare(last(a), last(b)) })
	for _, a := range files {
		if err := os.Rename(filepath.Join(draft, a.name), filepath.Join(f.path, a.name)); err != nil {
			return fmt.Errorf("cannot write %s: %w", a.name, reason(err))
		}
		delete(stale, a.name)
	}
	for name := range stale {
		path := filepath.Join(f.path, name)
		if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() || f.isInput(path) {
			continue
		}
		if err := os.Remove(path); err != nil {
			return fmt.Errorf("cannot remove %s, which the previous run made: %w", name, reason(err))
		}
	}
	return nil
}

// mayReplace refuses to replace what is not a result, an input above all.
func (f *folder) mayReplace(name string) error {
	path := filepath.Join(f.path, name)
	switch _, err := os.Lstat(path); {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case f.isInput(path):
		return badInput("give another folder with --out", "the result %s would replace an input", path)
	case !f.own[name]:
		return badInput("move it away, or give another folder with --out", "the result %s would replace a file that is not a result of seatwise", path)
	}
	return nil
}

func (f *folder) isInput(path string) bool {
	info, err := os.Stat(path)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(f.inputs, func(in string) bool {
		other, err := os.Stat(in)
		return err == nil && os.SameFile(info, other)
	})
}

// makeFolder makes a folder and those above it, and lists what it made, deepest first.
func makeFolder(path string) (made []string, err error) {
	for dir := filepath.Clean(path); ; dir = filepath.Dir(dir) {
		if _, err := os.Stat(dir); err == nil || !errors.Is(err, fs.ErrNotExist) || dir == filepath.Dir(dir) {
			break
		}
		made = append(made, dir)
	}
	return made, os.MkdirAll(path, 0o777)
}

// reason is an error of a file without the call and the temporary path in it.
func reason(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}

// fileName makes a name of a case or candidate fit for a folder on every system.
func fileName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '.':
			return r
		case r < 0x80:
			return '-'
		}
		return r
	}, s)
	return cmp.Or(strings.Trim(s, ".-"), "case")
}
