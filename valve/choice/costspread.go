package choice

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
)

// lossBand says what the spread of generic loss coefficients does to the present value of the energy, which is proportional to them, all else as reckoned: a
// valve whose energy is the greater or the less by it may change places with the cheapest.
func (r *reasons) lossBand(w *Costing, all []*Costing) {
	a := r.Case.Economics.Annuity()
	var parts, rivals []string
	spread := 0.0
	for _, x := range all {
		if x.Loss == 0 || x.Energy == 0 {
			continue
		}
		spread = max(spread, x.Loss)
		parts = append(parts, fmt.Sprintf("%s %s ± %s", x.Candidate, r.money(a*x.Energy), r.money(a*x.Energy*x.Loss)))
	}
	if len(parts) == 0 {
		return
	}
	for _, x := range all {
		if reach := a * (x.Energy*x.Loss + w.Energy*w.Loss); x != w && math.Abs(x.Present-w.Present) < reach {
			rivals = append(rivals, x.Candidate)
		}
	}
	text := fmt.Sprintf("Head losses are generic as well, up to ±%s: present value of the energy %s", r.write(spread, quantity.Fraction), strings.Join(parts, ", "))
	if len(rivals) > 0 {
		r.add("%s. That alone can change the order of %s and %s: ask for tested losses.", text, w.Candidate, strings.Join(rivals, ", "))
		return
	}
	r.add("%s. That alone does not change the order of %s and any other.", text, w.Candidate)
}

// slamBand says which valves would pay another slam if their reverse velocity were as much less or greater as generic data are uncertain, all else as reckoned.
func (r *reasons) slamBand(w *Costing, all []*Costing) {
	e := r.Case.Economics
	if e.Trips <= 0 || len(e.Damage) == 0 {
		return
	}
	f := e.Annuity() * e.Trips
	off := func(k *Costing, s float64) float64 { return f * (e.OneSlam(k.Reverse*(1+s)) - e.OneSlam(k.Reverse)) }
	for _, x := range all {
		low, high := off(x, -spread), off(x, spread)
		if low == 0 && high == 0 {
			continue
		}
		text := fmt.Sprintf("Reverse velocities by generic data are known to ±%s: %s would pay %s to %s for slam in place of %s", r.write(spread, quantity.Fraction), x.Candidate,
			r.money(f*e.OneSlam(x.Reverse)+low), r.money(f*e.OneSlam(x.Reverse)+high), r.money(f*e.OneSlam(x.Reverse)))
		turns := x != w && x.Present+low < w.Present
		for _, y := range all {
			turns = turns || x == w && y != w && w.Present+high > y.Present
		}
		if turns {
			text += ", which alone can change the order"
		}
		r.add("%s.", text)
	}
}
