package casefile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/casefile"
)

// A rule, known or one's own, gives the surge allowance and says where it is from.
func TestRule(t *testing.T) {
	for words, wanted := range map[string]struct {
		name, status string
		allowance    float64
	}{
		"rule: ASME B31.4": {"ASME B31.4", "from memory; check the edition in force", 0.1},
		"rule: awwa m11":   {"AWWA M11", "from memory; check the edition in force", 0.5},
		"rule: {name: own, allowance: 15 %, status: company standard}": {"own", "company standard", 0.15},
	} {
		d, err := casefile.Read("case.yaml", []byte(strings.Replace(lift(t), "surge allowance: 10 %", words, 1)), nil)
		require.NoError(t, err)
		c, err := d.Case()
		require.NoError(t, err)
		require.NotNil(t, c.Limits.Rule, words)
		require.Equal(t, wanted.name, c.Limits.Rule.Name)
		require.Equal(t, wanted.status, c.Limits.Rule.Status)
		near(t, wanted.allowance, *c.Limits.SurgeAllowance, words)
	}
}
