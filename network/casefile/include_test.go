package casefile_test

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"seatwise/network/casefile"
)

const ownCandidates = `valves: sub/own.yaml
candidates:
  quiet-nozzle: {valve: quiet-nozzle}
  dear-nozzle: {valve: quiet-nozzle, price: 4}
`

const ownValves = `format: 1
title: Valves in the store
valves:
  quiet-nozzle: {type: nozzle, size: DN250, cracking pressure: 12 mbar, loss table: loss.csv}
  old-swing: {type: swing heavy, size: DN250}
`

const ownLoss = "opening %, loss\n20, 40\n60, 6\n100, 1.4\n"

func folderWith(valves, loss string) fstest.MapFS {
	return fstest.MapFS{"sub/own.yaml": {Data: []byte(valves)}, "sub/loss.csv": {Data: []byte(loss)}}
}

// ownCase is the built-in example with valves of its own.
func ownCase(t testing.TB) string { return replaced(t, "candidates:\n", ownCandidates) }

func TestValvesFromAFile(t *testing.T) {
	d, err := casefile.Read("case.yaml", []byte(ownCase(t)), folderWith(ownValves, ownLoss).ReadFile)
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	require.Equal(t, []string{"sub/own.yaml", "sub/loss.csv"}, d.Files())
	sum := sha256.Sum256([]byte(ownCase(t) + ownValves + ownLoss))
	require.Equal(t, hex.EncodeToString(sum[:]), c.InputSHA256, "over every file read, in order")
	require.Equal(t, []string{"case.yaml", "sub/own.yaml", "sub/loss.csv"}, c.Inputs)

	quiet, dear := c.Candidates[0], c.Candidates[1]
	require.Equal(t, "valve quiet-nozzle of sub/own.yaml", quiet.Source)
	require.Equal(t, "valve quiet-nozzle of sub/own.yaml, but for price", dear.Source)
	require.Contains(t, c.Assumptions, "candidates.dear-nozzle is the valve quiet-nozzle of sub/own.yaml, but for price")
	require.Equal(t, []float64{40, 6, 1.4}, quiet.Tables["loss table"].Value)
	require.Equal(t, map[string]float64{"cracking pressure": 1200}, quiet.Set, "the other candidate leaves no trace")
	require.Equal(t, 4.0, dear.Set["price"])
	require.Len(t, c.Valves, 2)

	// The same valves written in the case are the same valves.
	inside := strings.ReplaceAll(strings.TrimPrefix(ownValves, "format: 1\ntitle: Valves in the store\n"), "loss.csv", "sub/loss.csv")
	e, err := casefile.Read("case.yaml", []byte(strings.Replace(ownCase(t), "valves: sub/own.yaml\n", inside, 1)), folderWith(ownValves, ownLoss).ReadFile)
	require.NoError(t, err)
	want, err := e.Case()
	require.NoError(t, err)
	require.Equal(t, want.Valves, c.Valves)
	require.Equal(t, "valve quiet-nozzle of the section valves", want.Candidates[0].Source)
	require.Equal(t, want.Candidates[0].Set, quiet.Set)

	// A value of the file gives way to one set from outside, and so does the file.
	with, err := d.With("valves.quiet-nozzle.cracking pressure", "20 mbar")
	require.NoError(t, err)
	c, err = with.Case()
	require.NoError(t, err)
	require.Equal(t, 2000.0, c.Candidates[0].Set["cracking pressure"])
	with, err = d.With("valves", "{quiet-nozzle: {type: nozzle, size: DN200}}")
	require.NoError(t, err)
	c, err = with.Case()
	require.NoError(t, err)
	require.Equal(t, 0.2, c.Candidates[0].Size)
	require.Empty(t, with.Files(), "the file that no longer counts is not named")
}

// A file of valves can be fitted by itself.
func TestValvesFileAlone(t *testing.T) {
	d, err := casefile.Read("own.yaml", []byte(ownValves), fstest.MapFS{"loss.csv": {Data: []byte(ownLoss)}}.ReadFile)
	require.NoError(t, err)
	specs, _, err := d.Valves()
	require.NoError(t, err)
	require.Len(t, specs, 2)
}

