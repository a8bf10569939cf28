package export

import (
	"fmt"
	"io"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

// Requirement writes requirement.json: the sheet for the makers of valves in SI, its groups flat under "required". Blanks are null with their reason. Errors are those of
// the writer.
func Requirement(w io.Writer, r *requirement.Requirement, about About) error {
	o := &object{}
	o.put("format", Format)
	o.put("case", r.Case.Name)
	if r.Case.Example {
		o.put("example", true)
	}
	if b := about.Report.object(); b != nil {
		o.put("report", b)
	}
	required, remarks := &object{}, &object{}
	for _, g := range r.Sheet(quantity.SI) {
		for _, i := range g.Items {
			switch {
			case i.Words != "":
				required.put(i.Key, i.Words)
			default:
				required.number(i.Key, i.Value.SI, i.Value.Reason)
			}
			if i.Note != "" {
				remarks.put(i.Key, i.Note)
			}
		}
	}
	o.put("required", required.closed())
	o.put("remarks", remarks)
	a := r.Allowed
	found := &object{}
	found.put("comparisons", a.Runs)
	found.number("tolerance_fraction", requirement.Tolerance, "")
	reason := ""
	if a.Above == 0 {
		reason = "no limit is broken above it"
		if a.Given {
			reason = "it is the limit of the case"
		}
	}
	found.number("broken_at_m_s", a.Above, reason)
	limits := []*object{}
	for _, v := range append(a.Binding, a.Broken...) {
		limits = append(limits, verdict(v))
	}
	found.put("limits_broken", limits)
	found.put("met_again_above", a.Again)
	o.put("found", found.closed())
	own := []*object{}
	for _, x := range r.Own {
		s := &object{}
		s.put("scenario", x.Scenario)
		s.number("own_deceleration_m_s2", x.Tangent.SI, x.Tangent.Reason)
		s.number("own_bore_m", x.Bore, x.Tangent.Reason)
		own = append(own, s.closed())
	}
	o.put("scenarios", own)
	o.put("evidence", r.Evidence())
	questions := []string{}
	for _, q := range requirement.Questions(quantity.SI) {
		questions = append(questions, q.Label)
	}
	o.put("questions", questions)
	o.put("cautions", append(r.Cautions(), choice.Cautions()...))
	o.put("assumptions", list(r.Assumptions()))
	o.put("program", about.Program)
	o.put("input_sha256", r.Case.InputSHA256)
	o.put("files", list(about.Files))
	if err := o.write(w); err != nil {
		return fmt.Errorf("export: requirement.json: %w", err)
	}
	return nil
}
