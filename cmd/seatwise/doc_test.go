package main

import (
	"bytes"
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
	"seatwise/network/casefile"
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
				raw := namedFile(t, name)
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

// namedFile is the file that a name in a command line stands for.
func namedFile(t *testing.T, name string) []byte {
	base := filepath.Base(name)
	if base == shownOffers || strings.Contains(name, "offers/") {
		base = "offers/lift-station.yaml"
	}
	raw, err := examples.Files.ReadFile(base)
	if err != nil {
		raw, err = os.ReadFile(filepath.Join("testdata", "case", shownCase))
	}
	require.NoError(t, err)
	return raw
}

// caseInREADME is the case file that the README explains, and the whole section about it.
func caseInREADME(t *testing.T) (*casefile.Document, string) {
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(raw), "\n## Case file\n")
	require.True(t, ok)
	text, _, _ = strings.Cut(text, "\n## ")
	_, block, ok := strings.Cut(text, "```yaml\n")
	require.True(t, ok)
	block, _, ok = strings.Cut(block, "```\n")
	require.True(t, ok)
	doc, err := casefile.Read("README.yaml", []byte(block), nil)
	require.NoError(t, err)
	return doc, text
}

// TestFirstCaseInREADME: the least case that the README shows is one, and it is checked without a warning of a fault.
func TestFirstCaseInREADME(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, block, ok := strings.Cut(string(raw), "```yaml\n")
	require.True(t, ok)
	block, _, ok = strings.Cut(block, "```\n")
	require.True(t, ok)
	var stdout, stderr bytes.Buffer
	require.Equal(t, exitDone, run(t.Context(), []string{"check", "-"}, strings.NewReader(block), &stdout, &stderr), stderr.String())
}

// TestCaseInREADME reads the case that the README explains.
func TestCaseInREADME(t *testing.T) {
	doc, _ := caseInREADME(t)
	c, err := doc.Case()
	require.NoError(t, err)
	require.Len(t, c.Scenarios, 3)
	for i := range c.Scenarios {
		for _, v := range c.Candidates {
			_, err := install(c, &c.Scenarios[i], v)
			require.NoError(t, err)
		}
	}
}

// TestEveryKeyIsInREADME asks every section of the case file for its keys, by one that it does not have, and looks for them in the README.
func TestEveryKeyIsInREADME(t *testing.T) {
	doc, text := caseInREADME(t)
	keys := func(path, value string) []string {
		bad, err := doc.With(path, value)
		require.NoError(t, err)
		_, err = bad.Case()
		var faults casefile.Errors
		require.ErrorAs(t, err, &faults, path)
		for _, f := range faults {
			if list, ok := strings.CutPrefix(f.Hint, "keys here: "); ok {
				return strings.Split(list, ", ")
			}
		}
		require.Fail(t, "no list of keys", "%s: %v", path, err)
		return nil
	}
	const none = "qqqqqqqqqqqqqqqq"
	sections := []string{"", "fluid.", "reservoirs.sump.", "demands.village.", "stations.lift.", "stations.lift.pump.", "stations.lift.pump.rated.", "stations.lift.branch.", "stations.lift.upstream.",
		"pipes.rising-main.", "pipes.stub.", "check valves.line-valve.", "throttling valves.gate.", "events[1].", "events[2].", "events[3].", "events[4].", "run.", "limits.", "duty.", "economics.", "scenarios.all-trip.", "report."}
	for _, s := range sections {
		for _, key := range keys(s+none, "1") {
			require.True(t, regexp.MustCompile(`(?m)(^|[\s{,])`+regexp.QuoteMeta(key)+`:`).MatchString(text), "%s%s", s, key)
		}
	}
	for _, f := range familyNames() {
		found := keys("candidates.other", "{type: "+f+", size: DN250, "+none+": 1}")
		require.Greater(t, len(found), 4, f)
		for _, key := range found {
			if key != "type" && key != "size" {
				require.True(t, strings.Contains(text, "`"+key+"`"), "%s of %s", key, f)
			}
		}
	}
}

// shownCase stands for the user's case: it has the names of the built-in example and is short to run.
const shownCase = "shown.yaml"

// shownOffers stands for the user's file of offers.
const shownOffers = "replies.yaml"

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
