package workbook

import (
	"math"
	"regexp"
	"strings"
	"unicode"
)

// Cell is what stands in one place of a sheet: a text, a number or nothing.
type Cell struct {
	text    string
	value   float64
	number  bool
	places  int
	style   Style
	wrapped bool
	across  bool // a number to the left, a text to the right
}

// Text is a cell with a text, which stays one whatever it begins with.
func Text(s string) Cell { return Cell{text: clean(s)} }

// Science is the number of decimals of a number that is shown as a power of ten.
const Science = -1

const mostPlaces = 12

// Number is a cell with a number, shown with so many decimals. One that is not finite is the text "no value".
func Number(v float64, places int) Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Text("no value")
	}
	if v == 0 {
		v = 0 // also for negative zero
	}
	return Cell{value: v, number: true, places: min(max(places, Science), mostPlaces)}
}

// In is the cell in a style.
func (c Cell) In(st Style) Cell {
	c.style = st
	return c
}

// Wrapped is the cell with its text on as many lines as it needs.
func (c Cell) Wrapped() Cell {
	c.wrapped = true
	return c
}

// Right is a text that stands at the right, as numbers do.
func (c Cell) Right() Cell {
	c.across = true
	return c
}

// leading are the letters that make a program read a text as a formula when it is typed.
const leading = "=+-@\t\r\n"

// look is that of the cell in a column. A text beside a number keeps a distance.
func (c Cell) look(column int) look {
	l := look{style: c.style, wrapped: c.wrapped, across: c.across, apart: column > 0 && !c.number && !c.across}
	switch {
	case c.number:
		l.format = format(c.places)
	case c.text != "" && strings.ContainsRune(leading, rune(c.text[0])):
		l.format = asText
	}
	return l
}

// asText is the number format of a cell whose content is a text even when it is edited (ISO/IEC 29500-1, 18.8.30).
const asText = "@"

// format shows a number with so many decimals.
func format(places int) string {
	switch {
	case places < 0:
		return "0.0E+00"
	case places == 0:
		return "0"
	}
	return "0." + strings.Repeat("0", places)
}

// escape is what the format reads as a letter by its number; the mark of one that is meant as it stands goes before it (ISO/IEC 29500-1, 22.4.2.4).
var escape = regexp.MustCompile(`^_x[0-9A-Fa-f]{4}_`)

// stored is a text as it stands in the file. Escapes may share their underscores.
func stored(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	var b strings.Builder
	for i := range len(text) {
		if text[i] == '_' && escape.MatchString(text[i:]) {
			b.WriteString("_x005F")
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

// longestText is the most letters that a cell can hold.
const longestText = 32767

// clean makes a text fit for a cell: valid UTF-8, no control characters but tab and line feed, no longer than the format allows.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n':
			return r
		case unicode.IsControl(r):
			return ' '
		case r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	if len(s) <= longestText {
		return s
	}
	r := []rune(s)
	return string(r[:min(len(r), longestText/2)])
}
