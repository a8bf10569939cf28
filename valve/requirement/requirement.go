// Package requirement says what a check valve must do in an installation, free of any make: what to ask of the makers of valves.
//
// The heart of it is the greatest reverse velocity V_a, m/s, at which the valve may shut. It is found on a valve without a disc, which shuts at once when the
// reverse velocity reaches a given V and loses head as a plain swing valve does; opened again by a wave, it shuts at less, as it opens but a little then (see [valve.Ideal]). Let g(V) be the least of the margins to all limits of the case, over all
// scenarios and the whole run. Then
//
//	V_a = sup { V : g(u) >= 0 for all u <= V }
//
// is bracketed and the bracket is narrowed until its ends, of which the lower meets all limits and the upper does not, are within [Tolerance] of each other; the lower is
// given. The first estimate is made at one time step, the last bracket with the time steps and error estimates of a comparison. That smaller velocities
// meet the limits too is looked at where they were tried, not proven.
//
// The limit on the head loss is left out, since it is not of the closing: it is a requirement of its own. That on the reverse velocity, with the margin kept, is the greatest V that is tried,
// as the ideal valve meets it just there. A maker's curve gives the reverse velocity against the
// deceleration of the flow; the point that counts is (a, V_a) with the installation's own deceleration a, m/s2, the greatest of all scenarios (see [choice.Own]).
//
// A disc need not behave as the ideal valve: it holds the flow back while it closes, and where it bounces the later reverse velocities count as well. What is
// found is a requirement, not a proof of the valve that meets it: compare that valve with its own data.
package requirement

import (
	"context"
	"fmt"
	"math"
	"strings"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/choice"
	"seatwise/valve/sizing"
)

// Requirement is what the installation asks of the valve.
type Requirement struct {
	Case    *choice.Case
	Own     []Own        // per scenario
	Hardest int          // place in Own of the greatest deceleration; negative: there is none
	Mean    choice.Value // m/s2, that by the mean slope
	Size    float64      // of the ideal valve, m
	Least   choice.Value // m/s, the least steady velocity of the valves that let liquid pass
	Allowed Allowed
	At      *choice.Comparison // of the ideal valve that shuts at the allowed velocity; at zero where there is none
	Places  []Place            // where the valve is to stand, in steady flow of the first scenario
}

// Own is the installation's own deceleration in a scenario, m/s2, the slope of the velocity as it passes zero on a bore, m.
type Own struct {
	Scenario string
	Tangent  choice.Value
	Bore     float64
}

// Allowed is the greatest reverse velocity at which the valve may shut.
type Allowed struct {
	Velocity choice.Value     // m/s; without a value its reason
	Above    float64          // m/s, the least tried that breaks a limit
	Binding  []choice.Verdict // the limits that are broken there
	Given    bool             // it is the limit on the reverse velocity that the case gives
	Broken   []choice.Verdict // where there is none: the limits that are broken even at zero
	Unbound  float64          // m/s, above 0: no limit is broken up to here, beyond which the flow does not go
	Again    bool             // a limit was broken at a smaller velocity than at another that meets all; the smaller counts
	Runs     int              // comparisons made
}

// Place is one where the valve is to stand.
type Place struct {
	Name           string
	Station        bool             // it is behind a pump
	Count          int              // valves
	Flow, Velocity float64          // m3/s, m/s, in steady flow through each; 0: none
	Slope          float64          // rad, upward in the direction of flow
	Upstream       network.Upstream // the fitting before it, where the case gives one
	Bore           float64          // of the branch, m; 0: none
	Length         float64          // of the branch, m
	WaveSpeed      float64          // of the branch, m/s
}

// Find asks what the case requires. Errors are those of a case that cannot be run, which wrap [choice.ErrCase] where it is not complete, and of the context.
func Find(ctx context.Context, c *choice.Case, s choice.Settings) (*Requirement, error) {
	switch {
	case len(c.Candidates) == 0:
		return nil, fmt.Errorf("%w: there are no candidates; one is needed for the size of the valve", choice.ErrCase)
	case len(c.Scenarios) == 0:
		return nil, fmt.Errorf("%w: there is no scenario", choice.ErrCase)
	}
	r := &Requirement{Case: c, Hardest: -1}
	done := s.Progress
	s.Progress = nil
	for i := range c.Scenarios {
		sc := &c.Scenarios[i]
		o := Own{Scenario: sc.Name}
		var err error
		if o.Tangent, o.Bore, err = choice.Own(ctx, c, sc, s); err != nil {
			return nil, err
		}
		if o.Tangent.Reason == "" && (r.Hardest < 0 || o.Tangent.SI > r.Own[r.Hardest].Tangent.SI) {
			r.Hardest = i
		}
		r.Own = append(r.Own, o)
		if r.Size == 0 {
			r.Size = o.Bore
		}
	}
	if r.Size == 0 {
		r.Size = sizeOf(c.Candidates[0])
	}
	var err error
	if r.Hardest >= 0 {
		if r.Mean, _, err = choice.OwnMean(ctx, c, &c.Scenarios[r.Hardest], s); err != nil {
			return nil, err
		}
	}
	if r.Places, err = places(c, r.Size); err != nil {
		return nil, s.Said(err)
	}
	r.Least = r.least()
	f := &finder{c: c, run: choice.Run, size: r.Size, settings: s, done: done}
	if o := r.FullOpen(); o.Reason == "" {
		f.fullOpen = o.SI
	}
	if r.Allowed, r.At, err = f.find(ctx); err != nil {
		return nil, err
	}
	return r, nil
}

