package export

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"seatwise/valve/choice"
)

// begun is an object with what a file of a comparison begins with.
func begun(c *choice.Comparison) *object {
	s := &object{}
	s.put("format", Format)
	s.put("case", caseOf(c).Name)
	if caseOf(c).Example {
		s.put("example", true)
	}
	if c.Interrupted {
		s.put("incomplete", true)
	}
	return s
}

// Summary writes summary.json. The measures are those of the service, in the order of its table. Errors are those of the writer.
func Summary(w io.Writer, c *choice.Comparison, measures []choice.Measure, about About) error {
	s := begun(c)
	if c.Interrupted {
		missing := []*object{}
		for _, m := range c.Missing {
			o := &object{}
			o.put("scenario", m.Scenario)
			o.put("candidates", list(m.Candidates))
			missing = append(missing, o.closed())
		}
		s.put("missing", missing)
	}
	if r := about.Report.object(); r != nil {
		s.put("report", r)
	}
	s.put("service", c.Service)
	scenarios := []*object{}
	for i := range c.Scenarios {
		scenarios = append(scenarios, scenario(c, &c.Scenarios[i], measures))
	}
	s.put("scenarios", scenarios)
	governing := []*object{}
	for _, g := range c.Governing {
		o := &object{}
		o.put("candidate", g.Candidate)
		o.put("measure", g.Measure)
		o.put("scenario", g.Scenario)
		o.number("value", inKey(g.Measure, g.Value), "")
		governing = append(governing, o.closed())
	}
	s.put("governing", governing)
	s.put("governing_verdicts", governingVerdicts(c))
	costs(s, c)
	stayingOpen(s, c)
	if c.Recommended == "" { // the reasons that follow say why
		s.put("recommended", nil)
	} else {
		s.put("recommended", c.Recommended)
	}
	s.put("reasons", list(c.Reasons))
	advice(s, c.Advice)
	if len(c.Failures) > 0 {
		s.put("failures", c.Failures)
	}
	s.put("numerics", numerics(c))
	s.put("warnings", list(c.Warnings))
	s.put("cautions", list(c.Cautions()))
	s.put("assumptions", list(c.Assumptions))
	s.put("program", about.Program)
	s.put("inputs", list(caseOf(c).Inputs))
	s.put("input_sha256", caseOf(c).InputSHA256)
	s.put("history_rows", rowsKept(about.Bin, coarsest(c), loaded(c)))
	s.put("files", list(about.Files))
	if err := s.write(w); err != nil {
		return fmt.Errorf("export: summary.json: %w", err)
	}
	return nil
}

func caseOf(c *choice.Comparison) *choice.Case {
	if c.Case == nil {
		return &choice.Case{}
	}
	return c.Case
}

func scenario(c *choice.Comparison, s *choice.ScenarioOutcomes, measures []choice.Measure) *object {
	o := &object{}
	o.put("name", s.Name)
	event, reason := 0.0, "no event"
	for _, out := range s.Outcomes {
		if out.EventTime >= 0 {
			event, reason = out.EventTime, ""
			break
		}
	}
	o.number("event_s", event, reason)
	o.number("own_deceleration_m_s2", s.Own.SI, s.Own.Reason)
	o.number("own_bore_mm", inKey("own_bore_mm", s.OwnBore), s.Own.Reason)
	candidates := []*object{}
	for i := range s.Outcomes {
		candidates = append(candidates, candidate(c, &s.Outcomes[i], measures))
	}
	o.put("candidates", candidates)
	return o.closed()
}

