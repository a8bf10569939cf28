package choice

import (
	"cmp"
	"math"
	"slices"

	"seatwise/valve"
)

// standing is a candidate over all scenarios.
type standing struct {
	name, family string
	outcomes     []*Outcome // one per scenario
	judged       bool       // at least one verdict
	met          bool       // judged, every verdict met, nothing failed
	open         *Outcome   // the run ends here before the disc seats
	price        Value
	present      Value // present value of its cost in the currency of the case
	loss         Value // head loss in the first scenario
}

// weight is what the candidates are weighed by: the present value of the cost where the case has economics, else the price ratio.
func (c *Comparison) weight(x *standing) Value {
	if c.Case.Economics != nil {
		return x.present
	}
	return x.price
}

// standings puts the candidates in the order of their weight, those without one last, and of head loss at the same price.
func (c *Comparison) standings() []*standing {
	var out []*standing
	for i, spec := range c.Case.Candidates {
		if spec.Failure != valve.Sound {
			continue
		}
		s := &standing{name: spec.Name, family: spec.Type, met: true, price: none("no result"), loss: none("no result"), present: none("no result")}
		for _, k := range c.Costs {
			if k.Candidate == spec.Name {
				s.present = Value{SI: k.Present, Reason: k.Reason}
			}
		}
		for k := range c.Scenarios {
			o := &c.Scenarios[k].Outcomes[i]
			s.outcomes = append(s.outcomes, o)
			s.judged = s.judged || len(o.Verdicts) > 0
			s.met = s.met && o.Failed == "" && (o.LimitsMet == nil || *o.LimitsMet)
			if o.Unseated != "" && s.open == nil {
				s.open = o
			}
			if !exists(s.price) {
				s.price = o.PriceRatio
			}
			if !exists(s.loss) {
				s.loss = o.HeadLoss
			}
		}
		s.met = s.met && s.judged && s.open == nil && !c.short(s.name)
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b *standing) int {
		return cmp.Or(cmp.Compare(rank(c.weight(a)), rank(c.weight(b))), cmp.Compare(rank(a.loss), rank(b.loss)))
	})
	return out
}

func rank(v Value) float64 {
	if !exists(v) {
		return math.Inf(1)
	}
	return v.SI
}

// Meets tells whether a candidate meets every limit in every scenario: at least one limit is judged, and no run failed or ended before its disc had
// seated. Only such a candidate is recommended.
func (c *Comparison) Meets(candidate string) bool {
	return slices.ContainsFunc(c.standings(), func(x *standing) bool { return x.name == candidate && x.met })
}

// recommend takes the least weight, price or present value, among the candidates that meet every limit in every scenario, the least head loss at the same weight, and gives
// the reasons.
func (c *Comparison) recommend(s Settings) {
	c.Costs = c.costs()
	all := c.standings()
	limits := c.Case.Limits.list()
	say := &reasons{Settings: s, Comparison: c, limits: limits}
	defer func() {
		say.terms()
		if !c.Interrupted {
			c.CostRemarks = c.costRemarks(s)
		}
		c.Reasons = say.out
	}()
	judged := slices.ContainsFunc(all, func(x *standing) bool { return x.judged || x.open != nil })
	switch {
	case c.Interrupted:
		say.soFar(all)
		return
	case len(limits) == 0:
		say.add("No valve is recommended, as no limits are given: give at least a design pressure or a reverse velocity.")
		for _, x := range all {
			say.facts(x)
		}
		say.losses(all)
		say.quiet(all)
		return
	case !judged:
		say.add("No valve is recommended: none of the limits given concerns anything that happens here.")
		for _, x := range all {
			say.facts(x)
		}
		return
	case len(all) == 1:
		say.alone(all[0])
		say.undamped(all)
		return
	}
	win := slices.IndexFunc(all, func(x *standing) bool { return x.met && exists(c.weight(x)) })
	if win < 0 {
		say.add("No valve is recommended: none of the candidates that have a price meets every limit in every scenario.")
		say.line(all)
		for _, x := range all {
			say.against(x)
		}
		say.undamped(all)
		say.losses(all)
		return
	}
	w := all[win]
	c.Recommended = w.name
	say.winner(w, all)
	say.plain(w, all)
	for i, x := range all {
		if i != win {
			say.other(x, w)
		}
	}
	say.cost(w, all)
	say.losses(all)
	say.undamped(all)
	say.doubt(w)
	say.unheld(w.name)
	say.quiet(all)
}
