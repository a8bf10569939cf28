package casefile

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// Bounds of one file.
const (
	maxSize  = 4 << 20 // bytes
	maxKeys  = 20_000  // keys of a case file; longer tables have rows, not keys
	maxDepth = 32      // levels of nesting
)

// source is one text with its lines: a case file, a table beside it, or the value of an override.
type source struct {
	name   string
	folder string // in which the files that it names are looked for, from that of the case; "" is that of the case
	lead   string // what stands before the text in the only line of an override, "path="; such a line has no number
	text   string // with \n line ends, without byte order mark, with plain spaces
	lines  []string
}

// newSource checks and normalises bytes, which stand behind a lead where there is one. The first fault ends the reading.
func newSource(name, lead string, raw []byte) (*source, *Error) {
	whole := func(msg, hint string) *Error { return &Error{File: name, Msg: msg, Hint: hint} }
	if len(raw) > maxSize {
		return nil, whole(fmt.Sprintf("the file has %d bytes, the limit is %d", len(raw), maxSize), "put fewer rows into its tables")
	}
	if bytes.HasPrefix(raw, []byte{0xFF, 0xFE}) || bytes.HasPrefix(raw, []byte{0xFE, 0xFF}) {
		return nil, whole("the file is UTF-16, not UTF-8", "save it as UTF-8")
	}
	text := strings.ReplaceAll(strings.TrimPrefix(string(raw), "\uFEFF"), "\r\n", "\n")
	s := &source{name: name, lead: lead, text: text, lines: strings.Split(text, "\n")}
	if err := s.characters(); err != nil {
		return nil, err
	}
	s.text = strings.Map(plainSpace, text)
	return s, nil
}

// plainSpace makes a plain space of the spaces that word processors put between number and unit.
func plainSpace(r rune) rune {
	switch r {
	case '\u00A0', '\u2007', '\u2009', '\u202F':
		return ' '
	}
	return r
}

// characters reports the first character that has no place in a case file.
func (s *source) characters() *Error {
	for i, line := range s.lines {
		column := 0
		for at := 0; at < len(line); {
			r, size := utf8.DecodeRuneInString(line[at:])
			column++
			switch {
			case r == utf8.RuneError && size == 1:
				return s.fault(i+1, column, "", fmt.Sprintf("the file is not UTF-8: byte 0x%02X", line[at]), "save it as UTF-8")
			case r == '\r' || r == '\u0085' || r == '\u2028' || r == '\u2029':
				return s.fault(i+1, column, "", fmt.Sprintf("line end U+%04X", r), "end lines with LF or CRLF")
			case r < ' ' && r != '\t', r == 0x7F, r > 0x7F && r < 0xA0:
				return s.fault(i+1, column, "", fmt.Sprintf("control character U+%04X", r), "take it out")
			case r == '\uFEFF' || r >= '\u200B' && r <= '\u200F' || r >= '\u202A' && r <= '\u202E' || r >= '\u2060' && r <= '\u2069':
				return s.fault(i+1, column, "", fmt.Sprintf("invisible character U+%04X", r), "take it out")
			case r == '\t' && !inComment(line[:at]):
				return s.fault(i+1, column, "\t", "a tab", "write spaces: YAML takes tabs in different ways")
			}
			at += size
		}
	}
	return nil
}

// inComment tells whether a line that begins with head has come to a comment.
func inComment(head string) bool {
	for i := range len(head) {
		if head[i] == '#' && (i == 0 || head[i-1] == ' ' || head[i-1] == '\t') {
			return strings.Count(head[:i], `"`)%2 == 0 && strings.Count(head[:i], "'")%2 == 0
		}
	}
	return false
}

// fault is an error at a place of s, or at the end of the line when the place lies beyond it. Columns below 1 lie in the lead.
func (s *source) fault(line, column int, text, msg, hint string) *Error {
	line = min(max(line, 1), len(s.lines))
	e := &Error{File: s.name, Line: line, Column: column, Text: text, Msg: msg, Hint: hint, line: s.lines[line-1]}
	if s.lead != "" {
		e.Line = 0
		if line == 1 {
			e.line = s.lead + e.line
			e.Column += utf8.RuneCountInString(s.lead)
		}
	}
	e.Column = min(max(e.Column, 1), utf8.RuneCountInString(e.line)+1)
	return e
}
