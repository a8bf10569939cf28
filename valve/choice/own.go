package choice

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seatwise/moc"
)

// own is the installation's own deceleration in a scenario: that at the watched valve while the candidate of least loss is held at its steady
// opening. Runs double in length until the flow has reversed, up to a bound of 32 s or 64 L/a of the longest pipe.
func own(ctx context.Context, ts []*trial) (Value, error) {
	t := least(ts)
	event := t.event()
	if event < 0 {
		return none(nothingHappens), nil
	}
	if t.outcome.Failed != "" {
		return none(t.outcome.Failed), nil
	}
	longest := 0.0
	for _, p := range t.scenario.Network.Pipes {
		longest = math.Max(longest, p.Length()/p.WaveSpeed)
	}
	bound := math.Max(32, 64*longest)
	p := t.problem
	for span := math.Max(1, 4*longest); ; span *= 2 {
		p.Until = event + math.Min(span, bound)
		r, err := moc.Solve(ctx, p, moc.Settings{AlwaysOpen: true})
		if ctx.Err() != nil {
			return Value{}, ctx.Err()
		}
		if err != nil {
			return none(err.Error()), nil
		}
		u, _ := t.watched(r.Units)
		if u.Tripped < 0 {
			return none("the unit of the watched valve does not trip"), nil
		}
		if c := follow(r.Time, u, event); c.zero >= 0 || c.v[0] <= 0 {
			return c.deceleration(t.window(u), event, t.settings), nil
		}
		if span >= bound {
			return none(fmt.Sprintf("the flow does not reverse within %s of the event with the valve held open", seconds(bound, t.settings))), nil
		}
	}
}

// least is the trial of least loss per flow, of those that have not failed; the first of equals.
func least(ts []*trial) *trial {
	loss := func(t *trial) float64 {
		if t.outcome.Failed != "" {
			return math.Inf(1)
		}
		v := t.problem.Valves[slices.Index(t.mine, true)]
		return v.LossOpen / math.Pow(v.Bore, 4)
	}
	best := ts[0]
	for _, t := range ts {
		if loss(t) < loss(best) {
			best = t
		}
	}
	return best
}
