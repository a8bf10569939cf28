package casefile

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/quantity"
)

// events reads a list of events. The number of units that a trip may leave out is that of the station.
func (r *reader) events(s *section, n *network.Network) []network.Event {
	const example = "events: [{trip: station, units: 1, at: 1 s}]"
	var events []network.Event
	for i, item := range s.items("events", example) {
		path := fmt.Sprintf("%s[%d]", s.key("events"), i+1)
		one := r.section(&pair{value: item}, path)
		if one.node == nil {
			continue
		}
		e := network.Event{Kind: network.Trip}
		e.Target, _ = one.needText(network.Trip.String(), "station")
		e.Time, _ = one.needQuantity("at", quantity.Time, "1 s")
		units, ok := one.count("units")
		e.Units = units
		if !ok {
			e.Units = 1 // nothing to judge: either not readable, or said below
		}
		one.done()
		if !one.has("units") && e.Target != "" {
			e.Units = r.allUnits(path, e.Target, n)
		}
		events = append(events, e)
	}
	return events
}

// allUnits is the number of units of a station whose trip does not say how many.
func (r *reader) allUnits(path, station string, n *network.Network) int {
	for _, s := range n.Stations {
		if s.Name == station {
			if s.Units > 1 {
				r.assume(path+".units", fmt.Sprint(s.Units), Default, "", "%s: all %d units of %s trip", path, s.Units, station)
			}
			return s.Units
		}
	}
	return 1
}
