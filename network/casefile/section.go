package casefile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
)

// section reads one mapping of the file. It remembers the keys asked for: any other key of the mapping is unknown.
type section struct {
	r     *reader
	path  string
	node  *node // nil: the section is absent, every key is missing but not missed
	at    *node // what to point at when a key is missing
	asked []string
}

// section opens the mapping of a pair; nil opens an absent one.
func (r *reader) section(p *pair, path string) *section {
	s := &section{r: r, path: path}
	r.survey.form(path, shape{kind: isMapping})
	switch {
	case p == nil:
	case p.value.kind != mapping:
		r.failed(path, p.value.fault(fmt.Sprintf("%s is %s, keys with values are wanted", path, p.value.kind), "write its keys below it, or in braces"))
	default:
		s.node, s.at = p.value, p.key
		if s.at == nil {
			s.at = p.value
		}
	}
	return s
}

// key is the path of a key of s.
func (s *section) key(key string) string {
	if s.path == "" {
		return key
	}
	return s.path + "." + key
}

// has tells whether the file has the key at all.
func (s *section) has(key string) bool { return s.node.get(key) != nil }

// hasOther tells whether the file has a key that is none of those.
func (s *section) hasOther(keys ...string) bool {
	return slices.ContainsFunc(s.node.keys, func(p pair) bool { return !slices.Contains(keys, p.key.text) })
}

// take is the pair of a key, nil when it is absent or has no value; the latter is reported.
func (s *section) take(key string) *pair {
	s.r.survey.key(s.path, key)
	if !slices.Contains(s.asked, key) {
		s.asked = append(s.asked, key)
	}
	p := s.node.get(key)
	if p != nil && p.value.kind == empty {
		if s.r.unread(s.key(key)) {
			return nil
		}
		s.r.failed(s.key(key), p.key.fault(fmt.Sprintf("%s has no value", key), "write it after the colon, or take the key out"))
		return nil
	}
	return p
}

// need reports a missing key. Example is what to write.
func (s *section) need(key, example string) *pair {
	p := s.take(key)
	if p == nil && s.node != nil && !s.has(key) {
		s.r.survey.miss(s.key(key), example)
		hint := "write " + key + ": " + example
		// A misspelt key is reported as unknown, with the key that was meant: no need to miss it as well.
		// Nor does a key that has ended up inside the value before it, for want of a comma.
		for _, given := range s.node.keys {
			if strings.Contains(given.value.text, " "+key+": ") ||
				network.Nearest(given.key.text, []string{key}) == key && !slices.Contains(s.asked, given.key.text) {
				s.r.fail(s.key(key))
				return nil
			}
		}
		where := s.path
		if where == "" {
			s.r.failed(key, s.at.fault(key+" is missing", hint))
		} else {
			s.r.failed(s.key(key), s.at.fault(fmt.Sprintf("%s: %s is missing", where, key), hint))
		}
	}
	return p
}

// done reports the keys that nobody asked for.
func (s *section) done() {
	s.r.survey.close(s.path)
	if s.node == nil {
		return
	}
	for _, p := range s.node.keys {
		name := p.key.text
		if slices.Contains(s.asked, name) {
			continue
		}
		hint := "keys here: " + strings.Join(s.asked, ", ")
		if near := meant(name, s.asked); near != "" {
			hint = near
		}
		what := fmt.Sprintf("unknown key %s in %s", quantity.Quote(name), s.path)
		if s.path == "" {
			what = "unknown key " + quantity.Quote(name)
		}
		// A whole section unknown, or something that joins nodes in a place where nothing does: the nodes it names are not to be missed.
		if s.path == "" || name == "from" || name == "to" || p.value.names("from", "to") {
			s.r.holes = true
		}
		s.r.failed(s.key(name), p.key.fault(what, hint))
	}
}

