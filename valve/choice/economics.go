package choice

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/cost"
)

// Economics is what the money of a case is reckoned by. A comparison that has it recommends by present value in place of the price ratio.
type Economics struct {
	cost.Terms
	Offers map[string]Offer // by candidate; those without one are reckoned from the price ratio and the usual upkeep
}

// Offer is what the case says about the cost of a candidate. nil: nothing.
type Offer struct {
	Price  *float64 // purchase, in the currency
	Upkeep *float64 // fraction of the price a year
}

// Costing is the cost of one valve of a candidate over its life.
type Costing struct {
	Candidate string
	cost.Cost
	Low, High float64 // present value where the price is from a ratio, at the ends of its spread; the same where it is given
	Ratio     Value   // price over that of a swing valve, where the price is from it
	Spread    float64 // of the price, fraction either way; 0: it is given, or is that of the swing valve
	Loss      float64 // spread of the loss coefficient, fraction either way; 0: it is given
	Reverse   float64 // m/s, greatest reverse velocity of all scenarios, at the first or a later closing, which sets the class of slam
	Scenario  string  // in which it is met; "" nothing slams
	Later     bool    // it is that of a later closing
	Reason    string  // why there is no cost; "" there is
}

// costs reckons every sound candidate; nil without economics.
func (c *Comparison) costs() []Costing {
	e := c.Case.Economics
	if e == nil {
		return nil
	}
	var out []Costing
	for i, spec := range c.Case.Candidates {
		if spec.Failure != valve.Sound {
			continue
		}
		out = append(out, c.costing(e, i, spec))
	}
	return out
}

func (c *Comparison) costing(e *Economics, i int, spec valve.Spec) Costing {
	k := Costing{Candidate: spec.Name, Ratio: none("the price is given")}
	first := &c.Scenarios[0].Outcomes[i]
	price, upkeep := 0.0, cost.UsualUpkeep(spec.Type)
	offer := e.Offers[spec.Name]
	if offer.Upkeep != nil {
		upkeep = *offer.Upkeep
	}
	switch {
	case offer.Price != nil:
		price = *offer.Price
	case e.SwingPrice > 0 && exists(first.PriceRatio):
		price = e.SwingPrice * first.PriceRatio.SI
		k.Ratio, k.Spread = first.PriceRatio, priceSpread(spec, first.Valve)
	default:
		k.Reason = "its price in money is not known: give price amount, or the price of a swing valve"
		return k
	}
	slams := e.Trips > 0 && len(e.Damage) > 0
	known := false // the slam, in one scenario at least
	for n := range c.Scenarios {
		o := &c.Scenarios[n].Outcomes[i]
		switch {
		case o.Failed != "":
			k.Reason = "it has no result"
		case o.Unseated != "":
			k.Reason = "its disc has not seated at the end of the run"
		case slams && o.EventTime >= 0 && !exists(o.MaxReverseVelocity):
			k.Reason = "its slam is not known: " + o.MaxReverseVelocity.Reason
		case exists(o.MaxReverseVelocity):
			known = true
			k.slams(o)
		}
		if k.Reason != "" {
			return k
		}
	}
	if slams && !known {
		k.Reason = "nothing happens in this case, so that its slam is not known: give events, or leave out slam damage"
		return k
	}
	loss, ok := first.lossAt()
	if !ok && len(e.Duty) > 0 && e.EnergyPrice > 0 {
		k.Reason = "its head loss is not known: " + first.HeadLoss.Reason
		return k
	}
	k.Cost = e.Of(price, upkeep, first.Valve.Density, loss, k.Reverse)
	k.Low, k.High = e.Range(k.Cost, k.Spread)
	if math.IsNaN(k.Present) || math.IsInf(k.Present, 0) {
		k.Reason = "its cost is beyond all numbers"
	}
	for _, d := range first.Valve.Data {
		if d.Key == "loss when open" {
			k.Loss = d.Spread
		}
	}
	return k
}

// slams takes the hardest closing of an outcome, the first or a later one, where it is harder than what is known.
func (k *Costing) slams(o *Outcome) {
	if v := o.MaxReverseVelocity.SI; v > k.Reverse {
		k.Reverse, k.Scenario, k.Later = v, o.Scenario, false
	}
	if v := o.LaterReverseVelocity; exists(v) && v.SI > k.Reverse {
		k.Reverse, k.Scenario, k.Later = v.SI, o.Scenario, true
	}
}

// SlamFrom is the closing that the cost of slam is reckoned by.
func (k *Costing) SlamFrom() string {
	switch {
	case k.Reverse <= 0:
		return ""
	case k.Later:
		return "later closing, " + k.Scenario
	}
	return "first closing, " + k.Scenario
}

// priceSpread is the spread of a price ratio, fraction: that of the catalogue, none where the case gives the ratio. A plain swing valve of the catalogue is what the
// ratios are taken against, so that its own is exact.
func priceSpread(spec valve.Spec, v valve.Valve) float64 {
	for _, d := range v.Data {
		if d.Key == "price" && !(spec.Type == "swing" && d.Value == 1) {
			return d.Spread
		}
	}
	return 0
}

// lossAt is the head loss of the valve at a flow, m of the flow in m3/s: the disc at rest where that flow holds it, and what the reducers add, which
// grows with the square of the flow.
func (o *Outcome) lossAt() (func(q float64) float64, bool) {
	v := o.Valve
	if v.Motion == nil || !exists(o.HeadLoss) || !exists(o.InitialVelocity) || o.InitialVelocity.SI <= 0 {
		return nil, false
	}
	area := math.Pi / 4 * v.Bore * v.Bore
	disc := func(u float64) float64 { return v.Motion.Steady(u).DP / (v.Density * standardGravity) }
	u0 := o.InitialVelocity.SI
	whole := o.HeadLoss.SI
	if o.ownLoss > 0 {
		whole = o.ownLoss
	}
	fixed := math.Max(0, whole-disc(u0)) / (u0 * u0)
	return func(q float64) float64 {
		u := q / area
		return disc(u) + fixed*u*u
	}, true
}

const standardGravity = 9.80665 // m/s2

// money writes an amount with the currency.
func (c *Comparison) money(x float64) string {
	return strings.TrimSpace(Amount(x) + space + c.Case.Economics.Currency)
}

// space is one at which no line breaks.
const space = "\u00a0"

// Amount writes an amount of money in whole units and groups of three digits, with spaces at which no line breaks.
func Amount(x float64) string {
	x = math.Round(x)
	digits := fmt.Sprintf("%.0f", math.Abs(x))
	var groups []string
	for len(digits) > 3 {
		groups = append([]string{digits[len(digits)-3:]}, groups...)
		digits = digits[:len(digits)-3]
	}
	text := strings.Join(append([]string{digits}, groups...), space)
	if x < 0 {
		text = "-" + text
	}
	return text
}

// measured is what the recommendation weighs by, in words.
func (r *reasons) measured() string {
	if r.Case.Economics != nil {
		return "present value of all costs"
	}
	return "price"
}

// grounds is the weight of a candidate and how far it can be trusted.
func (r *reasons) grounds(x *standing) string {
	e := r.Case.Economics
	if e == nil {
		return r.price(x) + ", " + priceStatus
	}
	if e.Offers[x.name].Price == nil {
		return r.price(x) + ", from the price ratio, " + priceStatus
	}
	return r.price(x)
}

// over says that costs are those of a life.
func (r *reasons) over() string {
	if e := r.Case.Economics; e != nil {
		return " over " + r.write(e.Years, quantity.Number) + " years"
	}
	return ""
}
