package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"

	"seatwise/examples"
)

// TestCommandsInTexts runs every command line that help texts and the README show, each in a folder of its own with the cases that it names: the
// built-in examples by their names, a short case by any other.
func TestCommandsInTexts(t *testing.T) {
	lines := commandsInHelp()
	require.Greater(t, len(lines), 10)
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	shown := commandsIn(string(raw))
	require.NotEmpty(t, shown, "the README shows no command")
	lines = append(lines, shown...)
	seen := map[string]bool{}
	for _, line := range lines {
		if seen[line] {
			continue
		}
		seen[line] = true
		t.Run(line, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			for _, name := range casesNamed(line) {
				raw, err := examples.Files.ReadFile(filepath.Base(name))
				if err != nil {
					raw, err = os.ReadFile(filepath.Join("testdata", "case", shownCase))
				}
				require.NoError(t, err)
				require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o700))
				require.NoError(t, os.WriteFile(filepath.Join(dir, name), raw, 0o600))
			}
			cmd := exec.CommandContext(t.Context(), "sh", "-c", line)
			cmd.Dir = dir
			out, err := cmd.CombinedOutput()
			require.NoError(t, err, "%s", out)
		})
	}
}

// shownCase stands for the user's case: it has the names of the built-in example and is short to run.
const shownCase = "shown.yaml"

// commandsInHelp are the command lines in the examples of all commands.
func commandsInHelp() []string {
	var all []string
	var walk func(*cobra.Command)
	walk = func(c *cobra.Command) {
		all = append(all, commandsIn(c.Example)...)
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	walk((&program{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard}).root())
	return all
}

var commandLine = regexp.MustCompile(`(?m)^\s*(?:\$ )?((?:cat \S+ \| )?(?:go run \./cmd/)?seatwise(?: .*)?)$`)

// commandsIn are the lines of a text that call seatwise.
func commandsIn(text string) []string {
	var all []string
	for _, m := range commandLine.FindAllStringSubmatch(text, -1) {
		line, _, _ := strings.Cut(m[1], " #")
		all = append(all, strings.TrimSpace(strings.TrimPrefix(line, "go run ./cmd/")))
	}
	return all
}

var caseFile = regexp.MustCompile(`(?:^|\s)([\w/-]+\.yaml)\b`)

// casesNamed are the case files that a line reads: those that it does not write.
func casesNamed(line string) []string {
	read, _, _ := strings.Cut(line, ">")
	var all []string
	for _, m := range caseFile.FindAllStringSubmatch(read, -1) {
		all = append(all, m[1])
	}
	return all
}

func TestEveryCommandHasHelp(t *testing.T) {
	for _, c := range (&program{stdout: io.Discard, stderr: io.Discard}).root().Commands() {
		require.NotEmpty(t, c.Short, c.Name())
		require.NotEmpty(t, c.Example, c.Name())
		for _, l := range strings.Split(c.Long+"\n"+c.Example, "\n") {
			require.LessOrEqual(t, columns(l), 82, "%s: %s", c.Name(), l)
		}
	}
}
