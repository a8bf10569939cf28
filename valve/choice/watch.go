package choice

import (
	"seatwise/moc"
)

// watch follows the valves of all units with the candidate through a run.
type watch struct {
	of    *trial
	units []closing
	saved []closing
	mine  []bool // by unit
	names []string
}

func (t *trial) watch() *watch { return &watch{of: t} }

// Begin waits for the first step.
func (w *watch) Begin(step float64, units []moc.UnitTrace) {
	n := w.of.scenario.Network
	w.units, w.mine, w.names = make([]closing, len(units)), make([]bool, len(units)), make([]string, len(units))
	for i := range units {
		u := &units[i]
		w.names[i] = called(u.Station, u.Unit)
		if w.mine[i] = w.of.mine[placeOf(n, u.Station)]; w.mine[i] {
			w.units[i] = newClosing(step, site{event: w.of.event(), trip: u.Tripped, window: w.of.window(u), area: area(u.Bore)})
			w.units[i].exceeding.under(w.of.limits, n, u.Station)
		}
	}
	w.saved = make([]closing, len(units))
}

// Seated tells a valve of its disc's arrival.
func (w *watch) Seated(unit int, s moc.Seating) {
	if w.mine[unit] {
		w.units[unit].seats(s)
	}
}

// Step tells the valves of the end of a step.
func (w *watch) Step(now float64, units []moc.UnitState) {
	for i := range w.units {
		if w.mine[i] {
			w.units[i].moves(now, units[i])
		}
	}
}

// Save keeps the state.
func (w *watch) Save() { copy(w.saved, w.units) }

// Restore goes back to it.
func (w *watch) Restore() { copy(w.units, w.saved) }

// closing is that of a unit with the candidate.
func (w *watch) closing(u *moc.UnitTrace) *closing {
	for i, name := range w.names {
		if name == called(u.Station, u.Unit) {
			return &w.units[i]
		}
	}
	return nil
}
