package export

import (
	"fmt"
	"io"

	"seatwise/valve"
	"seatwise/valve/choice"
	"seatwise/valve/offers"
)

// Offers writes offers.json: every offer with its answers to the limits, what it leaves out, and the questions. Errors are those of the writer.
func Offers(w io.Writer, c *choice.Comparison, e *offers.Evaluation, about About) error {
	s := begun(c)
	s.text("currency", e.Currency, "not given")
	all := []*object{}
	for i := range e.Offers {
		all = append(all, offer(&e.Offers[i]))
	}
	s.put("offers", all)
	s.put("advice", list(e.Advice))
	s.put("warnings", list(c.Warnings))
	s.put("cautions", list(c.Cautions()))
	s.put("assumptions", list(c.Assumptions))
	s.put("program", about.Program)
	s.put("input_sha256", caseOf(c).InputSHA256)
	s.put("files", list(about.Files))
	if err := s.closed().write(w); err != nil {
		return fmt.Errorf("export: offers.json: %w", err)
	}
	return nil
}

func offer(a *offers.Assessment) *object {
	o := &object{}
	o.put("name", a.Name)
	o.put("maker", a.Maker)
	for _, f := range []field{{"model", a.Model}, {"reference", a.Reference}, {"date", a.Date}, {"delivery", a.Delivery}, {"note", a.Note}} {
		o.text(f.key, f.value.(string), "not given")
	}
	o.put("type", a.Spec.Type)
	o.number("size_mm", inKey("size_mm", a.Spec.Size), "")
	if a.Price == nil {
		o.null("price", "not given")
	} else {
		o.number("price", *a.Price, "")
	}
	o.number("present_value", a.Present.SI, a.Present.Reason)
	o.put("answer", a.Word().String())
	limits := []*object{}
	for _, l := range a.Limits {
		x := &object{}
		x.put("limit", l.Limit)
		x.put("measure", l.Measure.Key)
		x.put("answer", l.Word.String())
		x.text("because", l.Because, "the data decide")
		value, bound, reason := 0.0, 0.0, "not known"
		if l.Verdict != nil {
			value, bound, reason = l.Verdict.Value, l.Verdict.Bound, ""
			x.text("scenario", l.Verdict.Scenario, "not of a scenario")
		}
		x.number("value", inKey(l.Measure.Key, value), reason)
		x.number("bound", inKey(l.Measure.Key, bound), reason)
		limits = append(limits, x.closed())
	}
	o.put("limits", limits)
	gaps := []*object{}
	for _, g := range a.Gaps {
		x := &object{}
		x.put("datum", g.Key)
		x.put("decides", g.Decides)
		if g.Used == nil {
			x.null("used", "nothing in its place")
		} else {
			x.number("used", g.Used.Value, "")
			x.put("unit", g.Used.Unit)
		}
		gaps = append(gaps, x.closed())
	}
	o.put("gaps", gaps)
	o.put("given", keys(a.Given))
	o.put("generic", keys(a.Generic))
	o.put("questions", list(a.Questions))
	return o.closed()
}

func keys(data []valve.Datum) []string {
	out := []string{}
	for _, d := range data {
		out = append(out, d.Key)
	}
	return out
}