func TestValvesFileMessages(t *testing.T) {
	swap := func(from, to string) string { return strings.Replace(ownValves, from, to, 1) }
	const beside = "\n    hint: valves are named check valves with their keys, or the name of a YAML file of them beside the case"
	for name, c := range map[string]struct{ named, valves, loss, want string }{
		"value": {"sub/own.yaml", swap("12 mbar", "12 mm"), ownLoss, `sub/own.yaml:4:64: valves.quiet-nozzle.cracking pressure: "12 mm" is a length, a pressure difference is wanted
    4 |   quiet-nozzle: {type: nozzle, size: DN250, cracking pressure: 12 mm, loss table: loss.csv}
      |                                                                ^^^^^
    hint: e.g. 0.3 bar`},
		"key": {"sub/own.yaml", swap("cracking pressure", "craking pressure"), ownLoss, `sub/own.yaml:4:45: unknown key "craking pressure" in valves.quiet-nozzle
    4 |   quiet-nozzle: {type: nozzle, size: DN250, craking pressure: 12 mbar, loss table: loss.csv}
      |                                             ^^^^^^^^^^^^^^^^
    hint: did you mean "cracking pressure"?`},
		"top key": {"sub/own.yaml", swap("title", "titel"), ownLoss, `sub/own.yaml:2:1: unknown key "titel" in sub/own.yaml
    2 | titel: Valves in the store
      | ^^^^^
    hint: did you mean "title"?`},
		"table": {"sub/own.yaml", ownValves, "opening %, loss\n20, 40\n20, 6\n", `sub/loss.csv:3:1: valves.quiet-nozzle.loss table[2]: the opening does not increase
    3 | 20, 6
      | ^^
    hint: sort the rows by opening and give each once`},
		"no table": {"sub/own.yaml", swap("loss.csv", "../../loss.csv"), ownLoss, `sub/own.yaml:4:85: valves.quiet-nozzle.loss table: "../../loss.csv" leaves the folder of the case
    4 |   quiet-nozzle: {type: nozzle, size: DN250, cracking pressure: 12 mbar, loss table: ../../loss.csv}
      |                                                                                     ^^^^^^^^^^^^^^
    hint: a table is a list of rows of opening, loss, or a CSV file beside the case`},
		"no valve can be made": {"sub/own.yaml", swap("12 mbar", "90 bar"), ownLoss, `sub/own.yaml:4:3: valves.quiet-nozzle: `},
		"format": {"sub/own.yaml", swap("format: 1", "format: 2"), ownLoss, `sub/own.yaml:1:9: format 2 is not known
    1 | format: 2
      |         ^
    hint: this program reads format 1`},
		"no format": {"sub/own.yaml", swap("format: 1\n", ""), ownLoss, `sub/own.yaml:1:1: sub/own.yaml: format is missing
    1 | title: Valves in the store
      | ^^^^^
    hint: write format: 1`},
		"no valves": {"sub/own.yaml", "format: 1\n", ownLoss, `sub/own.yaml:1:1: valves is missing in sub/own.yaml
    1 | format: 1
      | ^^^^^^
    hint: a file of valves has format: 1, and below valves: the check valves by their names`},
		"empty valves": {"sub/own.yaml", "format: 1\nvalves:\n", ownLoss, `sub/own.yaml:2:1: valves has no value`},
		"list":         {"sub/own.yaml", "- a\n", ownLoss, `sub/own.yaml:1:1: this is no file of valves: it is a list`},
		"empty":        {"sub/own.yaml", "", ownLoss, `sub/own.yaml:1:1: this is no file of valves: it is empty`},
		"syntax":       {"sub/own.yaml", "format: 1\nvalves: {a: {type: swing\n", ownLoss, `sub/own.yaml:2:13: the { is not closed`},
		"chain": {"sub/own.yaml", "format: 1\nvalves: own.yaml\n", ownLoss, `sub/own.yaml:2:9: valves: a file of valves names no other file
    2 | valves: own.yaml
      |         ^^^^^^^^
    hint: write the valves here`},
		"case": {"sub/own.yaml", "format: 1\ncandidates: {a: {type: swing, size: DN200}}\n", ownLoss, `sub/own.yaml:2:1: sub/own.yaml is a case: it has the section candidates
    2 | candidates: {a: {type: swing, size: DN200}}
      | ^^^^^^^^^^
    hint: put its valves into a file that has format and valves alone`},
		"taken": {"sub/own.yaml", ownValves + "  dear-nozzle: {type: swing, size: DN250}\n", ownLoss, `sub/own.yaml:6:3: valves.dear-nozzle: the name is taken by candidates.dear-nozzle
    6 |   dear-nozzle: {type: swing, size: DN250}
      |   ^^^^^^^^^^^
    hint: names are unique ignoring case`},
		"no such valve": {"sub/own.yaml", strings.ReplaceAll(ownValves, "quiet-nozzle", "quiet-nozzles"), ownLoss, `case.yaml:42:25: candidates.quiet-nozzle.valve: there is no "quiet-nozzle"
   42 |   quiet-nozzle: {valve: quiet-nozzle}
      |                         ^^^^^^^^^^^^
    hint: did you mean "quiet-nozzles"?`},
		"absent":     {"sub/away.yaml", ownValves, ownLoss, `case.yaml:40:9: valves: cannot read the file "sub/away.yaml": open sub/away.yaml: file does not exist`},
		"above":      {"../own.yaml", ownValves, ownLoss, "case.yaml:40:9: valves: \"../own.yaml\" leaves the folder of the case\n   40 | valves: ../own.yaml\n      |         ^^^^^^^^^^^" + beside},
		"roundabout": {"sub/../../own.yaml", ownValves, ownLoss, `case.yaml:40:9: valves: "sub/../../own.yaml" leaves the folder of the case`},
		"absolute":   {"/etc/own.yaml", ownValves, ownLoss, `case.yaml:40:9: valves: "/etc/own.yaml" is an absolute path: files are named from the folder of the case`},
		"drive":      {"'c:own.yaml'", ownValves, ownLoss, `case.yaml:40:9: valves: "c:own.yaml" is no path beside the case: write it with / and without a drive`},
		"no YAML":    {"sub/own.csv", ownValves, ownLoss, `case.yaml:40:9: valves: "sub/own.csv" is not the name of a YAML file`},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(ownCase(t), "sub/own.yaml", c.named, 1)
			d, err := casefile.Read("case.yaml", []byte(text), folderWith(c.valves, c.loss).ReadFile)
			if err == nil {
				_, err = d.Case()
			}
			var all casefile.Errors
			require.ErrorAs(t, err, &all)
			faults := 1
			if name == "no valve can be made" || name == "no such valve" {
				faults = 2 // each of the two candidates has its own
			}
			require.Len(t, all, faults, "%v", err)
			require.Contains(t, err.Error(), c.want)
		})
	}
	require.Contains(t, complaint(ownCase(t)), `case.yaml:40:9: valves: there is no folder to read the file "sub/own.yaml" from`)
}

