package casefile

import (
	"maps"
	"slices"
	"strings"
	"sync"

	"seatwise/network/quantity"
)

// Probes find out what a case file may hold by reading small ones: a mapping with none of its keys, then with each of them in each of the ways in
// which its value may be written. What the reader asks for in each, and what it misses, is all that is known of the case file elsewhere.

// aName is a name in the place of the user's own.
const aName = "zz"

// mappingKeys is what probing found out about one mapping.
type mappingKeys struct {
	path   string
	keys   []string
	closed bool // any other key is unknown
	bare   *survey
	alone  []probe // one key each, in the order of keys
}

// probe is the reading of a mapping that has one key.
type probe struct {
	key    string
	value  *node
	word   string // the value, where it is one of several words of which each may ask for something else
	others []string
	*survey
}

// surveyed is what probing found out about the case file.
type surveyed struct {
	mappings map[string]*mappingKeys // by path, with aName and [1] for the user's names and rows
	all      *survey                 // of all readings together
}

// surveyCase probes the case file.
var surveyCase = sync.OnceValue(func() *surveyed {
	s := &surveyed{mappings: map[string]*mappingKeys{}, all: newSurvey()}
	open := []string{""}
	for len(open) > 0 {
		path := open[0]
		open = open[1:]
		if s.mappings[path] != nil {
			continue
		}
		m := s.probe(path)
		s.mappings[path] = m
		for _, key := range m.keys {
			open = append(open, s.below(join2(path, key))...)
		}
	}
	return s
})

// below are the mappings that the value of a key may hold.
func (s *surveyed) below(path string) []string {
	var found []string
	for _, f := range s.all.forms[path] {
		switch f.kind {
		case isTable: // its columns and rows are its own
			return nil
		case isNamed:
			return []string{path + "." + aName}
		case isMapping:
			found = append(found, path)
		case isList:
			if slices.ContainsFunc(s.all.forms[path+"[1]"], func(f shape) bool { return f.kind == isMapping }) {
				found = append(found, path+"[1]")
			}
		}
	}
	return found
}

// probe reads a mapping with none of its keys, then with each alone.
func (s *surveyed) probe(path string) *mappingKeys {
	m := &mappingKeys{path: path, bare: s.reading(path, map[string]*node{})}
	s.all.join(m.bare)
	tried := map[string]int{} // by the number of forms that were known
	for {
		m.keys = s.all.asked[path]
		i := slices.IndexFunc(m.keys, func(key string) bool {
			known, done := tried[key]
			return !done || known < len(s.all.forms[join2(path, key)])
		})
		if i < 0 {
			break
		}
		key := m.keys[i]
		tried[key] = len(s.all.forms[join2(path, key)])
		m.alone = slices.DeleteFunc(m.alone, func(p probe) bool { return p.key == key })
		values, words := s.values(join2(path, key))
		for k, value := range values {
			p := probe{key: key, value: value, survey: s.reading(path, map[string]*node{key: value})}
			s.all.join(p.survey)
			if words[k] != "" {
				p.word = words[k]
				p.others = slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "" || w == words[k] })
			}
			m.alone = append(m.alone, p)
		}
	}
	m.closed = s.all.closed[path]
	return m
}

// reading reads a case that has one mapping, with these keys.
func (s *surveyed) reading(path string, keys map[string]*node) *survey {
	src := &source{name: "probe", lines: []string{""}}
	plain := func(text string) *node {
		return &node{kind: scalar, text: text, shown: text, src: src, line: 1, column: 1}
	}
	at := &node{kind: mapping, src: src, line: 1, column: 1}
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		at.add(pair{plain(key), keys[key]})
	}
	if path != "" {
		steps, err := parsePath(path)
		if err != nil {
			panic("casefile: " + err.Error())
		}
		for _, step := range slices.Backward(steps) {
			above := &node{kind: mapping, src: src, line: 1, column: 1}
			if step.item > 0 {
				above.kind, above.items = list, []*node{at}
			} else {
				above.add(pair{plain(step.key), at})
			}
			at = above
		}
	}
	own := newSurvey()
	d := &Document{src: src, root: at, survey: own}
	d.read()
	return own
}

// join adds what another reading noted. A figure may lie wherever one of them lets it.
func (v *survey) join(own *survey) {
	for path, keys := range own.asked {
		for _, key := range keys {
			v.key(path, key)
		}
	}
	for path, forms := range own.forms {
		for _, f := range forms {
			v.widen(path, f)
		}
	}
	for path, text := range own.defaults {
		if was, known := v.defaults[path]; known && was != text { // it goes by something else in the file
			text = ""
		}
		v.defaults[path] = text
	}
	for path, text := range own.helps {
		if v.helps[path] == "" {
			v.helps[path] = text
		}
	}
	maps.Copy(v.closed, own.closed)
	for path, text := range own.missed {
		if v.missed[path] == "" {
			v.missed[path] = text
		}
	}
}

