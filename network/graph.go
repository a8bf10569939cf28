package network

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// link is a pipe, station, valve or device between two nodes, seen as an edge of the graph.
type link struct {
	path     string // of the item
	from, to string
	lossless bool
}

func (n *Network) links() []link {
	var links []link
	for _, s := range n.Stations {
		links = append(links, link{path: "stations." + s.Name, from: s.From, to: s.To})
	}
	for _, p := range n.Pipes {
		links = append(links, link{path: "pipes." + p.Name, from: p.From, to: p.To})
	}
	for _, v := range n.CheckValves {
		links = append(links, link{path: "check valves." + v.Name, from: v.From, to: v.To})
	}
	for _, t := range n.Throttles {
		links = append(links, link{path: "throttling valves." + t.Name, from: t.From, to: t.To, lossless: t.lossless()})
	}
	for _, d := range n.Devices {
		section, name := d.Label()
		if from, to := d.Ends(); to != "" || between(d) {
			links = append(links, link{path: section + "." + name, from: from, to: to})
		}
	}
	return links
}

// between tells whether a device stands between two nodes.
func between(d Device) bool {
	return slices.ContainsFunc(Fields(d), func(f Field) bool { return f.Key == "to" })
}

// taps are the namings of nodes by devices between a node and the surroundings.
func (n *Network) taps() []end {
	var taps []end
	for _, d := range n.Devices {
		section, name := d.Label()
		if at, to := d.Ends(); to == "" && !between(d) {
			taps = append(taps, end{section + "." + name + ".at", at})
		}
	}
	return taps
}

// manyFindings is the number of findings after which nobody reads hints, and looking for near names is too dear.
const manyFindings = 100

// end is one naming of a node by a link.
type end struct{ path, node string }

// ValidateGraph checks what the items make together.
func (n *Network) ValidateGraph() []Finding {
	var c checker
	c.graph(n)
	return c.findings
}

func (c *checker) graph(n *Network) {
	links := n.links()
	if len(links) == 0 {
		c.fault("stations", "give stations, pipes or check valves", "there is nothing between the nodes")
		return
	}
	var ends []end
	for _, l := range links {
		ends = append(ends, end{l.path + ".from", l.from}, end{l.path + ".to", l.to})
	}
	taps := n.taps()
	before := len(c.findings)
	c.nodes(n, append(ends, taps...))
	for _, l := range links {
		if l.from != "" && l.from == l.to {
			c.fault(l.path+".to", "name another node", "both ends are at node %q", l.from)
		}
	}
	if len(n.Reservoirs) == 0 {
		c.fault("reservoirs", "give at least one reservoir with its level", "no node has a fixed head")
	}
	if len(c.findings) > before {
		return // names that miss each other make every later finding a repetition
	}
	c.connected(links, taps)
	c.lossless(n, links)
	c.trapped(n)
	c.elevations(n)
}

// nodes checks that the names of nodes meet each other.
func (c *checker) nodes(n *Network, ends []end) {
	count := map[string]int{}
	spelt := map[string]string{} // first spelling by lower case
	var names []string
	for _, e := range ends {
		if e.node == "" {
			continue // the reader has said so
		}
		if count[e.node]++; count[e.node] == 1 {
			names = append(names, e.node)
		}
	}
	special := map[string]string{} // what a node is besides the end of a link
	reservoir := map[string]bool{}
	for _, r := range n.Reservoirs {
		special[r.Name] = "reservoirs."
		reservoir[r.Name] = true
	}
	for _, d := range n.Demands {
		special[d.Node] = "demands."
	}
	for _, name := range n.DeadEnds {
		special[name] = "dead ends."
	}
	known := slices.Clone(names)
	for name := range special {
		if count[name] == 0 {
			known = append(known, name)
		}
	}
	slices.Sort(known)
	near := func(name string) string {
		if len(c.findings) > manyFindings {
			return ""
		}
		return Nearest(name, slices.DeleteFunc(slices.Clone(known), func(s string) bool { return s == name }))
	}
	hint := func(name, otherwise string) string {
		if other := near(name); other != "" {
			return fmt.Sprintf("did you mean %q?", other)
		}
		return otherwise
	}
	once := func(name string) bool { return count[name] == 1 && special[name] == "" && nameForm.MatchString(name) }
	reported := map[string]bool{}
	for _, e := range ends {
		if e.node == "" || reported[e.node] {
			continue
		}
		if !nameForm.MatchString(e.node) {
			c.fault(e.path, "names are letters, digits and hyphens, not starting with a hyphen", "%q is not a name", e.node)
			reported[e.node] = true
			continue
		}
		key := strings.ToLower(e.node)
		if first, ok := spelt[key]; ok && first != e.node {
			c.fault(e.path, "names are unique ignoring case", "nodes %q and %q differ only by case", first, e.node)
			reported[e.node] = true
			continue
		}
		spelt[key] = e.node
		if !once(e.node) {
			continue
		}
		reported[e.node] = true
		if other := near(e.node); once(other) && near(other) == e.node && !strings.EqualFold(e.node, other) { // which of the two is misspelt cannot be told
			at := ends[slices.IndexFunc(ends, func(x end) bool { return x.node == other })].path
			c.fault(e.path, "if they are one node, write the same name here and at "+at, "node %q is named only here, and %q only at %s", e.node, other, at)
			reported[other] = true
			continue
		}
		c.fault(e.path, hint(e.node, "join something to it, or list it under reservoirs, demands or dead ends"), "node %q is named only here", e.node)
	}
	unknown := func(path, node string) {
		if count[node] == 0 {
			c.fault(path, hint(node, "nodes exist by being named in from or to"), "nothing is joined to node %q", node)
		}
	}
	for _, r := range n.Reservoirs {
		unknown("reservoirs."+r.Name, r.Name)
	}
	for _, d := range n.Demands {
		unknown("demands."+d.Node, d.Node)
		if special[d.Node] == "dead ends." {
			c.fault("demands."+d.Node, "take it from dead ends", "node %q is a demand and a dead end", d.Node)
		}
		if reservoir[d.Node] {
			c.fault("demands."+d.Node, "a reservoir gives whatever is taken", "node %q is a reservoir and a demand", d.Node)
		}
	}
	for i, name := range n.DeadEnds {
		path := fmt.Sprintf("dead ends[%d]", i+1)
		unknown(path, name)
		if count[name] > 1 {
			c.fault(path, "take it from dead ends", "node %q is no dead end: it is named %d times", name, count[name])
		}
		if reservoir[name] {
			c.fault(path, "take it from dead ends", "node %q is a reservoir and a dead end", name)
		}
	}
}

