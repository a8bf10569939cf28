package quantity

import "strings"

const spaces = "[ \u00a0\u2007\u2009\u202f]"

// numberPattern is a decimal number with its sign and exponent.
const numberPattern = "[+\u2212-]?([0-9]+([.][0-9]+)?|[.][0-9]+)([eE][+\u2212-]?[0-9]+)?"

// Pattern is a regular expression that every text which [Parse] accepts for d matches as a whole, in the form common to ECMA-262 and package regexp.
// It lets some texts pass that Parse refuses, as 007 m; what it refuses has no number, no unit or one of another dimension.
func Pattern(d Dimension) string {
	var units []string
	seen := map[string]bool{}
	bare := false
	for _, s := range index[dimensionTable[d].units].spellings {
		if _, problem := as(s.unit, d); problem != "" {
			continue
		}
		p := unitPattern(s.text)
		bare = bare || p == ""
		if p != "" && !seen[p] {
			seen[p] = true
			units = append(units, p)
		}
	}
	p := "^" + spaces + "*" + numberPattern + spaces + "*"
	if len(units) > 0 {
		p += "(" + strings.Join(units, "|") + ")"
	}
	if bare && len(units) > 0 {
		p += "?"
	}
	return p + spaces + "*$"
}

// RatePattern is that of a number with any unit behind it, for units that have no dimension of their own.
func RatePattern() string { return "^" + spaces + "*" + numberPattern + spaces + "*[^0-9 ].*$" }

// unitPattern is the pattern of one spelling of the table in all the ways in which [normalise] reads it.
func unitPattern(text string) string {
	var b strings.Builder
	runes := []rune(text)
	for i, r := range runes {
		switch {
		case r == '·':
			b.WriteString("(" + spaces + "*[·⋅∙•*.-]" + spaces + "*|" + spaces + "+)")
		case r == '/':
			b.WriteString(spaces + "*[/\u2215\u2044]" + spaces + "*")
		case r == ' ':
			b.WriteString("(" + spaces + "*[·⋅∙•*.-]" + spaces + "*|" + spaces + "+)")
		case r == '(' || r == ')':
			b.WriteString(spaces + "*[" + string(r) + "]" + spaces + "*")
		case r == '-':
			b.WriteString("\\^?[-\u2212⁻]")
		case r == '°' && i+1 < len(runes) && (runes[i+1] == 'C' || runes[i+1] == 'F'):
			b.WriteString("(" + string([]rune{'\u2103' + (runes[i+1]-'C')*2}) + "|[°º\u02da]" + spaces + "*" + string(runes[i+1]) + ")")
		case i > 0 && runes[i-1] == '°' && (r == 'C' || r == 'F'): // written with the degree sign
		case r == '°':
			b.WriteString("[°º\u02da]" + spaces + "*")
		case r == 'K':
			b.WriteString("[K\u212a]")
		case r == 'µ':
			b.WriteString("[µ\u03bc]")
		case r >= '0' && r <= '9':
			b.WriteString("\\^?[" + string(r) + string([]rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[r-'0']) + "]")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
