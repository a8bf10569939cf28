package casefile

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/google/jsonschema-go/jsonschema"

	"seatwise/network/quantity"
)

// FileKind is a kind of file that has a schema.
type FileKind uint8

// The kinds of files.
const (
	CaseFile       FileKind = iota // one installation with its candidates
	ValvesFile                     // check valves that cases name
	CandidatesFile                 // candidates alone, for a characteristic or a fit
	OffersFile                     // what makers offer for a case
)

// FileKinds are all kinds of files with a schema, in words.
func FileKinds() []string { return []string{"case", "valves", "candidates", "offers"} }

// draft is the version of JSON Schema that is written.
const draft = "https://json-schema.org/draft/2020-12/schema"

// Schema describes a kind of file as a JSON Schema, draft 2020-12. It is made of what the readers ask for. What only shows when values are held against
// each other, as a branch with a wall thicker than its bore, a schema cannot tell: that is left to the reader.
func Schema(k FileKind) *jsonschema.Schema {
	root := wholeCase().CloneSchemas()
	names := root.Properties["valves"]
	root.Properties["valves"] = &jsonschema.Schema{Description: sentence(helpOf("valves")), AnyOf: []*jsonschema.Schema{names, fileName(valvesEndings.of, "the name of a YAML file of valves, in the folder of the case or below it")}}
	root.Title = "Case of seatwise"
	root.Description = "One installation with the check valves under comparison. Every quantity carries its unit."
	part := func(required []string, keys ...string) {
		properties := map[string]*jsonschema.Schema{}
		for _, key := range keys {
			properties[key] = root.Properties[key]
		}
		root.Properties, root.PropertyOrder, root.Required, root.AllOf = properties, keys, required, nil
	}
	switch k {
	case CaseFile:
	case ValvesFile:
		part([]string{"format", "valves"}, "format", "title", "note", "valves")
		root.Properties["valves"] = names
		root.Title, root.Description = "Check valves for cases of seatwise", "Check valves that several cases have in common. A case names the file as its valves."
	case CandidatesFile:
		part([]string{"format"}, "format", "title", "note", "fluid", "atmosphere", "candidates", "valves")
		root.AllOf = []*jsonschema.Schema{anyOf("candidates", "valves")}
		root.AdditionalProperties = nil // of a case no other section is read
		root.Title, root.Description = "Check valves alone", "Check valves without an installation, for seatwise characteristic and seatwise fit."
	case OffersFile:
		root.Properties["currency"] = &jsonschema.Schema{Types: []string{"string", "number", "boolean"}, Description: "Of the prices: any text. Default: that of the economics of the case."}
		root.Properties[offered] = offersOf(root.Properties[candidates])
		part([]string{"format", offered}, "format", "title", "note", "currency", offered)
		root.Title, root.Description = "Offers for a case of seatwise", "What makers reply. A datum that is left out is a gap. For seatwise offers."
	}
	root.Schema = draft
	return root
}

// wholeCase is the schema of what the reader of a case asks for. It is not to be changed.
var wholeCase = sync.OnceValue(func() *jsonschema.Schema {
	w := schemaWriter{surveyCase(), map[string]*jsonschema.Schema{}}
	root := w.mapping("")
	root.Defs = w.defs
	return root
})

// schemaWriter turns what is known of the case file into a schema.
type schemaWriter struct {
	*surveyed
	defs map[string]*jsonschema.Schema
}

// mapping is the schema of a mapping and of all below it.
func (w schemaWriter) mapping(path string) *jsonschema.Schema {
	m := w.mappings[path]
	s := &jsonschema.Schema{Type: "object", Properties: map[string]*jsonschema.Schema{}, PropertyOrder: slices.Clone(m.keys)}
	for _, key := range m.keys {
		s.Properties[key] = w.value(m, key, w.all)
	}
	if m.closed {
		s.AdditionalProperties = &jsonschema.Schema{Not: &jsonschema.Schema{}}
	}
	for _, both := range w.clashes(m) {
		s.AllOf = append(s.AllOf, &jsonschema.Schema{Not: &jsonschema.Schema{Required: both[:]}})
	}
	w.musts(m, s)
	w.choices(m, s)
	return s
}

