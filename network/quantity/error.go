package quantity

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Error tells where a text could not be read, why, and what to write instead.
type Error struct {
	Text   string // the whole text
	Offset int    // byte offset in Text of what is wrong, 0 to len(Text)
	Msg    string // what is wrong
	Hint   string // what to write, never empty
}

// Error gives the message and the hint in one line.
func (e *Error) Error() string { return e.Msg + ": " + e.Hint }

// Caret shows the text and, on a second line, a caret below the offset.
func (e *Error) Caret() string {
	blank := strings.Repeat(" ", utf8.RuneCountInString(e.Text[:e.Offset]))
	return Printable(e.Text) + "\n" + blank + "^"
}

// Printable replaces what a terminal would act on by spaces, rune by rune.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, s)
}

// Quote puts a text without the spaces around it, cut to a readable length, in
// quotation marks.
func Quote(s string) string {
	const longest = 60
	s = strings.TrimFunc(s, isSpace)
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "..."
	}
	return strconv.Quote(s)
}
