package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network/quantity"
)

// elsewhere warns of another unit with the candidate whose valve sees a clearly greater reverse velocity than the watched one: the measures are of
// the watched valve alone.
func (t *trial) elsewhere(units []moc.UnitTrace, watched *moc.UnitTrace) []string {
	hardest := func(u *moc.UnitTrace) float64 {
		v := 0.0
		for _, s := range u.Seatings {
			v = math.Max(v, -s.Velocity)
		}
		return v
	}
	var at *moc.UnitTrace
	most := 1.05*hardest(watched) + 0.005 // m/s; the target of accuracy
	for i := range units {
		u := &units[i]
		if u != watched && t.mine[placeOf(t.scenario.Network, u.Station)] && hardest(u) > most {
			at, most = u, hardest(u)
		}
	}
	if at == nil {
		return nil
	}
	name := at.Station
	if len(at.Speed) > 0 {
		name = called(at.Station, at.Unit)
	}
	return []string{fmt.Sprintf("the valve of %s sees a greater reverse velocity, %s, than that of the unit watched, %s: the measures and the limit on the reverse velocity are of the latter; let it trip first in a scenario of its own",
		name, t.settings.write(most, quantity.Velocity), t.settings.write(hardest(watched), quantity.Velocity))}
}
