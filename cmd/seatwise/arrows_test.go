package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "seatwise"

// arrows are the imports that may exist between the packages of this module. A package that imports nothing of ours is a leaf. What is
// not listed is an error, so that a new package has to find its place first.
var arrows = map[string][]string{
	"network/quantity":     {},
	"network/fluid":        {},
	"network/pump":         {},
	"network/pipe":         {"network/fluid"},
	"network":              {"network/fluid", "network/pipe", "network/pump"},
	"valve":                {},
	"valve/catalogue":      {"valve"},
	"valve/characteristic": {"valve"},
	"valve/sizing":         {},
	"valve/service":        {},
	"valve/cost":           {},
	"valve/offers":         {"network/quantity", "valve", "valve/catalogue", "valve/choice"},
	"valve/fit":            {"valve", "valve/catalogue", "valve/characteristic"},
	"moc/kernel":           {},
	"moc/device":           {"network", "network/pump", "network/quantity", "valve"},
	"moc":                  {"moc/device", "moc/kernel", "network", "network/pipe", "network/pump", "network/quantity", "valve"},
	"valve/choice":         {"moc", "network", "network/quantity", "valve", "valve/catalogue", "valve/characteristic", "valve/cost", "valve/sizing", "valve/service"},
	"valve/screen":         {"moc", "network", "network/pump", "network/quantity", "valve", "valve/catalogue", "valve/characteristic", "valve/choice", "valve/service", "valve/sizing"},
	"valve/requirement":    {"moc", "network", "network/quantity", "valve", "valve/choice", "valve/sizing"},
	"network/casefile":     {"network", "network/fluid", "network/pipe", "network/pump", "network/quantity", "valve", "valve/catalogue", "valve/choice", "valve/cost", "valve/offers", "valve/service"},
	"plots":                {"network/quantity", "valve", "valve/characteristic", "valve/choice"},
	"plots/export":         {"network/quantity", "valve", "valve/characteristic", "valve/choice", "valve/offers", "valve/requirement"},
	"plots/report":         {"network", "network/pump", "network/quantity", "plots", "plots/workbook", "valve", "valve/choice", "valve/requirement", "valve/screen"},
	"plots/workbook":       {},
	"plots/sheets":         {"network/quantity", "plots", "plots/export", "plots/report", "plots/workbook", "valve", "valve/choice", "valve/offers"},
	"examples":             {},
	"testdata":             {},
	"moc/verify": {"moc", "moc/device", "moc/kernel", "network", "network/casefile", "network/fluid", "network/pipe", "network/pump",
		"valve", "valve/catalogue", "valve/characteristic", "valve/choice", "valve/cost", "testdata", "examples"},
	"cmd/seatwise": {"*"},
}

// forbidden are packages of others that a folder may not use, with the reason.
var forbidden = []struct{ under, pkg, reason string }{
	{"moc", "os", "the solver knows no files"},
	{"valve", "os", "a disc knows no files"},
	{"network/quantity", "os", "units know no files"},
	{"moc", "github.com/", "the solver stands on the standard library and gonum"},
	{"valve", "github.com/", "discs stand on the standard library and gonum"},
	{"plots", "github.com/spf13/", "figures know no command line"},
	{"network", "github.com/spf13/", "an installation knows no command line"},
	{"valve", "gonum.org/v1/plot", "choosing knows no figures"},
	{"moc", "gonum.org/v1/plot", "the solver knows no figures"},
	{"network", "gonum.org/v1/plot", "an installation knows no figures"},
}

// yaml is known to the reader of case files alone.
const yaml = "github.com/goccy/go-yaml"

// pkg is what the go command says about a package.
type pkg struct {
	ImportPath, Dir string
	GoFiles         []string
	Imports         []string
}

func packages(t *testing.T) []pkg {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,Imports", module+"/...", module+"/testdata") // a folder named testdata is in no pattern
	raw, err := cmd.Output()
	require.NoError(t, err)
	var all []pkg
	for d := json.NewDecoder(bytes.NewReader(raw)); ; {
		var p pkg
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
	require.Greater(t, len(all), 10)
	return all
}

func (p pkg) place() string { return strings.TrimPrefix(p.ImportPath, module+"/") }

func TestImportsBetweenPackages(t *testing.T) {
	found := map[string]bool{}
	for _, p := range packages(t) {
		found[p.place()] = true
		allowed, known := arrows[p.place()]
		if !known {
			t.Errorf("%s has no place among the packages", p.place())
			continue
		}
		for _, imported := range p.Imports {
			ours, isOurs := strings.CutPrefix(imported, module+"/")
			if isOurs && !slices.Contains(allowed, ours) && !slices.Contains(allowed, "*") {
				t.Errorf("%s imports %s, which it may not", p.place(), ours)
			}
			if strings.HasPrefix(imported, yaml) && p.place() != "network/casefile" {
				t.Errorf("%s imports %s: only network/casefile knows YAML", p.place(), imported)
			}
		}
	}
	for place := range arrows {
		if !found[place] {
			t.Errorf("%s is listed but does not exist", place)
		}
	}
}

func TestImportsOfOthers(t *testing.T) {
	for _, p := range packages(t) {
		for _, f := range forbidden {
			if p.place() != f.under && !strings.HasPrefix(p.place(), f.under+"/") {
				continue
			}
			for _, imported := range p.Imports {
				if imported == f.pkg || strings.HasSuffix(f.pkg, "/") && strings.HasPrefix(imported, f.pkg) && !strings.HasPrefix(imported, yaml) || strings.HasPrefix(imported, f.pkg+"/") {
					t.Errorf("%s imports %s: %s", p.place(), imported, f.reason)
				}
			}
		}
	}
}

// TestArrowsDoNotCircle guards the list itself.
func TestArrowsDoNotCircle(t *testing.T) {
	var follow func(place string, seen []string)
	follow = func(place string, seen []string) {
		require.NotContains(t, seen, place, "%v", seen)
		for _, next := range arrows[place] {
			if next != "*" {
				follow(next, append(slices.Clip(seen), place))
			}
		}
	}
	for place := range arrows {
		follow(place, nil)
	}
}

func TestOnePackageComment(t *testing.T) {
	for _, p := range packages(t) {
		var with []string
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, name), nil, parser.PackageClauseOnly|parser.ParseComments)
			if err != nil {
				t.Errorf("%s: %v", p.place(), err)
				continue
			}
			if f.Doc != nil {
				with = append(with, name)
			}
		}
		if len(with) != 1 {
			t.Errorf("%s has %d package comments, one is wanted: %v", p.place(), len(with), with)
		}
	}
}
