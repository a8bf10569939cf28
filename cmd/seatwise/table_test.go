package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
)

func printed(t *table, width int) string {
	var buf bytes.Buffer
	t.print(&screen{Writer: &buf, width: width})
	return buf.String()
}

func sample() *table {
	t := &table{corner: "", head: []string{"plain-swing", "spring-disc"}, last: "limit"}
	t.add("highest pressure, bar", plain("11.4", "5.5"), "")
	t.add("  design pressure", []cell{{"exceeds by 2.6 bar", true}, {"meets", false}}, "8.8")
	return t
}

func TestTable(t *testing.T) {
	require.Equal(t, strings.Join([]string{
		"                              plain-swing  spring-disc  limit",
		"highest pressure, bar                11.4          5.5",
		"  design pressure      exceeds by 2.6 bar        meets    8.8",
		""}, "\n"), printed(sample(), 80))
}

func TestTableNarrow(t *testing.T) {
	require.Equal(t, strings.Join([]string{
		"plain-swing",
		"  highest pressure, bar: 11.4",
		"  design pressure 8.8: exceeds by 2.6 bar",
		"",
		"spring-disc",
		"  highest pressure, bar: 5.5",
		"  design pressure 8.8: meets",
		""}, "\n"), printed(sample(), 59))
}

func TestTableFoldsColumnsThatDoNotFit(t *testing.T) {
	tb := &table{head: []string{"candidate-number-one", "candidate-number-two", "candidate-number-three"}}
	tb.add("reverse velocity, m/s", plain("1", "2", "3"), "")
	require.Equal(t, strings.Join([]string{
		"                   candidate-number-one  candidate-number-two",
		"reverse velocity,                     1                     2",
		"m/s",
		"",
		"                   candidate-number-three",
		"reverse velocity,                       3",
		"m/s",
		""}, "\n"), printed(tb, 64))
}

func TestTableWithoutRowsPrintsNothing(t *testing.T) {
	require.Empty(t, printed(&table{head: []string{"a"}}, 80))
	require.Empty(t, printed(&table{rows: []row{{label: "x"}}}, 80))
}

func TestColourStressesOnly(t *testing.T) {
	var with, without bytes.Buffer
	sample().print(&screen{Writer: &with, width: 80, colour: true})
	sample().print(&screen{Writer: &without, width: 80})
	require.Contains(t, with.String(), "\x1b[1;31mexceeds by 2.6 bar\x1b[0m")
	bare := strings.NewReplacer("\x1b[1;31m", "", "\x1b[1m", "", "\x1b[0m", "").Replace(with.String())
	require.Equal(t, without.String(), bare)
}

func TestColumns(t *testing.T) {
	for text, want := range map[string]int{"": 0, "kg·m²": 5, "e\u0301": 1, "阀门": 4, "\u200b": 0, "Ａ": 2} {
		require.Equal(t, want, columns(text), "%q", text)
	}
}

func TestPrintable(t *testing.T) {
	require.Equal(t, " [31mred", quantity.Printable("\x1b[31mred"))
	require.Equal(t, []string{"a b"}, wrap("a\tb\n", 80))
}

// Every line of a table fits the width as long as no word is longer than a column can be, and no cell is lost.
func TestTableFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z]{1,9}`)
		text := rapid.Custom(func(t *rapid.T) string {
			return strings.Join(rapid.SliceOfN(word, 1, 5).Draw(t, "words"), " ")
		})
		n := rapid.IntRange(1, 9).Draw(t, "columns")
		tb := &table{corner: "row", head: rapid.SliceOfN(word, n, n).Draw(t, "heads"), last: rapid.SampledFrom([]string{"", "limit"}).Draw(t, "last")}
		for range rapid.IntRange(1, 4).Draw(t, "rows") {
			last := ""
			if tb.last != "" {
				last = word.Draw(t, "bound")
			}
			tb.add(text.Draw(t, "label"), plain(rapid.SliceOfN(text, n, n).Draw(t, "cells")...), last)
		}
		width := rapid.IntRange(leastWidth, 200).Draw(t, "width")
		out := printed(tb, width)
		for line := range strings.Lines(out) {
			if got := columns(strings.TrimSuffix(line, "\n")); got > width {
				t.Fatalf("%d columns in a width of %d: %q", got, width, line)
			}
		}
		for _, r := range tb.rows {
			for _, c := range r.cells {
				for w := range strings.FieldsSeq(c.text) {
					if !strings.Contains(out, w) {
						t.Fatalf("%q is lost", w)
					}
				}
			}
		}
	})
}
