package choice

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// tested warns of a valve known by test points alone that was asked for what was not tested.
func (o *Outcome) tested(s *moc.Seating, set Settings) []string {
	m, ok := o.Valve.Motion.(*valve.Measured)
	if !ok {
		return nil
	}
	var out []string
	least, most := m.Curve.Range()
	rate := func(x float64) string { return set.write(x, quantity.Acceleration) }
	switch a := s.Taken; {
	case a > most:
		out = append(out, fmt.Sprintf("the flow at the valve decelerates by %s, %.0f %% above the greatest tested, %s: its reverse velocity is extrapolated along a straight line",
			rate(a), 100*(a/most-1), rate(most)))
	case a < least && a > 0 && m.Curve.At(least) > 0:
		out = append(out, fmt.Sprintf("the flow at the valve decelerates by %s, %.0f %% below the least tested, %s: its reverse velocity is taken in proportion",
			rate(a), 100*(1-a/least), rate(least)))
	}
	if v := o.InitialVelocity; exists(v) && v.SI < 0.99*o.Valve.FullOpenVelocity {
		out = append(out, fmt.Sprintf("the steady velocity of %s does not hold the disc on its stop, which takes %s: tests begin with the disc there; it closes earlier than they say, and loses more head",
			set.write(v.SI, quantity.Velocity), set.write(o.Valve.FullOpenVelocity, quantity.Velocity)))
	}
	return out
}