// candidate is one outcome: its measures, with the node after the measure that it belongs to, and its verdicts.
func candidate(c *choice.Comparison, out *choice.Outcome, measures []choice.Measure) *object {
	o := &object{}
	o.put("name", out.Candidate)
	o.put("type", out.Type)
	for _, s := range caseOf(c).Candidates {
		if s.Name == out.Candidate && s.Of != "" {
			o.put("failure", s.Failure.String())
			o.put("failure_of", s.Of)
		}
	}
	size(o, c, out)
	o.text("watched", out.Watched, "no result")
	nodes := []struct{ after, key, name string }{
		{"peak_error_pa", "peak_node", out.PeakNode},
		{"min_pressure_pa", "min_node", out.MinNode},
	}
	for _, m := range measures {
		v := m.Get(out)
		o.number(m.Key, inKey(m.Key, v.SI), v.Reason)
		switch m.Key {
		case anchorMeasure:
			anchorPlace(o, out)
		case reverseMeasure:
			o.text("slam_class", out.SlamClass(), cmp.Or(v.Reason, "no result"))
		}
		for i, n := range nodes {
			if n.after == m.Key {
				o.text(n.key, n.name, "no place found")
				nodes[i].key = ""
			}
		}
	}
	for _, n := range nodes { // of a service without those measures
		if n.key != "" {
			o.text(n.key, n.name, "no place found")
		}
	}
	if out.LimitsMet == nil {
		o.null("limits_met", "no limits given")
	} else {
		o.put("limits_met", *out.LimitsMet)
	}
	verdicts := []*object{}
	for _, v := range out.Verdicts {
		verdicts = append(verdicts, verdict(v))
	}
	o.put("verdicts", verdicts)
	if runs := anchored(out); runs != nil {
		o.put("straight_runs", runs)
	}
	return o.closed()
}

// size puts the nominal size, or the bore where none was given.
func size(o *object, c *choice.Comparison, out *choice.Outcome) {
	size := out.Valve.Bore
	for _, s := range caseOf(c).Candidates {
		if s.Name == out.Candidate && s.Size > 0 {
			size = s.Size
		}
	}
	reason := ""
	if size == 0 {
		reason = "no size given"
	}
	o.number("size_mm", inKey("size_mm", size), reason)
}

// verdict gives value, bound and margin in the unit of the measure's key.
func verdict(v choice.Verdict) *object {
	o := &object{}
	o.put("measure", v.Measure)
	o.put("limit", v.Limit)
	o.put("scenario", v.Scenario)
	o.number("value", inKey(v.Measure, v.Value), "")
	o.number("bound", inKey(v.Measure, v.Bound), "")
	o.put("met", v.Met)
	o.number("margin", inKey(v.Measure, v.Margin), "")
	if v.Asked > 0 {
		o.number("margin_asked", inKey(v.Measure, v.Asked), "")
	}
	o.put("unsure", v.Unsure)
	o.put("narrow", v.Narrow)
	if v.Late > 0 {
		o.number("late_s", v.Late, "")
	}
	o.text("place", v.Place, "not of one place")
	reason := ""
	if v.Time < 0 {
		reason = "not of one moment"
	}
	o.number("time_s", v.Time, reason)
	return o.closed()
}

// coarsest is the greatest time, s, of which a history holds a part of the steps; 0: all hold every step.
func coarsest(c *choice.Comparison) float64 {
	held := 0.0
	for _, s := range c.Scenarios {
		for _, o := range s.Outcomes {
			held = max(held, o.Numerics.HistoryBin)
		}
	}
	return held
}

// numerics are those of the coarsest outcome, with the greatest length change and the greatest volume residual of all and every kernel
// that was used.
func numerics(c *choice.Comparison) *object {
	var worst choice.Numerics
	var kernels []string
	change, residual := 0.0, 0.0
	found := false
	for _, s := range c.Scenarios {
		for _, out := range s.Outcomes {
			n := out.Numerics
			if n.TimeStep > worst.TimeStep {
				worst = n
			}
			if n.TimeStep > 0 {
				found = true
			}
			change, residual = max(change, math.Abs(n.LengthChangeMax)), max(residual, math.Abs(n.VolumeResidual))
			if n.Kernel != "" && !slices.Contains(kernels, n.Kernel) {
				kernels = append(kernels, n.Kernel)
			}
		}
	}
	reason := ""
	if !found {
		reason = "nothing was run"
	}
	o := &object{}
	o.number("time_step_s", worst.TimeStep, reason)
	reaches := worst.Reaches
	if reaches == nil {
		reaches = map[string]int{}
	}
	o.put("reaches", reaches)
	o.text("step_from", worst.StepFrom, "nothing was run")
	o.number("reach_length_change_max", change, reason)
	o.number("volume_residual", residual, reason)
	o.text("kernel", strings.Join(kernels, "; "), "nothing was run")
	return o.closed()
}
