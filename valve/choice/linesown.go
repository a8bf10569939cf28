package choice

import (
	"math"
	"slices"

	"seatwise/network/quantity"
)

// sameValue is how far the values of all candidates may lie apart, as a fraction of the bound, to count as the same where the numerical error is less.
const sameValue = 0.01

// remedies are what helps the line itself against a pressure that no check valve changes.
var remedies = map[string]string{
	keyPeak:           "a surge vessel, a relief valve, a slower event or a pipe of a higher pressure class",
	keySteadyPressure: "less pump head or a pipe of a higher pressure class",
	keyMin:            "an air valve at that place, a surge vessel, more inertia of the pump or a lower profile of the pipe",
	keyVapour:         "an air valve at that place, a surge vessel, more inertia of the pump or a lower profile of the pipe",
}

// linesOwn are the broken limits on pressure that are the line's own: every candidate breaks them in the same scenario, at the same place and by the
// same amount, within the numerical error or a hundredth of the bound, and the candidates are of two types at least.
func linesOwn(all []*standing) []Verdict {
	if len(all) < 2 || !slices.ContainsFunc(all, func(x *standing) bool { return x.family != all[0].family }) {
		return nil
	}
	var out []Verdict
	for _, o := range all[0].outcomes {
		for _, v := range o.Verdicts {
			if _, ok := remedies[v.Measure]; !v.Met && ok && !slices.ContainsFunc(all, func(x *standing) bool { return !x.breaks(v) }) {
				out = append(out, v)
			}
		}
	}
	return out
}

// breaks tells whether a candidate breaks a limit as the verdict of another does.
func (x *standing) breaks(v Verdict) bool {
	for _, o := range x.outcomes {
		apart := math.Max(o.Errors[v.Measure], sameValue*math.Abs(v.Bound))
		if slices.ContainsFunc(o.Verdicts, func(w Verdict) bool { return !w.Met && w.same(v) && math.Abs(w.Value-v.Value) <= apart }) {
			return true
		}
	}
	return false
}

// same tells whether two verdicts are on one measure in one scenario and at one place.
func (v Verdict) same(w Verdict) bool {
	return v.Measure == w.Measure && v.Scenario == w.Scenario && v.Place == w.Place
}

// line says which broken limits are the line's own, what helps, and which candidate would be taken by the other limits.
func (r *reasons) line(all []*standing) {
	own := linesOwn(all)
	if len(own) == 0 {
		return
	}
	for _, v := range own {
		at := ""
		if v.Place != "" {
			at = " at " + v.Place
		}
		m := measure(LiquidPump, v.Measure)
		r.add("No check valve among these cures the %s%s%s: it is %s with every one of them, against a limit of %s. It is the line's own, and needs %s.",
			m.Label, at, r.in(v.Scenario), r.write(v.Value, quantity.Pressure), r.write(v.Bound, quantity.Pressure), remedies[v.Measure])
	}
	for _, x := range all {
		if exists(r.weight(x)) && x.meetsRest(own) && !r.short(x.name) {
			r.add("Judged by the other limits alone, %s (%s) would be taken.", x.name, r.price(x))
			return
		}
	}
	r.add("Judged by the other limits alone, none of the candidates would be taken either.")
}

// meetsRest tells whether a candidate breaks no limit but those.
func (x *standing) meetsRest(own []Verdict) bool {
	if x.open != nil || !x.judged {
		return false
	}
	for _, o := range x.outcomes {
		if o.Failed != "" || slices.ContainsFunc(o.Verdicts, func(v Verdict) bool { return !v.Met && !slices.ContainsFunc(own, v.same) }) {
			return false
		}
	}
	return true
}
