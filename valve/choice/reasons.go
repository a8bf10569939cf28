package choice

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network/quantity"
)

// reasons gathers sentences; every number in them is a measure, a limit, or the difference of two.
type reasons struct {
	Settings
	*Comparison
	limits []limit
	out    []string
}

// heldOpen is the opening from which a disc counts as held on its stop.
const heldOpen = 0.999

const priceStatus = "common practice, ±40 %"

func (r *reasons) add(format string, args ...any) {
	r.out = append(r.out, fmt.Sprintf(format, args...))
}

// in names the scenario where there are several.
func (r *reasons) in(scenario string) string {
	if len(r.Scenarios) == 1 {
		return ""
	}
	return ", scenario " + scenario
}

func (r *reasons) price(x *standing) string {
	if r.Case.Economics != nil {
		if !exists(x.present) {
			return x.present.Reason
		}
		return "present value " + r.money(x.present.SI)
	}
	if !exists(x.price) {
		return x.price.Reason
	}
	return "price ratio " + r.write(x.price.SI, quantity.Number)
}

// scale is that of the table's row.
func (r *reasons) scale(v Verdict, m Measure) Scale {
	for i := range r.Scenarios {
		if r.Scenarios[i].Name == v.Scenario {
			return r.Scenarios[i].Scale(m, r.Units)
		}
	}
	return NewScale(m.Dimension, r.Units, v.Value, v.Bound).Apart(v.Value, v.Bound)
}

// margin is the distance to a bound in words, with the rounding of the table.
func (r *reasons) margin(v Verdict) string {
	m := measure(LiquidPump, v.Measure)
	sc := r.scale(v, m)
	by := strings.TrimSpace(sc.Difference(v.Value, v.Bound) + " " + sc.Name())
	bound := "the " + strings.Replace(strings.TrimPrefix(v.Limit, "later: "), "slam class", "bound of slam class", 1)
	if strings.HasSuffix(m.Label, strings.TrimPrefix(v.Limit, "later: ")) {
		bound = "the limit"
	}
	text := fmt.Sprintf("the %s of %s is ", m.Label, sc.With(v.Value))
	switch {
	case v.Value > v.Bound:
		text += by + " above " + bound
	case v.Value < v.Bound:
		text += by + " below " + bound
	default:
		text += "exactly at " + bound
	}
	text += " of " + sc.With(v.Bound)
	if !v.Met && v.Asked > 0 && v.Margin >= 0 {
		text += ", where " + strings.TrimSpace(sc.Difference(v.Bound, v.Bound+v.Asked)+" "+sc.Name()) + " to spare are asked for"
	}
	var where []string
	if v.AtVapour {
		where = append(where, "vapour pressure")
	}
	if v.Place != "" {
		where = append(where, v.Place)
	}
	if v.Time >= 0 {
		where = append(where, seconds(v.Time, r.Settings))
	}
	if len(r.Scenarios) > 1 {
		where = append(where, "scenario "+v.Scenario)
	}
	if v.Unsure && !v.Met {
		where = append(where, "unsure")
	}
	if len(where) > 0 {
		text += " (" + strings.Join(where, ", ") + ")"
	}
	if v.Late > 0 {
		text += ", late: after " + r.after(v)
	}
	return text
}

// after is how long it takes from the first seating until a limit is first broken, and what goes on meanwhile.
func (r *reasons) after(v Verdict) string {
	text := seconds(v.Late, r.Settings)
	for i := range r.Scenarios {
		for k := range r.Scenarios[i].Outcomes {
			o := &r.Scenarios[i].Outcomes[k]
			if o.Scenario != v.Scenario || !slices.Contains(o.Verdicts, v) {
				continue
			}
			switch n := o.Reopenings.SI; {
			case n == 1:
				return text + " with one reopening"
			case n > 1:
				return fmt.Sprintf("%s of repeated opening and closing (%.0f reopenings)", text, n)
			}
		}
	}
	return text + " of waves"
}

// worst keeps, of the verdicts that pass the filter, the one of least margin per limit.
func (x *standing) worst(keep func(Verdict) bool) []Verdict {
	var out []Verdict
	for _, o := range x.outcomes {
	next:
		for _, v := range o.Verdicts {
			if !keep(v) {
				continue
			}
			for i := range out {
				if out[i].Measure == v.Measure && sortOf(out[i].Limit) == sortOf(v.Limit) {
					if v.Spare() < out[i].Spare() {
						out[i] = v
					}
					continue next
				}
			}
			out = append(out, v)
		}
	}
	return out
}