// value is the schema of a key: what it is, then how it is written.
func (w schemaWriter) value(m *mappingKeys, key string, known *survey) *jsonschema.Schema {
	path := join2(m.path, key)
	var ways []*jsonschema.Schema
	var words []string
	forms := known.forms[path]
	named := slices.ContainsFunc(forms, func(f shape) bool { return f.kind == isNamed || f.kind == isTable })
	for _, f := range forms {
		if named && f.kind == isMapping {
			continue
		}
		ways = append(ways, w.way(path, f)...)
		if text := inForm(f, w.example(path)); text != "" {
			words = append(words, text)
		}
	}
	s := &jsonschema.Schema{}
	switch len(ways) {
	case 0:
	case 1:
		s = ways[0]
	default:
		s.AnyOf = ways
	}
	var about []string
	if text := cmp.Or(helpOf(path), known.helps[path]); text != "" {
		about = append(about, sentence(text))
	}
	if len(words) > 0 {
		about = append(about, sentence(strings.Join(words, "; or ")))
	}
	if usual := w.all.defaults[path]; usual != "" {
		about = append(about, "Default: "+usual+".")
		if s.Ref == "" || len(ways) == 1 {
			s.Default, _ = json.Marshal(usual)
		}
	}
	s.Description = strings.Join(about, " ")
	return s
}

// way is a schema of one form of a value. It has no description.
func (w schemaWriter) way(path string, f shape) []*jsonschema.Schema {
	switch f.kind {
	case isText:
		return []*jsonschema.Schema{{Types: []string{"string", "number", "boolean"}}}
	case isWord:
		list := enum(f.words)
		if f.free {
			return []*jsonschema.Schema{list, {Type: "string"}}
		}
		return []*jsonschema.Schema{list}
	case isCount:
		zero := 0.0
		return []*jsonschema.Schema{{Type: "integer", Minimum: &zero}, {Type: "string", Pattern: "^(0|[1-9][0-9]*)$"}}
	case isFigure:
		return w.figure(f)
	case isDatum:
		return []*jsonschema.Schema{{Type: "string", Pattern: quantity.RatePattern()}}
	case isSize:
		return []*jsonschema.Schema{{Type: "string", Pattern: "^(DN ?[1-9][0-9]{1,3}|[Nn][Pp][Ss].*)$"}, w.unit(quantity.Length)}
	case isTable:
		return w.table(f.columns)
	case isList:
		return []*jsonschema.Schema{{Type: "array", Items: w.items(path + "[1]")}}
	case isNamed:
		return []*jsonschema.Schema{w.named(path, f)}
	case isMapping:
		return []*jsonschema.Schema{w.mapping(path)}
	}
	return nil
}

// named is the schema of things by their names.
func (w schemaWriter) named(path string, f shape) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "object", PropertyNames: &jsonschema.Schema{Pattern: validName.String()}, AdditionalProperties: w.mapping(path + "." + aName)}
	if f.most > 0 {
		s.MaxProperties = &f.most
	}
	s.Description = sentence(helpOf(path))
	return s
}

// items is the schema of the items of a list.
func (w schemaWriter) items(path string) *jsonschema.Schema {
	if w.mappings[path] != nil {
		return w.mapping(path)
	}
	var ways []*jsonschema.Schema
	for _, f := range w.all.forms[path] {
		ways = append(ways, w.way(path, f)...)
	}
	if len(ways) == 1 {
		return ways[0]
	}
	return &jsonschema.Schema{AnyOf: ways}
}

// figure is a number with its unit, or alone where its dimension needs none.
func (w schemaWriter) figure(f shape) []*jsonschema.Schema {
	text := w.unit(f.dim)
	if !f.number() {
		return []*jsonschema.Schema{text}
	}
	number := &jsonschema.Schema{Type: "number"}
	if low := f.low; !math.IsInf(low, 0) {
		if number.Minimum = &low; f.above {
			number.Minimum, number.ExclusiveMinimum = nil, &low
		}
	}
	if high := f.high; !math.IsInf(high, 0) {
		number.Maximum = &high
	}
	return []*jsonschema.Schema{number, text}
}

