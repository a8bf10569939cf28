package casefile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"seatwise/network/quantity"
)

// Error is one fault of a case file or of a file that it names.
type Error struct {
	File         string // as it was named
	Line, Column int    // from 1; columns count characters, not bytes. Line 0: the text has no lines (path=value), or the file as a whole
	Text         string // the offending text; may be empty
	Msg          string // what is wrong
	Hint         string // what was expected or what to write; may be empty

	line string // the whole line, for the excerpt
}

// Error is the message with its place, an excerpt with a caret below the offending text, and the hint.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", e.Line, e.Column)
	}
	b.WriteString(": " + clip(quantity.Printable(e.Msg)))
	if e.Column > 0 {
		b.WriteString(e.excerpt())
	}
	if e.Hint != "" {
		b.WriteString("\n    hint: " + clip(quantity.Printable(e.Hint)))
	}
	return b.String()
}

// excerpt is the line with carets below the offending text. Of a long line only the surroundings are shown.
func (e *Error) excerpt() string {
	const before, width = 50, 100
	line := []rune(e.line)
	from := max(0, min(e.Column-1, len(line)))
	marks := max(1, min(utf8.RuneCountInString(e.Text), len(line)-from, width))
	left := 0
	if from+marks > width {
		left = from - min(from, before)
	}
	right := min(len(line), left+width)
	marks = max(1, min(marks, right-from))
	lead, tail := "", ""
	if left > 0 {
		lead = "..."
	}
	if right < len(line) {
		tail = "..."
	}
	gutter := "\n      | "
	if e.Line > 0 {
		gutter = fmt.Sprintf("\n%5d | ", e.Line)
	}
	return gutter + lead + quantity.Printable(string(line[left:right])) + tail +
		"\n" + strings.Repeat(" ", len(gutter)-3) + "| " + strings.Repeat(" ", len(lead)+from-left) + strings.Repeat("^", marks)
}

// clip cuts a message that has become long because a name in it is.
func clip(s string) string {
	const longest = 400
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "..."
	}
	return s
}

// Errors are all the faults found, in the order of the file.
type Errors []*Error

// mostShown is the number of errors that are printed.
const mostShown = 50

// Error prints the errors one after the other.
func (e Errors) Error() string {
	var b strings.Builder
	for i, one := range e {
		if i == mostShown {
			fmt.Fprintf(&b, "\n... and %d more", len(e)-i)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(one.Error())
	}
	return b.String()
}

// Unwrap gives the errors one by one.
func (e Errors) Unwrap() []error {
	out := make([]error, len(e))
	for i, one := range e {
		out[i] = one
	}
	return out
}

// sorted are the errors by file and place, each once. File is the case, whose errors come first.
func (e Errors) sorted(file string) Errors {
	slices.SortStableFunc(e, func(a, b *Error) int {
		other := func(x *Error) int {
			if x.File == file {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(other(a), other(b)), cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.CompactFunc(e, func(a, b *Error) bool {
		return a.File == b.File && a.Line == b.Line && a.Column == b.Column && a.Msg == b.Msg
	})
}

// orNil is nil, and not an Errors that holds nothing, when there is no error.
func (e Errors) orNil() error {
	if len(e) == 0 {
		return nil
	}
	return e
}