func failing(v Verdict) bool { return !v.Met }
func passing(v Verdict) bool { return v.Met }

// faults lists all that speaks against a candidate.
func (r *reasons) faults(x *standing) []string {
	var out []string
	for _, o := range x.outcomes {
		if o.Failed != "" && !r.missed(x.name, o.Scenario) {
			out = append(out, fmt.Sprintf("it has no result%s: %s", r.in(o.Scenario), o.Failed))
		}
	}
	if x.open != nil {
		out = append(out, fmt.Sprintf("%s%s; let the run go on longer, or take a valve that closes", x.open.Unseated, r.in(x.open.Scenario)))
	}
	for _, v := range x.worst(failing) {
		out = append(out, r.margin(v))
	}
	return out
}

// against is the sentence on a candidate that fails, or that has no price.
func (r *reasons) against(x *standing) {
	if f := r.faults(x); len(f) > 0 {
		r.add("%s (%s) fails: %s.", x.name, r.price(x), strings.Join(f, "; "))
		return
	}
	r.add("%s meets every limit%s, but %s, so it cannot be weighed against the others: give its price.", x.name, x.closely(", "), r.price(x))
}

// facts are the figures of a candidate without limits to hold them against.
func (r *reasons) facts(x *standing) {
	for _, o := range x.outcomes {
		if o.Failed != "" {
			r.add("%s%s has no result: %s.", x.name, r.in(o.Scenario), o.Failed)
			continue
		}
		var f []string
		for _, key := range []string{keyReverse, keyPeak, keyMin, keyAnchor, keyHeadLoss} {
			m := measure(LiquidPump, key)
			if v := m.Get(o); exists(v) {
				f = append(f, m.Label+" "+r.write(v.SI, m.Dimension))
			}
		}
		if o.Unseated != "" {
			f = append(f, o.Unseated)
		}
		r.add("%s (%s)%s: %s.", x.name, r.price(x), r.in(o.Scenario), strings.Join(f, ", "))
	}
}

// alone is the verdict on a single candidate.
func (r *reasons) alone(x *standing) {
	r.add("%s is the only candidate: this is a verdict on it, no comparison.", x.name)
	if f := r.faults(x); len(f) > 0 {
		r.add("%s fails: %s.", x.name, strings.Join(f, "; "))
	} else {
		r.add("%s meets every limit%s: %s.", x.name, x.closely(", "), strings.Join(r.margins(x), "; "))
		r.plain(x, []*standing{x})
	}
	r.doubt(x)
}

func (r *reasons) margins(x *standing) []string {
	var out []string
	for _, v := range x.worst(passing) {
		if v.Measure != keyLater || v.Value > 0 {
			out = append(out, r.margin(v))
		}
	}
	return out
}

// winner says why the recommended candidate is.
func (r *reasons) winner(w *standing, all []*standing) {
	where := "every limit"
	if len(r.Scenarios) > 1 {
		where = "every limit in every scenario"
	}
	meeting := 0
	for _, x := range all {
		if x.met && exists(r.weight(x)) {
			meeting++
		}
	}
	if meeting == 1 {
		r.add("%s is recommended: of the candidates that have a price it alone meets %s%s (%s).", w.name, where, w.closely(", "), r.grounds(w))
	} else {
		r.add("%s is recommended: it has the least %s of the %d candidates that meet %s%s (%s).", w.name, r.measured(), meeting, where, w.closely(", and meets "), r.grounds(w))
	}
	r.add("%s: %s.", w.name, strings.Join(r.margins(w), "; "))
}

// plain says when nothing better than a swing disc is needed, whether it is the one recommended or not.
func (r *reasons) plain(w *standing, all []*standing) {
	for _, x := range all {
		closes := slices.ContainsFunc(x.outcomes, func(o *Outcome) bool { return exists(o.Seated) })
		if !x.met || !closes || x.family != "swing" && x.family != "swing heavy" {
			continue
		}
		if x != w {
			r.add("A plain swing disc (%s) would be good enough too.", x.name)
			continue
		}
		text := "A plain swing disc is good enough here"
		if slices.ContainsFunc(x.worst(passing), func(v Verdict) bool { return v.Narrow }) {
			text += ", though not by much"
		}
		r.add("%s.", text)
		return
	}
}

