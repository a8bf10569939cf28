package choice

import (
	"cmp"
	"math"
	"slices"

	"seatwise/moc"
)

// leading is the unit to trip first of those with the candidate, or without a trip the first of them; the same whatever the candidate is.
func (t *trial) leading(units []moc.UnitTrace) *moc.UnitTrace { return t.inOrder(units)[0] }

// inOrder are the units with the candidate, those that trip first before others.
func (t *trial) inOrder(units []moc.UnitTrace) []*moc.UnitTrace {
	var all []*moc.UnitTrace
	for i := range units {
		if t.mine[placeOf(t.scenario.Network, units[i].Station)] {
			all = append(all, &units[i])
		}
	}
	slices.SortStableFunc(all, func(a, b *moc.UnitTrace) int { return cmp.Compare(tripped(a), tripped(b)) })
	return all
}

// tripped is the time of a unit's trip, s; without one, after all others.
func tripped(u *moc.UnitTrace) float64 {
	if u.Tripped < 0 {
		return math.MaxFloat64
	}
	return u.Tripped
}

// watched is the unit whose valve is watched: of those with the candidate the one that the run leaves open though it has to close, else the one with the
// greatest reverse velocity, as that is the hardest to bear. Of units that do the same it is the first to trip, and of those the first in the network, so
// that the like units of a station are judged once.
func (t *trial) watched(units []moc.UnitTrace, w *watch) *moc.UnitTrace {
	var worst *moc.UnitTrace
	most := 0.0
	for _, u := range t.inOrder(units) {
		c := w.closing(u)
		v := c.greatest.v
		if t.unseated(c, u) != "" {
			v = math.MaxFloat64
		}
		if worst == nil || v > most*(1+same)+standstill {
			worst, most = u, v
		}
	}
	return worst
}

// same is the relative difference of reverse velocities, of rounding, below which two units do the same.
const same = 1e-6

// name is that of a unit in words, or of a check valve that stands alone.
func name(u *moc.UnitTrace) string {
	if len(u.Speed) == 0 {
		return u.Station
	}
	return called(u.Station, u.Unit)
}

// before measures the steady flow: that at the watched valve, and the greatest head loss of the candidate in any of its places.
func (t *trial) before(o *Outcome, st *moc.Steady, watched *moc.UnitTrace) {
	o.HeadLoss, o.Spots[keyHeadLoss] = none(noFlow), Spot{o.Watched, -1}
	for _, d := range st.Units {
		mine := t.mine[placeOf(t.scenario.Network, d.Station)]
		here := d.Station == watched.Station && d.Unit == watched.Unit
		if here {
			o.InitialFlow, o.InitialVelocity, o.OpeningFraction = Value{SI: d.Flow}, Value{SI: d.Velocity}, Value{SI: d.Opening}
			o.OpenMargin, o.ownLoss = openMargin(d), d.ValveLoss
			if d.Shut {
				o.OpeningFraction = none(noFlow)
			}
		}
		// like units differ by rounding
		if mine && !d.Shut && (!exists(o.HeadLoss) || d.ValveLoss > o.HeadLoss.SI*(1+same) || here && d.ValveLoss > o.HeadLoss.SI*(1-same)) {
			o.HeadLoss, o.Spots[keyHeadLoss] = Value{SI: d.ValveLoss}, Spot{t.nameOf(d), -1}
		}
	}
}

// nameOf is the name of a unit in steady flow.
func (t *trial) nameOf(d moc.SteadyUnit) string {
	if placeOf(t.scenario.Network, d.Station) >= len(t.scenario.Network.Stations) {
		return d.Station
	}
	return called(d.Station, d.Unit)
}

// itself is the watched unit where the candidate stands in one station or by itself, so that its insides need not be named; else nil.
func (t *trial) itself(watched *moc.UnitTrace) *moc.UnitTrace {
	places := 0
	for _, mine := range t.mine {
		if mine {
			places++
		}
	}
	if places > 1 {
		return nil
	}
	return watched
}

// Places is in how many places of a scenario's installation the candidates stand: above one, what is said of a valve is to name it.
func (c *Comparison) Places(scenario int) int {
	n, places := c.Case.Scenarios[scenario].Network, 0
	for _, s := range n.Stations {
		if s.CheckValve == "" {
			places++
		}
	}
	for _, v := range n.CheckValves {
		if v.CheckValve == "" {
			places++
		}
	}
	return places
}