// unit refers to the schema of a text with a number and a unit of a dimension.
func (w schemaWriter) unit(d quantity.Dimension) *jsonschema.Schema {
	name := strings.ReplaceAll(d.String(), " ", "-")
	if w.defs[name] == nil {
		w.defs[name] = &jsonschema.Schema{Type: "string", Pattern: quantity.Pattern(d)}
	}
	return &jsonschema.Schema{Ref: "#/$defs/" + name}
}

// table are the three forms of a table.
func (w schemaWriter) table(columns []column) []*jsonschema.Schema {
	var cells []*jsonschema.Schema
	least, one := 0, 1
	for _, c := range columns {
		cell := &jsonschema.Schema{AnyOf: w.figure(figureOf(c.dim))}
		if len(cell.AnyOf) == 1 {
			cell = cell.AnyOf[0]
		}
		cells = append(cells, cell)
		if !c.optional {
			least++
		}
	}
	most := len(columns)
	row := &jsonschema.Schema{Type: "array", PrefixItems: cells, MinItems: &least, MaxItems: &most}
	headed := &jsonschema.Schema{Type: "object", Required: []string{"columns", "rows"}, PropertyOrder: []string{"columns", "rows"}, AdditionalProperties: &jsonschema.Schema{Not: &jsonschema.Schema{}},
		Properties: map[string]*jsonschema.Schema{
			"columns": {Type: "array", Items: &jsonschema.Schema{Type: "string"}, MinItems: &least, MaxItems: &most},
			"rows":    {Type: "array", MinItems: &one, Items: &jsonschema.Schema{Type: "array", Items: &jsonschema.Schema{Types: []string{"number", "string"}}, MinItems: &least, MaxItems: &most}},
		}}
	return []*jsonschema.Schema{{Type: "array", Items: row, MinItems: &one}, headed, fileName(tableEndings.of, "")}
}

// musts says which keys must be there, and which of several.
func (w schemaWriter) musts(m *mappingKeys, s *jsonschema.Schema) {
	for _, key := range m.keys {
		if _, need := m.bare.missed[join2(m.path, key)]; !need {
			continue
		}
		instead := []string{key}
		for _, p := range m.alone {
			if _, still := p.missed[join2(m.path, key)]; !still && !slices.Contains(instead, p.key) {
				instead = append(instead, p.key)
			}
		}
		if len(instead) == 1 {
			s.Required = append(s.Required, key)
			continue
		}
		s.AllOf = append(s.AllOf, anyOf(instead...))
	}
	for _, p := range m.alone {
		for _, key := range m.keys {
			if key == p.key || slices.Contains(s.Required, key) {
				continue
			}
			if _, need := p.missed[join2(m.path, key)]; !need {
				continue
			}
			if _, anyway := m.bare.missed[join2(m.path, key)]; anyway && m.misses(p.key, key) {
				continue
			}
			instead := []string{key}
			for _, other := range m.keys {
				if other == key || other == p.key {
					continue
				}
				both := w.with(m, p, other)
				if _, still := both.missed[join2(m.path, key)]; !still && len(both.clashes) == 0 {
					instead = append(instead, other)
				}
			}
			s.AllOf = append(s.AllOf, &jsonschema.Schema{If: p.is(), Then: anyOf(instead...)})
		}
	}
	s.AllOf = merged(s.AllOf)
}

// misses tells whether a key is missed whatever the value of another.
func (m *mappingKeys) misses(of, key string) bool {
	return !slices.ContainsFunc(m.alone, func(p probe) bool {
		_, missed := p.missed[join2(m.path, key)]
		return p.key == of && !missed
	})
}

