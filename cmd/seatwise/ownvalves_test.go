package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
)

// TestOwnValvesInREADME puts the valves that the README explains into the file that it names, and its candidates into the built-in example.
func TestOwnValvesInREADME(t *testing.T) {
	raw, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, text, ok := strings.Cut(string(raw), "\n### Your own valves\n")
	require.True(t, ok)
	parts := strings.SplitN(text, "```", 5)
	require.Len(t, parts, 5)
	valves, use := strings.TrimPrefix(parts[1], "yaml\n"), strings.TrimPrefix(parts[3], "yaml\n")
	src, err := examples.Files.ReadFile(builtIn)
	require.NoError(t, err)
	before, rest, ok := strings.Cut(string(src), "candidates:\n")
	require.True(t, ok)
	_, after, ok := strings.Cut(rest, "\n\n")
	require.True(t, ok)
	doc, err := casefile.Read(builtIn, []byte(before+use+"\n"+after), fstest.MapFS{"own-valves.yaml": {Data: []byte(valves)}}.ReadFile)
	require.NoError(t, err)
	c, err := doc.Case()
	require.NoError(t, err)
	require.Len(t, c.Candidates, 3)
	require.Equal(t, "valve plain-swing of own-valves.yaml, but for hinge friction", c.Candidates[1].Source)
	for _, v := range c.Candidates {
		_, err := install(c, &c.Scenarios[0], v)
		require.NoError(t, err)
	}
}
