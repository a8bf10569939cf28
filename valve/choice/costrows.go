package choice

import (
	"slices"
	"strings"

	"seatwise/network/quantity"
)

// CostHeading is what the rows of [Comparison.CostRows] show; "" without economics.
func (c *Comparison) CostHeading() string {
	e := c.Case.Economics
	if e == nil {
		return ""
	}
	write := func(x float64, d quantity.Dimension) string {
		return strings.TrimSpace(quantity.Format(x, d, quantity.SI))
	}
	return "Life-cycle cost of one valve: present value over " + write(e.Years, quantity.Number) + " years at " + write(e.Rate, quantity.Fraction) +
		" a year (annuity factor " + write(e.Annuity(), quantity.Number) + ")"
}

// CostRows are the lines of the life-cycle cost, one cell for each of Costs: the present value of every part with what it is a year, and the sum. A part
// of which the case gives no data is left out.
func (c *Comparison) CostRows(system quantity.System) []Row {
	e := c.Case.Economics
	if e == nil {
		return nil
	}
	a := e.Annuity()
	unit := strings.TrimSpace(e.Currency)
	named := func(label string) string {
		if unit == "" {
			return label
		}
		return label + ", " + unit
	}
	var rows []Row
	row := func(label string, detail bool, text func(k *Costing) string) {
		r := Row{Label: label, Detail: detail}
		for i := range c.Costs {
			k := &c.Costs[i]
			switch {
			case k.Reason == "":
				r.Cells = append(r.Cells, Cell{Text: text(k)})
			case detail:
				r.Cells = append(r.Cells, Cell{})
			default:
				r.Cells = append(r.Cells, Cell{Reason: k.Reason})
			}
		}
		rows = append(rows, r)
	}
	yearly := func(label string, of func(k *Costing) float64) {
		row(named(label), false, func(k *Costing) string { return Amount(a * of(k)) })
		row("a year", true, func(k *Costing) string { return Amount(of(k)) })
	}
	row(named("purchase"), false, func(k *Costing) string { return Amount(k.Purchase) })
	row("price from", true, (*Costing).PriceFrom)
	if len(e.Duty) > 0 && e.EnergyPrice > 0 {
		yearly("energy", func(k *Costing) float64 { return k.Energy })
	}
	yearly("upkeep", func(k *Costing) float64 { return k.Upkeep })
	if e.Trips > 0 && len(e.Damage) > 0 {
		yearly("slam", func(k *Costing) float64 { return k.Slam })
		var all []float64
		for _, k := range c.Costs {
			all = append(all, k.Reverse)
		}
		sc := NewScale(quantity.Velocity, system, all...)
		row(sc.Label("reverse velocity"), true, func(k *Costing) string { return sc.Text(k.Reverse) })
		row("greatest at", true, (*Costing).SlamFrom)
	}
	row(named("sum"), false, func(k *Costing) string { return Amount(k.Present) })
	if slices.ContainsFunc(c.Costs, func(k Costing) bool { return k.Spread > 0 }) {
		row("by the band of the price ratio", true, func(k *Costing) string {
			if k.Spread == 0 {
				return ""
			}
			return Amount(k.Low) + " to " + Amount(k.High)
		})
	}
	return rows
}

// PriceFrom is how the purchase price is known.
func (k *Costing) PriceFrom() string {
	switch {
	case !exists(k.Ratio):
		return "offer"
	case k.Spread == 0 && k.Ratio.SI == 1:
		return "swing valve"
	case k.Spread == 0:
		return "ratio " + quantity.Format(k.Ratio.SI, quantity.Number, quantity.SI)
	}
	return "ratio " + quantity.Format(k.Ratio.SI, quantity.Number, quantity.SI) + " ±" + quantity.Format(k.Spread, quantity.Fraction, quantity.SI)
}
