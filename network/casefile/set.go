package casefile

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"seatwise/network"
	"seatwise/network/quantity"
)

// override is a value put in place of the file's.
type override struct{ path, value string }

// collections are the sections whose keys are names of the user's choice.
var collections = append([]string{"reservoirs", "demands", "stations", "pipes", "check valves", "throttling valves", candidates, "valves", "scenarios"},
	deviceSections()...)

// With is a document in which the value of a path is another one: written as in the file, a quantity with its unit, a list in brackets, a
// mapping in braces. A key that the file does not give is added; a thing that it does not have (a pipe, a candidate) is added only
// whole. The receiver stays as it is.
func (d *Document) With(path, value string) (*Document, error) {
	name := "set " + path
	lead := strings.Map(plainSpace, quantity.Printable(path)) + "="
	src, fault := newSource(name, lead, []byte(value))
	if fault != nil {
		return nil, Errors{fault}
	}
	fresh, errs := parse(src)
	if len(errs) > 0 {
		return nil, errs
	}
	if fresh.kind == empty {
		return nil, Errors{{File: name, Msg: "no value is given", Hint: "write path=value"}}
	}
	at := &node{src: src, line: 1, column: 1 - utf8.RuneCountInString(lead)}
	root, err := d.root.with(path, fresh, at)
	if err != nil {
		return nil, Errors{{File: name, Msg: err.Error(), Hint: err.hint}}
	}
	root, own, errs := withValvesFile(root, d.open)
	if len(errs) > 0 {
		return nil, errs
	}
	if p := root.get("valves"); own == nil && p != nil && d.own.holds(p.value) {
		own = d.own
	}
	return newDocument(&Document{src: d.src, raw: d.raw, root: root, open: d.open, own: own, overrides: append(slices.Clip(d.overrides), override{path, value})}), nil
}

// pathError is a path that leads nowhere.
type pathError struct{ msg, hint string }

func (e *pathError) Error() string { return e.msg }

// with is a copy of the tree n in which path leads to fresh. What lies beside the path is shared. At is where the path itself is written.
func (n *node) with(path string, fresh, at *node) (*node, *pathError) {
	steps, err := parsePath(path)
	if err != nil {
		return nil, &pathError{err.Error(), `a path is like "pipes.rising-main.bore" or "events[1].units"`}
	}
	if len(steps) > maxDepth {
		return nil, &pathError{"the path is too long", ""}
	}
	return n.replaced(steps, 0, fresh, at)
}

// replaced puts fresh at steps[i:] below n.
func (n *node) replaced(steps []step, i int, fresh, at *node) (*node, *pathError) {
	if i == len(steps) {
		return fresh, nil
	}
	s, last := steps[i], i == len(steps)-1
	copied := *n
	if s.item > 0 {
		if n.kind != list || s.item > len(n.items) {
			return nil, &pathError{fmt.Sprintf("%s has no row %d", join(steps[:i]), s.item), rows(n)}
		}
		below, err := n.items[s.item-1].replaced(steps, i+1, fresh, at)
		if err != nil {
			return nil, err
		}
		copied.items = slices.Clone(n.items)
		copied.items[s.item-1] = below
		return &copied, nil
	}
	if n.kind != mapping && n.kind != empty {
		return nil, &pathError{fmt.Sprintf("%s is %s and has no key %q", join(steps[:i]), n.kind, s.key), ""}
	}
	copied.kind, copied.keys, copied.index = mapping, nil, nil
	key := &node{kind: scalar, text: s.key, src: at.src, line: at.line, column: at.column + s.at, shown: s.key}
	found := false
	for _, p := range n.keys {
		if p.key.text == s.key {
			below, err := p.value.replaced(steps, i+1, fresh, at)
			if err != nil {
				return nil, err
			}
			if p.value, found = below, true; last {
				p.key = key // the value stands here now
			}
		}
		copied.add(p)
	}
	if found {
		return &copied, nil
	}
	if i == 1 && !last && slices.Contains(collections, steps[0].key) {
		return nil, &pathError{fmt.Sprintf("there is no %s", join(steps[:i+1])), n.near(s.key)}
	}
	below := &node{src: key.src, line: key.line, column: key.column, shown: key.shown}
	below, err := below.replaced(steps, i+1, fresh, at)
	if err != nil {
		return nil, err
	}
	copied.add(pair{key, below})
	return &copied, nil
}

// near is a hint at the keys that n has.
func (n *node) near(key string) string {
	var names []string
	for _, p := range n.keys {
		names = append(names, p.key.text)
	}
	if near := network.Nearest(key, names); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if len(names) == 0 || len(names) > 20 {
		return ""
	}
	return "there are: " + strings.Join(names, ", ")
}

func rows(n *node) string {
	if n.kind != list {
		return "it is " + n.kind.String()
	}
	return fmt.Sprintf("it has %d, counted from 1", len(n.items))
}

func join(steps []step) string {
	var b strings.Builder
	for i, s := range steps {
		if i > 0 && s.item == 0 {
			b.WriteByte('.')
		}
		b.WriteString(s.String())
	}
	if b.Len() == 0 {
		return "the case"
	}
	return b.String()
}
