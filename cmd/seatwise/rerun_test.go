package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestRerun: a report confirms itself, and tells which number or text was tampered with.
func TestRerun(t *testing.T) {
	page, _ := reported(t, "--set", "limits.design pressure=9 bar")
	check := func(page string) (int, string) {
		path := filepath.Join(t.TempDir(), "copied.html")
		require.NoError(t, os.WriteFile(path, []byte(page), 0o666))
		var stdout, stderr bytes.Buffer
		code := run(t.Context(), []string{"check", path, "--rerun"}, strings.NewReader(""), &stdout, &stderr)
		return code, stdout.String() + stderr.String()
	}
	code, text := check(page)
	require.Equal(t, exitDone, code, text)
	require.Contains(t, text, "confirmed")

	at := strings.Index(page, "head_loss_m&#34;,&#34;value&#34;:")
	require.Positive(t, at)
	code, text = check(page[:at] + strings.Replace(page[at:], "value&#34;:", "value&#34;:1", 1))
	require.Equal(t, exitFailed, code, text)
	require.Contains(t, text, "head_loss_m")

	code, text = check("<html></html>")
	require.Equal(t, exitInput, code, text)
}

// TestDifferences: digits that another processor rounds differently are no difference, anything more is.
func TestDifferences(t *testing.T) {
	was := []figureOf{{"base", "a", "reverse_volume_m3", 0.4}, {"base", "b", "reverse_volume_m3", 2e-17}, {"base", "b", "head_loss_m", 2e-17}}
	now := func(i int, v float64) []figureOf {
		is := append([]figureOf{}, was...)
		is[i].Value = v
		return is
	}
	require.Empty(t, differences(was, was))
	require.Empty(t, differences(was, now(0, 0.4*(1+0.9e-9))))
	require.Empty(t, differences(was, now(1, -7e-17)))
	require.Len(t, differences(was, now(0, 0.4*(1+1.1e-9))), 1)
	require.Len(t, differences(was, now(1, 1e-9)), 1)
	require.Len(t, differences(was, now(2, -7e-17)), 1, "nothing in the report says that 2e-17 m is small")
	require.Len(t, differences(was, was[:2]), 1)
	require.Len(t, differences(was[:2], was), 1)
}
