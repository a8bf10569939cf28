package choice

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

// SteadyWarnings says what is doubtful in a steady flow: a disc that floats or may snap open, a pump beyond what its data speak for. The units of a
// station are alike, so that each station is named once.
func SteadyWarnings(p moc.Problem, st *moc.Steady, s Settings) []string {
	var out []string
	for i := range st.Units {
		u := &st.Units[i]
		if u.Unit > 1 {
			continue
		}
		at := placeOf(p.Network, u.Station)
		name := p.Valves[at].Name
		if !u.Held && u.Opening > 0 && u.FullOpenVelocity > 0 {
			v := NewScale(quantity.Velocity, s.Units, u.FullOpenVelocity).Apart(u.Velocity, u.FullOpenVelocity)
			out = append(out, fmt.Sprintf("%s: the flow (%s) does not hold the disc of %s fully open (%s needed): it floats at %.0f %% of its travel and will wear",
				u.Station, v.With(u.Velocity), name, v.With(u.FullOpenVelocity), 100*u.Opening))
		}
		if u.Snaps {
			out = append(out, fmt.Sprintf("%s: the disc of %s has two resting positions at this flow; the one reached from closed is used, and it may snap open", u.Station, name))
		}
		if u.CurveEnd > 0 && u.Flow > u.CurveEnd {
			out = append(out, beyondCurve(&p.Network.Stations[at], u.CurveEnd, u.Flow, "runs", s))
		}
	}
	return out
}

// beyondCurve is the warning that the pumps of a station run at a flow beyond the last that their data speak for.
func beyondCurve(st *network.Station, end, flow float64, runs string, s Settings) string {
	which, last := "the pump", "the end of its curve at"
	if st.Units > 1 {
		which = "each pump"
	}
	if len(st.Pump.Curve) == 0 {
		last = "what its rated point speaks for,"
	}
	q := NewScale(quantity.Flow, s.Units, flow).Apart(flow, end)
	return fmt.Sprintf("%s of %s %s at %s, beyond %s %s: head, power and torque there are those of generic four-quadrant data", which, st.Name, runs, q.With(flow), last, q.With(end))
}

// placeOf is the index of a station or a check valve that stands alone among the valves of a problem.
func placeOf(n *network.Network, name string) int {
	for i := range n.Stations {
		if n.Stations[i].Name == name {
			return i
		}
	}
	for i := range n.CheckValves {
		if n.CheckValves[i].Name == name {
			return len(n.Stations) + i
		}
	}
	panic("choice: a unit of no station")
}
