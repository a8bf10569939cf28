package export

import (
	"fmt"
	"io"

	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// CurveSet is the answer of the bench: the characteristics of some valves.
type CurveSet struct {
	Case    string // or what else the set is called
	Example bool   // of a built-in example
	Curves  []Curve
	Own     choice.Value // the installation's own deceleration, m/s2
}

// Curve is the characteristic of one valve.
type Curve struct {
	Valve  valve.Valve
	Points []characteristic.Point
}

// CharacteristicCSV writes a curve, one row per deceleration. The velocities of a valve that does not seat are empty. Errors are those of
// the writer.
func CharacteristicCSV(w io.Writer, c Curve) error {
	t := newTable(w)
	for _, h := range []string{"deceleration m/s2", "outcome", "reverse velocity m/s", "forward velocity m/s", "initial velocity m/s",
		"time s", "seat impact speed m/s"} {
		t.text(h)
	}
	t.end()
	for _, p := range c.Points {
		t.number(p.Deceleration)
		t.text(p.Outcome.String())
		for _, v := range seating(p) {
			t.value(v.value)
		}
		t.end()
	}
	return t.close("characteristic of " + c.Valve.Name)
}

// CharacteristicJSON writes a set of curves. Errors are those of the writer.
func CharacteristicJSON(w io.Writer, set CurveSet, about About) error {
	o := &object{}
	o.put("format", Format)
	o.put("case", set.Case)
	if set.Example {
		o.put("example", true)
	}
	o.number("own_deceleration_m_s2", set.Own.SI, set.Own.Reason)
	valves := []*object{}
	for _, c := range set.Curves {
		v := &object{}
		v.put("name", c.Valve.Name)
		v.put("type", c.Valve.Type)
		v.number("bore_mm", inKey("bore_mm", c.Valve.Bore), "")
		points := []*object{}
		for _, p := range c.Points {
			points = append(points, pointOf(p))
		}
		v.put("points", points)
		valves = append(valves, v.closed())
	}
	o.put("valves", valves)
	o.put("program", about.Program)
	o.put("files", list(about.Files))
	if err := o.closed().write(w); err != nil {
		return fmt.Errorf("export: characteristic.json: %w", err)
	}
	return nil
}

func pointOf(p characteristic.Point) *object {
	o := &object{}
	o.number("deceleration_m_s2", p.Deceleration, "")
	o.put("outcome", p.Outcome.String())
	for _, v := range seating(p) {
		o.number(v.key, v.value.SI, v.value.Reason)
	}
	return o.closed()
}

// named is a value with its key.
type named struct {
	key   string
	value choice.Value
}

// seating is what is known of the seating at a point: nothing when the valve does not seat.
func seating(p characteristic.Point) []named {
	reason := ""
	if p.Outcome != characteristic.Seats {
		reason = p.Outcome.String()
	}
	return []named{
		{"reverse_velocity_m_s", choice.Value{SI: p.ReverseVelocity, Reason: reason}},
		{"forward_velocity_m_s", choice.Value{SI: p.ForwardVelocity, Reason: reason}},
		{"initial_velocity_m_s", choice.Value{SI: p.InitialVelocity}},
		{"time_s", choice.Value{SI: p.Time, Reason: reason}},
		{"seat_impact_speed_m_s", choice.Value{SI: p.SeatSpeed, Reason: reason}},
	}
}
