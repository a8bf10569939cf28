package casefile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/casefile"
)

// TestStarterRunsAsItStands reads each case to start from, and once more with each of its optional lines in turn: none of them has a key, a unit or a form
// that is unknown, and those with a default change nothing that can be wrong.
func TestStarterRunsAsItStands(t *testing.T) {
	schema := resolved(t, casefile.CaseFile)
	for i, service := range casefile.Services {
		text, ok := casefile.Starter(service.Word, "Trial: line")
		require.True(t, ok)
		c, err := document(t, text).Case()
		require.NoError(t, err, service.Word)
		require.Equal(t, "Trial: line", c.Title)
		require.NotEmpty(t, c.Candidates)
		require.NoError(t, schema.Validate(instance(t, text)))
		if i > 0 { // the keys are the same
			continue
		}
		lines := strings.Split(text, "\n")
		optional, clean := 0, 0
		for k, line := range lines {
			indent, rest, ok := strings.Cut(line, "# ")
			if !ok || strings.TrimSpace(indent) != "" || !strings.Contains(rest, ": ") || k < 4 || strings.HasPrefix(rest, "valves: ") {
				continue
			}
			optional++
			one := strings.Join(append(append(append([]string{}, lines[:k]...), indent+rest), lines[k+1:]...), "\n")
			d, err := casefile.Read("case.yaml", []byte(one), nil)
			require.NoError(t, err, rest)
			if _, err = d.Case(); err == nil {
				clean++
				continue
			}
			for _, wrong := range []string{"unknown key", "unknown unit", "has no unit", " is wanted", "cannot be read", "there is no type"} {
				require.NotContains(t, err.Error(), wrong, rest)
			}
		}
		require.Greater(t, optional, 80)
		require.Greater(t, clean, 60)
	}
	_, ok := casefile.Starter("river", "x")
	require.False(t, ok)
}
