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
	least   bool    // the bound is a least value
	rule    *Rule   // it raises the bound by what the time above it leaves; nil: the bound stands
	spare   float64 // fraction of the bound that a value has to keep away from it
}

// against is the bound for an outcome, and its words.
func (l *limit) against(o *Outcome) (float64, string) {
	if l.rule == nil {
		return *l.bound, l.words
	}
	a := l.rule.lets(o.TimeAbove)
	with := quantity.Format(a, quantity.Fraction, quantity.SI) + " surge allowance"
	switch {
	case a > 0:
	case exists(o.TimeAbove):
		with = "no surge allowance, as it is exceeded for too long,"
	default:
		with = "no surge allowance, as it is " + o.TimeAbove.Reason + ","
	}
	return *l.bound * (1 + a), l.words + " with " + with + l.rule.words()
}

// asks is the bound with the margin that is asked for.
func (l *limit) asks(bound float64) float64 {
	if l.least {
		return bound + l.spare*math.Abs(bound)
	}
	return bound - l.spare*math.Abs(bound)
}

// concerns tells whether a verdict is on this limit.
func (l *limit) concerns(v Verdict) bool {
	return v.Measure == l.measure && (l.rule != nil || v.Limit == l.words)
}

// list is every limit given, in order. The surge allowance is for the surge alone: the steady pressure keeps to the design pressure itself.
func (l *Limits) list() []limit {
	all := []limit{
		{measure: keySteadyPressure, words: "design pressure", bound: l.DesignPressure},
		{measure: keyMin, words: "minimum pressure", bound: l.MinimumPressure, least: true},
		{measure: keyVapour, words: "vapour margin", bound: l.VapourMargin, least: true},
		{measure: keyReverse, words: "reverse velocity", bound: l.ReverseVelocity},
		{measure: keyLater, words: "later: reverse velocity", bound: l.ReverseVelocity},
		{measure: keyReverse, words: "slam class " + l.SlamClass, bound: l.slamBound()},
		{measure: keyLater, words: "later: slam class " + l.SlamClass, bound: l.slamBound()},
		{measure: keyReverseSpeed, words: "pump reverse speed", bound: l.PumpReverseSpeed},
		{measure: keyReverseVolume, words: "reverse volume", bound: l.ReverseVolume},
		{measure: keyHeadLoss, words: "head loss", bound: l.HeadLoss},
		{measure: keyAnchor, words: "anchor force", bound: l.AnchorForce},
	}
	if l.DesignPressure != nil {
		all = append([]limit{l.surge()}, all...)
	}
	var given []limit
	for _, x := range all {
		if x.bound != nil {
			x.spare = l.Margin
			given = append(given, x)
		}
	}
	return given
}

// surge is the limit on the highest pressure.
func (l *Limits) surge() limit {
	x := limit{measure: keyPeak, words: "design pressure", bound: l.DesignPressure}
	switch {
	case l.Rule.Timed():
		x.rule = l.Rule
	case l.SurgeAllowance != nil:
		bound := *l.DesignPressure * (1 + *l.SurgeAllowance)
		x.bound, x.words = &bound, fmt.Sprintf("design pressure with %s surge allowance", quantity.Format(*l.SurgeAllowance, quantity.Fraction, quantity.SI))
		if l.Rule != nil {
			x.words += l.Rule.words()
		}
	}
	return x
}

// Any tells whether there is anything to judge by.
func (l *Limits) Any() bool { return len(l.list()) > 0 }

// judge holds an outcome against the limits. A limit on a measure that does not exist here gives no verdict.
func (o *Outcome) judge(limits []limit) {
	o.Verdicts, o.LimitsMet = nil, nil
	for i := range limits {
		l := &limits[i]
		v := measure(LiquidPump, l.measure).Get(o)
		if !exists(v) {
			continue
		}
		spot, ok := o.Spots[l.measure]
		if !ok {
			spot.Time = -1
		}
		bound, words := l.against(o)
		verdict := Verdict{Measure: l.measure, Limit: words, Scenario: o.Scenario, Value: v.SI, Bound: bound, Margin: bound - v.SI, Asked: l.spare * math.Abs(bound),
			AtVapour: (l.measure == keyMin || l.measure == keyVapour) && o.AtVapour, Place: spot.Place, Time: spot.Time}
		verdict.Met = v.SI <= l.asks(bound)
		if l.least {
			verdict.Met, verdict.Margin = v.SI >= l.asks(bound), -verdict.Margin
		}
		verdict.Unsure = math.Abs(verdict.Spare()) < o.Errors[l.measure]
		if verdict.Met {
			verdict.Narrow = spread*o.share(l.measure) > verdict.Spare()
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

// Spare is the margin beyond that which is asked for, in the measure's unit; negative where the verdict is not met.
func (v Verdict) Spare() float64 { return v.Margin - v.Asked }

// Sort is the words of the limit without the allowance, which by some rules depends on the outcome.
func (v Verdict) Sort() string { return sortOf(v.Limit) }

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
	case keyVapour:
		return o.share(keyMin) / o.gamma
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
