package moc

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/moc/device"
	"seatwise/network/quantity"
)

// delivers refuses a steady state in which running units deliver nothing. The running units of a station are alike.
func (s *steady) delivers() error {
	var shut []any
	var path, hint string
	said := map[string]bool{}
	for i := range s.m.units {
		u := &s.m.units[i]
		l := s.m.links[u.valve]
		v := l.dev.(*device.CheckValve)
		if !v.Shut || u.pump < 0 || s.m.links[u.pump].dev.(*device.Pump).Stands || said[u.name] {
			continue
		}
		said[u.name] = true
		up, down := s.heads[l.from], s.heads[l.to]
		_, crack := v.Valve.Motion.Shut()
		if up > down {
			path, hint = "stations."+u.name, "take a valve that opens more easily, or a pump of more head"
			shut = append(shut, quantity.Say("the disc of %s cannot open: %v over the valve, %v needed", u.name, quantity.Level(up-down), quantity.Level(crack/v.Gamma)))
		} else {
			p := s.m.links[u.pump].dev.(*device.Pump)
			path, hint = "stations."+u.name+".pump", "check the levels, and the head of the pump at no flow"
			shut = append(shut, quantity.Say("%s delivers nothing: the lift is too high, its shut-off head of %v gives a head of %v before the valve and %v stand behind it",
				u.name, quantity.Level(p.P.ShutOffHead()), quantity.Level(up), quantity.Level(down)))
		}
	}
	if shut != nil {
		return noSteady(path, hint, strings.TrimSuffix(strings.Repeat("%v; ", len(shut)), "; "), shut...)
	}
	return nil
}

// settled asks the devices whether they can stand the steady heads.
func (s *steady) settled() error {
	for _, l := range s.m.links {
		if d, ok := l.dev.(device.Settler); ok {
			if err := d.Settled(s.heads[l.from], s.heads[l.to]); err != nil {
				return objected(l, err)
			}
		}
	}
	return nil
}

// objected is what a device has against the steady heads, with the place of the datum that does not fit.
func objected(l link, err error) error {
	var o *device.Objection
	if !errors.As(err, &o) {
		return noSteady(l.path, "", "%s: %v", l.name, err)
	}
	return noSteady(l.path+"."+o.Key, o.Hint, "%s: %v", l.name, o.Sentence)
}

// filled is how far above vapour head a steady flow must be at the least, m.
const filled = 0.01

// flooded refuses a steady flow that is at or below vapour pressure somewhere along a profile, at a node without pipes, or where a running pump draws
// from: nothing would run full there.
func (s *steady) flooded() error {
	if s.liquid {
		return nil
	}
	boils := func(h, z float64) bool { return !(h-z > s.m.hvap+filled) }
	for i := range s.m.pipes {
		c := &s.m.pipes[i]
		for k, p := range c.profile {
			x := p.Chainage / c.length
			h := s.heads[c.from] + x*(s.heads[c.to]-s.heads[c.from])
			if boils(h, p.Elevation) {
				return noSteady(profilePath(c.name, k+1), "check this elevation against the levels and the losses before it", "the steady flow is below vapour pressure in %s at chainage %v (head %v at elevation %v): the pipe does not run full there",
					inWords(c.name), quantity.Of(p.Chainage, quantity.Length), quantity.Level(h), quantity.Level(p.Elevation))
			}
		}
	}
	for i := range s.m.units {
		u := &s.m.units[i]
		if u.pump < 0 || s.m.links[u.pump].dev.(*device.Pump).Stands {
			continue
		}
		h, z := s.heads[s.m.links[u.pump].from], s.m.net.Stations[u.station].Elevation
		if boils(h, z) {
			return noSteady("stations."+u.name+".elevation", "check this elevation against the level before the pumps", "the steady flow is below vapour pressure before the pumps of %s (head %v at elevation %v): they stand too high above what they draw from",
				u.name, quantity.Level(h), quantity.Level(z))
		}
	}
	for i, n := range s.m.nodes {
		if n.known && !n.fixed && boils(s.heads[i], n.elevation) {
			return noSteady("", "check its elevation against the levels", "the steady flow is below vapour pressure at %s (head %v at elevation %v)", inWords(n.name), quantity.Level(s.heads[i]), quantity.Level(n.elevation))
		}
	}
	return nil
}

