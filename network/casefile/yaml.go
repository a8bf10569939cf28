package casefile

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// parse makes a tree of a source. A fault of syntax is reported alone; keys given twice are reported together.
func parse(s *source) (root *node, errs Errors) {
	defer func() {
		// The library may meet a text that it was not written for; that is a fault of the text and no reason to stop the program.
		if r := recover(); r != nil {
			root, errs = nil, Errors{s.fault(1, 1, "", fmt.Sprintf("this is not YAML: %v", r), "check the indentation, the brackets and the colons")}
		}
	}()
	tokens := lexer.Tokenize(s.text)
	if err := traps(s, tokens); err != nil {
		return nil, Errors{err}
	}
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return nil, Errors{syntax(s, err)}
	}
	t := tree{src: s}
	root = &node{src: s, line: 1, column: 1}
	for _, d := range file.Docs {
		if d.Body != nil {
			root = t.node(d.Body)
		}
	}
	return root, t.errs
}

// tree turns the library's tree into ours.
type tree struct {
	src  *source
	errs Errors
}

func (t *tree) node(a ast.Node) *node {
	n := &node{src: t.src}
	if tk := a.GetToken(); tk != nil {
		n.line, n.column, n.shown = tk.Position.Line, tk.Position.Column, shown(tk)
	}
	switch a := a.(type) {
	case *ast.MappingNode:
		n.kind = mapping
		if a.IsFlowStyle && a.Start != nil {
			n.line, n.column, n.shown = a.Start.Position.Line, a.Start.Position.Column, "{"
		}
		for _, v := range a.Values {
			t.pair(n, v, a.IsFlowStyle)
		}
		if !a.IsFlowStyle && len(n.keys) > 0 {
			k := n.keys[0].key
			n.line, n.column, n.shown = k.line, k.column, k.shown
		}
	case *ast.MappingValueNode:
		n.kind = mapping
		t.pair(n, a, false)
		k := n.keys[0].key
		n.line, n.column, n.shown = k.line, k.column, k.shown
	case *ast.SequenceNode:
		n.kind = list
		for _, v := range a.Values {
			n.items = append(n.items, t.node(v))
		}
	case *ast.NullNode:
		if a.Token.Type != token.ImplicitNullType {
			n.kind, n.text = scalar, a.Token.Value
		}
	default:
		tk := a.GetToken()
		n.kind, n.text = scalar, tk.Value
		n.quoted = tk.Type == token.SingleQuoteType || tk.Type == token.DoubleQuoteType
		if !n.quoted && strings.HasPrefix(n.text, "%") {
			t.errs = append(t.errs, percent(t.src, tk))
		}
	}
	return n
}

// pair adds a key with its value to the mapping n.
func (t *tree) pair(n *node, v *ast.MappingValueNode, flow bool) {
	key := t.node(v.Key)
	key.kind = scalar
	value := &node{src: t.src, line: key.line, column: key.column, shown: key.shown}
	if v.Value != nil {
		if value = t.node(v.Value); value.kind == empty {
			value.line, value.column, value.shown = key.line, key.column, key.shown
		}
	}
	if k := len(n.keys) - 1; k >= 0 && value.kind == empty && flow {
		if e := comma(n.keys[k].value, key); e != nil {
			t.errs = append(t.errs, e)
			return
		}
	}
	if first := n.get(key.text); first != nil {
		t.errs = append(t.errs, key.fault(fmt.Sprintf("key %q is given twice", key.text), fmt.Sprintf("it stands in line %d already", first.key.line)))
		return
	}
	n.add(pair{key, value})
}

// comma is the error of a comma inside a number, which has cut it into two values; nil when a and b are no such halves.
func comma(a, b *node) *Error {
	whole := strings.TrimLeft(a.text, "+-\u2212")
	number, unit, _ := strings.Cut(b.text, " ")
	if a.kind != scalar || b.kind != scalar || a.quoted || b.quoted || !digits(whole) || !digits(number) {
		return nil
	}
	right := strings.TrimSpace(a.text + "." + number + " " + unit)
	if len(number) == 3 && whole != "0" {
		right = strings.TrimSpace(a.text+number+" "+unit) + " or " + right
	}
	return a.src.fault(a.line, a.column, a.text+","+b.text, "comma in a number", "write "+right)
}

func digits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
