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
		{keyLater, "later: reverse velocity", l.ReverseVelocity, false},
		{keyReverseSpeed, "pump reverse speed", l.PumpReverseSpeed, false},
		{keyReverseVolume, "reverse volume", l.ReverseVolume, false},
		{keyHeadLoss, "head loss", l.HeadLoss, false},
		{keyAnchor, "anchor force", l.AnchorForce, false},
	}
	if l.DesignPressure != nil {
		words, bound := "design pressure", *l.DesignPressure
		if l.SurgeAllowance != nil {
			words = fmt.Sprintf("design pressure with %s surge allowance", quantity.Format(*l.SurgeAllowance, quantity.Fraction, quantity.SI))
			bound *= 1 + *l.SurgeAllowance
			if l.Rule != nil {
				words += l.Rule.words()
			}
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
		if !exists(v) {
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
		verdict := Verdict{Measure: l.measure, Limit: l.words, Scenario: o.Scenario, Value: v.SI, Bound: *l.bound, Met: margin >= 0, Margin: margin,
			Unsure: math.Abs(margin) < o.Errors[l.measure], AtVapour: l.measure == keyMin && o.AtVapour, Place: spot.Place, Time: spot.Time}
		if verdict.Met {
			verdict.Narrow = spread*o.share(l.measure) > margin
		} else {
			verdict.Late = o.late(verdict)
		}
		o.Verdicts = append(o.Verdicts, verdict)
	}
	if len(o.Verdicts) > 0 {
		met := true
		for _, v := range o.Verdicts {
			met = met && v.Met
		}
		o.LimitsMet = &met
	}
}

// spread is how well generic valve data are known, relative (common practice).
const spread = 0.4

// share is the part of a measure that the valve's data decide: the reverse velocity itself, and of an extreme pressure and of an anchor force the slam.
func (o *Outcome) share(key string) float64 {
	switch key {
	case keyReverse:
		return o.MaxReverseVelocity.SI
	case keyLater:
		return o.LaterReverseVelocity.SI
	case keyPeak, keyMin:
		if o.Spots[key].Time >= 0 { // else it is that of the steady flow
			return math.Max(0, o.SlamPressureRise.SI)
		}
	case keyAnchor:
		return o.slamPush()
	}
	return 0
}

// late is the time from the first seating to the first moment at which a limit is broken, when that is more than four wave periods; else 0. The
// moment is that at the valve, or that of the extreme elsewhere.
func (o *Outcome) late(v Verdict) float64 {
	if !exists(o.Seated) || v.Time < 0 {
		return 0
	}
	at, ok := o.exceeded[v.Measure]
	if !ok {
		return 0
	}
	first := v.Time
	if at >= 0 {
		first = math.Min(first, at)
	}
	if after := first - o.Seated.SI; after > o.settling {
		return after
	}
	return 0
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
