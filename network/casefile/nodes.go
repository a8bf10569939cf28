package casefile

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/quantity"
)

// nodes reads what nodes are besides the ends of pipes: reservoirs, demands, dead ends.
func (r *reader) nodes(root *section, n *network.Network) {
	root.named("reservoirs", func(name string, s *section) {
		v := network.Reservoir{Name: name}
		s.need("level", "101.5 m")
		switch rows := s.against("level", quantity.Length); len(rows) {
		case 0:
		case 1:
			v.Level = rows[0][1]
		default:
			for _, row := range rows {
				v.Levels = append(v.Levels, network.Level{Time: row[0], Head: row[1]})
			}
		}
		n.Reservoirs = append(n.Reservoirs, v)
	})
	root.named("demands", func(name string, s *section) {
		flow, _ := s.needQuantity("flow", quantity.Flow, "20 m3/h")
		n.Demands = append(n.Demands, network.Demand{Node: name, Flow: flow})
	})
	for i, item := range root.items("dead ends", "dead ends: [node, node]") {
		path := fmt.Sprintf("dead ends[%d]", i+1)
		if item.kind == empty {
			r.failed(path, item.fault(path+" has no value", "write the name of a node"))
			r.holes = true
			continue
		}
		name, ok := r.scalar(item, path, "the name of a node")
		if !ok {
			r.holes = true
			continue
		}
		n.DeadEnds = append(n.DeadEnds, name)
	}
	if root.has("dead ends") && r.unread("dead ends") {
		r.holes = true
	}
}

// ends reads the two nodes of a pipe, station, check valve or throttling valve. Devices name theirs by their tags.
func (s *section) ends() (from, to string) {
	from, ok1 := s.needText("from", "node")
	to, ok2 := s.needText("to", "node")
	if !ok1 || !ok2 {
		s.r.holes = true
	}
	return from, to
}
