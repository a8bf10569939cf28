package casefile

import (
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
		t.Loss, _ = s.needQuantity("loss", quantity.Number, "0.2")
		for _, row := range s.against("opening", quantity.Fraction) {
			t.Schedule = append(t.Schedule, network.Opening{Time: row[0], Area: row[1]})
		}
		n.Throttles = append(n.Throttles, t)
	})
}

// against reads a value against time: a table of time and value, or one value for all times, which makes a single row at 0 s.
func (s *section) against(key string, d quantity.Dimension) [][]float64 {
	p := s.take(key)
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
	rows, _ := s.table(key, []column{{name: "time", dim: quantity.Time}, {name: key, dim: d}})
	return rows
}