// terms say what the limits go by beyond their figures.
func (r *reasons) terms() {
	if l := &r.Case.Limits; len(r.limits) > 0 {
		if l.Margin > 0 {
			r.add("A limit counts as met with a margin of %s of it or more.", r.write(l.Margin, quantity.Fraction))
		}
		if l.Rule.Timed() {
			r.add("%s", l.Rule.Words())
		}
	}
}

// other is the sentence on a candidate that is not recommended.
func (r *reasons) other(x, w *standing) {
	switch {
	case !x.met || !exists(r.weight(x)):
		r.against(x)
	case r.weight(x).SI == r.weight(w).SI:
		r.add("%s meets every limit%s at the same %s, but loses %s of head against %s.", x.name, x.closely(", "), r.price(x), r.head(x.loss), r.head(w.loss))
	default:
		r.add("%s meets every limit too%s, at %s.", x.name, x.closely(", "), r.price(x))
	}
}

func (r *reasons) head(v Value) string {
	if !exists(v) {
		return "an unknown amount"
	}
	return r.write(v.SI, quantity.Length)
}

// cost is what the recommended candidate costs against the cheapest.
func (r *reasons) cost(w *standing, all []*standing) {
	cheap := all[0]
	if cheap == w || !exists(r.weight(cheap)) || r.weight(cheap).SI <= 0 {
		return
	}
	text := fmt.Sprintf("Against %s, %s costs %s times as much%s", cheap.name, w.name, r.write(r.weight(w).SI/r.weight(cheap).SI, quantity.Number), r.over())
	if exists(cheap.loss) && exists(w.loss) {
		d := w.loss.SI - cheap.loss.SI
		more := "more"
		if d < 0 {
			more = "less"
		}
		text += fmt.Sprintf(" and loses %s %s head in steady flow (%s against %s)", r.write(math.Abs(d), quantity.Length), more, r.head(w.loss), r.head(cheap.loss))
	}
	r.add("%s.", text)
}

// losses says when a streamlined valve loses less head than a swing valve.
func (r *reasons) losses(all []*standing) {
	for _, x := range all {
		for _, y := range all {
			if x.family == "nozzle" && y.family == "swing" && exists(x.loss) && exists(y.loss) && x.loss.SI < y.loss.SI {
				r.add("The streamlined valve %s loses less head than the swing valve %s: %s against %s.", x.name, y.name, r.head(x.loss), r.head(y.loss))
			}
		}
	}
}

// quiet says when the comparison shows steady flow alone.
func (r *reasons) quiet(all []*standing) {
	for _, o := range all[0].outcomes {
		if o.EventTime >= 0 {
			return
		}
	}
	r.add("This compares steady flow only: nothing happens, so it says nothing about closing and slam.")
}

// doubt says what is left uncertain of a candidate.
func (r *reasons) doubt(x *standing) {
	for _, o := range x.outcomes {
		if o.EventTime >= 0 && o.Failed == "" && !exists(o.Seated) {
			r.add("Nothing is known about the slam of %s%s: %s.", x.name, r.in(o.Scenario), o.Seated.Reason)
		}
	}
	for _, o := range x.outcomes {
		if v := o.OpeningFraction; exists(v) && v.SI < heldOpen {
			r.add("The flow does not hold the disc of %s on its stop%s: it floats at %s of its travel, which wears it and costs %s of head; %s.",
				x.name, r.in(o.Scenario), r.write(v.SI, quantity.Fraction), r.head(o.HeadLoss), o.easier("hold it"))
			break
		}
	}
	judged := x.worst(func(Verdict) bool { return true })
	for _, l := range r.limits {
		if !slices.ContainsFunc(judged, l.concerns) {
			v := measure(LiquidPump, l.measure).Get(x.outcomes[0])
			judged = append(judged, Verdict{Measure: l.measure, Limit: l.words})
			r.add("The limit on the %s was not judged for %s: %s.", l.words, x.name, v.Reason)
		}
	}
	for _, v := range x.worst(func(v Verdict) bool { return v.Unsure }) {
		r.add("The verdict on %s is within the numerical error: %s.", x.name, r.margin(v))
	}
	for _, v := range x.worst(func(v Verdict) bool { return v.Narrow }) {
		what := "it"
		if slices.Contains([]string{keyPeak, keyMin, keyAnchor}, v.Measure) {
			what = "its slam pressure rise"
		}
		text := ", and generic valve data are known to ±40 % only: ask the maker for tested data"
		if x.family == "measured" {
			text = ""
		}
		r.add("The %s of %s would be beyond its limit if %s were 40 %% greater%s.", measure(LiquidPump, v.Measure).Label, x.name, what, text)
	}
}
