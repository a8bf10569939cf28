package casefile_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
)

var update = flag.Bool("update", false, "write the messages as they are into testdata/messages")

// lift is the built-in example.
func lift(t testing.TB) string {
	raw, err := examples.Files.ReadFile("lift-station.yaml")
	require.NoError(t, err)
	return string(raw)
}

// complaint is everything that is said against a case.
func complaint(text string) string {
	d, err := casefile.Read("case.yaml", []byte(text), nil)
	if err == nil {
		_, err = d.Case()
	}
	if err == nil {
		return ""
	}
	return err.Error()
}

// Each file in testdata/messages holds trials, divided by lines "### what is wrong". A trial is a passage of the built-in example, a line
// "===", what stands in its place, a line "===", and the whole message. "\t", "\0" and the like stand for themselves.
func TestMessages(t *testing.T) {
	files, err := filepath.Glob("testdata/messages/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		raw, err := os.ReadFile(file)
		require.NoError(t, err)
		var got strings.Builder
		for trial := range strings.SplitSeq(strings.TrimPrefix(string(raw), "### "), "\n### ") {
			parts := strings.SplitN(trial, "\n===\n", 3)
			require.GreaterOrEqual(t, len(parts), 2, trial)
			name, old, ok := strings.Cut(parts[0], "\n")
			require.True(t, ok, trial)
			text := strings.Replace(lift(t), old, escapes.Replace(parts[1]), 1)
			require.NotEqual(t, lift(t), text, "%s: nothing is replaced", name)
			message := complaint(text)
			require.NotEmpty(t, message, "%s: nothing is wrong", name)
			got.WriteString("### " + name + "\n" + old + "\n===\n" + parts[1] + "\n===\n" + message + "\n")
			if !*update {
				t.Run(filepath.Base(file)+"/"+name, func(t *testing.T) {
					require.Len(t, parts, 3)
					require.Equal(t, strings.TrimSuffix(parts[2], "\n"), message)
				})
			}
		}
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(got.String()), 0o644))
		}
	}
}

var escapes = strings.NewReplacer(`\t`, "\t", `\0`, "\x00", `\r`, "\r", `\xB0`, "\xB0", `\u200B`, "\u200B", `\u2028`, "\u2028")
