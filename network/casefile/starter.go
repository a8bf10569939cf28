package casefile

import (
	"cmp"
	"embed"
	"fmt"
	"slices"
	"strings"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

//go:embed starters/*.yaml
var starters embed.FS

// Services are the kinds of installation that a case can be begun with: the word, and what it stands for.
var Services = []struct{ Word, Help string }{
	{"pump", "pumps lift a liquid through a short main; one of them trips"},
	{"long-main", "pumps feed a long main; all of them trip"},
	{"air-vessel", "pumps feed a main with an air vessel; all of them trip"},
}

// Starter is a case to start from, of one of the services. It can be read as it stands; every key that may be left out stands behind a # with what
// holds without it, or an example. It is false where there is no such service.
func Starter(service, title string) (string, bool) {
	raw, err := starters.ReadFile("starters/" + service + ".yaml")
	if err != nil {
		return "", false
	}
	head := fmt.Sprintf("format: %d\ntitle: %q\n", Format, title)
	doc, err := Read(service+".yaml", []byte(head+string(raw)), nil)
	if err != nil {
		panic("casefile: " + err.Error())
	}
	w := starter{surveyCase(), doc.root, defaultsOf(doc)}
	var b strings.Builder
	b.WriteString(`# A case to start from. Put the values of your installation in place of these, which are invented. Every key that may be left out stands
# behind a # with what holds without it, or with an example where nothing does: take the # away to use it.
# An editor that knows the schema of this file explains every key: see seatwise schema --help.
`)
	b.WriteString(head)
	for line := range strings.SplitSeq(strings.TrimRight(string(raw), "\n"), "\n") {
		indent, mark, ok := strings.Cut(line, "#+")
		if !ok || strings.TrimSpace(indent) != "" {
			b.WriteString(line + "\n")
			continue
		}
		for _, l := range w.optional(strings.TrimSpace(mark)) {
			b.WriteString(indent + l + "\n")
		}
	}
	return b.String(), true
}

// defaultsOf are the values that a case does not give, as one would write them, by their paths.
func defaultsOf(d *Document) map[string]string {
	found := map[string]string{}
	for _, o := range d.Origins() {
		if o.Source != Given && o.Text != "" && found[o.Path] == "" {
			found[o.Path] = o.Text
		}
	}
	c, err := d.Case()
	if err != nil {
		panic("casefile: " + err.Error())
	}
	n := c.Scenarios[0].Network
	for _, spec := range c.Candidates {
		v, err := catalogue.Complete(spec, catalogue.Setting{Density: n.Fluid.Density, Gravity: network.Gravity})
		if err != nil {
			panic("casefile: " + err.Error())
		}
		for _, datum := range v.Data {
			found["candidates."+spec.Name+"."+datum.Key] = named(datum)
		}
	}
	return found
}

// named is a datum as a case file gives it, by its word where it has one.
func named(d valve.Datum) string {
	for _, w := range (catalogue.Key{Name: d.Key}).Words() {
		if w.Value == d.Value {
			return w.Text
		}
	}
	return written(d.Value, d.Unit)
}

// starter writes the keys that a case to start from leaves out.
type starter struct {
	*surveyed
	root *node
	held map[string]string // what holds without a key, by its path
}

// optional are the lines of the keys that a mapping of the case does not give, each behind a #.
func (w starter) optional(path string) []string {
	pattern, n := w.pattern(path)
	if n.kind == list {
		return w.further(pattern+"[1]", n)
	}
	m := w.mappings[pattern]
	keys := m.keys
	known := w.all
	for _, p := range m.alone { // a type with keys of its own
		if len(p.others) > 0 && n.get(p.key) != nil && n.get(p.key).value.text == p.word {
			keys, known = p.asked[pattern], p.survey
		}
	}
	var lines []string
	for _, key := range keys {
		if n.get(key) != nil || path == "" && key == "title" {
			continue
		}
		at := join2(pattern, key)
		help := cmp.Or(helpOf(at), known.helps[at])
		value := w.held[join2(path, key)]
		if value == "" {
			value = cmp.Or(w.all.defaults[at], w.example(at))
			if w.all.defaults[at] == "" && path != "" && !strings.Contains(help, "without it") && !strings.Contains(help, "in place of") {
				help = "no default; " + help
			}
		}
		lines = append(lines, remark("# "+key+": "+value, strings.TrimSuffix(help, "; ")))
	}
	return lines
}

// pattern is a path with aName for the names of the user, and what the case has there.
func (w starter) pattern(path string) (string, *node) {
	n := w.root
	if path == "" {
		return "", n
	}
	var steps []string
	for i, s := range strings.Split(path, ".") {
		n = n.get(s).value
		if i == 1 && slices.Contains(collections, steps[0]) {
			s = aName
		}
		steps = append(steps, s)
	}
	return strings.Join(steps, "."), n
}

// further are lines of items of other kinds than the list has.
func (w starter) further(pattern string, list *node) []string {
	m := w.mappings[pattern]
	var lines []string
	for _, p := range m.alone {
		kind := len(without(m.bare.asked[pattern], p.asked[pattern])) > 0 // a key that says what the item is
		if !kind || slices.ContainsFunc(list.items, func(n *node) bool { return n.get(p.key) != nil }) {
			continue
		}
		parts := []string{p.key + ": name"}
		for _, key := range p.asked[pattern] {
			if _, must := p.missed[join2(pattern, key)]; must {
				parts = append(parts, key+": "+w.example(join2(pattern, key)))
			}
		}
		line := remark("# - {"+strings.Join(parts, ", ")+"}", helpOf(join2(pattern, p.key)))
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return lines
}

// example is what might be written at a path.
func (s *surveyed) example(path string) string {
	if text := exampleOf(path); text != "" {
		return text
	}
	forms := s.all.forms[path]
	for _, f := range forms {
		switch f.kind {
		case isNamed:
			return "{name: " + s.least(path+"."+aName) + "}"
		case isTable:
			var row []string
			for _, c := range f.columns {
				row = append(row, c.dim.Example())
			}
			return "[[" + strings.Join(row, ", ") + "]]"
		}
	}
	if wish := s.all.missed[path]; wish != "" && !strings.ContainsAny(wish, "[{;,") {
		return wish
	}
	if len(forms) == 0 {
		return "text"
	}
	switch f := forms[0]; f.kind {
	case isWord:
		return f.words[0]
	case isCount:
		return "1"
	case isFigure:
		return sampleOf(f.dim, f.low, f.high)
	case isDatum:
		return "1 " + f.unit
	case isList:
		if s.mappings[path+"[1]"] != nil {
			return "[" + s.least(path+"[1]") + "]"
		}
		return "[" + s.example(path+"[1]") + "]"
	case isMapping:
		return s.least(path)
	}
	return "name"
}

// least is a mapping with the keys that it must have, or one of its keys.
func (s *surveyed) least(path string) string {
	var parts []string
	m := s.mappings[path]
	for _, key := range m.keys {
		if _, must := m.bare.missed[join2(path, key)]; must {
			parts = append(parts, key+": "+s.example(join2(path, key)))
		}
	}
	if len(parts) == 0 && len(m.keys) > 0 {
		parts = append(parts, m.keys[0]+": "+s.example(join2(path, m.keys[0])))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// remark puts a remark behind a line, from a column on.
func remark(line, text string) string {
	const column = 42
	if text == "" {
		return line
	}
	return fmt.Sprintf("%-*s # %s", column, line, text)
}
