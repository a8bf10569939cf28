package export

import (
	"io"
	"math"
	"strings"

	"seatwise/valve/choice"
)

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
	o.number("annuity_factor", e.Annuity(), "")
	candidates := []*object{}
	for _, k := range c.Costs {
		one := &object{}
		one.put("name", k.Candidate)
		one.number("present_value", k.Present, k.Reason)
		one.number("present_value_low", k.Low, k.Reason)
		one.number("present_value_high", k.High, k.Reason)
		one.number("purchase", k.Purchase, k.Reason)
		one.number("price_spread_fraction", k.Spread, k.Reason)
		one.number("energy_per_year", k.Energy, k.Reason)
		one.number("upkeep_per_year", k.Upkeep, k.Reason)
		one.number("slam_per_year", k.Slam, k.Reason)
		one.number("reverse_velocity_m_s", k.Reverse, k.Reason)
		candidates = append(candidates, one.closed())
	}
	o.put("candidates", candidates)
	o.put("remarks", list(c.CostRemarks))
	s.put("costs", o.closed())
}

// costFile is the name of the table of costs.
const costFile = "cost.csv"

// Costs writes what the candidates cost over their life, one row each, with the currency in the headings; of one whose cost is not known the reason. Errors
// are those of the writer.
func Costs(w io.Writer, c *choice.Comparison) error {
	currency := strings.TrimSpace(caseOf(c).Economics.Currency)
	if currency == "" {
		currency = "currency of the case"
	}
	t := newTable(w)
	for _, head := range []string{"candidate", "price from"} {
		t.text(head)
	}
	for _, head := range []string{"purchase", "energy", "upkeep", "slam", "present value", "lowest present value", "highest present value"} {
		unit := currency
		switch head {
		case "energy", "upkeep", "slam":
			unit += " a year"
		}
		t.text(head + " " + unit)
	}
	t.text("reverse velocity m/s")
	t.text("reason")
	t.end()
	for i := range c.Costs {
		k := &c.Costs[i]
		t.text(k.Candidate)
		from, numbers := k.PriceFrom(), []float64{k.Purchase, k.Energy, k.Upkeep, k.Slam, k.Present, k.Low, k.High, k.Reverse}
		if k.Reason != "" {
			from = ""
			for n := range numbers {
				numbers[n] = math.NaN() // an empty cell
			}
		}
		t.text(from)
		for _, x := range numbers {
			t.number(x)
		}
		t.text(k.Reason)
		t.end()
	}
	return t.close("costs")
}
