package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"maps"
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

// publish makes all files or none: each is written under a temporary name, and renamed when all are whole, the manifest last.
func (f *folder) publish(ctx context.Context, files []artefact) (err error) {
	for _, a := range files {
		if err := f.mayReplace(a.name); err != nil {
			return err
		}
	}
	made, err := makeFolder(f.path)
	defer func() {
		if err != nil {
			for _, dir := range made {
				os.Remove(dir) // removes only what is empty
			}
		}
	}()
	if err != nil {
		return fmt.Errorf("cannot make the folder %s: %w", f.path, reason(err))
	}
	f.sweep()
	draft, err := os.MkdirTemp(f.path, unfinished)
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

// sweep removes what killed runs left. What resists stays: it harms nothing.
func (f *folder) sweep() {
	entries, _ := os.ReadDir(f.path)
	for _, e := range entries {
		if e.IsDir() && strings.HasPrefix(e.Name(), unfinished) {
			os.RemoveAll(filepath.Join(f.path, e.Name()))
		}
	}
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

// names are those of files.
func names(files []artefact) []string {
	list := []string{}
	for _, f := range files {
		list = append(list, f.name)
	}
	return list
}

// whole is an artefact of bytes that are ready.
func whole(name string, raw []byte) artefact {
	return artefact{name, func(w io.Writer) error {
		_, err := w.Write(raw)
		return err
	}}
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

// move gives the finished files their names. The previous results go aside first, their manifest before all else, and vanish with the draft; when
// anything fails, all goes back to its place.
func (f *folder) move(draft string, files []artefact) (err error) {
	var undo []func() error
	defer func() {
		if err == nil {
			return
		}
		for _, back := range slices.Backward(undo) {
			err = errors.Join(err, back())
		}
	}()
	rename := func(name, from, to string) error {
		from, to = filepath.Join(from, name), filepath.Join(to, name)
		if err := os.Rename(from, to); err != nil {
			return fmt.Errorf("cannot write %s: %w", name, reason(err))
		}
		undo = append(undo, func() error { return os.Rename(to, from) })
		return nil
	}
	aside, err := os.MkdirTemp(draft, "aside-")
	if err != nil {
		return fmt.Errorf("cannot write to the folder %s: %w", f.path, reason(err))
	}
	fresh := f.withoutManifest(slices.Values(names(files)))
	old := f.withoutManifest(maps.Keys(f.previous))
	for _, name := range slices.Concat([]string{f.manifest}, old, fresh) {
		path := filepath.Join(f.path, name)
		if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() || f.isInput(path) {
			continue
		}
		if err := rename(name, f.path, aside); err != nil {
			return err
		}
	}
	for _, name := range append(fresh, f.manifest) {
		if err := rename(name, draft, f.path); err != nil {
			return err
		}
	}
	return nil
}

// withoutManifest are names in order, the manifest left out.
func (f *folder) withoutManifest(names iter.Seq[string]) []string {
	return slices.DeleteFunc(slices.Sorted(names), func(name string) bool { return name == f.manifest })
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