func (r *Requirement) least() choice.Value {
	v := choice.Value{Reason: "no liquid passes in steady flow"}
	for _, p := range r.Places {
		if p.Velocity > 0 && (v.Reason != "" || p.Velocity < v.SI) {
			v = choice.Value{SI: p.Velocity}
		}
	}
	return v
}

// Assumptions are those of the case but for the data of its candidates, which no longer count.
func (r *Requirement) Assumptions() []string {
	var out []string
	for _, a := range r.Case.Assumptions {
		if !strings.HasPrefix(a, "candidates.") {
			out = append(out, a)
		}
	}
	return out
}

// FullOpen is the greatest full-open velocity that the valve may have, m/s:
//
//	V_o = V/m
//
// with the velocity V, m/s, at the minimum flow of the case, else at the least of its flow table and its normal flow, else the least in its steady flow; and the
// margin m of a disc that stays on its stop, or the greater one that the fitting upstream asks for (see [sizing]).
func (r *Requirement) FullOpen() choice.Value {
	v := r.Least
	area := math.Pi / 4 * r.Size * r.Size
	if _, q := r.leastOfDuty(); q > 0 {
		v = choice.Value{SI: q / area}
	}
	if v.Reason == "" && !(v.SI > 0) {
		return choice.Value{Reason: "no flow is to hold the valve open"}
	}
	v.SI /= r.margin()
	return v
}

// leastOfDuty is the least flow of the duty, m3/s, and its name; 0: none is given.
func (r *Requirement) leastOfDuty() (name string, flow float64) {
	d := r.duty()
	name, flow, ok := d.Least()
	if n := d.NormalFlow; n != nil && (!ok || d.MinimumFlow == nil && *n <= flow) {
		return "normal flow", *n
	}
	return name, flow
}

// margin is that of the velocity over the full-open velocity.
func (r *Requirement) margin() float64 {
	m := float64(sizing.Good)
	for _, p := range r.Places {
		if f, ok := sizing.FittingOf(p.Upstream.Fitting); ok {
			m = math.Max(m, f.Needed(p.Upstream.Distance/r.Size))
		}
	}
	return m
}

// duty is that of the case, empty where it gives none.
func (r *Requirement) duty() choice.Duty {
	if r.Case.Duty == nil {
		return choice.Duty{}
	}
	return *r.Case.Duty
}

func sizeOf(s valve.Spec) float64 {
	if bore, ok := s.Set["bore"]; ok {
		return bore
	}
	return s.Size
}

// ideal is the valve that shuts at a reverse velocity v, m/s, and is fully open from another, m/s.
func ideal(size, v, fullOpen float64) valve.Spec {
	return valve.Spec{Name: "the required valve", Type: "ideal", Size: size, Set: map[string]float64{"closes at": v, "full-open velocity": fullOpen}}
}

// places are where the case puts the candidate, with the steady flow of its first scenario.
func places(c *choice.Case, size float64) ([]Place, error) {
	sc := &c.Scenarios[0]
	in, err := choice.Install(c, sc, ideal(size, 0, 0))
	if err != nil {
		return nil, err
	}
	if in.Unfit != nil {
		return nil, fmt.Errorf("requirement: %w", in.Unfit)
	}
	st, err := moc.SteadyState(in.Problem)
	if err != nil {
		return nil, err
	}
	duty := map[string]moc.SteadyUnit{}
	for _, u := range st.Units {
		if was, ok := duty[u.Station]; !ok || math.Abs(u.Flow) > math.Abs(was.Flow) {
			duty[u.Station] = u
		}
	}
	var out []Place
	n := sc.Network
	for _, x := range n.Stations {
		if x.CheckValve != "" {
			continue
		}
		p := Place{Name: x.Name, Station: true, Count: x.Units, Slope: x.Slope, Upstream: x.Upstream}
		p.branch(x.Branch)
		p.run(duty[x.Name])
		out = append(out, p)
	}
	for _, x := range n.CheckValves {
		if x.CheckValve != "" {
			continue
		}
		p := Place{Name: x.Name, Count: 1, Slope: x.Slope, Upstream: x.Upstream}
		p.run(duty[x.Name])
		out = append(out, p)
	}
	return out, nil
}

func (p *Place) branch(b *network.Branch) {
	if b != nil {
		p.Bore, p.Length, p.WaveSpeed = b.Bore, b.Length, b.WaveSpeed
	}
}

func (p *Place) run(u moc.SteadyUnit) {
	if !u.Shut {
		p.Flow, p.Velocity = u.Flow, u.Velocity
	}
}
