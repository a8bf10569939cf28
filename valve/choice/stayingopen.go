package choice

import (
	"math"
	"slices"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/cost"
	"seatwise/valve/sizing"
)

// StayingOpen is how the disc of a candidate stays open in steady flow and what it wears: at the flows of the duty of the case, of the valve that is watched in
// its first scenario.
type StayingOpen struct {
	Candidate, Type  string
	Watched          string
	FullOpenVelocity Value  // m/s
	LeastVelocity    Value  // by the rule C sqrt(v), m/s
	ByRule           bool   // the full-open velocity is that of a generic disc, which the same rule makes
	HighestFrom      Value  // of the highest velocity of the type, where the texts differ the least, m/s
	HighestTo        Value  // and the greatest
	HighestSource    string // "": none
	Upstream         string // the fitting; "": none given
	Distance         Value  // of straight pipe behind it, m
	Bores            Value  // the same
	NeededMargin     Value  // behind the fitting
	Flows            []HeldFlow

	Travel         Value // of hinge or guide a year, rad or m
	Hinged         bool  // Travel is an angle
	Strokes        Value // the same in full strokes: the wear index
	StopTaps       Value // a year
	StopTapEnergy  Value // of all of them, J
	Closures       Value // a year
	ClosuresEnergy Value // of all of them, J
}

// HeldFlow is the disc in one steady flow.
type HeldFlow struct {
	Name               string // "minimum flow" and the like
	Flow, Velocity     Value
	Margin             Value
	Opening, HeadLoss  Value
	Frequency, Damping Value  // of the free disc: natural frequency, Hz, and fraction of the critical damping
	Ratio              Value  // frequency of the fluctuation over the natural one
	Response           Value  // amplitude of the disc over that in a slow fluctuation
	Amplitude          Value  // of the opening in a slow fluctuation
	Class              string // of the margin, in words; "": none
	Ripple, Separation string // what a fluctuation does to the disc, in words; "": nothing to be said
}

// Names of the flows, in the order of their rows.
const (
	minimumFlow = "minimum flow"
	leastOfRuns = "least flow of the flow table"
	normalFlow  = "normal flow"
	beforeEvent = "flow before the event"
	maximumFlow = "maximum flow"
)

const (
	noFluctuation = "no flow fluctuation is given"
	noFrequency   = "no fluctuation frequency is given"
	cyclic        = "closes in every cycle"
	notHeld       = "none in the fluctuation"
	noDisc        = "not known of a valve without a disc in motion"
)

// staying works out how every sound candidate stays open; nil where the case does not ask for it, no fitting stands upstream and every disc has a good margin.
func (c *Comparison) staying() []StayingOpen {
	ask := c.Case.Duty.asked()
	var out []StayingOpen
	for i, spec := range c.Case.Candidates {
		o := &c.Scenarios[0].Outcomes[i]
		if spec.Failure != valve.Sound {
			continue
		}
		s := o.stayingOpen(c.Case.Duty, upstream(c.Case.Scenarios[0].Network, o.Watched), c.hardestSeating(i))
		ask = ask || s.Upstream != "" || exists(o.OpenMargin) && o.OpenMargin.SI < sizing.Good
		out = append(out, s)
	}
	if !ask {
		return nil
	}
	return out
}

// upstream is the fitting before the valve watched.
func upstream(n *network.Network, watched string) network.Upstream {
	for i := range n.Stations {
		for k := range n.Stations[i].Units {
			if called(n.Stations[i].Name, k+1) == watched {
				return n.Stations[i].Upstream
			}
		}
	}
	for i := range n.CheckValves {
		if n.CheckValves[i].Name == watched {
			return n.CheckValves[i].Upstream
		}
	}
	return network.Upstream{}
}

// hardestSeating is the greatest energy of the first seating of a candidate over the scenarios, J.
func (c *Comparison) hardestSeating(i int) Value {
	most := c.Scenarios[0].Outcomes[i].SeatImpactEnergy
	for k := range c.Scenarios {
		if e := c.Scenarios[k].Outcomes[i].SeatImpactEnergy; exists(e) && (!exists(most) || e.SI > most.SI) {
			most = e
		}
	}
	return most
}