func TestReferenceMessages(t *testing.T) {
	const valves = "valves:\n  own: {type: swing, size: DN250}\ncandidates:\n"
	for name, c := range map[string]struct{ text, want string }{
		"type too":           {valves + "  x: {valve: own, type: swing}\n", `candidates.x: type goes with valve no more: the valve has its own`},
		"size too":           {valves + "  x: {valve: own, size: DN200}\n", `candidates.x: size goes with valve no more: the valve has its own`},
		"key":                {valves + "  x: {valve: own, ring ratio: 0.5}\n", `unknown key "ring ratio" in candidates.x`},
		"none":               {"candidates:\n  x: {valve: own}\n", "candidates.x.valve: the case has no valves of its own"},
		"same name, changed": {valves + "  own: {valve: own, price: 2}\n", "valves.own: the name is taken by candidates.own"},
		"valve of a valve":   {"valves:\n  own: {valve: other, type: swing, size: DN250}\ncandidates:\n", `unknown key "valve" in valves.own`},
		"twice":              {valves + "  x: {valve: own, kv: 900 m3/h, loss when open: 1}\n", "candidates.x: swing valve: kv and loss when open say the same"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, complaint(replaced(t, "candidates:\n", c.text)), c.want)
		})
	}
}

// FuzzValvesFile: whatever the name and the bytes of the file of valves, nothing outside the folder is asked for, and there is a case or there are
// errors, each with a place inside its file.
func FuzzValvesFile(f *testing.F) {
	f.Add("sub/own.yaml", []byte(ownValves))
	f.Add("own.yaml", []byte("format: 1\nvalves: {quiet-nozzle: {type: nozzle, size: DN250, load table: ../own.csv}}"))
	for _, name := range []string{"../own.yaml", "/own.yaml", "a/../../own.yaml", "./own.yml", "C:own.yaml", `..\own.yaml`, ".yaml", "..yaml", "a//b.yaml", "a/./../b.yaml"} {
		f.Add(name, []byte("format: 1\nvalves: {quiet-nozzle: {valve: quiet-nozzle}}"))
	}
	base := ownCase(f)
	f.Fuzz(func(t *testing.T, name string, raw []byte) {
		if len(raw) > 1<<14 || len(name) > 1<<10 {
			return
		}
		var asked []string
		d, err := casefile.Read("case.yaml", []byte(strings.Replace(base, "sub/own.yaml", name, 1)), func(p string) ([]byte, error) {
			asked = append(asked, p)
			if strings.HasSuffix(strings.ToLower(p), ".csv") {
				return []byte(ownLoss), nil
			}
			return raw, nil
		})
		if err == nil {
			_, err = d.Case()
		}
		for _, p := range asked {
			require.True(t, fs.ValidPath(p) && p == path.Clean(p), "%q", p)
		}
		if err == nil {
			return
		}
		file := "no such file"
		if len(asked) > 0 && asked[0] != "case.yaml" { // that is the name of the case itself
			file = asked[0]
		}
		told(t, err, file, raw)
	})
}

// A valve that the case does not use is built all the same: what is wrong with it does not wait for the case that does.
func TestValveOfAFileThatIsNotUsed(t *testing.T) {
	bad := strings.Replace(ownValves, "{type: swing heavy, size: DN250}", "{type: swing heavy, size: DN250, kv: 900 m3/h, loss when open: 2}", 1)
	d, err := casefile.Read("case.yaml", []byte(ownCase(t)), folderWith(bad, ownLoss).ReadFile)
	require.NoError(t, err)
	_, err = d.Case()
	require.ErrorContains(t, err, "sub/own.yaml:5:3: valves.old-swing: ")
	require.ErrorContains(t, err, "kv and loss when open say the same; give one of them")

	d, err = casefile.Read("case.yaml", []byte(ownCase(t)), folderWith(ownValves, ownLoss).ReadFile)
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	for _, text := range c.Assumptions {
		require.NotContains(t, text, "old-swing", "of a valve that is not used nothing is assumed")
	}
}
