package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// isSpace holds for the spaces that may separate number and unit: plain,
// no-break, figure, thin and narrow no-break.
func isSpace(r rune) bool {
	switch r {
	case ' ', '\u00a0', '\u2007', '\u2009', '\u202f':
		return true
	}
	return false
}

var replaceSigns = strings.NewReplacer(
	"⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9",
	"⁻", "-", "\u2212", "-",
	"*", "·", ".", "·", "\u22c5", "·", "\u2219", "·", "\u2022", "·",
	"\u2215", "/", "\u2044", "/",
	"\u2103", "°C", "\u2109", "°F", "º", "°", "\u02da", "°", "\u212a", "K", // single signs for degree units, look-alike rings
	"\u03bc", "µ", // Greek mu for the micro sign
)

// normalise brings the spelling of a unit to the form of the table: plain
// digits for exponents, a middle dot for every product sign, single spaces
// between words and none around operators. Letters keep their case.
func normalise(s string) string {
	s = strings.Join(strings.FieldsFunc(replaceSigns.Replace(s), isSpace), " ")
	var b strings.Builder
	var last, next rune
	runes := []rune(s)
	for i, r := range runes {
		next = 0
		if i+1 < len(runes) {
			next = runes[i+1]
		}
		switch {
		case r == ' ' && (isOperator(last) || isOperator(next)):
			continue
		case r == ' ' && last == '°':
			continue
		case r == '^' && (unicode.IsDigit(next) || next == '-'):
			continue
		case r == '-' && unicode.IsLetter(last) && unicode.IsLetter(next): // lbf-ft
			r = '·'
		}
		b.WriteRune(r)
		last = r
	}
	return b.String()
}

func isOperator(r rune) bool { return r == '/' || r == '·' || r == '(' || r == ')' }

// nearest is the hint for a spelling that is in no table: the same letters in
// another case, else the units with the fewest typing errors, else an example.
func (l lexicon) nearest(text string, want Dimension) string {
	const longest = 24 // bytes; nothing longer is a misspelt unit
	if len(text) > longest {
		return "e.g. " + want.Example()
	}
	if plain := inSymbols(text); plain != text {
		for _, s := range l.spellings {
			if _, problem := as(s.unit, want); problem == "" && s.text == plain {
				return "did you mean " + plain + "?"
			}
		}
	}
	product := strings.ReplaceAll(text, " ", "·")
	var best []string
	least := 2
	for _, s := range l.spellings {
		if _, problem := as(s.unit, want); problem != "" || s.text == "" {
			continue
		}
		if strings.EqualFold(s.text, text) || strings.EqualFold(s.text, product) {
			return "write " + s.text + ", the case of letters matters"
		}
		n := utf8.RuneCountInString(s.text)
		d := typos(s.text, product)
		if d > least || d >= n || d > 1 && n <= 3 {
			continue
		}
		if d < least {
			best, least = nil, d
		}
		best = append(best, s.text)
	}
	const most = 3
	switch n := min(len(best), most); n {
	case 0:
		return "e.g. " + want.Example()
	case 1:
		return "did you mean " + best[0] + "?"
	default:
		return "did you mean " + strings.Join(best[:n-1], ", ") + " or " + best[n-1] + "?"
	}
}

// tradeWords are words of the trade for units, with the symbols that they stand for.
var tradeWords = map[string]string{"cbm": "m3", "cum": "m3", "cms": "m3/s", "cmh": "m3/h", "lps": "l/s", "lpm": "l/min", "sec": "s", "hr": "h", "hrs": "h", "ltr": "l", "mtr": "m", "mtrs": "m"}

// inSymbols is a normalised unit with the words of the trade in it replaced by symbols.
func inSymbols(text string) string {
	parts := strings.Split(text, "/")
	for i, p := range parts {
		if symbol, ok := tradeWords[strings.ToLower(p)]; ok {
			parts[i] = symbol
		}
	}
	return strings.Join(parts, "/")
}

// typos counts the least number of inserted, missing, wrong and exchanged
// neighbouring letters between two texts, whatever their case.
func typos(a, b string) int {
	s, t := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	before, above, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range above {
		above[j] = j
	}
	for i := range s {
		row[0] = i + 1
		for j := range t {
			wrong := above[j]
			if s[i] != t[j] {
				wrong++
			}
			row[j+1] = min(wrong, above[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(t)]
}

// gd2At is the byte offset of a flywheel effect "GD2", or -1.
func gd2At(text string) int {
	for i := 0; i+2 < len(text); i++ {
		if !strings.EqualFold(text[i:i+2], "GD") {
			continue
		}
		rest := strings.TrimPrefix(text[i+2:], "^")
		if strings.HasPrefix(rest, "2") || strings.HasPrefix(rest, "²") {
			return i
		}
	}
	return -1
}

func gd2Error(text string, at int) *Error {
	return &Error{Text: text, Offset: at, Msg: gd2Msg, Hint: gd2Hint}
}
