package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// longestText is more than any value needs, in bytes.
const longestText = 400

// number is a decimal number found in a text.
type number struct {
	value      float64
	start, end int // byte offsets; end is past the spaces that follow
}

// parts is a number as it stands in the text. The body holds digits and every
// mark that people put between digits.
type parts struct {
	sign     string // "" or "-"
	body     string
	exponent string // "" or "e-3"
	start    int    // byte offset of the sign or body
	at       int    // byte offset of the body
	end      int    // byte offset of what follows
}

// scanNumber reads the decimal number at the beginning of text: a sign, digits
// with at most one point, an exponent. Each other way of writing a number has
// its own message, with the number as it should be written where that is clear.
func scanNumber(text string, want Dimension) (number, error) {
	refuse := func(at int, msg, hint string) (number, error) {
		return number{}, &Error{Text: text, Offset: at, Msg: msg, Hint: hint}
	}
	example := "e.g. " + want.Example()
	if len(text) > longestText {
		return refuse(0, "the text is too long for a value", example)
	}
	if at := strings.IndexByte(text, '\t'); at >= 0 {
		return refuse(at, "tab in a value", "write a space")
	}
	p := split(text)
	rest := text[p.end:]
	switch {
	case strings.TrimFunc(text, isSpace) == "":
		return refuse(0, "no value, "+want.article()+" is wanted", example)
	case p.body == "" && notFinite(rest):
		return refuse(p.at, "the value is not a finite number", "write a finite number, "+example)
	case p.body == "" && p.at > p.start && startsWithDigit(skipSpace(rest)):
		return refuse(p.start, "space after the sign", "write "+p.sign+Printable(skipSpace(rest)))
	case p.body == "":
		return refuse(p.at, "a number is wanted at "+Quote(orEnd(rest)), example)
	case isPrefixed(p.body + rest):
		return refuse(p.at, "only decimal numbers are read", example)
	}
	if at, msg := p.fault(); msg != "" {
		return refuse(p.at+at, msg, p.correction(rest))
	}
	if msg, hint := p.follow(rest, example); msg != "" {
		return refuse(p.end+len(rest)-len(skipSpace(rest)), msg, hint)
	}
	v, err := strconv.ParseFloat(p.sign+p.body+p.exponent, 64)
	switch {
	case err != nil: // the syntax is checked: the range is what is left
		return refuse(p.at, "the number is too large", "the largest is about 1e308")
	case v == 0 && strings.ContainsAny(p.body, "123456789"):
		return refuse(p.at, "the number is too small", "write 0"+Printable(rest))
	}
	return number{value: v, start: p.start, end: len(text) - len(skipSpace(rest))}, nil
}

// split finds sign, body and exponent without judging them.
func split(text string) (p parts) {
	p.start = len(text) - len(skipSpace(text))
	p.at = p.start
	switch r, n := utf8.DecodeRuneInString(text[p.at:]); r {
	case '-', '\u2212':
		p.sign = "-"
		p.at += n
	case '+':
		p.at += n
	}
	p.end = p.at
	for p.end < len(text) {
		n := markLength(text[p.end:], p.end > p.at)
		if n == 0 {
			break
		}
		p.end += n
	}
	p.body = text[p.at:p.end]
	if p.body == "" {
		return p
	}
	rest := text[p.end:]
	if rest == "" || rest[0] != 'e' && rest[0] != 'E' {
		return p
	}
	power := strings.Replace(rest[1:], "\u2212", "-", 1)
	n := 0
	if power != "" && (power[0] == '-' || power[0] == '+') {
		n = 1
	}
	digits := len(power[n:]) - len(strings.TrimLeft(power[n:], "0123456789"))
	if digits == 0 {
		return p
	}
	p.exponent = "e" + power[:n+digits]
	p.end += len(rest) - len(power) + n + digits
	return p
}

// markLength is the length in bytes of the digit, or of the mark between
// digits, at the beginning of s; 0 if there is none. A point or comma may also
// begin a number, and may be its end.
func markLength(s string, inside bool) int {
	r, n := utf8.DecodeRuneInString(s)
	digitNext := startsWithDigit(s[n:])
	switch {
	case r >= '0' && r <= '9':
		return n
	case (r == '.' || r == ',') && (inside || digitNext):
		return n
	case r == '_' && inside:
		return n
	case (r == '\'' || r == '\u2019') && inside && digitNext:
		return n
	}
	return 0
}