// stayingOpen is how the disc stays open and wears, with the energy of one seating, J.
func (o *Outcome) stayingOpen(d *Duty, up network.Upstream, seating Value) StayingOpen {
	v := &o.Valve
	s := StayingOpen{Candidate: o.Candidate, Type: o.Type, Watched: o.Watched, Upstream: up.Fitting, Hinged: hinged(v), FullOpenVelocity: none("no flow is needed to hold the valve open"),
		LeastVelocity: none("the rule has no constant for this type"), HighestFrom: none("no text gives one for this type"), HighestTo: none("no text gives one for this type")}
	if d == nil {
		d = &Duty{}
	}
	if v.FullOpenVelocity > 0 {
		s.FullOpenVelocity = Value{SI: v.FullOpenVelocity}
	}
	if k, ok := sizing.RuleOf(o.Type); ok {
		s.LeastVelocity = Value{SI: valve.MinimumVelocity(k, v.Density)}
		s.ByRule = sizing.GenericByRule(o.Type) && estimated(v, "full-open velocity")
	}
	if r, ok := sizing.HighestVelocity(o.Type); ok {
		s.HighestFrom, s.HighestTo, s.HighestSource = Value{SI: r.From}, Value{SI: r.To}, r.Source
	}
	s.Distance, s.Bores, s.NeededMargin = none("no fitting is given"), none("no fitting is given"), none("no fitting is given")
	if f, ok := sizing.FittingOf(up.Fitting); ok && v.Bore > 0 {
		s.Distance, s.Bores = Value{SI: up.Distance}, Value{SI: up.Distance / v.Bore}
		s.NeededMargin = Value{SI: f.Needed(s.Bores.SI)}
	}
	for _, f := range o.flows(d) {
		s.Flows = append(s.Flows, o.held(f, d))
	}
	o.wear(&s, d, seating)
	return s
}

// hinged tells whether the travel of a disc is an angle.
func hinged(v *valve.Valve) bool {
	return slices.ContainsFunc(v.Data, func(d valve.Datum) bool { return d.Key == "travel" && d.Unit == "rad" })
}

// estimated tells whether a datum is neither given nor follows from what is given.
func estimated(v *valve.Valve, key string) bool {
	return slices.ContainsFunc(v.Data, func(d valve.Datum) bool { return d.Key == key && d.Origin == valve.Estimated && d.Spread > 0 })
}

// namedFlow is a flow of the duty.
type namedFlow struct {
	name string
	flow float64 // m3/s
}

// flows are those of the duty; the one before the event stands for a normal flow that is not given.
func (o *Outcome) flows(d *Duty) []namedFlow {
	var out []namedFlow
	add := func(name string, q *float64) {
		if q != nil {
			out = append(out, namedFlow{name, *q})
		}
	}
	if name, q, ok := d.Least(); ok && !(d.NormalFlow != nil && *d.NormalFlow == q) {
		add(name, &q)
	}
	add(normalFlow, d.NormalFlow)
	if q, ok := o.usual(d); ok && d.NormalFlow == nil {
		out = append(out, namedFlow{beforeEvent, q})
	}
	add(maximumFlow, d.MaximumFlow)
	return out
}

// usual is the normal flow, m3/s, of the duty or else that before the event.
func (o *Outcome) usual(d *Duty) (float64, bool) {
	if d.NormalFlow != nil {
		return *d.NormalFlow, true
	}
	return o.InitialFlow.SI, exists(o.InitialFlow) && o.InitialFlow.SI > 0
}

// velocity is that of a flow on the bore, m/s.
func (o *Outcome) velocity(q float64) float64 { return q / (math.Pi / 4 * o.Valve.Bore * o.Valve.Bore) }

