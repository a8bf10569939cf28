package choice

import (
	"fmt"
	"math"

	"seatwise/network/quantity"
)

// limit is one bound on one measure.
type limit struct {
	measure string
	words   string
	bound   *float64
	least   bool // the bound is a least value
}

// list is every limit given, in order. The surge allowance is for the surge alone: the steady pressure keeps to the design pressure itself.
func (l *Limits) list() []limit {
	all := []limit{
		{keySteadyPressure, "design pressure", l.DesignPressure, false},
		{keyMin, "minimum pressure", l.MinimumPressure, true},
		{keyReverse, "reverse velocity", l.ReverseVelocity, false},
		{keyLater, "reverse velocity", l.ReverseVelocity, false},
		{keyReverseSpeed, "pump reverse speed", l.PumpReverseSpeed, false},
		{keyReverseVolume, "reverse volume", l.ReverseVolume, false},
		{keyHeadLoss, "head loss", l.HeadLoss, false},
	}
	if l.DesignPressure != nil {
		words, bound := "design pressure", *l.DesignPressure
		if l.SurgeAllowance != nil {
			words = fmt.Sprintf("design pressure with %s surge allowance", quantity.Format(*l.SurgeAllowance, quantity.Fraction, quantity.SI))
			bound *= 1 + *l.SurgeAllowance
		}
		all = append([]limit{{keyPeak, words, &bound, false}}, all...)
	}
	var given []limit
	for _, x := range all {
		if x.bound != nil {
			given = append(given, x)
		}
	}
	return given
}

// judge holds an outcome against the limits. A limit on a measure that does not exist here gives no verdict.
func (o *Outcome) judge(limits []limit) {
	o.Verdicts, o.LimitsMet = nil, nil
	for _, l := range limits {
		v := measure(LiquidPump, l.measure).Get(o)
		if !exists(v) || l.measure == keyLater && v.SI == 0 {
			continue
		}
		margin := *l.bound - v.SI
		if l.least {
			margin = -margin
		}
		spot, ok := o.Spots[l.measure]
		if !ok {
			spot.Time = -1
		}
		o.Verdicts = append(o.Verdicts, Verdict{Measure: l.measure, Limit: l.words, Scenario: o.Scenario, Value: v.SI, Bound: *l.bound,
			Met: margin >= 0, Margin: margin, Unsure: math.Abs(margin) < o.Errors[l.measure], Place: spot.Place, Time: spot.Time})
	}
	if len(o.Verdicts) > 0 {
		met := true
		for _, v := range o.Verdicts {
			met = met && v.Met
		}
		o.LimitsMet = &met
	}
}

// unsure tells whether a limit is nearer than the numerical error.
func (o *Outcome) unsure() bool {
	for _, v := range o.Verdicts {
		if v.Unsure {
			return true
		}
	}
	return false
}