// fault finds the first thing in the body that has no single reading, with its
// offset in the body.
func (p parts) fault() (at int, msg string) {
	b := p.body
	if i := strings.IndexByte(b, '_'); i >= 0 {
		return i, "underscore in a number"
	}
	if i := strings.IndexAny(b, "'\u2019"); i >= 0 {
		return i, "thousands mark in a number"
	}
	if i := strings.IndexByte(b, ','); i >= 0 {
		return i, "comma in a number"
	}
	if i := strings.IndexByte(b, '.'); i != strings.LastIndexByte(b, '.') {
		return strings.LastIndexByte(b, '.'), "two points in a number"
	}
	if strings.HasSuffix(b, ".") {
		return len(b) - 1, "no digit after the point"
	}
	if len(b) > 1 && b[0] == '0' && b[1] != '.' {
		return 0, "leading zero in a number"
	}
	return 0, ""
}

// correction is the hint for a faulty body: the number, or the two numbers,
// that it may stand for.
func (p parts) correction(rest string) string {
	body := strings.NewReplacer("_", "", "'", "", "\u2019", "").Replace(p.body)
	points, commas := strings.Count(body, "."), strings.Count(body, ",")
	write := func(body string) string {
		body = strings.TrimLeft(strings.TrimSuffix(body, "."), "0")
		if body == "" || body[0] == '.' {
			body = "0" + body
		}
		return p.sign + body + p.exponent + Printable(rest)
	}
	drop := func(mark string) string { return strings.ReplaceAll(body, mark, "") }
	switch {
	case points == 1 && commas == 0, points == 0 && commas == 0:
		return "write " + write(body)
	case points == 1 && commas >= 1 && strings.LastIndex(body, ",") < strings.Index(body, "."):
		return "write " + write(drop(","))
	case commas == 1 && points >= 1 && strings.LastIndex(body, ".") < strings.Index(body, ","):
		return "write " + write(strings.Replace(drop("."), ",", ".", 1))
	case commas == 1 && points == 0 && grouped(body, ","):
		return "write " + write(drop(",")) + " or " + write(strings.Replace(body, ",", ".", 1))
	case commas == 1 && points == 0:
		return "write " + write(strings.Replace(body, ",", ".", 1))
	case points == 0 && grouped(body, ","):
		return "write " + write(drop(","))
	case commas == 0 && grouped(body, "."):
		return "write " + write(drop("."))
	}
	return "write one point for the decimals and no thousands mark"
}

// grouped holds for digits in thousands: one to three, then always three.
func grouped(body, mark string) bool {
	groups := strings.Split(body, mark)
	if n := len(groups[0]); n < 1 || n > 3 || groups[0][0] == '0' {
		return false
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

// follow looks for digits that go on where the unit should begin.
func (p parts) follow(rest, example string) (msg, hint string) {
	next := skipSpace(rest)
	thousands := len(next) < len(rest) && len(p.body) <= 3 && p.exponent == "" && !strings.Contains(p.body, ".")
	switch n := leadingDigits(next); {
	case strings.HasPrefix(next, "/") && startsWithDigit(skipSpace(next[1:])),
		n > 0 && strings.HasPrefix(next[n:], "/") && startsWithDigit(skipSpace(next[n+1:])):
		return "a common fraction is not read", "write a decimal number, " + example
	case n == 1 && next[0] == '1' && strings.HasPrefix(skipSpace(next[1:]), "/"): // 1480 1/min
		return "", ""
	case thousands && n == 3:
		joined := p.body
		for leadingDigits(next) == 3 {
			joined += next[:3]
			rest = next[3:]
			next = skipSpace(rest)
		}
		return "space inside a number", "write " + p.sign + joined + Printable(rest)
	case n > 0:
		return "a second number follows the first", "write one number, " + example
	}
	return "", ""
}

func leadingDigits(s string) int {
	return len(s) - len(strings.TrimLeft(s, "0123456789"))
}

func startsWithDigit(s string) bool { return leadingDigits(s) > 0 }

func skipSpace(s string) string { return strings.TrimLeftFunc(s, isSpace) }

func orEnd(s string) string {
	if s == "" {
		return "the end"
	}
	return s
}

// notFinite holds for the words that other readers take for infinity or for a
// missing number.
func notFinite(s string) bool {
	s = strings.ToLower(strings.TrimPrefix(s, "."))
	for _, word := range []string{"infinity", "inf", "nan", "∞"} {
		if rest, ok := strings.CutPrefix(s, word); ok && (rest == "" || isSpace([]rune(rest)[0])) {
			return true
		}
	}
	return false
}

// isPrefixed holds for hexadecimal, octal and binary numbers. A b needs a
// binary digit after it: 0bar is a pressure.
func isPrefixed(s string) bool {
	if len(s) < 3 || s[0] != '0' {
		return false
	}
	switch s[1] {
	case 'x', 'X':
		return strings.ContainsRune("0123456789abcdefABCDEF", rune(s[2]))
	case 'o', 'O':
		return strings.ContainsRune("01234567", rune(s[2]))
	case 'b', 'B':
		return s[2] == '0' || s[2] == '1'
	}
	return false
}
