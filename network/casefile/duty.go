package casefile

import (
	"fmt"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/cost"
)

const year = 8784 * 3600 // s, a leap year

// duty reads what one unit does in a year: its flows, how often it trips and starts, and how its flow fluctuates; nil where the case has none.
func (r *reader) duty(root *section) *choice.Duty {
	if !root.has("duty") {
		root.take("duty")
		return nil
	}
	s := r.section(root.take("duty"), "duty")
	d := &choice.Duty{}
	rows, _ := s.table("flow table", []column{{name: "flow", dim: quantity.Flow}, {name: "time", dim: quantity.Time}})
	var total float64
	for i, row := range rows {
		if row[0] < 0 || row[1] < 0 {
			s.rowFault("flow table", i, "a flow or a time below zero", "give the flow through one unit and the hours of a year")
			break
		}
		if row[0] > mostFlow {
			s.rowFault("flow table", i, "a flow above 1000 m3/s", "give the flow through one unit")
			break
		}
		total += row[1]
		d.Runs = append(d.Runs, cost.Run{Flow: row[0], Time: row[1]})
	}
	if total > year {
		p := s.node.get("flow table")
		r.failed(s.key("flow table"), p.value.fault(fmt.Sprintf("%s adds up to %.0f h", s.key("flow table"), total/3600), "a year has 8760 h"))
	}
	d.Trips, d.Starts = s.amount("trips"), s.amount("starts")
	d.MinimumFlow, d.NormalFlow, d.MaximumFlow = s.held("minimum flow"), s.held("normal flow"), s.held("maximum flow")
	s.rising("minimum flow", d.MinimumFlow, "normal flow", d.NormalFlow)
	s.rising("normal flow", d.NormalFlow, "maximum flow", d.MaximumFlow)
	if d.NormalFlow == nil {
		s.rising("minimum flow", d.MinimumFlow, "maximum flow", d.MaximumFlow)
	}
	d.Fluctuation = s.fluctuation()
	if f, ok := s.positive("fluctuation frequency", quantity.Frequency); ok {
		if f > mostFluctuation {
			p := s.node.get("fluctuation frequency")
			r.failed(s.key("fluctuation frequency"), p.value.fault(fmt.Sprintf("%s is %s", s.key("fluctuation frequency"), p.value.text), "give at most 1000 Hz"))
		}
		d.Frequency = &f
	}
	if d.Frequency != nil && !s.has("flow fluctuation") {
		r.warnings = append(r.warnings, "duty: nothing is worked out from the fluctuation frequency, as there is no flow fluctuation: give duty: {flow fluctuation: 5 %}")
	}
	s.done()
	return d
}

// mostFluctuation is the greatest frequency of a fluctuation, Hz: far above what a disc follows.
const mostFluctuation = 1000

// held reads a flow through one unit, m3/s, at most mostFlow.
func (s *section) held(key string) *float64 {
	q, ok := s.positive(key, quantity.Flow)
	if !ok {
		return nil
	}
	if q > mostFlow {
		p := s.node.get(key)
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), "give at most 1000 m3/s"))
		return nil
	}
	return &q
}

const mostFlow = 1000 // m3/s

// rising complains where the second of two flows is below the first.
func (s *section) rising(low string, a *float64, high string, b *float64) {
	if a == nil || b == nil || *b >= *a {
		return
	}
	p := s.node.get(high)
	s.r.failed(s.key(high), p.value.fault(fmt.Sprintf("%s is %s, below the %s of %s", s.key(high), p.value.text, low, s.node.get(low).value.text), "the flows rise from the minimum to the maximum"))
}

// fluctuation reads the amplitude of the flow over its mean.
func (s *section) fluctuation() *float64 {
	const key = "flow fluctuation"
	a, ok := s.quantity(key, quantity.Fraction)
	if !ok {
		return nil
	}
	if !(a >= 0 && a <= 1) {
		p := s.node.get(key)
		hint := "give 0 % to 100 %: amplitude over mean, half of peak to peak over mean"
		if text := p.value.text; a > 1 && a <= 100 && !strings.ContainsAny(text, "%p") {
			hint = "write " + text + " %"
		}
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), hint))
		return nil
	}
	return &a
}

// amount reads a plain number that is not below zero: a price, or how often something happens in a year.
func (s *section) amount(key string) float64 {
	s.r.survey.form(s.key(key), shape{kind: isFigure, dim: quantity.Number, high: 1e12})
	x, ok := s.quantity(key, quantity.Number)
	if ok && !(x >= 0 && x <= 1e12) {
		p := s.node.get(key)
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), "give a number from 0 to 1e12"))
		return 0
	}
	return x
}
