package casefile

import (
	"fmt"

	"seatwise/network/quantity"
	"seatwise/valve/cost"
)

const year = 8784 * 3600 // s, a leap year

// duty reads what one unit does in a year: its flows, and how often it trips.
func (r *reader) duty(root *section) (runs []cost.Run, trips float64) {
	s := r.section(root.take("duty"), "duty")
	rows, _ := s.table("flow table", []column{{name: "flow", dim: quantity.Flow}, {name: "time", dim: quantity.Time}})
	var total float64
	for i, row := range rows {
		if row[0] < 0 || row[1] < 0 {
			s.rowFault("flow table", i, "a flow or a time below zero", "give the flow through one unit and the hours of a year")
			break
		}
		total += row[1]
		runs = append(runs, cost.Run{Flow: row[0], Time: row[1]})
	}
	if total > year {
		p := s.node.get("flow table")
		r.failed(s.key("flow table"), p.value.fault(fmt.Sprintf("%s adds up to %.0f h", s.key("flow table"), total/3600), "a year has 8760 h"))
	}
	trips = s.amount("trips")
	s.done()
	return runs, trips
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
