package export

import (
	"slices"

	"seatwise/valve/choice"
)

// anchorMeasure is the key of the measure that place and direction of the greatest anchor force belong to.
const anchorMeasure = "max_anchor_force_n"

// reverseMeasure is the key of the measure that the class of slam goes by.
const reverseMeasure = "max_reverse_velocity_m_s"

// anchorPlace puts where the greatest anchor force acts, and the end of the pipe that it pushes towards.
func anchorPlace(o *object, out *choice.Outcome) {
	if !exists(out.AnchorForce) {
		o.null("anchor_place", out.AnchorForce.Reason)
		o.null("anchor_towards", out.AnchorForce.Reason)
		return
	}
	o.text("anchor_place", out.Spots[anchorMeasure].Place, "no place found")
	towards := ""
	if run, push := out.Hardest(); run != nil {
		if towards = run.Behind; push == run.Forward {
			towards = run.Ahead
		}
	}
	o.text("anchor_towards", towards, "no place found")
}

// anchored are the straight runs of an outcome with what pushes them either way; nil where none is known.
func anchored(out *choice.Outcome) []*object {
	if !exists(out.AnchorForce) {
		return nil
	}
	var all []*object
	for i := range out.Runs {
		r := &out.Runs[i]
		o := &object{}
		o.put("pipe", r.Pipe)
		o.number("from_m", r.From, "")
		o.number("to_m", r.To, "")
		o.put("forward", push(r.Forward, r.Ahead))
		o.put("reverse", push(r.Reverse, r.Behind))
		all = append(all, o.closed())
	}
	return all
}

// push is a greatest force towards one end of a pipe.
func push(p choice.Push, towards string) *object {
	o := &object{}
	o.put("towards", towards)
	o.number("max_force_n", p.Force, "")
	reason := ""
	if p.Force == 0 {
		reason = "nothing pushes that way"
	}
	o.number("time_s", p.Time, reason)
	o.number("impulse_n_s", p.Impulse, reason)
	return o.closed()
}

func exists(v choice.Value) bool { return v.Reason == "" }

// loaded tells whether an outcome of the comparison has forces on straight runs.
func loaded(c *choice.Comparison) bool {
	return slices.ContainsFunc(c.Scenarios, func(s choice.ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return len(o.Runs) > 0 })
	})
}