// profilePath is the place of the row of a pipe's profile, from 1, or of the elevation of a part of a unit.
func profilePath(name string, row int) string {
	if station, _, ok := strings.Cut(name, "/"); ok {
		return "stations." + station + ".elevation"
	}
	return fmt.Sprintf("pipes.%s.profile[%d]", name, row)
}

// inWords is a node, pipe or device in a sentence: a part of a unit, as [Part] names it, is "the branch of lift, unit 1".
func inWords(name string) string {
	station, rest, ok := strings.Cut(name, "/")
	unit, part, inside := strings.Cut(rest, "/")
	if !ok || !inside {
		return name
	}
	switch part {
	case "column":
		part = "water column"
	case "check-valve":
		part = "check valve"
	}
	return fmt.Sprintf("the %s of %s, unit %s", part, station, unit)
}

// undetermined says why the equations have no single solution: a part of the network in which nothing fixes a head, or a way on which nothing takes any.
func (s *steady) undetermined() error {
	if err := s.cutOff(); err != nil {
		return err
	}
	if err := s.lossless(); err != nil {
		return err
	}
	return noSteady("", "", "heads or flows are undetermined: a part of the network has no fixed head, or a loop or link has no losses")
}

// groups are disjoint sets of nodes.
type groups []int

func (g groups) root(i int) int {
	for g[i] >= 0 {
		i = g[i]
	}
	return i
}

// join unites the sets of two nodes and tells whether they were apart.
func (g groups) join(a, b int) bool {
	if a, b = g.root(a), g.root(b); a == b {
		return false
	}
	g[b] = a
	return true
}

// apart are all nodes, each in a set of its own.
func (s *steady) apart() groups {
	g := make(groups, len(s.m.nodes))
	for i := range g {
		g[i] = -1
	}
	return g
}

// cutOff finds a part of the network that no head reaches, and names what shuts it off.
func (s *steady) cutOff() error {
	m, parts := s.m, s.apart()
	for i := range m.pipes {
		parts.join(m.pipes[i].from, m.pipes[i].to)
	}
	var shut []int // links that let nothing through, whatever the heads
	for i, l := range m.links {
		if e := l.dev.Steady(s.flows[len(m.pipes)+i], s.heads[l.from], s.heads[l.to]); e.RA != 0 || e.RB != 0 {
			parts.join(l.from, l.to)
		} else if l.to < 0 || m.nodes[l.to].name != outside {
			shut = append(shut, i)
		}
	}
	held := map[int]bool{}
	for i, n := range m.nodes {
		if n.fixed {
			held[parts.root(i)] = true
		}
	}
	for i, n := range m.nodes {
		root := parts.root(i)
		if held[root] || strings.Contains(n.name, "/") {
			continue
		}
		demand, thirsty, among := 0.0, []string(nil), []string(nil)
		for k, other := range m.nodes {
			if parts.root(k) != root || strings.Contains(other.name, "/") {
				continue
			}
			among = append(among, other.name)
			if other.demand != 0 {
				demand += other.demand
				thirsty = append(thirsty, other.name)
			}
		}
		var by []string
		var path string
		for _, k := range shut {
			if l := m.links[k]; (parts.root(l.from) == root) != (parts.root(l.to) == root) {
				if what := s.shutName(k, parts.root(l.from) == root); !slices.Contains(by, what) {
					by, path = append(by, what), l.path
				}
			}
		}
		hint := "let something pass there in steady flow, or leave out what is cut off"
		if strings.HasPrefix(path, "check valves.") {
			hint += "; a check valve passes flow from its from to its to"
		}
		why := "no reservoir is joined to it"
		if by != nil {
			why = listed(by)
		}
		if demand < 0 {
			return noSteady(path, hint, "nothing takes the inflow of %v at %s: %s", quantity.Of(-demand, quantity.Flow), nodesNamed(thirsty), why)
		}
		if thirsty != nil {
			return noSteady(path, hint, "nothing feeds the demand of %v at %s: %s", quantity.Of(demand, quantity.Flow), nodesNamed(thirsty), why)
		}
		return noSteady(path, hint, "nothing fixes the head at %s: %s", nodesNamed(among), why)
	}
	return nil
}

