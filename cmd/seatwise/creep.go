package main

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
)

// creeping describes the creep of the plastic walls, pipe by pipe; branches by their station.
func (d *description) creeping(n *network.Network) (texts []string) {
	add := func(what string, c network.Creep) {
		if len(c.Elements) == 0 {
			return
		}
		var parts []string
		for _, e := range c.Elements {
			parts = append(parts, d.write(e.Compliance, quantity.Compliance)+" and "+d.write(e.Time, quantity.Time))
		}
		texts = append(texts, fmt.Sprintf("Creep of %s, compliance beyond the elastic one and its retardation time: %s.", what, strings.Join(parts, "; ")))
	}
	for i := range n.Pipes {
		add(n.Pipes[i].Name, n.Pipes[i].Creep)
	}
	for _, s := range n.Stations {
		if s.Branch != nil {
			add("the branches of "+s.Name, s.Branch.Creep)
		}
	}
	return texts
}
