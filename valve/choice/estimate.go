package choice

import (
	"fmt"
	"math"

	"seatwise/network/quantity"
)

// evidence is what the error estimate needs beside the measures.
type evidence struct {
	rise       float64 // of the peak above the steady pressure at its place, Pa
	reopenings int
}

// grid is an outcome at one time step.
type grid struct {
	outcome Outcome
	evidence
}

// estimate is the numerical error of a figure from its values at steps halved each time, at least two, and the observed order, 0 when none.
func estimate(f []float64) (e, order float64) {
	n := len(f)
	last := math.Abs(f[n-1] - f[n-2])
	if n < 3 || last == 0 {
		return 1.25 * last, 0
	}
	switch q := math.Log2((f[n-2] - f[n-3]) / (f[n-1] - f[n-2])); { // NaN for differences of unlike sign
	case q > 2.5:
		return 1.25 * last, 0
	case q >= 1:
		return 1.25 * last, q
	case q >= 0.5:
		return 2 * last / (math.Exp2(q) - 1), q
	}
	return 2 * last, 0
}

// weigh enters error estimates into the outcome of the last grid.
func weigh(grids []grid) *Outcome {
	o := &grids[len(grids)-1].outcome
	o.Numerics.Grids = len(grids)
	if o.Failed != "" {
		return o
	}
	o.Errors, o.Numerics.Order = map[string]float64{}, 0
	if len(grids) < 2 {
		o.errors("a single time step")
		return o
	}
	for _, m := range Measures(LiquidPump) {
		var f []float64
		for i := range grids {
			if v := m.Get(&grids[i].outcome); exists(v) {
				f = append(f, v.SI)
			}
		}
		if len(f) < len(grids) {
			continue
		}
		e, order := estimate(f)
		o.Errors[m.Key] = e
		if m.Key == keyReverse {
			o.Numerics.Order = order
		}
	}
	o.errors("none at the larger time step to compare with")
	return o
}

// errors enters the estimates that are measures themselves, or the reason why there are none.
func (o *Outcome) errors(otherwise string) {
	if o.EventTime < 0 {
		return
	}
	of := func(key string, of Value) Value {
		if !exists(of) {
			return of
		}
		if e, ok := o.Errors[key]; ok {
			return Value{SI: e}
		}
		return none(otherwise)
	}
	o.PeakError, o.ReverseVelocityError = of(keyPeak, o.PeakPressure), of(keyReverse, o.MaxReverseVelocity)
	o.AnchorForceError = of(keyAnchor, o.AnchorForce)
}

// doubts are the targets of accuracy that the last grids miss, in words.
func doubts(grids []grid, s Settings) []string {
	o, ev := &grids[len(grids)-1].outcome, grids[len(grids)-1].evidence
	if len(grids) < 2 || o.EventTime < 0 || o.Failed != "" {
		return nil
	}
	before := &grids[len(grids)-2]
	if before.outcome.Failed != "" {
		return []string{"the run at the larger time step failed, so that the numerical error is unknown: " + before.outcome.Failed}
	}
	var out []string
	say := func(what string, e, target float64, d quantity.Dimension) {
		if e > target {
			sc, goal := NewScale(d, s.Units, e).Coarser().Apart(e, target).Bare(), NewScale(d, s.Units, target).Coarser().Bare()
			goal.Places = max(goal.Places, sc.Places)
			out = append(out, fmt.Sprintf("the time step leaves the %s uncertain by %s (target %s)", what, sc.With(e), goal.With(target)))
		}
	}
	say("highest pressure", o.PeakError.SI, math.Max(0.01*ev.rise, still), quantity.PressureDifference)
	say("reverse velocity", o.ReverseVelocityError.SI, math.Max(0.01*o.MaxReverseVelocity.SI, 5e-3), quantity.Velocity)
	say("later reverse velocity", o.Errors[keyLater], math.Max(0.05*o.LaterReverseVelocity.SI, 5e-3), quantity.Velocity)
	if run, push := o.Hardest(); run != nil {
		say("anchor force", o.Errors[keyAnchor], math.Max(0.05*push.Force, still*run.Area), quantity.Force)
	}
	if was := before.outcome.Watched; was != o.Watched {
		return append(out, fmt.Sprintf("which valve has the greatest reverse velocity depends on the time step (%s or %s)", was, o.Watched))
	}
	switch {
	case exists(o.Seated) && exists(before.outcome.Seated):
		say("time of seating", o.Errors[keySeated], math.Max(0.01*(o.Seated.SI-o.EventTime), 2e-3), quantity.Time)
	case exists(o.Seated) != exists(before.outcome.Seated):
		out = append(out, "whether the disc seats depends on the time step")
	}
	if exists(o.Deceleration) != exists(before.outcome.Deceleration) {
		out = append(out, "whether the flow reverses before the disc seats depends on the time step")
	}
	if n := before.reopenings; n != ev.reopenings {
		out = append(out, fmt.Sprintf("the number of reopenings depends on the time step (%d and %d)", n, ev.reopenings))
	}
	return out
}
