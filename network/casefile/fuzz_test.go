package casefile_test

import (
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
)

// FuzzRead: whatever the bytes, there is a case or there are errors, each with a message and a place inside its file.
func FuzzRead(f *testing.F) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	require.NoError(f, err)
	for _, name := range names {
		raw, err := examples.Files.ReadFile(name)
		require.NoError(f, err)
		f.Add(raw)
	}
	text := lift(f)
	for _, broken := range []string{
		"", "\n", "a", "- - - a", "a: [", "a: {b: c", "a: 'x", "? a\n: b", "a: |\n b", "---\n---", "\uFEFFformat: 1", "a: &b *b", "<<: {}", ": a", "a: b: c", "{}", "[]", "{a}: b", "\xFF\xFE",
		text[:len(text)/2], strings.ReplaceAll(text, ": ", ":"), strings.ReplaceAll(text, " m", ""), strings.ReplaceAll(text, "}", ""), strings.ReplaceAll(text, "  ", " "),
		strings.ReplaceAll(text, "0", "-1"), strings.ReplaceAll(text, "header", "Header"), strings.ReplaceAll(text, "sump", "tower"),
		strings.Replace(text, "limits:", "scenarios: {a: {set: {pipes.rising-main.bore: 0 m}}}\nlimits:", 1),
	} {
		f.Add([]byte(broken))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > 1<<16 {
			return
		}
		d, err := casefile.Read("case.yaml", raw, examples.Files.ReadFile)
		if err == nil {
			_ = d.Origins()
			c, wrong := d.Case()
			if err = wrong; err == nil {
				require.NotEmpty(t, c.Scenarios)
				require.NotEmpty(t, c.Candidates)
				require.NotEmpty(t, c.InputSHA256)
				for _, s := range c.Scenarios {
					require.False(t, math.IsNaN(s.Network.Fluid.Density))
					for _, f := range s.Network.Validate() {
						require.True(t, f.Warning, "%v", f)
					}
				}
			}
		}
		if err == nil {
			return
		}
		var all casefile.Errors
		require.True(t, errors.As(err, &all))
		require.NotEmpty(t, all)
		require.NotEmpty(t, err.Error())
		text := strings.ReplaceAll(strings.TrimPrefix(string(raw), "\uFEFF"), "\r\n", "\n")
		lines := strings.Split(text, "\n")
		for _, e := range all {
			require.NotEmpty(t, e.Msg)
			if e.File != "case.yaml" || e.Line == 0 {
				continue
			}
			require.GreaterOrEqual(t, e.Line, 1)
			require.LessOrEqual(t, e.Line, len(lines), e.Error())
			require.GreaterOrEqual(t, e.Column, 1)
			require.LessOrEqual(t, e.Column, utf8.RuneCountInString(lines[e.Line-1])+1, e.Error())
		}
	})
}

// FuzzWith: whatever the path and the value, there is a document or there are errors.
func FuzzWith(f *testing.F) {
	f.Add("pipes.rising-main.bore", "600 mm")
	f.Add("events[1].units", "3")
	f.Add("pipes.rising-main.profile[2][1]", "[1 m]")
	f.Add("a[", "b")
	f.Add("..", "{a: b}")
	f.Add("candidates", "{}")
	base := document(f, lift(f))
	f.Fuzz(func(t *testing.T, path, value string) {
		d, err := base.With(path, value)
		if err == nil {
			_, err = d.Case()
		}
		var all casefile.Errors
		if err != nil {
			require.True(t, errors.As(err, &all))
			require.NotEmpty(t, all.Error())
		}
	})
}
