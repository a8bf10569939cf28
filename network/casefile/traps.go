package casefile

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/token"
)

// traps reports the first token that YAML would take in a way that its writer may not expect, or that would cost too much to read.
func traps(s *source, tokens token.Tokens) *Error {
	scan := scan{src: s, before: &token.Token{}}
	for _, t := range tokens {
		if t.Type == token.CommentType {
			continue
		}
		if err := scan.next(t); err != nil {
			return err
		}
		scan.before = t
	}
	return scan.end()
}

// scan is what has been seen of the tokens so far.
type scan struct {
	src     *source
	before  *token.Token   // the last one, comments left out
	open    []*token.Token // brackets
	indents []int          // columns of the block collections open
	keys    int
	colon   int          // line of the last colon in a block mapping
	value   *token.Token // what follows that colon on its line
}

// fault is an error at a token.
func (s *scan) fault(t *token.Token, msg, hint string) *Error {
	return s.src.fault(t.Position.Line, t.Position.Column, shown(t), msg, hint)
}

// next judges a token by itself and by what stands before it.
func (s *scan) next(t *token.Token) *Error {
	switch {
	case s.before.Type == token.DocumentEndType:
		return s.fault(t, "a second document", "one file holds one case: nothing follows the line ...")
	case t.Type == token.DocumentHeaderType && s.before.Type == token.UnknownType:
		return nil
	}
	if err := s.trap(t); err != nil {
		return err
	}
	if s.before.Type == token.MappingValueType && s.value == nil && len(s.open) == 0 && t.Position.Line == s.colon {
		s.value = t
	}
	switch t.Type {
	case token.SequenceStartType, token.MappingStartType:
		s.open = append(s.open, t)
	case token.SequenceEndType, token.MappingEndType:
		if len(s.open) == 0 || s.open[len(s.open)-1].Value != opening[t.Value] {
			return s.fault(t, fmt.Sprintf("a %s without its %s", t.Value, opening[t.Value]),
				fmt.Sprintf("write the %s, or take the %s out; a text with brackets goes in quotation marks", opening[t.Value], t.Value))
		}
		s.open = s.open[:len(s.open)-1]
	case token.SequenceEntryType:
		if len(s.open) == 0 {
			s.indent(t.Position.Column)
		}
	case token.MappingValueType:
		if err := s.key(t); err != nil {
			return err
		}
	}
	if len(s.open)+len(s.indents) > maxDepth {
		return s.fault(t, fmt.Sprintf("nested deeper than %d levels", maxDepth), "a case file needs six")
	}
	return nil
}

// key judges the colon after a key.
func (s *scan) key(colon *token.Token) *Error {
	if s.keys++; s.keys > maxKeys {
		return s.fault(colon, fmt.Sprintf("the file has more than %d keys", maxKeys), "put long tables into rows or CSV files")
	}
	if s.before.Type == token.UnknownType || s.before.Type == token.MappingValueType {
		return s.fault(colon, "a colon without a key", "write key: value")
	}
	if len(s.open) > 0 {
		return nil
	}
	s.indent(s.before.Position.Column)
	if colon.Position.Line == s.colon && s.value != nil {
		return s.fault(s.value, "a colon inside a value", "put the value in quotation marks: "+suggestion(s.src, s.value))
	}
	s.colon, s.value = colon.Position.Line, nil
	return nil
}

// indent opens a block collection at a column, which closes those further right.
func (s *scan) indent(column int) {
	for len(s.indents) > 0 && s.indents[len(s.indents)-1] >= column {
		s.indents = s.indents[:len(s.indents)-1]
	}
	s.indents = append(s.indents, column)
}

// end judges what is left open.
func (s *scan) end() *Error {
	if len(s.open) == 0 {
		return nil
	}
	last := s.open[len(s.open)-1]
	return s.fault(last, fmt.Sprintf("the %s is not closed", last.Value),
		fmt.Sprintf("write the %s that belongs to it; a text with brackets goes in quotation marks", closing[last.Value]))
}

// opening is the bracket that a bracket closes, closing the one that closes it.
var (
	opening = map[string]string{"]": "[", "}": "{"}
	closing = map[string]string{"[": "]", "{": "}"}
)

// suggestion is the value with quotation marks around it.
func suggestion(s *source, value *token.Token) string {
	line := []rune(s.lines[value.Position.Line-1])
	rest := string(line[min(value.Position.Column-1, len(line)):])
	rest, _, _ = strings.Cut(rest, " #")
	return `"` + strings.ReplaceAll(strings.TrimSpace(rest), `"`, "'") + `"`
}

// trap judges a token by itself.
func (s *scan) trap(t *token.Token) *Error {
	switch t.Type {
	case token.DocumentHeaderType:
		return s.fault(t, "a second document", "one file holds one case: take out the line ---")
	case token.DirectiveType:
		return percent(s.src, t)
	case token.AnchorType:
		return s.fault(t, "an anchor (&)", "write the values out where they are needed, or put the value in quotation marks")
	case token.AliasType:
		return s.fault(t, "an alias (*)", "write the values out where they are needed, or put the value in quotation marks")
	case token.MergeKeyType:
		return s.fault(t, "a merge (<<)", "write the values out where they are needed")
	case token.TagType:
		return s.fault(t, "a tag (!)", "take it out, or put the value in quotation marks")
	case token.LiteralType, token.FoldedType:
		return block(s.src, t, t.Value)
	case token.MappingKeyType:
		return s.fault(t, "a question mark as the mark of a key", "write key: value")
	case token.InvalidType:
		return invalid(s.src, t)
	}
	return nil
}

func percent(s *source, t *token.Token) *Error {
	if t.Position.Column == 1 {
		return s.fault(t.Position.Line, 1, "%", "a directive (%)", "take the line out")
	}
	return s.fault(t.Position.Line, t.Position.Column, "%", "a value that begins with %", "write 10 %, or put the value in quotation marks")
}

func block(s *source, t *token.Token, mark string) *Error {
	mark = mark[:1]
	return s.fault(t.Position.Line, t.Position.Column, mark, fmt.Sprintf("a text block (%s)", mark), "write the value on one line, in quotation marks if it begins with "+mark)
}

// invalid translates what the lexer could not take.
func invalid(s *source, t *token.Token) *Error {
	text := strings.TrimSpace(t.Origin)
	first := ""
	if text != "" {
		first = text[:1]
	}
	switch {
	case first == "|" || first == ">":
		return block(s, t, first)
	case first == "%":
		return percent(s, t)
	case first == "@" || first == "`":
		return s.fault(t.Position.Line, t.Position.Column, first, "a value that begins with "+first, "put the value in quotation marks")
	case first == `"` || first == "'":
		return s.fault(t.Position.Line, t.Position.Column, first, "a quotation mark is not closed, or what it holds is not right",
			fmt.Sprintf("write %s at the end of the text, on the same line; inside double marks a backslash is written twice", first))
	}
	return s.fault(t.Position.Line, t.Position.Column, shown(t), "this cannot be read: "+t.Error, "")
}
