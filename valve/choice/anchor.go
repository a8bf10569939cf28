package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network/quantity"
)

// StraightRun is a straight run of pipe between bends and ends of the pipe, with the axial force of the liquid on it less that in steady flow: what
// its anchors have to hold. Package moc says what the force is (its comment on straight runs).
type StraightRun struct {
	Pipe             string  // in words
	From, To         float64 // chainage, m
	Behind, Ahead    string  // in words, the nodes at the ends of the pipe
	Area             float64 // of the bore, m2
	Forward, Reverse Push    // the greatest push towards Ahead and towards Behind
	Force            []float64
	// N at Outcome.Time, positive towards Ahead; empty in outcomes without series
}

// Push is a greatest force, its time, and the impulse of the pulse that holds it: until the force has changed its sign or fallen below a tenth of the
// peak. Force and impulse are not negative.
type Push struct {
	Force, Time, Impulse float64 // N, s, N s
}

const noBends = "no bends are given"

// straightRuns are those of a run of the solver, without their series.
func (p *places) straightRuns(forces []moc.ForceTrace) []StraightRun {
	words := func(name string, names map[string]string) string {
		if w, ok := names[name]; ok {
			return w
		}
		return name
	}
	var runs []StraightRun
	for i := range forces {
		f := &forces[i]
		runs = append(runs, StraightRun{Pipe: words(f.Pipe, p.pipes), From: f.From, To: f.To, Behind: words(f.FromNode, p.nodes), Ahead: words(f.ToNode, p.nodes), Area: f.Area,
			Forward: Push{math.Max(f.Max, 0), f.MaxTime, math.Max(f.MaxImpulse, 0)}, Reverse: Push{math.Max(-f.Min, 0), f.MinTime, math.Max(-f.MinImpulse, 0)}})
	}
	return runs
}

// Hardest is the straight run with the greatest push of all; nil where there is none.
func (o *Outcome) Hardest() (*StraightRun, Push) {
	var run *StraightRun
	var most Push
	for i := range o.Runs {
		for _, p := range []Push{o.Runs[i].Forward, o.Runs[i].Reverse} {
			if run == nil || p.Force > most.Force {
				run, most = &o.Runs[i], p
			}
		}
	}
	return run, most
}

// anchor takes the greatest anchor force from the straight runs. Given tells whether the installation has any.
func (o *Outcome) anchor(given bool, s Settings) {
	run, push := o.Hardest()
	if run == nil {
		reason := noBends
		if given {
			reason = "every straight run is shorter than a reach of the grid"
		}
		o.AnchorForce, o.AnchorForceTime, o.AnchorImpulse = none(reason), none(reason), none(reason)
		return
	}
	o.AnchorForce, o.AnchorForceTime, o.AnchorImpulse = Value{SI: push.Force}, Value{SI: push.Time}, Value{SI: push.Impulse}
	o.Spots[keyAnchor] = Spot{run.Name(s.Units), push.Time}
}

// Name is a straight run in words: "rising-main, 12 m to 40 m".
func (r *StraightRun) Name(system quantity.System) string {
	write := func(x float64) string { return NewScale(quantity.Length, system, x).Apart(r.From, r.To).Bare().With(x) }
	return fmt.Sprintf("%s, %s to %s", r.Pipe, write(r.From), write(r.To))
}

// slamPush is the most that the slam can have to do with the greatest anchor force: the whole of it where it comes after the seating, but no more than the
// jump of the pressure on the bore.
func (o *Outcome) slamPush() float64 {
	run, push := o.Hardest()
	if run == nil || !exists(o.AnchorForce) || !exists(o.Seated) || push.Time < o.Seated.SI {
		return 0
	}
	return math.Min(push.Force, math.Max(0, o.SlamPressureRise.SI)*run.Area)
}
