package choice

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network/quantity"
)

// costRemarks are the sentences on what the order of the costs hangs on: which valve is the cheapest, whether the spread of the price ratios can change
// that, and the slam damage and the price of energy at which two valves cost the same. nil without economics.
func (c *Comparison) costRemarks(s Settings) []string {
	if c.Case.Economics == nil {
		return nil
	}
	r := &reasons{Settings: s, Comparison: c}
	r.leftOut()
	var all, field []*Costing // reckoned, and of these such as meet every limit, or all where none does
	for i := range c.Costs {
		if c.Costs[i].Reason == "" {
			all = append(all, &c.Costs[i])
		}
	}
	for _, k := range all {
		if c.Meets(k.Candidate) {
			field = append(field, k)
		}
	}
	which := "of the valves that meet every limit"
	if len(field) == 0 {
		field, which = all, "of all"
	}
	if len(all) < 2 {
		return r.out
	}
	least := func(a, b *Costing) int {
		switch {
		case a.Present < b.Present:
			return -1
		case a.Present > b.Present:
			return 1
		}
		return 0
	}
	w, cheapest := slices.MinFunc(field, least), slices.MinFunc(all, least)
	r.add("%s has the least present value %s: %s.", w.Candidate, which, r.money(w.Present))
	if cheapest != w && cheapest.Present < w.Present {
		r.add("%s would cost less, %s, but does not meet the limits.", cheapest.Candidate, r.money(cheapest.Present))
	}
	r.band(w, field)
	r.lossBand(w, all)
	r.slamBand(w, all)
	for _, x := range all {
		if x != w {
			r.slamAtPar(w, x)
		}
	}
	r.energyAtPar(w, all)
	return r.out
}

// leftOut says which part of the costs the case gives no data for.
func (r *reasons) leftOut() {
	e := r.Case.Economics
	if len(e.Duty) == 0 || e.EnergyPrice <= 0 {
		r.add("The energy of the pressure drop is left out: no flow table and energy price are given.")
	}
	if e.Trips <= 0 || len(e.Damage) == 0 {
		r.add("The damage of slam is left out: no trips and slam damage are given.")
	}
}

// band says whether the spread of the price ratios can make another of the field the cheapest.
func (r *reasons) band(w *Costing, field []*Costing) {
	if len(field) < 2 {
		return
	}
	spread := 0.0
	var rivals []*Costing
	for _, x := range field {
		spread = max(spread, x.Spread)
		if x != w && x.Low < w.High && (x.Spread > 0 || w.Spread > 0) {
			rivals = append(rivals, x)
		}
	}
	if spread == 0 {
		r.add("Every price is given, or that of the swing valve: no generic price ratio is behind this order.")
		return
	}
	is := fmt.Sprintf("Price ratios are common practice, ±%s", r.write(spread, quantity.Fraction))
	if len(rivals) == 0 {
		r.add("%s: with the prices alone varied within that band, head losses and slam as reckoned, %s stays the cheapest.", is, w.Candidate)
		return
	}
	r.add("%s: within that band the cheapest can change. %s costs %s.", is, w.Candidate, r.between(w))
	for _, x := range rivals {
		text := fmt.Sprintf("%s costs %s", x.Candidate, r.between(x))
		if p, ok := r.Case.Economics.PriceAtPar(w.Cost, x.Cost); ok && x.Spread > 0 {
			text += fmt.Sprintf(", and would be cheaper than %s at a purchase price below %s (by its price ratio %s)", w.Candidate, r.money(p), r.money(x.Purchase))
		} else if p, ok := r.Case.Economics.PriceAtPar(x.Cost, w.Cost); ok && w.Spread > 0 {
			text += fmt.Sprintf(", and is cheaper if %s has a purchase price above %s (by its price ratio %s)", w.Candidate, r.money(p), r.money(w.Purchase))
		}
		r.add("%s: ask for quotations.", text)
	}
}

// between is the present value of a valve over the spread of its price.
func (r *reasons) between(k *Costing) string {
	if k.Spread == 0 {
		return r.money(k.Present)
	}
	return "from " + r.money(k.Low) + " to " + r.money(k.High)
}

// slamAtPar says from which damage of a slam the valve that slams less pays back.
func (r *reasons) slamAtPar(w, x *Costing) {
	e := r.Case.Economics
	hard, soft := w, x // by the slam
	if hard.Reverse < soft.Reverse {
		hard, soft = soft, hard
	}
	if e.Trips <= 0 || hard.Reverse <= soft.Reverse {
		return
	}
	d, ok := e.SlamAtPar(hard.Cost, soft.Cost)
	verb := "costs less than"
	if soft.Purchase > hard.Purchase {
		verb = "pays back against"
	}
	switch {
	case ok:
		text := fmt.Sprintf("%s %s %s if one slam of %s costs more than %s", soft.Candidate, verb, hard.Candidate, hard.Candidate, r.money(d))
		if len(e.Damage) > 0 {
			text += fmt.Sprintf("; %s is reckoned at %s", speed(hard.Reverse, r.Settings), r.money(e.OneSlam(hard.Reverse)))
		}
		r.add("%s.", text)
	case soft.Purchase > hard.Purchase:
		r.add("%s pays back against %s even if a slam costs nothing.", soft.Candidate, hard.Candidate)
	}
}

// reachOfEnergy is how many times dearer or cheaper energy may become for a change of the order to be worth telling.
const reachOfEnergy = 10

// energyAtPar says at which price of energy the cheapest valve and another cost the same.
func (r *reasons) energyAtPar(w *Costing, all []*Costing) {
	e := r.Case.Economics
	if len(e.Duty) == 0 || e.EnergyPrice <= 0 {
		return
	}
	found := false
	for _, x := range all {
		p, ok := e.EnergyAtPar(w.Cost, x.Cost)
		if x == w || !ok || p < e.EnergyPrice/reachOfEnergy || p > e.EnergyPrice*reachOfEnergy {
			continue
		}
		found = true
		now, then := w, x // the cheaper one now, and beyond the price of par
		if x.Present < w.Present {
			now, then = x, w
		}
		side := "above"
		if then.Energy > now.Energy {
			side = "below"
		}
		r.add("%s becomes cheaper than %s at an energy price %s %.3g%s%s (given: %.3g).", then.Candidate, now.Candidate, side, p, space,
			strings.TrimSpace(e.Currency+" per kWh"), e.EnergyPrice)
	}
	if !found {
		r.add("No price of energy from a tenth to ten times the given one changes which is the cheaper of %s and any other valve.", w.Candidate)
	}
}