// choices says which keys go with a key, or with a word that it may be, and what they mean there.
func (w schemaWriter) choices(m *mappingKeys, s *jsonschema.Schema) {
	for _, p := range m.alone {
		then := &jsonschema.Schema{}
		if gone := w.gone(m, p); len(gone) > 0 {
			then.PropertyNames = enum(without(m.keys, gone))
		}
		if len(p.others) > 0 {
			for _, key := range p.asked[m.path] {
				own := w.value(m, key, p.survey)
				if whole := s.Properties[key]; key != p.key && len(p.forms[join2(m.path, key)]) > 0 && !same(own, whole) {
					if then.Properties == nil {
						then.Properties = map[string]*jsonschema.Schema{}
					}
					then.Properties[key] = own
					then.PropertyOrder = append(then.PropertyOrder, key)
				}
			}
		}
		if then.PropertyNames != nil || then.Properties != nil {
			s.AllOf = append(s.AllOf, &jsonschema.Schema{If: p.is(), Then: then})
		}
	}
}

// gone are the keys that are unknown beside the key of a probe.
func (w schemaWriter) gone(m *mappingKeys, p probe) []string {
	return slices.DeleteFunc(without(m.bare.asked[m.path], p.asked[m.path]), func(key string) bool {
		return slices.Contains(w.with(m, p, key).asked[m.path], key)
	})
}

// is holds of a mapping with the key of the probe, and with its word where that matters.
func (p probe) is() *jsonschema.Schema {
	s := &jsonschema.Schema{Required: []string{p.key}}
	var word any = p.word
	switch {
	case len(p.others) == 0:
	case p.word == aName: // any text but the others
		s.Properties = map[string]*jsonschema.Schema{p.key: {Not: &jsonschema.Schema{Pattern: anyCase(p.others)}}}
	default:
		s.Properties = map[string]*jsonschema.Schema{p.key: {Const: &word}}
	}
	return s
}

// anyCase is a pattern of some words in any case of letters.
func anyCase(words []string) string {
	var b strings.Builder
	b.WriteString("^(")
	for i, word := range words {
		if i > 0 {
			b.WriteByte('|')
		}
		for _, r := range word {
			if unicode.IsLetter(r) {
				fmt.Fprintf(&b, "[%c%c]", unicode.ToUpper(r), unicode.ToLower(r))
			} else {
				b.WriteRune(r)
			}
		}
	}
	return b.String() + ")$"
}

// merged are conditions in which those of one cause say all that follows from it.
func merged(all []*jsonschema.Schema) []*jsonschema.Schema {
	var out []*jsonschema.Schema
	for _, s := range all {
		i := slices.IndexFunc(out, func(o *jsonschema.Schema) bool {
			return s.If != nil && o.If != nil && same(s.If, o.If) && o.Then.AnyOf == nil && s.Then.AnyOf == nil
		})
		switch {
		case i < 0 && !slices.ContainsFunc(out, func(o *jsonschema.Schema) bool { return same(o, s) }):
			out = append(out, s)
		case i >= 0:
			for _, key := range s.Then.Required {
				if !slices.Contains(out[i].Then.Required, key) {
					out[i].Then.Required = append(out[i].Then.Required, key)
				}
			}
		}
	}
	return out
}

// anyOf holds of a mapping that has one of some keys.
func anyOf(keys ...string) *jsonschema.Schema {
	if len(keys) == 1 {
		return &jsonschema.Schema{Required: keys}
	}
	s := &jsonschema.Schema{}
	for _, key := range keys {
		s.AnyOf = append(s.AnyOf, &jsonschema.Schema{Required: []string{key}})
	}
	return s
}

func fileName(endings []string, help string) *jsonschema.Schema {
	var all []string
	for _, e := range endings {
		all = append(all, strings.TrimPrefix(strings.TrimPrefix(anyCase([]string{e}), "^(."), "("))
	}
	for i := range all {
		all[i] = strings.TrimSuffix(all[i], ")$")
	}
	return &jsonschema.Schema{Type: "string", Pattern: "[.](" + strings.Join(all, "|") + ")$", Description: help}
}

func enum(words []string) *jsonschema.Schema {
	s := &jsonschema.Schema{}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

// without are the texts of a that are not in b.
func without(a, b []string) []string {
	return slices.DeleteFunc(slices.Clone(a), func(x string) bool { return slices.Contains(b, x) })
}

func same(a, b *jsonschema.Schema) bool {
	x, errX := json.Marshal(a)
	y, errY := json.Marshal(b)
	return errX == nil && errY == nil && string(x) == string(y)
}
