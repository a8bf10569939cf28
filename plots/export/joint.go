package export

import (
	"fmt"
	"io"

	"seatwise/valve/choice"
)

// worstFile is the name of the table of the worst of every candidate.
const worstFile = "worst.csv"

// Worst writes the worst value of every measure and the worst verdict of every candidate, with the case and the scenario in which they were met, one
// row each. Values are in the unit of the measure's key. Errors are those of the writer.
func Worst(w io.Writer, j *choice.Joint) error {
	t := newTable(w)
	for _, head := range []string{"candidate", "measure", "value", "case", "scenario", "limit", "limit value", "judged value", "limit met", "margin", "limit case", "limit scenario"} {
		t.text(head)
	}
	t.end()
	for i := range j.Candidates {
		k := &j.Candidates[i]
		for _, x := range k.Worst {
			t.text(k.Name)
			t.text(x.Measure)
			t.number(inKey(x.Measure, x.Value))
			t.text(x.Case)
			t.text(x.Scenario)
			if v := worstVerdict(k, x.Measure); v != nil {
				t.text(v.Limit)
				t.number(inKey(v.Measure, v.Bound))
				t.number(inKey(v.Measure, v.Value))
				t.text(met(v.Met))
				t.number(inKey(v.Measure, v.Margin))
				t.text(v.Case)
				t.text(v.Verdict.Scenario)
			} else {
				for range 7 {
					t.text("")
				}
			}
			t.end()
		}
	}
	return t.close(worstFile)
}

func met(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

func worstVerdict(k *choice.JointCandidate, measure string) *choice.WorstVerdict {
	for i := range k.Verdicts {
		if k.Verdicts[i].Measure == measure {
			return &k.Verdicts[i]
		}
	}
	return nil
}

// worstVerdicts are those of one candidate, each behind a first key.
func worstVerdicts(k *choice.JointCandidate, key string, of func(choice.WorstVerdict) string) []*object {
	all := []*object{}
	for _, v := range k.Verdicts {
		o := &object{}
		o.put(key, of(v))
		o.fields = append(o.fields, verdict(v.Verdict).fields...)
		all = append(all, o)
	}
	return all
}

// governingVerdicts are the worst verdicts of all candidates of a comparison, with the scenarios in which they were passed.
func governingVerdicts(c *choice.Comparison) []*object {
	all := []*object{}
	if c.Case == nil {
		return all
	}
	j := choice.Join(c)
	for i := range j.Candidates {
		k := &j.Candidates[i]
		all = append(all, worstVerdicts(k, "candidate", func(choice.WorstVerdict) string { return k.Name })...)
	}
	return all
}

// JointSummary writes what several cases say together, as JSON. Errors wrap those of the writer.
func JointSummary(w io.Writer, j *choice.Joint, name string, about About) error {
	s := &object{}
	s.put("format", Format)
	s.put("case", name)
	cases := []*object{}
	for _, c := range j.Comparisons {
		o := &object{}
		o.put("name", caseOf(c).Name)
		o.text("title", caseOf(c).Title, "not given")
		o.put("recommended", orNull(c.Recommended))
		o.put("inputs", list(caseOf(c).Inputs))
		o.put("input_sha256", caseOf(c).InputSHA256)
		cases = append(cases, o.closed())
	}
	s.put("cases", cases)
	candidates := []*object{}
	for i := range j.Candidates {
		k := &j.Candidates[i]
		o := &object{}
		o.put("name", k.Name)
		o.put("missing_in", list(k.Missing))
		o.put("differences", list(k.Differences))
		o.put("meets", list(k.Meets))
		o.put("meets_all", k.Met)
		worst := []*object{}
		for _, x := range k.Worst {
			one := &object{}
			one.put("measure", x.Measure)
			one.put("case", x.Case)
			one.put("scenario", x.Scenario)
			one.number("value", inKey(x.Measure, x.Value), "")
			worst = append(worst, one.closed())
		}
		o.put("worst", worst)
		o.put("verdicts", worstVerdicts(k, "case", func(v choice.WorstVerdict) string { return v.Case }))
		candidates = append(candidates, o.closed())
	}
	s.put("candidates", candidates)
	s.put("recommended", orNull(j.Recommended))
	s.put("reasons", list(j.Reasons))
	s.put("program", about.Program)
	s.put("files", list(about.Files))
	if err := s.write(w); err != nil {
		return fmt.Errorf("export: summary-all.json: %w", err)
	}
	return nil
}

func orNull(text string) any {
	if text == "" {
		return nil
	}
	return text
}
