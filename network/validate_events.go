package network

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// byTime are the places of events in their list, in the order in which they act.
func byTime(events []Event) []int {
	order := make([]int, len(events))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(events[a].Time, events[b].Time) })
	return order
}

// Available is the number of units that each event finds to act on: of a station those that run (trip), stand and have not been tripped (start),
// or have a check valve that works (fail); 0 of a throttling valve, and where there is no such target. Events act in the order of time whatever
// their order in the list, each on as many units as it names; one that names none acts on all that it finds.
func (n *Network) Available(events []Event) []int {
	type units struct{ run, stand, work int }
	left := map[string]*units{}
	for _, s := range n.Stations {
		left[s.Name] = &units{max(s.Units-s.Stopped, 0), max(s.Stopped, 0), max(s.Units, 0)}
	}
	for _, v := range n.CheckValves {
		if left[v.Name] == nil {
			left[v.Name] = &units{work: 1}
		}
	}
	found := make([]int, len(events))
	for _, i := range byTime(events) {
		e := events[i]
		u := left[e.Target]
		if u == nil {
			u = &units{}
		}
		var pool *int
		switch e.Kind {
		case Trip:
			pool = &u.run
		case Start:
			pool = &u.stand
		case Fail:
			pool = &u.work
		default:
			continue
		}
		found[i] = *pool
		acts := *pool
		if e.Units > 0 {
			acts = min(acts, e.Units)
		}
		*pool -= acts
		if e.Kind == Start {
			u.run += acts
		}
	}
	return found
}

// ValidateEvents checks events against the installation. Paths are relative to the list of events.
func (n *Network) ValidateEvents(events []Event) []Finding {
	c := unwritten()
	found := n.Available(events)
	short := map[string]bool{} // stations of which it has been said that units are wanting
	moved := map[string]int{}  // events by valve and time
	for _, i := range byTime(events) {
		e, at := events[i], fmt.Sprintf("[%d]", i+1)
		if !finite(e.Time) || e.Time < 0 {
			c.fault(at+".at", "times count from the start of the run", "the event is at %s", inSI(e.Time, "s"))
		}
		if e.Kind == Start || e.Kind == Stroke {
			c.positive(at+".over", "duration", "s", e.Over)
		}
		if !n.target(c, at, e) {
			continue
		}
		switch e.Kind {
		case Stroke:
			c.opening(at+".to", "opening", e.To)
			key := fmt.Sprintf("%s at %g", e.Target, e.Time)
			if first, ok := moved[key]; ok {
				c.fault(at+".at", "let one movement follow the other", "valve %s is moved by event %d at that time", e.Target, first+1)
			}
			moved[key] = i
			if s := n.throttle(e.Target).Schedule; len(s) > 0 && s[len(s)-1].Time > e.Time {
				c.warn(at+".stroke", "", "it takes the place of the rows of the opening of %s from %.4g s on", e.Target, e.Time)
			}
			continue
		case Fail:
			c.opening(at+".opening", "opening", e.To)
		}
		c.units(at, e, n.station(e.Target), found[i], short)
	}
	return c.findings
}

// units checks the number of units of an event against those that it finds. s is nil for a check valve that stands alone.
func (c *checker) units(at string, e Event, s *Station, found int, short map[string]bool) {
	name := "station " + e.Target
	if s == nil {
		name = "check valve " + e.Target
	} else if s.Units < 1 || s.Stopped < 0 || s.Stopped > s.Units {
		return // said of the station
	}
	many, verb := "units", [...]string{Trip: "run", Start: "stand", Fail: "work"}[e.Kind]
	if e.Kind == Fail {
		many = "check valves"
	}
	switch {
	case e.Units < 0 || e.Units == 0 && found > 0:
		c.fault(at+".units", "give a whole number from 1", "the event is for %d units", e.Units)
	case short[e.Target] || e.Units <= found && found > 0:
		return
	case s == nil && found > 0:
		c.fault(at+".units", "leave units out", "%s stands alone, the event is for %d units", name, e.Units)
	case s == nil:
		c.fault(at+"."+e.Kind.String(), "let it fail once", "%s has failed before", name)
	case found == 0:
		hint := ""
		if e.Kind == Start && s.Stopped == 0 {
			hint = "give the station running, the number of units that run at the start"
		}
		c.fault(at+"."+e.Kind.String(), hint, "none of the %d %s of %s %ss then", s.Units, many, name, verb)
	default:
		if found == 1 {
			verb += "s"
		}
		c.fault(at+".units", "", "%d %s are to %s, but of %s %d %s then", e.Units, many, e.Kind, name, found, verb)
	}
	short[e.Target] = true
}

// opening checks a fraction.
func (c *checker) opening(path, what string, x float64) {
	if !(x >= 0 && x <= 1) {
		c.fault(path, "give 0 % to 100 %", "%s is %s", what, inSI(100*x, "%"))
	}
}

// target checks that there is what an event acts on.
func (n *Network) target(c *checker, at string, e Event) bool {
	var stations, checks, throttles []string
	for _, s := range n.Stations {
		stations = append(stations, s.Name)
	}
	for _, v := range n.CheckValves {
		checks = append(checks, v.Name)
	}
	for _, t := range n.Throttles {
		throttles = append(throttles, t.Name)
	}
	kind, names := "station", stations
	switch e.Kind {
	case Trip, Start:
	case Stroke:
		kind, names = "throttling valve", throttles
	case Fail:
		kind, names = "station or check valve", slices.Concat(stations, checks)
	default:
		c.fault(at, "", "%s", e.Kind)
		return false
	}
	if slices.Contains(names, e.Target) {
		return true
	}
	plural := strings.ReplaceAll(kind, " or ", "s or ") + "s"
	hint := plural + ": " + strings.Join(names, ", ")
	near := Nearest(e.Target, names)
	switch {
	case near != "":
		hint = fmt.Sprintf("did you mean %q?", near)
	case slices.Contains(throttles, e.Target):
		hint = "it is a throttling valve: write stroke: " + e.Target
	case slices.Contains(checks, e.Target):
		hint = "it is a check valve that stands alone: write fail: " + e.Target
	case len(names) == 0:
		hint = "the case has no " + kind
	}
	if section := n.sectionOf(e.Target); section != "" && near == "" && !slices.Contains(throttles, e.Target) && !slices.Contains(checks, e.Target) {
		hint = "it stands under " + section + "; " + hint
	}
	c.fault(at+"."+e.Kind.String(), hint, "there is no %s %q", kind, e.Target)
	return false
}

// sectionOf is the section of a case file in which a thing of that name stands, or "".
func (n *Network) sectionOf(name string) string {
	for _, l := range n.links() {
		if section, thing, _ := strings.Cut(l.path, "."); thing == name {
			return section
		}
	}
	for _, d := range n.Devices {
		if section, thing := d.Label(); thing == name {
			return section
		}
	}
	return ""
}

func (n *Network) station(name string) *Station {
	for i := range n.Stations {
		if n.Stations[i].Name == name {
			return &n.Stations[i]
		}
	}
	return nil
}

func (n *Network) throttle(name string) *Throttle {
	for i := range n.Throttles {
		if n.Throttles[i].Name == name {
			return &n.Throttles[i]
		}
	}
	return nil
}
