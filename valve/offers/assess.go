package offers

import (
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// Compliance is the answer of an offer to one limit, in its worst scenario.
type Compliance struct {
	Limit   string // in the words of the verdicts
	Measure choice.Measure
	Verdict *choice.Verdict // nil: there is none
	Word    Word
	Because string // what lies behind the answer; may be empty
}

// Label names limit and measure, neither twice.
func (l *Compliance) Label() string {
	if strings.Contains(l.Measure.Label, strings.TrimPrefix(l.Limit, "later: ")) {
		return l.Measure.Label
	}
	return l.Limit + ": " + l.Measure.Label
}

// Assessment is what is known of an offer.
type Assessment struct {
	Reply
	Spec      valve.Spec
	Valve     valve.Valve
	Limits    []Compliance
	Gaps      []Gap
	Generic   []valve.Datum // data that the run took from the catalogue
	Given     []valve.Datum // data of the offer
	Questions []string      // to send back, ready as they stand
	Present   choice.Value  // present value of its cost, where the case has economics
	failed    string
}

// Word is the worst answer to any limit.
func (a *Assessment) Word() Word {
	worst := Meets
	for _, l := range a.Limits {
		worst = max(worst, l.Word)
	}
	if a.failed != "" {
		worst = max(worst, Open)
	}
	return worst
}

// Evaluation is all offers side by side.
type Evaluation struct {
	Offers   []Assessment
	Currency string
	Advice   []string // which offer to take, or what to do first
}

// Assess holds the offers of a comparison against its limits. Replies are in the order of the candidates. Sentences are in the units of a system.
func Assess(c *choice.Comparison, replies []Reply, currency string, system quantity.System) *Evaluation {
	e := &Evaluation{Currency: currency}
	for i, spec := range c.Case.Candidates {
		a := Assessment{Reply: replies[i], Spec: spec, Present: choice.Value{Reason: "no economics given"}}
		for k := range c.Scenarios {
			o := &c.Scenarios[k].Outcomes[i]
			if k == 0 {
				a.Valve = o.Valve
			}
			for _, text := range []string{o.Failed, o.Unseated} {
				if text != "" && a.failed == "" {
					a.failed = text
				}
			}
		}
		for _, x := range c.Costs {
			if x.Candidate == spec.Name {
				a.Present = choice.Value{SI: x.Present, Reason: x.Reason}
			}
		}
		for _, d := range a.Valve.Data {
			switch {
			case d.Origin == valve.Given:
				a.Given = append(a.Given, d)
			case generic(d) && d.Key != "slope":
				a.Generic = append(a.Generic, d)
			}
		}
		a.Gaps = append(gaps(spec, a.Valve), a.commercial(currency)...)
		a.judge(c, i, system)
		a.ask(c, i, system)
		e.Offers = append(e.Offers, a)
	}
	e.advise()
	return e
}

// judge answers every limit that any offer is held against.
func (a *Assessment) judge(c *choice.Comparison, i int, system quantity.System) {
	missing := dynamic(a.Gaps)
	for _, l := range limits(c) {
		out := Compliance{Limit: l.words, Measure: l.measure}
		for k := range c.Scenarios {
			o := &c.Scenarios[k].Outcomes[i]
			for n := range o.Verdicts {
				v := &o.Verdicts[n]
				if v.Sort() != l.sort || v.Measure != l.measure.Key {
					continue
				}
				word, because := a.answer(o, v, missing)
				if out.Verdict == nil || word > out.Word || word == out.Word && v.Spare() < out.Verdict.Spare() {
					out.Verdict, out.Word, out.Because = v, word, because
				}
			}
		}
		switch {
		case out.Verdict == nil && a.failed != "":
			out.Word, out.Because = Open, a.failed
		case out.Verdict == nil:
			continue // it does not concern this offer
		}
		a.Limits = append(a.Limits, out)
	}
	a.evidence(c, system)
	a.body(c)
}

// held is a limit on a measure.
type held struct {
	sort    string
	words   string // those of the verdicts where all have the same, else those of the sort
	measure choice.Measure
}

// limits are those that any candidate is held against, in order of appearance.
func limits(c *choice.Comparison) []held {
	var out []held
	for _, s := range c.Scenarios {
		for _, o := range s.Outcomes {
			for _, v := range o.Verdicts {
				known := false
				for i := range out {
					if h := &out[i]; h.sort == v.Sort() && h.measure.Key == v.Measure {
						known = true
						if h.words != v.Limit {
							h.words = h.sort
						}
					}
				}
				for _, m := range choice.Measures(c.Service) {
					if m.Key == v.Measure && !known {
						out = append(out, held{v.Sort(), v.Limit, m})
					}
				}
			}
		}
	}
	return out
}
