package casefile

import (
	"fmt"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/cost"
)

// Defaults of the section economics, common practice.
const (
	usualYears      = 20
	usualRate       = 0.06
	usualEfficiency = 0.75
)

// economics reads the section economics with what one unit does in a year; nil where the case has none.
func (r *reader) economics(root *section, duty *choice.Duty) *choice.Economics {
	if !root.has("economics") {
		root.take("economics")
		return nil
	}
	s := r.section(root.take("economics"), "economics")
	e := &choice.Economics{Offers: r.offers}
	e.Currency, _ = s.text("currency")
	e.Years = s.upTo("years", quantity.Number, 1, 100, usualYears)
	e.Rate = s.upTo("discount rate", quantity.Fraction, 0, 1, usualRate)
	e.EnergyPrice = s.amount("energy price")
	e.Efficiency = s.upTo("efficiency", quantity.Fraction, 0.01, 1, usualEfficiency)
	e.SwingPrice = s.amount("price of a swing valve")
	if duty != nil {
		e.Duty, e.Trips = duty.Runs, duty.Trips
	}
	rows, _ := s.table("slam damage", []column{{name: "reverse velocity", dim: quantity.Velocity}, {name: "amount", dim: quantity.Number}})
	for i, row := range rows {
		if row[0] < 0 || row[1] < 0 || row[1] > 1e12 || i > 0 && row[0] <= rows[i-1][0] {
			s.rowFault("slam damage", i, "reverse velocities do not rise, or an amount is not from 0 to 1e12", "give the reverse velocity from which one slam costs the amount, the least first")
			break
		}
		e.Damage = append(e.Damage, cost.Slam{Velocity: row[0], Amount: row[1]})
	}
	s.done()
	if s.node == nil {
		return e
	}
	if e.EnergyPrice > 0 && len(e.Duty) == 0 {
		r.warnings = append(r.warnings, "economics: the energy of the pressure drop is left out, as there is no flow table: give duty: {flow table: [[430 m3/h, 6000 h]]}")
	}
	if len(e.Damage) > 0 && e.Trips == 0 {
		r.warnings = append(r.warnings, "economics: slam costs nothing, as there are no trips: give duty: {trips: 6}")
	}
	r.assumptions = append(r.assumptions, "economics: costs are of one valve; its pump runs at the same duty point whichever valve is taken; upkeep that is not given is 1.5 to 5 % of the price a year by family (common practice)")
	return e
}

// upTo reads a number between two bounds; left out it is the usual one.
func (s *section) upTo(key string, d quantity.Dimension, least, most, usual float64) float64 {
	s.r.survey.form(s.key(key), shape{kind: isFigure, dim: d, low: least, high: most})
	x, ok := s.quantity(key, d)
	inWords := func(x float64) string {
		if d == quantity.Fraction {
			return fmt.Sprintf("%g %%", 100*x)
		}
		return fmt.Sprintf("%g", x)
	}
	switch {
	case ok && !(x >= least && x <= most):
		p := s.node.get(key)
		hint := "give " + inWords(least) + " to " + inWords(most)
		if percent := x / 100; d == quantity.Fraction && p.value.text == fmt.Sprintf("%g", x) && percent >= least && percent <= most {
			hint = "write " + inWords(percent)
		}
		s.r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), hint))
	case ok:
		return x
	case !s.has(key):
		s.r.assume(s.key(key), inWords(usual), Default, "common practice", "economics: %s %s", key, inWords(usual))
	}
	return usual
}

// offer reads what a candidate costs.
func (s *section) offer(name string) {
	var o choice.Offer
	if s.take("price amount") != nil {
		x := s.amount("price amount")
		o.Price = &x
	}
	if s.take("upkeep") != nil {
		x := s.upTo("upkeep", quantity.Fraction, 0, 1, 0)
		o.Upkeep = &x
	}
	if o.Price == nil && o.Upkeep == nil {
		return
	}
	if s.r.offers == nil {
		s.r.offers = map[string]choice.Offer{}
	}
	s.r.offers[name] = o
}
