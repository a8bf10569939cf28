package casefile

import (
	"cmp"
	"fmt"
	"slices"

	"seatwise/network"
	"seatwise/network/quantity"
)

// events reads a list of events, in the order of the file. Where one does not say how many units it is for, it is for all that there are to act on.
func (r *reader) events(s *section, n *network.Network) []network.Event {
	const example = "events: [{trip: station, units: 1, at: 1 s}]"
	var events []network.Event
	var counted []bool
	for i, item := range s.items("events", example) {
		path := fmt.Sprintf("%s[%d]", s.key("events"), i+1)
		if i == mostEvents {
			r.failed(path, item.fault(fmt.Sprintf("more than %d events", i), "make a second case"))
			break
		}
		one := r.section(&pair{value: item}, path)
		var e network.Event // of what is no event too, so that the places in the list stay those of the file
		if one.node != nil {
			e = one.event()
			one.done()
		}
		events, counted = append(events, e), append(counted, one.has("units"))
	}
	for i, found := range n.Available(events) {
		e := &events[i]
		if counted[i] || e.Kind == network.Stroke {
			continue
		}
		if e.Units = found; found > 1 {
			path := fmt.Sprintf("%s[%d]", s.key("events"), i+1)
			r.assume(path+".units", fmt.Sprint(found), Default, "", "%s: %s", path, fmt.Sprintf(allUnits[e.Kind], found, e.Target))
		}
	}
	return events
}

// mostEvents is the number of events that one scenario may have.
const mostEvents = 1000

// allUnits says on how many units an event acts that does not name a number.
var allUnits = map[network.EventKind]string{
	network.Trip:  "all %d units of %s trip",
	network.Start: "all %d units of %s that stand start",
	network.Fail:  "all %d check valves of %s fail",
}

// inTime are events in the order of time; those of one time stay in the order of the file.
func inTime(events []network.Event) []network.Event {
	return slices.SortedStableFunc(slices.Values(events), func(a, b network.Event) int { return cmp.Compare(a.Time, b.Time) })
}

// event reads one event.
func (s *section) event() network.Event {
	var e network.Event
	known := s.eventKind(&e)
	e.Time, _ = s.needQuantity("at", quantity.Time, "1 s")
	if !known {
		for _, key := range []string{"units", "over", "to", "opening"} { // any event may have them
			s.take(key)
		}
		return e
	}
	switch e.Kind {
	case network.Trip:
		e.Units, _ = s.count("units")
	case network.Start:
		e.Units, _ = s.count("units")
		e.Over, _ = s.needQuantity("over", quantity.Time, "5 s")
	case network.Stroke:
		e.To, _ = s.needQuantity("to", quantity.Fraction, "0 %")
		e.Over, _ = s.needQuantity("over", quantity.Time, "10 s")
	case network.Fail:
		e.Units, _ = s.count("units")
		if e.To, _ = s.quantity("opening", quantity.Fraction); !s.has("opening") {
			e.To = 1
			s.r.assume(s.key("opening"), "100 %", Default, "", "%s: the check valve stays fully open", s.path)
		}
	}
	return e
}

// eventKind finds out what an event does and what it acts on. It is false when that cannot be told.
func (s *section) eventKind(e *network.Event) bool {
	var words []string
	for _, kind := range network.EventKinds() {
		words = append(words, kind.String())
	}
	given := slices.DeleteFunc(network.EventKinds(), func(kind network.EventKind) bool { return !s.has(kind.String()) })
	switch {
	case len(given) == 1:
		e.Kind = given[0]
		e.Target, _ = s.needText(e.Kind.String(), "name")
		return true
	case len(given) > 1:
		s.conflict(given[1].String(), fmt.Sprintf("%s and %s are both given", given[0], given[1]), "an event does one thing: make two")
	case !s.hasOther("at", "units", "over", "to", "opening"):
		s.r.failed(s.key("trip"), s.at.fault(s.path+" does not say what happens", "write trip: station; or start, stroke, fail"))
	}
	for _, word := range words { // an event of a kind that does not exist is reported as an unknown key
		s.take(word)
		s.r.fail(s.key(word))
	}
	return false
}
