package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// folder is where results go. Every set of results has a manifest, a JSON object that names its case and lists its files; the manifest
// goes first and appears last, so that a folder with a manifest is whole.
//
//   - A folder that holds files but no manifest of the same case is taken only by force.
//   - A file that no manifest lists is never replaced or removed, force or not.
//   - Files that the manifest of the previous run lists and this run does not make are removed.
//   - A run that fails leaves the folder as it was.
type folder struct {
	path     string
	manifest string   // name of this run's manifest
	caseName string   // of this run
	inputs   []string // paths of files read
	force    bool

	previous map[string]bool // files that the previous run's manifest lists, and the manifest itself
	own      map[string]bool // those and the files of the other sets of results
	complete bool            // the previous results are of a run that was not interrupted
}

// Manifests by the set of results.
const (
	summaryFile        = "summary.json"
	characteristicFile = "characteristic.json"
	verificationFile   = "verification.json"
)

var manifests = []string{offersFile, summaryFile, jointFile, characteristicFile, verificationFile, requirementFile}

// unfinished begins the name of the folder in which files are made. One that is found there is of a run that was killed.
const unfinished = ".unfinished-"

// newFolder looks at a folder before anything is run: whether it can be written to, whose it is, and whether anything stands in the way of the
// results, of which the names are those that they can have. Nothing is left behind.
func newFolder(path, manifest, caseName string, inputs, names []string, force bool) (*folder, error) {
	f := &folder{path: path, manifest: manifest, caseName: caseName, inputs: inputs, force: force, previous: map[string]bool{}, own: map[string]bool{}}
	if err := usable(path); err != nil {
		return nil, badInput("give another folder with --out", "cannot use the folder %s: %w", path, reason(err))
	}
	entries, err := os.ReadDir(path)
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err != nil {
		return nil, badInput("give another folder with --out", "cannot use the folder %s: %w", path, reason(err))
	}
	same := !slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return !strings.HasPrefix(e.Name(), unfinished) })
	for _, name := range manifests {
		c, files, complete := f.list(name)
		if files == nil {
			continue
		}
		f.complete = f.complete || name == manifest && complete
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
	for _, name := range append(slices.Clone(names), manifest) {
		if err := f.mayReplace(name); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// errLink is a link that leads nowhere.
var errLink = errors.New("a link to nothing")

// usable tries whether a folder, or the nearest one above it that is there, can be written to.
func usable(path string) error {
	dir := filepath.Clean(path)
	for {
		_, err := os.Stat(dir)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if _, err := os.Lstat(dir); err == nil {
			return errLink
		}
		up := filepath.Dir(dir)
		if up == dir {
			return err
		}
		dir = up
	}
	probe, err := os.MkdirTemp(dir, unfinished)
	if err != nil {
		return err
	}
	return os.Remove(probe)
}

// list reads a manifest: the case, the files it lists, nil when there is none or it is not ours, and whether the results are complete.
func (f *folder) list(manifest string) (caseName string, files []string, complete bool) {
	raw, err := os.ReadFile(filepath.Join(f.path, manifest))
	if err != nil {
		return "", nil, false
	}
	var m struct {
		Format     int      `json:"format"`
		Case       string   `json:"case"`
		Incomplete bool     `json:"incomplete"`
		Files      []string `json:"files"`
	}
	if json.Unmarshal(raw, &m) != nil || m.Format == 0 || m.Case == "" {
		return "", nil, false
	}
	files = []string{}
	for _, name := range m.Files {
		if filepath.IsLocal(name) && filepath.Base(name) == name {
			files = append(files, name)
		}
	}
	return m.Case, files, !m.Incomplete
}

// mayReplace refuses to replace what is not a result, an input above all.
func (f *folder) mayReplace(name string) error {
	path := filepath.Join(f.path, name)
	switch info, err := os.Lstat(path); {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return badInput("give another folder with --out", "cannot use the folder %s: %w", f.path, reason(err))
	case f.isInput(path):
		return badInput("give another folder with --out", "the result %s would replace an input", path)
	case !f.own[name] || !info.Mode().IsRegular():
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
