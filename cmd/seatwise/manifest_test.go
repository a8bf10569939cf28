package main

import (
	"encoding/json"
	"errors"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestListed(t *testing.T) {
	write := func(text string) func(io.Writer) error {
		return func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		}
	}
	raw, err := listed(write("{\n  \"format\": 1\n}\n"), key{"case", `a "b"`}, key{"files", []string{"x.csv"}})
	require.NoError(t, err)
	require.Equal(t, "{\n  \"format\": 1,\n  \"case\": \"a \\\"b\\\"\",\n  \"files\": [\n    \"x.csv\"\n  ]\n}\n", string(raw))
	require.True(t, json.Valid(raw))

	for _, text := range []string{"", "[\n1\n]\n", "{}", "1\n}\n"} {
		_, err = listed(write(text), key{"case", "a"})
		require.ErrorIs(t, err, errManifest, "%q", text)
	}
	broken := errors.New("broken")
	_, err = listed(func(io.Writer) error { return broken })
	require.ErrorIs(t, err, broken)
}

func TestFileName(t *testing.T) {
	for name, want := range map[string]string{
		"lift-station": "lift-station", "a/b\\c": "a-b-c", "..": "case", "": "case", "two words": "two-words", "Pumpwerk-Süd": "Pumpwerk-Süd", ".hidden": "hidden",
	} {
		require.Equal(t, want, fileName(name))
	}
}
