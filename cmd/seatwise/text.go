package main

import (
	"strings"
	"unicode"

	"seatwise/network/quantity"
)

// wide are the scripts whose letters take two columns of a terminal.
var wide = []*unicode.RangeTable{unicode.Han, unicode.Hangul, unicode.Hiragana, unicode.Katakana, fullWidth}

var fullWidth = &unicode.RangeTable{R16: []unicode.Range16{{Lo: 0xFF01, Hi: 0xFF60, Stride: 1}, {Lo: 0xFFE0, Hi: 0xFFE6, Stride: 1}}}

// columns is the width of a text on a terminal: marks that sit on another letter take none, wide letters take two.
func columns(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case unicode.In(r, wide...):
			n += 2
		default:
			n++
		}
	}
	return n
}

// unbroken is a space at which no line breaks.
const unbroken = '\u00a0'

// printable leaves of a text what can be shown in one line, its unbroken spaces among them.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == unbroken {
			return r
		}
		return []rune(quantity.Printable(string(r)))[0]
	}, s)
}

// wrap breaks a text at its spaces into lines of at most width columns; a longer word stands alone.
func wrap(s string, width int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range strings.FieldsFunc(printable(s), func(r rune) bool { return r == ' ' }) {
		word = strings.ReplaceAll(word, string(unbroken), " ")
		n := columns(word)
		if used > 0 && used+1+n > width {
			lines = append(lines, line)
			line, used = "", 0
		}
		if used > 0 {
			line, used = line+" ", used+1
		}
		line, used = line+word, used+n
	}
	if used > 0 || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// padLeft and padRight fill a text with spaces to a width.
func padLeft(s string, width int) string  { return blank(width-columns(s)) + s }
func padRight(s string, width int) string { return s + blank(width-columns(s)) }

func blank(n int) string { return strings.Repeat(" ", max(0, n)) }