// shutName is a link that lets nothing through, seen from a part that is cut off at its first node or, if not, at its second.
func (s *steady) shutName(k int, first bool) string {
	for i := range s.m.units {
		u := &s.m.units[i]
		if u.valve != k {
			continue
		}
		switch {
		case u.stands:
			return "the units of " + u.name + " stand"
		case u.station >= 0:
			return "the check valves of " + u.name + " are shut"
		case first:
			return "check valve " + u.name + " lets nothing flow back"
		}
		return "check valve " + u.name + " is shut"
	}
	return "valve " + s.m.links[k].name + " is shut"
}

func nodesNamed(names []string) string {
	if len(names) == 1 {
		return "node " + names[0]
	}
	return "nodes " + listed(names)
}

// listed joins names, the first five of many.
func listed(names []string) string {
	if len(names) > 5 {
		names = append(slices.Clone(names[:5]), "others")
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// lossless finds a way between two fixed heads, or round a loop, on which nothing takes any head.
func (s *steady) lossless() error {
	m, ways := s.m, s.apart()
	fixed := -1
	for i, n := range m.nodes {
		if n.fixed {
			if fixed >= 0 {
				ways.join(fixed, i)
			}
			fixed = i
		}
	}
	closes := func(name, path string, slope float64, from, to int) error {
		if slope > 1e-9 || ways.join(from, to) {
			return nil
		}
		if m.nodes[from].fixed && m.nodes[to].fixed {
			return noSteady(path, "give it a loss", "nothing between %s (head %v) and %s (head %v) takes any head but %s, which has no loss",
				m.nodes[from].name, quantity.Level(s.heads[from]), m.nodes[to].name, quantity.Level(s.heads[to]), name)
		}
		return noSteady(path, "give it a loss", "nothing takes any head on a way through %s, between fixed heads or round a loop", name)
	}
	for i := range m.pipes {
		c := &m.pipes[i]
		_, slope := c.resist(c.area, s.nu, s.g) // at 1 m/s
		if err := closes(c.name, "pipes."+c.name, slope*c.area, c.from, c.to); err != nil {
			return err
		}
	}
	for i, l := range m.links {
		e := l.dev.Steady(math.Max(s.flows[len(m.pipes)+i], 1e-3), s.heads[l.from], s.heads[l.to])
		if e.RA == 0 || e.RB == 0 {
			continue
		}
		if err := closes(l.name, l.path, math.Abs(e.RQ/e.RA), l.from, l.to); err != nil {
			return err
		}
	}
	return nil
}

// lost is the end of an iteration without a solution. It names what fits worst; where a part of the network is cut off, that is the reason.
func (s *steady) lost(how string) error {
	if err := s.cutOff(); err != nil {
		return err
	}
	norm := s.assemble(0, false)
	worst, where := 0.0, "an unknown place"
	for row := range s.n {
		r := math.Abs(s.res.AtVec(row))
		if row < s.nf {
			r *= 100 // as in assemble
		}
		if r > worst || math.IsNaN(r) {
			worst, where = r, s.place(row)
			if math.IsNaN(r) {
				break
			}
		}
	}
	return noSteady("", "", "the iteration for the steady flow %s (residual %.3g); what fits worst is %s", how, norm, where)
}

// place names a row of the equations.
func (s *steady) place(row int) string {
	switch k := row - s.nf; {
	case k < 0:
		return "the flow balance of " + inWords(s.m.nodes[slices.Index(s.free, row)].name)
	case k < len(s.m.pipes):
		return inWords(s.m.pipes[k].name)
	default:
		return inWords(s.m.links[k-len(s.m.pipes)].name)
	}
}
