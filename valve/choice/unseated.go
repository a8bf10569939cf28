package choice

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// unseated says that the run ends too early for a disc that has to close: that of a tripped unit that was open, or any that lets liquid pass in
// reverse at the end.
func (t *trial) unseated(c *closing, u *moc.UnitTrace) string {
	last := u.Flow[len(u.Flow)-1]
	if t.event() < 0 || c.seating != nil || !t.opened(u, c) || t.held(u) || u.Tripped < 0 && last >= 0 {
		return ""
	}
	text := fmt.Sprintf("the run ends at %s before the disc seats", seconds(c.last.t, t.settings))
	if last < 0 {
		text += fmt.Sprintf(", while %s pass in reverse", t.settings.write(-last, quantity.Flow))
	}
	return text
}

// opened tells whether the disc was off its seat at its unit's trip, or after the first event where it does not trip.
func (t *trial) opened(u *moc.UnitTrace, c *closing) bool {
	return c.off >= max(u.Tripped, t.event(), 0)
}

// stuck tells whether the disc of a unit is that of a candidate whose disc does not move.
func (t *trial) stuck(u *moc.UnitTrace) bool {
	at := placeOf(t.scenario.Network, u.Station)
	_, stuck := t.problem.Valves[at].Motion.(*valve.Stuck)
	return stuck && t.mine[at]
}

// held tells whether a failure or an event of the scenario holds the disc of a unit.
func (t *trial) held(u *moc.UnitTrace) bool {
	if t.stuck(u) {
		return true
	}
	for _, e := range t.scenario.Events {
		if e.Kind == network.Fail && e.Target == u.Station && (e.Units == 0 || u.Unit <= e.Units) {
			return true
		}
	}
	return false
}

// leaveOpen takes back what a disc that is still open has not yet shown in full.
func (o *Outcome) leaveOpen() {
	if o.Unseated == "" {
		return
	}
	for _, v := range []*Value{&o.MaxReverseVelocity, &o.LaterReverseVelocity, &o.Reopenings, &o.ReverseVolume, &o.Seated, &o.SeatImpactSpeed, &o.SeatImpactEnergy, &o.SlamPressureRise,
		&o.PeakPressure, &o.PeakTime, &o.TimeAbove, &o.TimeAboveYear, &o.AnchorForce, &o.AnchorForceTime, &o.AnchorImpulse, &o.MaxReverseSpeed} {
		if exists(*v) {
			*v = none(o.Unseated)
		}
	}
	o.PeakNode = ""
	for _, key := range []string{keyReverse, keyReverseVolume, keyPeak, keyAbove, keyAboveYear, keyReverseSpeed, keyAnchor} {
		delete(o.Spots, key)
	}
}