// scalar is the text of a value that must be one.
func (r *reader) scalar(n *node, path, wanted string) (string, bool) {
	r.survey.text(path)
	if n.kind != scalar {
		r.failed(path, n.fault(fmt.Sprintf("%s is %s, %s is wanted", path, n.kind, wanted), ""))
		return "", false
	}
	if !n.quoted && strings.Contains(n.text, ": ") {
		r.failed(path, n.fault("a colon inside a value", fmt.Sprintf("put the value in quotation marks, %q, or write the comma before the next key", n.text)))
		return "", false
	}
	r.given(path, n.text)
	return n.text, true
}

// quantity reads a value of a dimension, SI. An absolute pressure becomes gauge.
func (r *reader) quantity(n *node, path string, d quantity.Dimension) (float64, bool) {
	r.survey.form(path, figureOf(d))
	text, ok := r.scalar(n, path, article(d.String()))
	if !ok {
		return 0, false
	}
	q, err := quantity.Parse(text, d)
	if err != nil {
		r.failed(path, unreadable(n, path, err))
		return 0, false
	}
	if d == quantity.Pressure && q.Absolute {
		return q.SI - r.atmosphere, true
	}
	return q.SI, true
}

// unreadable is the error of package quantity at the place of n.
func unreadable(n *node, path string, err error) *Error {
	e, ok := err.(*quantity.Error)
	if !ok {
		return n.fault(path+": "+err.Error(), "")
	}
	hint := e.Hint
	if number, ok := strings.CutSuffix(hint, " m"); ok && small(path) && strings.Contains(e.Msg, "has no unit") {
		hint = number + " mm or " + strings.TrimPrefix(number, "write ") + " m"
	}
	if per, ok := amounts[path]; ok {
		if figure := leadingNumber(n.text); figure != "" {
			hint = "write " + figure + ": " + per + ", in the currency of the case"
		}
	}
	return n.fault(path+": "+e.Msg, hint)
}

// amounts are the keys of amounts of money, which have no unit in a case, with what each is for.
var amounts = map[string]string{"economics.energy price": "per kWh", "economics.price of a swing valve": "for one valve"}

// leadingNumber is the number with which a text begins, or "".
func leadingNumber(text string) string {
	head, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	if _, err := strconv.ParseFloat(head, 64); err != nil {
		return ""
	}
	return head
}

// small tells whether the key at the end of a path is one whose length may well be meant in millimetres; heads, levels and lengths of pipes are not.
func small(path string) bool {
	key := path[strings.LastIndex(path, ".")+1:]
	last := key[strings.LastIndex(key, " ")+1:]
	return slices.Contains([]string{"bore", "wall", "roughness", "size", "travel", "arm", "diameter", "eccentricity"}, last)
}

func article(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

// quantity reads the value of an optional key.
func (s *section) quantity(key string, d quantity.Dimension) (float64, bool) {
	p := s.take(key)
	s.r.survey.form(s.key(key), figureOf(d))
	if p != nil {
		return s.r.quantity(p.value, s.key(key), d)
	}
	return 0, false
}

// needQuantity reads the value of a key that must be there.
func (s *section) needQuantity(key string, d quantity.Dimension, example string) (float64, bool) {
	p := s.need(key, example)
	s.r.survey.form(s.key(key), figureOf(d))
	if p != nil {
		return s.r.quantity(p.value, s.key(key), d)
	}
	return 0, false
}

// positive reads an optional quantity that no installation has at zero or below.
func (s *section) positive(key string, d quantity.Dimension) (float64, bool) {
	x, ok := s.quantity(key, d)
	s.r.survey.form(s.key(key), shape{kind: isFigure, dim: d, above: true, high: math.Inf(1)})
	if ok && x <= 0 {
		p := s.node.get(key)
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), "give a value above zero"))
		return 0, false
	}
	return x, ok
}

// needPositive is needQuantity for a quantity above zero.
func (s *section) needPositive(key string, d quantity.Dimension, example string) (float64, bool) {
	p := s.need(key, example)
	s.r.survey.form(s.key(key), shape{kind: isFigure, dim: d, above: true, high: math.Inf(1)})
	if p == nil {
		return 0, false
	}
	return s.positive(key, d)
}

