package casefile

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/quantity"
)

// opened is the root section of a text, and its reader.
func opened(t *testing.T, text string) (*reader, *section) {
	src, fault := newSource("case.yaml", "", []byte(text))
	require.Nil(t, fault)
	root, errs := parse(src)
	require.Empty(t, errs)
	r := &reader{files: &files{}, atmosphere: 101325}
	return r, &section{r: r, node: root, at: root}
}

// least is a section with one device of a kind that has the keys which must be given, and those alone.
func least(kind network.Kind) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:\n  thing:\n", kind.Section)
	for _, f := range network.Fields(kind.New("thing")) {
		if f.Must() {
			fmt.Fprintf(&b, "    %s: %s\n", f.Key, value(f))
		}
	}
	return b.String()
}

// value is a value that a field may have.
func value(f network.Field) string {
	switch f.Form {
	case network.NodeName:
		return "node-" + f.Key
	case network.Word:
		return f.Words[len(f.Words)-1]
	case network.YesNo:
		return "yes"
	case network.Table:
		var rows []string
		for range 2 {
			var cells []string
			for _, c := range f.Columns {
				cells = append(cells, value(c))
			}
			rows = append(rows, "["+strings.Join(cells, ", ")+"]")
		}
		return "[" + strings.Join(rows, ", ") + "]"
	}
	return sample(f, quantity.SI.Unit(dimension(f)))
}

// Every kind of device can be read from the keys that it must have: the rest are defaults, each an assumption.
func TestLeastDevices(t *testing.T) {
	for _, kind := range network.Kinds {
		t.Run(kind.Section, func(t *testing.T) {
			text := least(kind)
			r, root := opened(t, text)
			n := &network.Network{}
			r.devices(root, n)
			root.done()
			require.Empty(t, r.errs, text)
			require.Len(t, n.Devices, 1)
			_, name := n.Devices[0].Label()
			require.Equal(t, "thing", name)
			assumed := map[string]string{}
			for _, o := range r.origins {
				if o.Source == Default {
					assumed[o.Path] = o.Text
				}
			}
			for _, f := range network.Fields(n.Devices[0]) {
				path := kind.Section + ".thing." + f.Key
				switch {
				case f.Form == network.Table:
					require.Empty(t, f.Rows())
					continue
				case f.Must():
					require.NotContains(t, assumed, path)
				default:
					require.NotEmpty(t, assumed[path], path)
				}
				switch f.Form {
				case network.NodeName:
					require.Equal(t, "node-"+f.Key, f.Text())
				case network.Word:
					require.Contains(t, f.Words, f.Text())
				case network.Figure:
					require.True(t, f.Holds(f.Number()), "%s is %g", path, f.Number())
					text := assumed[path]
					if f.Must() {
						text = value(f)
					}
					q, err := quantity.Parse(text, dimension(f))
					require.NoError(t, err, path)
					require.InDelta(t, q.SI, f.Number(), 1e-3*max(1e-9, q.SI), path)
				}
			}
		})
	}
}

// Every key of every kind is read, and what it says arrives; the key that is missed is told by its nearest.
func TestAllKeysOfDevices(t *testing.T) {
	for _, kind := range network.Kinds {
		t.Run(kind.Section, func(t *testing.T) {
			fields := network.Fields(kind.New("thing"))
			for i, f := range fields {
				var b strings.Builder
				fmt.Fprintf(&b, "%s:\n  thing:\n", kind.Section)
				for j, g := range fields {
					key := g.Key
					if i == j {
						key = g.Key + "q"
					}
					fmt.Fprintf(&b, "    %s: %s\n", key, value(g))
				}
				r, root := opened(t, b.String())
				n := &network.Network{}
				r.devices(root, n)
				require.Len(t, r.errs, 1, "%s\n%v", b.String(), r.errs)
				require.Equal(t, fmt.Sprintf("unknown key %q in %s.thing", f.Key+"q", kind.Section), r.errs[0].Msg)
				if len(f.Key) > 2 {
					require.Equal(t, fmt.Sprintf("did you mean %q?", f.Key), r.errs[0].Hint)
				}
				for j, g := range network.Fields(n.Devices[0]) {
					switch {
					case i == j:
					case g.Form == network.NodeName, g.Form == network.Word:
						require.Equal(t, value(g), g.Text())
					case g.Form == network.YesNo:
						require.True(t, g.Yes())
					case g.Form == network.Table:
						require.Len(t, g.Rows(), 2)
					default:
						q, err := quantity.Parse(value(g), dimension(g))
						require.NoError(t, err)
						require.Equal(t, q.SI, g.Number(), g.Key)
					}
				}
			}
		})
	}
}

// deviceText is the part of the package comment about devices.
func deviceText() string {
	var b strings.Builder
	line := func(format string, args ...any) {
		b.WriteString(strings.TrimRight("// "+fmt.Sprintf(format, args...), " ") + "\n")
	}
	for _, kind := range network.Kinds {
		line("")
		line("\t%s: %s", kind.Section, kind.Help)
		for _, f := range network.Fields(kind.New("")) {
			line("\t  %-22s %s%s", f.Key, form(f), f.Help)
		}
	}
	return strings.ReplaceAll(b.String(), "// \t", "//\t")
}

// form is what a field looks like in a case file, and what holds when it is left out.
func form(f network.Field) string {
	var what string
	switch f.Form {
	case network.NodeName:
		return ""
	case network.Word:
		what = strings.Join(f.Words, ", ")
	case network.YesNo:
		what = "yes or no"
	case network.Figure:
		what = f.Dim
	case network.Table:
		var columns []string
		for _, c := range f.Columns {
			columns = append(columns, c.Key)
		}
		what = "table of " + strings.Join(columns, ", ")
	}
	if f.Default != "" {
		text := f.Default
		if f.Form == network.Figure {
			text = quantity.Format(number(f.Default), dimension(f), quantity.SI)
		}
		what += " (" + text + ")"
	}
	return what + "; "
}

// The package comment lists the keys of every kind of device. The flag -update puts in what is missing.
func TestDevicesInPackageComment(t *testing.T) {
	const before, after = "// leaves it out; a key without such a value must be given, but for tables.\n", "//\n// # Defaults\n"
	raw, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	head, rest, ok := strings.Cut(string(raw), before)
	require.True(t, ok)
	listed, tail, ok := strings.Cut(rest, after)
	require.True(t, ok)
	if f := flag.Lookup("update"); f != nil && f.Value.String() == "true" {
		require.NoError(t, os.WriteFile("doc.go", []byte(head+before+deviceText()+after+tail), 0o644))
		return
	}
	require.Equal(t, deviceText(), listed, "go test -run TestDevicesInPackageComment -update")
}

// The case that the README explains has every key of every kind of device.
func TestDevicesInREADME(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(raw), "\n## Case file\n")
	require.True(t, ok)
	_, block, ok := strings.Cut(text, "```yaml\n")
	require.True(t, ok)
	block, _, _ = strings.Cut(block, "```\n")
	for _, kind := range network.Kinds {
		_, section, ok := strings.Cut(block, "\n"+kind.Section+":")
		require.True(t, ok, "%s are not in the README", kind.Section)
		lines := strings.SplitAfter(section, "\n")
		for i, l := range lines {
			if i > 0 && l != "" && l[0] != ' ' {
				section = strings.Join(lines[:i], "")
				break
			}
		}
		for _, f := range network.Fields(kind.New("")) {
			require.Regexp(t, `(^|[\s{,#])`+regexp.QuoteMeta(f.Key)+`: `, section, kind.Section)
		}
	}
}
