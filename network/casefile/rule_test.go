package casefile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/casefile"
	"seatwise/valve/choice"
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

// A rule that goes by durations has its options and the events a year, its own or those of the section duty.
func TestTimedRule(t *testing.T) {
	for _, c := range []struct {
		words, duty, name string
		events, allowance float64
		options           []choice.Option
	}{
		{"rule: ASME B31.3", "duty: {trips: 6}\n", "ASME B31.3", 18, 0.33, []choice.Option{{Allowance: 0.33, Longest: 36e3, Year: 36e4}, {Allowance: 0.2, Longest: 18e4, Year: 18e5}}},
		{"rule: asme b31.1\n  events a year: 2", "duty: {trips: 6}\n", "ASME B31.1", 2, 0.2, []choice.Option{{Allowance: 0.2, Longest: 3600, Year: 288e3}, {Allowance: 0.15, Longest: 28800, Year: 288e4}}},
		{"rule: {name: own, status: mine, allowances: [[12 %, 30 s, 1 h]]}\n  events a year: 3", "", "own", 3, 0.12, []choice.Option{{Allowance: 0.12, Longest: 30, Year: 3600}}},
	} {
		l := read(t, replaced(t, "surge allowance: 10 %", c.words, "limits:\n", c.duty+"limits:\n")).Limits
		require.True(t, l.Rule.Timed(), c.words)
		require.Equal(t, c.name, l.Rule.Name)
		near(t, c.events, l.Rule.Events, c.words)
		near(t, c.allowance, *l.SurgeAllowance, c.words)
		if l.Rule.Trips > 0 {
			near(t, 6, l.Rule.Trips, "of one unit")
			require.Equal(t, 3, l.Rule.Units)
			require.Contains(t, l.Rule.Words(), "18 events a year are reckoned with (6 trips of each of 3 units, counted apart), each counted as one variation. It allows 1000 of them in the life of the line, which are reached after 55.6 years.")
		}
		require.Len(t, l.Rule.Options, len(c.options))
		for i, o := range c.options {
			near(t, o.Allowance, l.Rule.Options[i].Allowance, c.words)
			near(t, o.Longest, l.Rule.Options[i].Longest, c.words)
			near(t, o.Year, l.Rule.Options[i].Year, c.words)
		}
	}
}

func TestFurtherLimits(t *testing.T) {
	l := read(t, replaced(t, "surge allowance: 10 %", "vapour margin: 2 m\n  slam class: mild\n  slam classes: {mild: 0.4 m/s}\n  margin: 10 %")).Limits
	near(t, 2, *l.VapourMargin, "vapour margin")
	near(t, 0.1, l.Margin, "margin")
	require.Equal(t, choice.SlamMild, l.SlamClass)
	require.Equal(t, choice.SlamBounds{None: 0.15, Mild: 0.4}, l.SlamBounds)
	require.Equal(t, choice.SlamBounds{}, read(t, lift(t)).Limits.SlamBounds)
	require.True(t, l.Any())
	none := read(t, lift(t)[:strings.Index(lift(t), "limits:")]+"limits: {margin: 10 %, slam classes: {none: 0.1 m/s}}\n").Limits
	require.False(t, none.Any(), "a margin of no limit")
	require.Len(t, read(t, replaced(t, "minimum pressure: -0.5 bar", "minimum pressure: 0 bar\n  margin: 10 %")).Warnings, 1)
}
