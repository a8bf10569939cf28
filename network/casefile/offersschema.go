package casefile

import (
	"slices"

	"github.com/google/jsonschema-go/jsonschema"
)

// quoted are the keys of an offer that no candidate has, with what they mean.
var quoted = []struct{ key, help string }{
	{"maker", "The maker. Must be given."},
	{"model", "What the maker calls the valve."},
	{"reference", "Of the letter or quotation."},
	{"date", "Of the quotation."},
	{"delivery", "In the words of the maker, e.g. 14 weeks."},
	{"note", "Anything else."},
}

// offersOf makes of the schema of the candidates that of offers, which have the keys of a candidate that names no other valve, and those of a quotation.
// It changes what it is given.
func offersOf(named *jsonschema.Schema) *jsonschema.Schema {
	text := func(help string) *jsonschema.Schema {
		return &jsonschema.Schema{Types: []string{"string", "number", "boolean"}, Description: help}
	}
	one := named.AdditionalProperties
	var keys []string
	for _, q := range quoted {
		one.Properties[q.key] = text(q.help)
		keys = append(keys, q.key)
	}
	mentions := func(s *jsonschema.Schema) bool {
		return s != nil && (slices.Contains(s.Required, "valve") || slices.ContainsFunc(s.AnyOf, func(a *jsonschema.Schema) bool { return slices.Contains(a.Required, "valve") }))
	}
	delete(one.Properties, "valve")
	one.PropertyOrder = append(keys, slices.DeleteFunc(slices.Clone(one.PropertyOrder), func(k string) bool { return k == "valve" })...)
	one.AllOf = slices.DeleteFunc(one.AllOf, func(s *jsonschema.Schema) bool { return mentions(s) || mentions(s.Not) })
	for _, s := range one.AllOf {
		if s.Then != nil && s.Then.PropertyNames != nil {
			for _, k := range keys {
				s.Then.PropertyNames.Enum = append(s.Then.PropertyNames.Enum, k)
			}
		}
	}
	one.Required = []string{"maker", "type", "size"}
	named.Description = "What makers offer, each by a name of one's own."
	return named
}
