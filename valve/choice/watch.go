package choice

import (
	"math"

	"seatwise/moc"
)

// watch follows the valves of all units with the candidate through a run.
type watch struct {
	of    *trial
	units []closing
	saved []closing
	mine  []bool // by unit
	names []string
	push  overload
	kept  overload
	above *above // nil: no rule goes by the time above the design pressure
}

// overload is when the force on a straight run first exceeds its limit.
type overload struct {
	event, bound float64 // s, N
	first        float64 // s; negative: it does not
}

func (o *overload) take(now float64, forces []float64) {
	if o.first >= 0 || now < o.event {
		return
	}
	for _, f := range forces {
		if math.Abs(f) > o.bound {
			o.first = now
		}
	}
}

// watch is what observes a run: itself, or with the heads along the pipes where a rule goes by durations.
func (t *trial) watch() (*watch, moc.Observer) {
	w, n := &watch{of: t}, t.scenario.Network
	for _, l := range t.limits {
		if l.rule != nil {
			w.above = &above{watch: w, event: t.event(), bound: *l.bound, gamma: n.Fluid.Density * n.G(), events: l.rule.Events}
			return w, w.above
		}
	}
	return w, w
}

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
	w.push = overload{w.of.event(), math.Inf(1), -1}
	for _, l := range w.of.limits {
		if l.measure == keyAnchor {
			w.push.bound = l.asks(*l.bound)
		}
	}
}

// Seated tells a valve of its disc's arrival.
func (w *watch) Seated(unit int, s moc.Seating) {
	if w.mine[unit] {
		w.units[unit].seats(s)
	}
}

// Step tells the valves of the end of a step.
func (w *watch) Step(now float64, units []moc.UnitState, forces []float64) {
	w.push.take(now, forces)
	for i := range w.units {
		if w.mine[i] {
			w.units[i].moves(now, units[i])
		}
	}
}

// Save keeps the state.
func (w *watch) Save() {
	copy(w.saved, w.units)
	w.kept = w.push
}

// Restore goes back to it.
func (w *watch) Restore() {
	copy(w.units, w.saved)
	w.push = w.kept
}

// closing is that of a unit with the candidate.
func (w *watch) closing(u *moc.UnitTrace) *closing {
	for i, name := range w.names {
		if name == called(u.Station, u.Unit) {
			return &w.units[i]
		}
	}
	return nil
}
