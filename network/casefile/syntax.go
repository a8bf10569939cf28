package casefile

import (
	"errors"
	"strings"

	yaml "github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/token"
)

// shown is the part of a token that stands on its line.
func shown(t *token.Token) string {
	text, _, _ := strings.Cut(strings.TrimSpace(t.Origin), "\n")
	if text == "" {
		text = t.Value
	}
	return strings.TrimSpace(text)
}

// syntaxes puts the parser's complaints into the words of this package.
var syntaxes = []struct{ theirs, msg, hint string }{
	{"mapping value is not allowed in this context", "a key inside a value", "indent the keys of one mapping alike, and nothing below a value"},
	{"value is not allowed in this context", "this does not fit what stands before it", "check the indentation and the brackets"},
	{"non-map value is specified", "a key with a colon is wanted here", "write key: value, with a space after the colon"},
	{"map key definition includes an implicit line break", "a key that goes over two lines", "write key: value, with a space after the colon"},
	{"unexpected key name", "a key that goes over two lines, or no key", "write key: value, with a space after the colon"},
	{"block sequence entries are not allowed in this context", "a list cannot begin here", "begin it on a line of its own, or write it as [a, b]"},
	{"',' or ']' must be specified", "a list is not closed", "write ] at its end and a comma between its items"},
	{"sequence end token ']' not found", "a list is not closed", "write ] at its end and a comma between its items"},
	{"',' or '}' must be specified", "a brace is not closed", "write } at its end and a comma between its keys"},
	{"could not find flow mapping end token '}'", "a brace is not closed", "write } at its end and a comma between its keys"},
	{"could not find flow map content", "a brace holds nothing here", "write key: value between commas"},
	{"expected sequence element, but found ','", "a comma with nothing before it", "take it out or write the item"},
	{"unexpected scalar value type", "an item is wanted here", "write a value; take out a comma too many"},
	{"could not find '[' character", "a ] without a [", "take it out or write the ["},
	{"could not find '{' character", "a } without a {", "take it out or write the {"},
	{"unexpected directive value", "a value that begins with %", "write 10 %, or put the value in quotation marks"},
}

// syntax translates the parser's error.
func syntax(s *source, err error) *Error {
	var theirs yaml.Error
	if !errors.As(err, &theirs) || theirs.GetToken() == nil {
		return s.fault(1, 1, "", "this is not YAML: "+err.Error(), "")
	}
	t := theirs.GetToken()
	line, column := t.Position.Line, t.Position.Column
	for _, x := range syntaxes {
		if strings.HasPrefix(theirs.GetMessage(), x.theirs) {
			return s.fault(line, column, shown(t), x.msg, x.hint)
		}
	}
	return s.fault(line, column, shown(t), "this is not YAML: "+theirs.GetMessage(), "check the indentation, the brackets and the colons")
}
