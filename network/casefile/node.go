package casefile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// kind is the form of a node.
type kind uint8

const (
	empty   kind = iota // a key without a value
	scalar              // a text: every number is one until its unit is known
	mapping             // keys with values
	list                // items
)

func (k kind) String() string {
	return [...]string{"nothing", "a text", "keys with values", "a list"}[k]
}

// node is a value of a case file with its place.
type node struct {
	kind   kind
	text   string // of a scalar
	quoted bool   // the scalar stands in quotation marks
	keys   []pair // of a mapping, in the order of the file
	index  map[string]int
	items  []*node

	src          *source
	line, column int
	shown        string // the text as it stands in the file, for the caret
}

// pair is a key with its value.
type pair struct {
	key   *node // a scalar
	value *node
}

// get is the pair of a key; nil when the mapping has none.
func (n *node) get(key string) *pair {
	if n == nil {
		return nil
	}
	if i, ok := n.index[key]; ok {
		return &n.keys[i]
	}
	return nil
}

// names tells whether a mapping with one of the keys stands in n.
func (n *node) names(keys ...string) bool {
	for _, p := range n.keys {
		if slices.Contains(keys, p.key.text) || p.value.names(keys...) {
			return true
		}
	}
	return slices.ContainsFunc(n.items, func(item *node) bool { return item.names(keys...) })
}

// add puts a pair at the end of a mapping.
func (n *node) add(p pair) {
	if n.index == nil {
		n.index = map[string]int{}
	}
	n.index[p.key.text] = len(n.keys)
	n.keys = append(n.keys, p)
}

// fault is an error at the place of n.
func (n *node) fault(msg, hint string) *Error {
	return n.src.fault(n.line, n.column, n.shown, msg, hint)
}

// step is one part of a path: a key, or the number of an item from 1.
type step struct {
	key  string
	item int
	at   int // where the key begins in the path, in characters
}

func (s step) String() string {
	if s.item > 0 {
		return fmt.Sprintf("[%d]", s.item)
	}
	return s.key
}

// parsePath splits "pipes.rising-main.profile[2][1]".
func parsePath(path string) ([]step, error) {
	var steps []step
	at := 0
	for part := range strings.SplitSeq(path, ".") {
		key, rest, _ := strings.Cut(part, "[")
		begin := at + utf8.RuneCountInString(key) - utf8.RuneCountInString(strings.TrimLeft(key, " "))
		at += utf8.RuneCountInString(part) + 1
		key = strings.TrimSpace(key)
		if key == "" {
			return nil, fmt.Errorf("%q is no path: a key is empty", path)
		}
		steps = append(steps, step{key: key, at: begin})
		for rest != "" {
			number, after, ok := strings.Cut(rest, "]")
			n, err := strconv.Atoi(number)
			if !ok || err != nil || n < 1 {
				return nil, fmt.Errorf("%q is no path: [ wants the number of a row from 1 and ]", path)
			}
			steps = append(steps, step{item: n})
			if rest = after; rest != "" {
				if rest[0] != '[' {
					return nil, fmt.Errorf("%q is no path: %q follows a row", path, rest)
				}
				rest = rest[1:]
			}
		}
		if strings.HasSuffix(part, "[") {
			return nil, fmt.Errorf("%q is no path: [ wants the number of a row from 1 and ]", path)
		}
	}
	return steps, nil
}

// child is the pair of one step down; the key of an item is nil.
func (n *node) child(s step) *pair {
	switch {
	case n == nil:
		return nil
	case s.item == 0:
		return n.get(s.key)
	case n.kind == list && s.item <= len(n.items):
		return &pair{value: n.items[s.item-1]}
	}
	return nil
}

// place is the node that path leads to, or the last one on the way that exists: its value where the path is found, its key where only a
// part of it is.
func (n *node) place(path string) *node {
	steps, err := parsePath(path)
	if err != nil {
		return n
	}
	at := n
	for i, s := range steps {
		p := n.child(s)
		switch {
		case p == nil:
			return at
		case p.key != nil && (i < len(steps)-1 || p.value.kind != scalar):
			at = p.key
		default:
			at = p.value
		}
		n = p.value
	}
	return at
}

// written is the text that path leads to; "" when there is none.
func (n *node) written(path string) string {
	steps, err := parsePath(path)
	if err != nil {
		return ""
	}
	for _, s := range steps {
		p := n.child(s)
		if p == nil {
			return ""
		}
		n = p.value
	}
	return n.text
}