// text reads an optional text.
func (s *section) text(key string) (string, bool) {
	p := s.take(key)
	s.r.survey.text(s.key(key))
	if p != nil {
		return s.r.scalar(p.value, s.key(key), "a text")
	}
	return "", false
}

// needText reads a text that must be there.
func (s *section) needText(key, example string) (string, bool) {
	p := s.need(key, example)
	s.r.survey.text(s.key(key))
	if p == nil {
		return "", false
	}
	return s.text(key)
}

// count reads a whole number of things.
func (s *section) count(key string) (int, bool) {
	p := s.take(key)
	s.r.survey.form(s.key(key), shape{kind: isCount})
	if p == nil {
		return 0, false
	}
	text, ok := s.r.scalar(p.value, s.key(key), "a whole number")
	if !ok {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || strconv.Itoa(n) != text {
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s: %s is not a whole number", s.key(key), quantity.Quote(text)), "write digits only, without a unit, e.g. 2"))
		return 0, false
	}
	return n, true
}

// choose reads a text that must be one of some words.
func (s *section) choose(key string, words []string) (string, bool) {
	s.r.survey.form(s.key(key), shape{kind: isWord, words: words})
	text, ok := s.text(key)
	if !ok || slices.Contains(words, text) {
		return text, ok
	}
	hint := "one of: " + strings.Join(words, ", ")
	if near := network.Nearest(text, words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	s.r.failed(s.key(key), s.node.get(key).value.fault(fmt.Sprintf("%s: there is no %s", s.key(key), quantity.Quote(text)), hint))
	return "", false
}

// items opens a list; a single thing is no list.
func (s *section) items(key, wanted string) []*node {
	p := s.take(key)
	s.r.survey.form(s.key(key), shape{kind: isList})
	if p == nil {
		return nil
	}
	if p.value.kind != list {
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s, a list is wanted", s.key(key), p.value.kind), "write "+wanted))
		return nil
	}
	return p.value.items
}

// most are the numbers of things that one case may have, mostDevices those of each kind of device; they bound the work of checking it.
const mostDevices = 1000

var most = map[string]int{
	"reservoirs": 1000, "demands": 5000, "pipes": 5000, "check valves": 100, "throttling valves": 1000, "stations": 100, "candidates": 50, offered: 50, "valves": 500, "scenarios": 50,
}

// unnamed tells whether a section that lists things by name has the keys of one thing in their place.
func (s *section) unnamed() bool {
	own := false
	for i := range s.node.keys {
		p := &s.node.keys[i]
		if p.value.kind == mapping || p.value.kind == empty {
			return false
		}
		own = own || slices.Contains([]string{"at", "from", "to", "type", "level"}, p.key.text)
	}
	return own
}

// named opens each thing of a mapping of named things.
func (s *section) named(key string, each func(name string, s *section)) {
	limit, ok := most[key]
	if !ok {
		limit = mostDevices
	}
	s.r.survey.form(s.key(key), shape{kind: isNamed, most: limit})
	all := s.r.section(s.take(key), s.key(key))
	if all.node == nil {
		if s.has(key) {
			s.r.holes = true
		}
		return
	}
	if all.unnamed() {
		first := &all.node.keys[0]
		s.r.failed(s.key(key), first.key.fault(fmt.Sprintf("%s are listed by name, these are the keys of one", s.key(key)),
			fmt.Sprintf("write a name before them: %s: {name: {%s: %s, ...}}", key, first.key.text, first.value.text)))
		s.r.holes = true
		return
	}
	for i := range all.node.keys {
		p := &all.node.keys[i]
		if i == limit {
			s.r.failed(s.key(key), p.key.fault(fmt.Sprintf("more than %d %s", i, key), "make a second case"))
			s.r.holes = true
			return
		}
		path := all.key(p.key.text)
		if p.value.kind == empty {
			s.r.failed(path, p.key.fault(path+" has no value", "write its keys below it, or take it out"))
			s.r.holes = true
			continue
		}
		one := s.r.section(p, path)
		if one.node == nil {
			s.r.holes = true
			continue
		}
		each(p.key.text, one)
		one.done()
	}
}