// held is the disc in a flow.
func (o *Outcome) held(f namedFlow, d *Duty) HeldFlow {
	m := o.Valve.Motion
	h := HeldFlow{Name: f.name, Flow: Value{SI: f.flow}}
	if m == nil {
		reason := "no result"
		if o.Failed != "" {
			reason = o.Failed
		}
		for _, v := range []*Value{&h.Velocity, &h.Margin, &h.Opening, &h.HeadLoss, &h.Frequency, &h.Damping, &h.Ratio, &h.Response, &h.Amplitude} {
			*v = none(reason)
		}
		return h
	}
	u := o.velocity(f.flow)
	h.Velocity = Value{SI: u}
	h.Margin = marginAt(u, o.Valve.FullOpenVelocity)
	e := m.Steady(u)
	h.Opening = Value{SI: m.Opening(e.State)}
	if loss, ok := o.lossAt(); ok {
		h.HeadLoss = Value{SI: loss(f.flow)}
	} else {
		h.HeadLoss = Value{SI: e.DP / (o.Valve.Density * standardGravity)}
	}
	h.Amplitude = o.amplitude(u, d.Fluctuation)
	if exists(h.Margin) {
		h.Class = sizing.Margin(h.Margin.SI).Words()
		if d.Fluctuation != nil && o.moves() {
			rest := sizing.Ripple(h.Margin.SI, *d.Fluctuation)
			h.Ripple = rest.String()
			switch {
			case o.closes(u, *d.Fluctuation):
				h.Ripple, h.Class = cyclic, notHeld
			case rest == sizing.Tapping && h.Margin.SI >= sizing.Held:
				h.Class += " in the mean"
			}
		}
	}
	o.swings(&h, e, u, d.Frequency)
	return h
}

// swings is how a disc off its stop swings by itself, and how far from that the fluctuation is.
func (o *Outcome) swings(h *HeldFlow, e valve.Equilibrium, u float64, frequency *float64) {
	reason := "the disc rests on its stop"
	switch {
	case !o.moves():
		reason = noDisc
	case h.Opening.SI == 0:
		reason = "the disc rests on its seat"
	case !e.Held:
		reason = "the disc has no stable place of rest at this flow"
	}
	h.Frequency, h.Damping, h.Ratio, h.Response = none(reason), none(reason), none(reason), none(reason)
	swing, ok := o.Valve.Oscillation(u)
	if !ok {
		return
	}
	h.Frequency, h.Damping, h.Ratio, h.Response = Value{SI: swing.Frequency}, Value{SI: swing.Damping}, none(noFrequency), none(noFrequency)
	if frequency != nil {
		h.Ratio = Value{SI: *frequency / swing.Frequency}
		h.Response = Value{SI: sizing.Response(h.Ratio.SI, swing.Damping)}
		h.Separation = sizing.Separation(h.Ratio.SI, swing.Damping)
	}
}

// moves tells whether the valve has a disc with a law of motion.
func (o *Outcome) moves() bool {
	switch o.Valve.Motion.(type) {
	case *valve.Law, *valve.Pair, *valve.Carried:
		return true
	}
	return false
}

// shuts tells whether the disc is on its seat in a steady flow.
func shuts(m valve.Motion, u float64) bool { return !(u > 0) || m.Opening(m.Steady(u).State) == 0 }

// closes tells whether the disc, as it follows a slow fluctuation of the relative amplitude a about the velocity u, m/s, is on its seat at the least flow and off
// it at the greatest.
func (o *Outcome) closes(u, a float64) bool {
	return o.moves() && shuts(o.Valve.Motion, u*(1-a)) && !shuts(o.Valve.Motion, u*(1+a))
}

// amplitude is that of the opening where the disc follows a slow fluctuation of the relative amplitude a about the velocity u, m/s: half the way between its places
// of rest at u (1 - a) and u (1 + a).
func (o *Outcome) amplitude(u float64, a *float64) Value {
	switch {
	case a == nil:
		return none(noFluctuation)
	case !o.moves():
		return none(noDisc)
	}
	return Value{SI: (o.opening(u*(1+*a)) - o.opening(u*(1-*a))) / 2}
}

// opening is that of the disc at rest in a steady velocity, m/s.
func (o *Outcome) opening(u float64) float64 {
	if !(u > 0) {
		return 0
	}
	return o.Valve.Motion.Opening(o.Valve.Motion.Steady(u).State)
}