// sets are disjoint sets of nodes.
type sets map[string]string

func (s sets) root(x string) string {
	for {
		up, ok := s[x]
		if !ok {
			return x
		}
		if top, ok := s[up]; ok {
			s[x] = top // halves the path for the next call
		}
		x = up
	}
}

// join unites the sets of a and b and reports whether they were apart.
func (s sets) join(a, b string) bool {
	a, b = s.root(a), s.root(b)
	if a == b {
		return false
	}
	s[b] = a
	return true
}

// connected reports each part that does not hang together with the first one.
func (c *checker) connected(links []link, taps []end) {
	parts := sets{}
	for _, l := range links {
		parts.join(l.from, l.to)
	}
	first := parts.root(links[0].from)
	reported := map[string]bool{first: true}
	for _, l := range links {
		root := parts.root(l.from)
		if reported[root] {
			continue
		}
		reported[root] = true
		c.fault(l.path, "one case is one installation: join the parts or make two cases", "%q and %q are not connected with %q", l.from, l.to, links[0].from)
	}
	for _, t := range taps {
		if root := parts.root(t.node); !reported[root] {
			reported[root] = true
			c.fault(t.path, "let a pipe, station or valve end there", "nothing but devices is at node %q", t.node)
		}
	}
}

// lossless reports throttling valves without loss that leave the flow undetermined: a loop of them, or a chain between two fixed heads.
func (c *checker) lossless(n *Network, links []link) {
	const fixed = "" // one node for all fixed heads; no node has an empty name
	head := map[string]string{}
	for _, r := range n.Reservoirs {
		head[r.Name] = fixed
	}
	at := func(node string) string {
		if _, ok := head[node]; ok {
			return fixed
		}
		return node
	}
	apart, merged := sets{}, sets{} // fixed heads as nodes of their own, and as one
	for _, l := range links {
		if !l.lossless {
			continue
		}
		tree := apart.join(l.from, l.to)
		switch open := merged.join(at(l.from), at(l.to)); {
		case !tree:
			c.fault(l.path+".loss", "give the loss of one valve in the loop", "a loop in which nothing takes any head leaves its flow undetermined")
		case !open:
			c.fault(l.path+".loss", "give the loss of one valve on the way", "nothing between two fixed heads takes any head, so the flow has no bound")
		}
	}
}

// lowest is the lowest level that a reservoir comes to, m.
func (r *Reservoir) lowest() float64 {
	z := r.Head(0)
	for _, l := range r.Levels {
		z = min(z, l.Head)
	}
	return z
}

// elevations warns of pipe ends that do not meet, and of pipes that end above the level of a reservoir.
func (c *checker) elevations(n *Network) {
	type pipeEnd struct {
		path string
		z    float64
	}
	first := map[string]pipeEnd{}
	warned := map[string]bool{}
	level := map[string]float64{}
	for _, r := range n.Reservoirs {
		level[r.Name] = r.lowest()
	}
	for _, p := range n.Pipes {
		if len(p.Profile) < 2 {
			continue
		}
		last := len(p.Profile) - 1
		for _, e := range []struct {
			node string
			row  int
		}{{p.From, 0}, {p.To, last}} {
			z := p.Profile[e.row].Elevation
			here := pipeEnd{fmt.Sprintf("pipes.%s.profile[%d]", p.Name, e.row+1), z}
			if h, ok := level[e.node]; ok && z > h {
				c.warn(here.path, "a pipe that discharges above the level needs the head of its own end: set the level to it",
					"pipe %s ends %.4g m above the level of %s", p.Name, z-h, e.node)
			} else if was, ok := first[e.node]; ok && math.Abs(was.z-z) > elevationGap && !warned[e.node] {
				warned[e.node] = true
				c.warn(here.path, "check the datum of both", "pipes meet at node %s at elevations %.5g m and %.5g m", e.node, was.z, z)
			} else if !ok {
				first[e.node] = here
			}
		}
	}
}
