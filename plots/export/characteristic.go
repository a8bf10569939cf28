package export

import (
	"fmt"
	"io"
	"math"

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
	Meaning string       // its definition, also of those of the curves; empty without one
}

// Curve is the characteristic of one valve.
type Curve struct {
	Valve  valve.Valve
	Points []characteristic.Point
	Band   []characteristic.Range // at the points, for the spread of the data; nil: not asked for
	Own    *choice.Value          // the deceleration that this valve sees in the installation, m/s2, where each sees its own; nil: that of all
}

// own is the deceleration of the installation that holds for a curve.
func (s CurveSet) own(c Curve) choice.Value {
	if c.Own != nil {
		return *c.Own
	}
	return s.Own
}

// CharacteristicCSV writes a curve of the set, one row per deceleration. The velocities of a valve that does not seat are empty. The deceleration of the
// installation, where there is one, stands in every row below its definition. Errors are those of the writer.
func CharacteristicCSV(w io.Writer, set CurveSet, c Curve) error {
	t := newTable(w)
	for _, h := range []string{"deceleration m/s2", "outcome", "reverse velocity m/s", "forward velocity m/s", "initial velocity m/s",
		"time s", "seat impact speed m/s", "deceleration number 1", "reverse velocity over full-open velocity 1"} {
		t.text(h)
	}
	if c.Band != nil {
		t.text("least reverse velocity m/s")
		t.text("greatest reverse velocity m/s")
	}
	if set.Meaning != "" {
		t.text("deceleration of the installation, " + set.Meaning + " m/s2")
	}
	t.end()
	for i, p := range c.Points {
		t.number(p.Deceleration)
		t.text(p.Outcome.String())
		for _, v := range seating(p) {
			t.value(v.value)
		}
		for _, v := range c.numbers(p) {
			t.value(v.value)
		}
		if c.Band != nil {
			for _, v := range width(c.Band[i]) {
				t.value(v.value)
			}
		}
		if set.Meaning != "" {
			t.value(set.own(c))
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
	if set.Meaning != "" {
		o.put("own_deceleration_means", set.Meaning)
	}
	valves := []*object{}
	for _, c := range set.Curves {
		v := &object{}
		v.put("name", c.Valve.Name)
		v.put("type", c.Valve.Type)
		v.number("bore_mm", inKey("bore_mm", c.Valve.Bore), "")
		if c.Own != nil {
			v.number("own_deceleration_m_s2", c.Own.SI, c.Own.Reason)
		}
		points := []*object{}
		for i, p := range c.Points {
			more := c.numbers(p)
			if c.Band != nil {
				more = append(more, width(c.Band[i])...)
			}
			points = append(points, pointOf(p, more))
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

func pointOf(p characteristic.Point, more []named) *object {
	o := &object{}
	o.number("deceleration_m_s2", p.Deceleration, "")
	o.put("outcome", p.Outcome.String())
	for _, v := range append(seating(p), more...) {
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

// numbers are the point without dimensions, on bore D and full-open velocity V_o: a D/V_o^2 and V_r/V_o (see characteristic.Point.Numbers).
func (c Curve) numbers(p characteristic.Point) []named {
	reason, outcome := "", ""
	number, ratio, ok := p.Numbers(c.Valve)
	if !ok {
		reason = "no full-open velocity"
	}
	if outcome = reason; outcome == "" && p.Outcome != characteristic.Seats {
		outcome = p.Outcome.String()
	}
	return []named{
		{"deceleration_number", choice.Value{SI: number, Reason: reason}},
		{"reverse_velocity_ratio", choice.Value{SI: ratio, Reason: outcome}},
	}
}

// width is what the spread of the data does to a point.
func width(r characteristic.Range) []named {
	low, high := "", ""
	if math.IsInf(r.Low, 0) {
		low, high = characteristic.NeverSeats.String(), characteristic.NeverSeats.String()
	} else if r.Open {
		high = "with some of the data it never seats"
	}
	return []named{
		{"least_reverse_velocity_m_s", choice.Value{SI: r.Low, Reason: low}},
		{"greatest_reverse_velocity_m_s", choice.Value{SI: r.High, Reason: high}},
	}
}
