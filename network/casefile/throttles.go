package casefile

import (
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
		rows, _ := s.table("opening", []column{{name: "time", dim: quantity.Time}, {name: "opening", dim: quantity.Fraction}})
		for _, row := range rows {
			t.Schedule = append(t.Schedule, network.Opening{Time: row[0], Area: row[1]})
		}
		n.Throttles = append(n.Throttles, t)
	})
}
