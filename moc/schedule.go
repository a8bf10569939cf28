package moc

import (
	"cmp"
	"fmt"
	"slices"

	"seatwise/moc/device"
	"seatwise/network"
)

// schedule gives the devices what happens to them, in the order of time. Units are counted from the first that runs, or stands, at that time.
func (m *model) schedule(events []network.Event) error {
	events = slices.Clone(events)
	slices.SortStableFunc(events, func(a, b network.Event) int { return cmp.Compare(a.Time, b.Time) })
	for _, e := range events {
		m.lastEvent = max(m.lastEvent, e.Time+e.Over)
		m.events = append(m.events, e.Time, e.Time+e.Over)
		var err error
		switch e.Kind {
		case network.Trip:
			err = m.each(e, "run", func(u *unit) bool { return u.pump >= 0 && !u.stands && u.tripped < 0 }, func(u *unit) {
				u.tripped = e.Time
				m.links[u.pump].dev.(*device.Pump).Trip = e.Time
			})
		case network.Start:
			err = m.each(e, "stand", func(u *unit) bool { return u.pump >= 0 && u.stands }, func(u *unit) {
				u.stands = false
				p := m.links[u.pump].dev.(*device.Pump)
				p.Starts, p.Over = e.Time, e.Over
			})
		case network.Fail:
			err = m.each(e, "are there", func(u *unit) bool { return m.links[u.valve].dev.(*device.CheckValve).FailAt > e.Time }, func(u *unit) {
				v := m.links[u.valve].dev.(*device.CheckValve)
				v.FailAt, v.FailedOpening = e.Time, e.To
			})
		case network.Stroke:
			err = m.stroke(e)
		default:
			err = fmt.Errorf("%w: no rule for the event %q", ErrProblem, e.Kind)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// each applies an event to as many units of its target as it names.
func (m *model) each(e network.Event, state string, fits func(*unit) bool, do func(*unit)) error {
	left := max(e.Units, 1)
	for i := range m.units {
		if u := &m.units[i]; left > 0 && u.name == e.Target && fits(u) {
			do(u)
			left--
		}
	}
	if left > 0 {
		return fmt.Errorf("%w: the event %q at %g s is for more units of %s than %s", ErrProblem, e.Kind, e.Time, e.Target, state)
	}
	return nil
}

// stroke adds a movement to a throttling valve's schedule.
func (m *model) stroke(e network.Event) error {
	for _, l := range m.links {
		d, ok := l.dev.(*device.Throttle)
		if !ok || l.name != e.Target {
			continue
		}
		from := d.Opening(e.Time)
		var s []network.Opening
		for _, o := range d.Schedule {
			if o.Time < e.Time {
				s = append(s, o)
			}
		}
		d.Schedule = append(s, network.Opening{Time: e.Time, Fraction: from}, network.Opening{Time: e.Time + e.Over, Fraction: e.To})
		return nil
	}
	return fmt.Errorf("%w: the event at %g s moves %q, which is no throttling valve", ErrProblem, e.Time, e.Target)
}
