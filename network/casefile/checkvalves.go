package casefile

import (
	"seatwise/network"
	"seatwise/network/quantity"
)

// candidate is the word for whichever check valve is under comparison.
const candidate = "candidate"

// checkValves reads the section check valves: those that stand alone, not in a station.
func (r *reader) checkValves(root *section, n *network.Network) {
	root.named("check valves", func(name string, s *section) {
		v := network.CheckValve{Name: name}
		v.From, v.To = s.ends()
		v.Elevation, _ = s.needQuantity("elevation", quantity.Length, "102 m")
		v.Slope = s.slope("the check valve stands")
		v.CheckValve = s.fitting("valve")
		v.Upstream = s.upstream()
		n.CheckValves = append(n.CheckValves, v)
	})
}

// fitting reads which check valve stands in a place: a name from the section valves, or "" for the candidate.
func (s *section) fitting(key string) string {
	if name, ok := s.text(key); ok && name != candidate {
		return name
	}
	return ""
}
