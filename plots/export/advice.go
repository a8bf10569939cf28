package export

import (
	"cmp"

	"seatwise/valve/choice"
)

// advice puts what single steps away from the case would do; nothing where it was not asked.
func advice(s *object, a *choice.Advice) {
	if a == nil {
		return
	}
	tried := []*object{}
	for _, t := range a.Tried {
		g := a.Governing
		o := &object{}
		o.put("step", t.Name)
		o.text("change", t.Change, t.Reason)
		o.put("candidate", a.Candidate)
		o.put("measure", g.Measure)
		o.put("limit", g.Limit)
		o.number("before", inKey(g.Measure, g.Value), "")
		o.number("after", inKey(g.Measure, t.After.Value), t.Reason)
		o.number("after_on_bore_before", inKey(g.Measure, t.Alike), t.Reason)
		o.number("bound", inKey(g.Measure, t.After.Bound), t.Reason)
		o.text("effect", string(t.Effect), t.Reason)
		o.number("full_open_margin", t.Margin.SI, cmp.Or(t.Reason, t.Margin.Reason))
		if t.Reason != "" {
			o.null("limits_met", t.Reason)
			o.null("broken", t.Reason)
		} else {
			o.put("limits_met", t.Meets)
			broken := []*object{}
			for _, v := range t.Breaks {
				broken = append(broken, verdict(v))
			}
			o.put("broken", broken)
		}
		tried = append(tried, o.closed())
	}
	s.put("advice", tried)
	s.put("advice_reasons", list(a.Reasons))
}