// mostAmplitude is half the travel: no disc swings further.
const mostAmplitude = 0.5

// response is the amplitude of a floating disc in a fluctuation of the frequency f, Hz, about the velocity u, m/s, over that in a slow one; 1 of any other disc.
func (o *Outcome) response(u, f float64) float64 {
	if !(u > 0) {
		return 1
	}
	swing, ok := o.Valve.Oscillation(u)
	if !ok {
		return 1
	}
	return sizing.Response(f/swing.Frequency, swing.Damping)
}

// wholeYear is 8760 h, s.
const wholeYear = 8760 * 3600

// wear puts together what disc, hinge and seat go through in a year.
func (o *Outcome) wear(s *StayingOpen, d *Duty, seating Value) {
	runs := slices.Clone(d.Runs)
	if len(runs) == 0 {
		if q, ok := o.usual(d); ok {
			runs = append(runs, cost.Run{Flow: q, Time: wholeYear})
		}
	}
	reason := ""
	switch {
	case o.Valve.Motion == nil:
		reason = "no result"
	case !o.moves():
		reason = noDisc
	case d.Fluctuation == nil:
		reason = noFluctuation
	case d.Frequency == nil:
		reason = noFrequency
	case len(runs) == 0:
		reason = noFlow
	}
	s.Travel, s.Strokes, s.StopTaps, s.StopTapEnergy = none(reason), none(reason), none(reason), none(reason)
	if reason == "" {
		var shakes []sizing.Shake
		taps, energy, known := 0.0, 0.0, true
		for _, r := range runs {
			u := o.velocity(r.Flow)
			a := math.Min(o.amplitude(u, d.Fluctuation).SI*o.response(u, *d.Frequency), mostAmplitude)
			shakes = append(shakes, sizing.Shake{Amplitude: a, Frequency: *d.Frequency, Time: r.Time})
			if m := marginAt(u, o.Valve.FullOpenVelocity); exists(m) && sizing.Ripple(m.SI, *d.Fluctuation) == sizing.Tapping {
				n := *d.Frequency * r.Time
				e, ok := o.Valve.ImpactEnergy(sizing.Rate(a*o.Valve.Travel, *d.Frequency))
				taps, energy, known = taps+n, energy+n*e, known && ok
			}
		}
		s.Strokes = Value{SI: sizing.Strokes(shakes...)}
		s.Travel = Value{SI: 2 * o.Valve.Travel * s.Strokes.SI}
		s.StopTaps, s.StopTapEnergy = Value{SI: taps}, Value{SI: energy}
		if !known {
			s.StopTapEnergy = none("not known of a valve without one moving disc")
		}
	}
	o.closures(s, d, runs, seating)
}

// closures counts how often the disc meets its seat in a year: by trips and starts, and with the frequency f, Hz, in the times t, s, of the runs in which the
// fluctuation shuts it:
//
//	N = trips + starts + sum of f t
//
// The energy is that of one seating, J, times N. How hard a disc seats that every cycle shuts is not worked out.
func (o *Outcome) closures(s *StayingOpen, d *Duty, runs []cost.Run, seating Value) {
	n, shut := d.Trips+d.Starts, false
	if o.Valve.Motion != nil && d.Fluctuation != nil {
		for _, r := range runs {
			if r.Time > 0 && o.closes(o.velocity(r.Flow), *d.Fluctuation) {
				shut = true
				if d.Frequency != nil {
					n += *d.Frequency * r.Time
				}
			}
		}
	}
	s.Closures = Value{SI: n}
	switch {
	case shut:
		s.ClosuresEnergy = none("not known of a disc that closes in every cycle")
		if d.Frequency == nil {
			s.Closures = none("the disc closes in every cycle, and " + noFrequency)
		}
	case n == 0:
		s.Closures = none("no trips and no starts are given")
		s.ClosuresEnergy = s.Closures
	case exists(seating):
		s.ClosuresEnergy = Value{SI: n * seating.SI}
	default:
		s.ClosuresEnergy = none(seating.Reason)
	}
}
