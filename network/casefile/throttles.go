package casefile

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
)

// throttles reads the section throttling valves.
func (r *reader) throttles(root *section, n *network.Network) {
	root.named("throttling valves", func(name string, s *section) {
		t := network.Throttle{Name: name}
		t.From, t.To = s.ends()
		t.Bore, _ = s.needQuantity("bore", quantity.Length, "400 mm")
		t.Elevation, _ = s.needQuantity("elevation", quantity.Length, "102 m")
		s.capacity(&t)
		for _, row := range s.against("opening", quantity.Fraction) {
			t.Schedule = append(t.Schedule, network.Opening{Time: row[0], Fraction: row[1]})
		}
		n.Throttles = append(n.Throttles, t)
	})
}

// capacity reads what a throttling valve lets pass, in one of four forms.
func (s *section) capacity(t *network.Throttle) {
	var given []string
	for _, key := range []string{"loss", "kv", "kv table", "loss table"} {
		if s.has(key) {
			given = append(given, key)
		}
	}
	switch {
	case len(given) == 0:
		s.need("loss", "0.2; or give kv, kv table or loss table")
	case len(given) > 1:
		s.conflict(given[1], fmt.Sprintf("%s and %s are both given", given[0], given[1]), "give one of loss, kv, kv table and loss table")
	}
	t.Loss, _ = s.quantity("loss", quantity.Number)
	t.Kv, _ = s.positive("kv", quantity.Number)
	t.KvTable, t.LossTable = s.overOpening("kv table", "kv"), s.overOpening("loss table", "loss")
	var words []string
	for _, i := range network.Inherents() {
		words = append(words, i.String())
	}
	switch word, ok := s.choose("inherent characteristic", words); {
	case ok:
		t.Inherent = network.Inherents()[slices.Index(words, word)]
	case !s.has("inherent characteristic") && !s.has("kv table") && !s.has("loss table"):
		s.r.assume(s.key("inherent characteristic"), t.Inherent.String(), Default, "", "%s: the opening is the effective area over that when open", s.path)
	}
}

// overOpening reads a table of figures over the opening.
func (s *section) overOpening(key, what string) []network.Capacity {
	rows, _ := s.table(key, []column{{name: "opening", dim: quantity.Fraction}, {name: what, dim: quantity.Number}})
	var out []network.Capacity
	for _, row := range rows {
		out = append(out, network.Capacity{Opening: row[0], Value: row[1]})
	}
	return out
}

// against reads a value against time: a table of time and value, or one value for all times, which makes a single row at 0 s.
func (s *section) against(key string, d quantity.Dimension) [][]float64 {
	p := s.take(key)
	columns := []column{{name: "time", dim: quantity.Time}, {name: key, dim: d}}
	s.r.survey.form(s.key(key), figureOf(d))
	s.r.survey.form(s.key(key), shape{kind: isTable, columns: columns})
	if p == nil {
		return nil
	}
	if p.value.kind == scalar && !strings.HasSuffix(strings.ToLower(p.value.text), ".csv") {
		x, ok := s.quantity(key, d)
		if !ok {
			return nil
		}
		return [][]float64{{0, x}}
	}
	rows, _ := s.table(key, columns)
	return rows
}
