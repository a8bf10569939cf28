package choice

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/valve"
)

// OwnMeans is the definition by which [Own] takes a deceleration, in words.
const OwnMeans = "slope of the velocity as it passes zero"

// Own is the installation's own deceleration in a scenario, m/s2: the greatest at the valves of the units that trip while these are held open. It is taken with one valve whatever the
// candidates are, the ideal one of their size with its default loss; where they differ in size, of the bore of the branch, else of the first. The
// bore, m, is that on which the velocity is taken. Runs double in length until the flow has reversed, up to a bound of 32 s or 64 L/a of the
// longest pipe. The error is that of the context.
func Own(ctx context.Context, c *Case, sc *Scenario, s Settings) (v Value, bore float64, err error) {
	return ownBy(ctx, c, sc, s, (*closing).deceleration)
}

// OwnMean is Own with another definition of the deceleration: the mean slope from the velocity before the trip to zero velocity, v0/(t(0) - t_trip). It is
// below the slope at zero velocity where the flow falls ever faster, and above it where it falls slower and slower.
func OwnMean(ctx context.Context, c *Case, sc *Scenario, s Settings) (v Value, bore float64, err error) {
	return ownBy(ctx, c, sc, s, (*closing).meanDeceleration)
}

// HeldOpen is the valve with which the installation's own deceleration is taken.
func HeldOpen(c *Case, sc *Scenario) valve.Spec {
	return valve.Spec{Name: "held open", Type: "ideal", Size: commonSize(c, sc)}
}

// OwnClosing is the deceleration that a valve sees between the beginning of its closing and its seat, of a single run with it in the installation. The
// one that seats later sees more of a flow that falls ever faster; the installation alone has none.
func OwnClosing(ctx context.Context, c *Case, sc *Scenario, candidate valve.Spec, s Settings) (v Value, bore float64, err error) {
	if len(sc.Events) == 0 {
		return none(nothingHappens), 0, nil
	}
	t, err := prepare(c, sc, candidate, s)
	switch {
	case err != nil:
		return Value{}, 0, err
	case t.outcome.Failed != "":
		return none(t.outcome.Failed), 0, nil
	}
	w := &watch{of: t}
	r, err := moc.Solve(ctx, t.problem, moc.Settings{Friction: t.friction, Cavities: t.cavities, Observer: w})
	if ctx.Err() != nil {
		return Value{}, 0, ctx.Err()
	}
	if err != nil {
		return none(s.Said(err).Error()), 0, nil
	}
	u := t.watched(r.Units, w)
	return w.closing(u).closingDeceleration(t.outcome.Valve), u.Bore, nil
}

// ownBy takes the deceleration by a definition.
func ownBy(ctx context.Context, c *Case, sc *Scenario, s Settings, by func(*closing, Settings) Value) (v Value, bore float64, err error) {
	if len(sc.Events) == 0 {
		return none(nothingHappens), 0, nil
	}
	spec := HeldOpen(c, sc)
	t, err := prepare(c, sc, spec, s)
	switch {
	case err != nil:
		return none(bare(err)), 0, nil
	case t.outcome.Failed != "":
		return none(t.outcome.Failed), 0, nil
	}
	event, longest := t.event(), longestTime(sc.Network)
	bound := math.Max(32, 64*longest)
	p := t.problem
	for span := math.Max(1, 4*longest); ; span *= 2 {
		p.Until = event + math.Min(span, bound)
		w := &watch{of: t}
		r, err := moc.Solve(ctx, p, moc.Settings{AlwaysOpen: true, Cavities: c.Cavities, Observer: w})
		if ctx.Err() != nil {
			return Value{}, 0, ctx.Err()
		}
		if err != nil {
			return none(s.Said(err).Error()), 0, nil
		}
		units := slices.DeleteFunc(t.inOrder(r.Units), func(u *moc.UnitTrace) bool { return u.Tripped < 0 })
		if len(units) == 0 {
			return none("no unit with the candidate trips"), 0, nil
		}
		if v, bore, ok := steepest(units, w, s, by); ok || span >= bound && exists(v) {
			return v, bore, nil
		}
		if span >= bound {
			return none(fmt.Sprintf("the flow does not reverse within %s of the event with the valve held open", seconds(bound, s))), 0, nil
		}
	}
}

// steepest is the greatest deceleration at the valves of the units, and its bore, m. It is false while the flow through one of them has yet to reverse.
func steepest(units []*moc.UnitTrace, w *watch, s Settings, by func(*closing, Settings) Value) (v Value, bore float64, all bool) {
	v, all = none("the flow does not reverse"), true
	for _, u := range units {
		c := w.closing(u)
		all = all && (c.zero >= 0 || c.start <= 0)
		if d := by(c, s); !exists(v) && u == units[0] || exists(d) && (!exists(v) || d.SI > v.SI*(1+same)) {
			v, bore = d, u.Bore
		}
	}
	return v, bore, all
}

// commonSize is the size of the valve that is held open, m.
func commonSize(c *Case, sc *Scenario) float64 {
	size := func(s valve.Spec) float64 {
		if bore, ok := s.Set["bore"]; ok {
			return bore
		}
		return s.Size
	}
	first := size(c.Candidates[0])
	for _, other := range c.Candidates[1:] {
		if size(other) == first {
			continue
		}
		for _, st := range sc.Network.Stations {
			if st.CheckValve == "" && st.Branch != nil {
				return st.Branch.Bore
			}
		}
	}
	return first
}

// longestTime is L/a of the pipe that a wave takes longest to pass, s.
func longestTime(n *network.Network) float64 {
	longest := 0.0
	for i := range n.Pipes {
		longest = math.Max(longest, n.Pipes[i].Length()/n.Pipes[i].WaveSpeed)
	}
	return longest
}
