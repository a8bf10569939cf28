package export

import "seatwise/valve/choice"

// costs puts what the candidates cost over their life, in the currency of the case; nothing without economics.
func costs(s *object, c *choice.Comparison) {
	e := caseOf(c).Economics
	if e == nil {
		return
	}
	o := &object{}
	o.text("currency", e.Currency, "not given")
	o.number("years", e.Years, "")
	o.number("discount_rate_fraction", e.Rate, "")
	candidates := []*object{}
	for _, k := range c.Costs {
		one := &object{}
		one.put("name", k.Candidate)
		one.number("present_value", k.Present, k.Reason)
		one.number("purchase", k.Purchase, k.Reason)
		one.number("energy_per_year", k.Energy, k.Reason)
		one.number("upkeep_per_year", k.Upkeep, k.Reason)
		one.number("slam_per_year", k.Slam, k.Reason)
		candidates = append(candidates, one.closed())
	}
	o.put("candidates", candidates)
	s.put("costs", o.closed())
}