// widen adds a form.
func (v *survey) widen(path string, f shape) {
	forms := v.forms[path]
	if f.kind == isText && len(forms) > 0 {
		return
	}
	if f.kind != isText {
		forms = slices.DeleteFunc(forms, func(g shape) bool { return g.kind == isText })
	}
	for i := range forms {
		g := &forms[i]
		if g.kind == f.kind && g.dim == f.dim && g.unit == f.unit {
			if f.low < g.low {
				g.low, g.above = f.low, f.above
			}
			g.above = g.above && (f.above || f.low > g.low)
			g.high = max(g.high, f.high)
			for _, w := range f.words {
				if !slices.Contains(g.words, w) {
					g.words = append(slices.Clip(g.words), w)
				}
			}
			v.forms[path] = forms
			return
		}
	}
	v.forms[path] = append(forms, f)
}

// values are samples of what a value may be, and beside those that are one of several words the word.
func (s *surveyed) values(path string) (values []*node, words []string) {
	src := &source{name: "probe", lines: []string{""}}
	one := func(n node, word string) {
		n.src, n.line, n.column, n.shown = src, 1, 1, n.text
		values, words = append(values, &n), append(words, word)
	}
	text := func(text, word string) { one(node{kind: scalar, text: text}, word) }
	table := func(columns []column) {
		row := &node{kind: list, src: src, line: 1, column: 1}
		for _, c := range columns {
			row.items = append(row.items, &node{kind: scalar, text: c.dim.Example(), src: src, line: 1, column: 1})
		}
		one(node{kind: list, items: []*node{row}}, "")
	}
	example := s.all.missed[path]
	for _, f := range s.all.forms[path] {
		switch f.kind {
		case isText:
			text(aName, aName)
			if example != "" && !strings.Contains(example, " ") {
				text(example, example)
			}
		case isWord:
			for _, w := range f.words {
				text(w, w)
			}
		case isCount:
			text("1", "")
		case isFigure:
			text(f.dim.Example(), "")
		case isDatum:
			text("1 "+f.unit, "")
		case isSize:
			text("DN250", "")
		case isTable:
			table(f.columns)
		case isList:
			one(node{kind: list, items: []*node{{kind: mapping, src: src, line: 1, column: 1}}}, "")
			one(node{kind: list, items: []*node{{kind: scalar, text: aName, src: src, line: 1, column: 1}}}, "")
		case isNamed:
			n := node{kind: mapping}
			n.add(pair{&node{kind: scalar, text: aName, src: src, line: 1, column: 1}, &node{kind: mapping, src: src, line: 1, column: 1}})
			one(n, "")
		case isMapping:
			one(node{kind: mapping}, "")
		}
	}
	if len(values) == 0 { // its reader looks at what is there before it says what it wants
		text(aName, "")
		one(node{kind: mapping}, "")
	}
	if slices.ContainsFunc(s.all.forms[path], func(f shape) bool { return f.kind == isNamed }) {
		return values[:1], words[:1]
	}
	return values, words
}

// with reads a mapping that has two keys, the second with the first of its values.
func (s *surveyed) with(m *mappingKeys, p probe, key string) *survey {
	return s.reading(m.path, map[string]*node{p.key: p.value, key: m.first(key).value})
}

// first is the probe of a key with the first of its values.
func (m *mappingKeys) first(key string) probe {
	return m.alone[slices.IndexFunc(m.alone, func(p probe) bool { return p.key == key })]
}

// clashes are the pairs of keys that cannot stand side by side.
func (s *surveyed) clashes(m *mappingKeys) [][2]string {
	every := map[string]*node{}
	for _, key := range m.keys {
		every[key] = m.first(key).value
	}
	var pairs [][2]string
	said := s.reading(m.path, every).clashes
	for i, a := range m.keys {
		for _, b := range m.keys[i+1:] {
			if !said[join2(m.path, a)] && !said[join2(m.path, b)] {
				continue
			}
			both := s.with(m, m.first(a), b)
			if both.clashes[join2(m.path, a)] || both.clashes[join2(m.path, b)] {
				pairs = append(pairs, [2]string{a, b})
			}
		}
	}
	return pairs
}

func join2(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// number tells whether a figure may stand without a unit.
func (f shape) number() bool {
	return f.kind == isFigure && (f.dim == quantity.Number || f.dim == quantity.Fraction)
}
