package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestInterrupted cancels before and during a run: the code is 130 and nothing is left.
func TestInterrupted(t *testing.T) {
	for name, wait := range map[string]time.Duration{"before": 0, "during": 100 * time.Millisecond} {
		t.Run(name, func(t *testing.T) {
			ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
			defer cancel()
			if wait == 0 {
				cancel()
			} else {
				time.AfterFunc(wait, cancel)
			}
			out := filepath.Join(t.TempDir(), "out")
			var stdout, stderr bytes.Buffer
			code := run(ctx, []string{"compare", filepath.Join("testdata", "case", "long.yaml"), "--out", out}, strings.NewReader(""), &stdout, &stderr)
			require.Equal(t, exitInterrupted, code)
			require.Equal(t, "seatwise: interrupted; nothing was written\n", stderr.String())
			require.Empty(t, stdout.String())
			require.NoDirExists(t, out)
		})
	}
}

// TestInterruptedWriting cancels while the files are being made: those that are finished go as well.
func TestInterruptedWriting(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	dir := filepath.Join(t.TempDir(), "a", "b")
	f, err := newFolder(dir, summaryFile, "case", nil, nil, false)
	require.NoError(t, err)
	err = f.publish(ctx, []artefact{whole("first.csv", []byte("1\n")), {"second.csv", func(w io.Writer) error {
		cancel()
		_, err := w.Write([]byte("2\n"))
		return err
	}}})
	require.ErrorIs(t, err, context.Canceled)
	require.NoDirExists(t, filepath.Dir(dir))
}

// TestFailedWriting leaves the results of the previous run as they were.
func TestFailedWriting(t *testing.T) {
	dir := t.TempDir()
	good := []artefact{whole("table.csv", []byte("old\n")), whole(summaryFile, []byte(`{"format": 1, "case": "case", "files": ["table.csv"]}`))}
	f, err := newFolder(dir, summaryFile, "case", nil, nil, false)
	require.NoError(t, err)
	require.NoError(t, f.publish(t.Context(), good))

	f, err = newFolder(dir, summaryFile, "case", nil, nil, false)
	require.NoError(t, err)
	err = f.publish(t.Context(), []artefact{whole("table.csv", []byte("new\n")), {summaryFile, func(io.Writer) error { return os.ErrClosed }}})
	require.ErrorIs(t, err, os.ErrClosed)
	raw, err := os.ReadFile(filepath.Join(dir, "table.csv"))
	require.NoError(t, err)
	require.Equal(t, "old\n", string(raw))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2)
}
