package network

// trapped warns of nodes between valves without a pipe: once all of them are shut nothing says what their head is. Pipes, the columns and branches of
// stations, and whatever holds a head or lets liquid out do; a throttling valve that its schedule leaves open, and devices between nodes, join the nodes at their ends.
func (c *checker) trapped(n *Network) {
	parts := sets{}
	var ends []end // at which a valve may shut
	var elastic []string
	for _, r := range n.Reservoirs {
		elastic = append(elastic, r.Name)
	}
	for _, p := range n.Pipes {
		elastic = append(elastic, p.From, p.To)
	}
	for _, s := range n.Stations {
		at := "stations." + s.Name
		ends = append(ends, end{at + ".from", s.From}, end{at + ".to", s.To})
		if s.Column.Length > 0 {
			elastic = append(elastic, s.From)
		}
		if s.Branch != nil {
			elastic = append(elastic, s.To)
		}
	}
	for _, v := range n.CheckValves {
		at := "check valves." + v.Name
		ends = append(ends, end{at + ".from", v.From}, end{at + ".to", v.To})
	}
	for _, t := range n.Throttles {
		if t.shuts() {
			at := "throttling valves." + t.Name
			ends = append(ends, end{at + ".from", t.From}, end{at + ".to", t.To})
		} else {
			parts.join(t.From, t.To)
		}
	}
	for _, d := range n.Devices {
		from, to := d.Ends()
		if to != "" {
			parts.join(from, to)
			continue
		}
		switch d.(type) {
		case *AirVessel, *SurgeTank, *Outlet:
			elastic = append(elastic, from)
		}
	}
	held := map[string]bool{}
	for _, node := range elastic {
		held[parts.root(node)] = true
	}
	for _, e := range ends {
		if root := parts.root(e.node); !held[root] {
			held[root] = true // said once
			c.warn(e.path, "join the valves by the pipe that lies between them", "node %q lies between valves without a pipe: if all of them are shut at a time, its head is not known and the run fails", e.node)
		}
	}
}

// shuts tells whether the schedule shuts the valve at any time.
func (t *Throttle) shuts() bool {
	for _, o := range t.Schedule {
		if o.Fraction == 0 {
			return true
		}
	}
	return false
}
