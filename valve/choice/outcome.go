package choice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

const (
	nothingHappens = "nothing happens in this scenario"
	noPipe         = "the installation has no pipe behind its valves"
)

// trial is one candidate in one scenario before it has run.
type trial struct {
	scenario *Scenario
	problem  moc.Problem
	friction moc.Friction
	cavities moc.Cavities
	limits   []limit
	mine     []bool // the candidate stands at this place of problem.Valves
	settings Settings
	outcome  Outcome // what is known without running
}

// event is the time of the first event, or negative.
func (t *trial) event() float64 {
	first := -1.0
	for _, e := range t.scenario.Events {
		if first < 0 || e.Time < first {
			first = e.Time
		}
	}
	return first
}

// measured is the outcome of a run without its series and profiles, and what the error estimate needs beside it.
func (t *trial) measured(r *moc.Result, w *watch) (Outcome, evidence) {
	o, s, n := t.outcome, t.settings, t.scenario.Network
	u := t.watched(r.Units, w)
	o.Valve, o.Spots = t.problem.Valves[placeOf(n, u.Station)], map[string]Spot{}
	o.Watched = name(u)
	o.Warnings = slices.Concat(o.Valve.Warnings, s.say(r.Warnings), SteadyWarnings(t.problem, r.Steady, s), separation(n, r.Columns, s), CreepWarnings(&r.Numerics, s))
	o.Numerics = Numerics{TimeStep: r.Numerics.Step, Reaches: r.Numerics.Reaches, StepFrom: r.Numerics.StepFrom, LengthChangeMax: r.Numerics.LengthChangeMax,
		VolumeResidual: r.Numerics.VolumeResidual, Kernel: r.Numerics.Kernel, Nodes: r.Numerics.Nodes, Steps: r.Numerics.Steps, HistoryBin: r.Bin}
	if c := r.Numerics.LengthChangeMax; c > 0.01 {
		o.Warnings = append(o.Warnings, fmt.Sprintf("the grid changes the length of %s by %.1f %%", r.Numerics.LengthChangePipe, 100*c))
	}

	for _, name := range r.Numerics.Short {
		o.Warnings = append(o.Warnings, SingleReach(name))
	}
	t.before(&o, r.Steady, u)
	gamma := n.Fluid.Density * n.G()
	c := w.closing(u)
	o.Unseated = t.unseated(c, u)
	at := newPlaces(n, t.itself(u), s)
	e := at.extremes(n, r.Pipes, r.Units)
	o.SteadyPressure, o.MinPressure, o.MinNode = Value{SI: e.steady}, Value{SI: e.least}, e.lowSpot.Place
	o.AtVapour, o.settling, o.gamma = e.atVapour, 16*longestTime(n), gamma
	o.VapourMargin = Value{SI: math.Max(0, (e.least+n.Atmosphere-n.Fluid.VapourPressure)/gamma)}
	o.Spots[keySteadyPressure], o.Spots[keyMin], o.Spots[keyVapour] = e.steadySpot, e.lowSpot, e.lowSpot
	if len(r.Pipes) == 0 {
		o.SteadyPressure, o.MinPressure, o.VapourMargin = none(noPipe), none(noPipe), none(noPipe)
	}
	if o.EventTime < 0 {
		for _, v := range o.transient() {
			*v = none(nothingHappens)
		}
		return o, evidence{}
	}
	o.PeakPressure, o.PeakNode, o.PeakTime = Value{SI: e.peak}, e.peakSpot.Place, Value{SI: e.peakSpot.Time}
	o.Spots[keyPeak] = e.peakSpot
	o.swing.rise, o.swing.fall = e.peak-e.steadyAtPeak, e.steadyAtLeast-e.least
	switch {
	case len(r.Pipes) == 0:
		o.PeakPressure, o.PeakTime = none(noPipe), none(noPipe)
	case e.peakSpot.Time < 0:
		o.PeakTime = none("the pressure does not rise above the steady one")
	}
	o.CavityMax = none("no cavity formed")
	if e.cavities {
		o.CavityMax, o.Spots[keyCavity] = Value{SI: e.cavity}, e.cavitySpot
		o.Warnings = append(o.Warnings, parting(t.cavities), e.crowded(s))
	}
	o.Runs = at.straightRuns(r.Forces)
	o.anchor(n.Runs() > 0, s)
	t.motion(&o, c, u, gamma)
	o.above(w.above, at, s)
	o.exceeded = c.exceeding.times()
	o.exceeded[keyAnchor] = w.push.first
	t.pumps(&o, c, r, u)
	o.leaveOpen()
	o.Warnings = Unique(o.Warnings)
	return o, evidence{rise: e.peak - e.steadyAtPeak, reopenings: c.reopenings()}
}

// motion measures disc and flow of the watched valve.
func (t *trial) motion(o *Outcome, c *closing, u *moc.UnitTrace, gamma float64) {
	s := t.settings
	o.Deceleration = c.deceleration(s)
	o.MaxReverseVelocity, o.Spots[keyReverse] = Value{SI: c.greatest.v}, Spot{o.Watched, c.greatest.t}
	o.ReverseVolume, o.Spots[keyReverseVolume] = Value{SI: c.backflow.volume}, Spot{o.Watched, -1}
	o.ClosingStart = none("the disc does not close")
	if c.leaves >= 0 {
		o.ClosingStart = Value{SI: c.leaves}
	}
	if c.seating == nil {
		reason := cmp.Or(o.Unseated, fmt.Sprintf("the disc does not seat by %s", seconds(c.last.t, s)))
		switch {
		case t.stuck(u):
			reason = "the disc is stuck open"
		case t.held(u):
			reason = "the event holds the disc"
		case !t.opened(u, c):
			reason = "the disc is on its seat all the time"
		}
		for _, v := range []*Value{&o.Seated, &o.SeatImpactSpeed, &o.SeatImpactEnergy, &o.SlamPressureRise, &o.LaterReverseVelocity, &o.Reopenings, &o.Rebound, &o.LeakFlow, &o.ClosingDeceleration} {
			*v = none(reason)
		}
		return
	}
	o.Seated = Value{SI: c.seating.Time}
	o.Warnings = append(o.Warnings, o.tested(c.seating, s)...)
	o.SlamPressureRise = c.slam()
	o.SlamPressureRise.SI *= gamma
	o.SeatImpactSpeed = Value{SI: math.Abs(c.seating.Speed) * o.Valve.Reach}
	o.SeatImpactEnergy = none("not known of a valve without one moving disc")
	if e, ok := o.Valve.ImpactEnergy(c.seating.Speed); ok {
		o.SeatImpactEnergy = Value{SI: e}
	}
	if o.Valve.Reach == 0 {
		o.SeatImpactSpeed = none("a valve without a disc")
	}
	o.LaterReverseVelocity, o.Spots[keyLater] = Value{SI: c.later.v}, Spot{o.Watched, c.later.t}
	o.Reopenings = Value{SI: float64(c.reopenings())}
	o.Rebound = Value{SI: c.rebound}
	o.ClosingDeceleration = c.closingDeceleration(o.Valve)
	o.LeakFlow = c.pressed.leak(o.Valve, c.last.Opening > 0)
}

// period is 4 L/a of the branch of a unit, s; 0 without a branch.
func (t *trial) period(u *moc.UnitTrace) float64 {
	for _, s := range t.scenario.Network.Stations {
		if s.Name == u.Station && s.Branch != nil {
			return 4 * s.Branch.Length / s.Branch.WaveSpeed
		}
	}
	return 0
}

// window is the time before zero velocity over which the deceleration is taken, s.
func (t *trial) window(u *moc.UnitTrace) float64 { return math.Max(0.050, t.period(u)) }

// pumps measures what becomes of the pumps.
func (t *trial) pumps(o *Outcome, c *closing, r *moc.Result, watched *moc.UnitTrace) {
	switch {
	case len(watched.Speed) == 0:
		o.SpeedRatioAtReversal = none("the valve has no pump of its own")
	case watched.Tripped < 0:
		o.SpeedRatioAtReversal = none("the pump runs on")
	case c.zero < 0:
		o.SpeedRatioAtReversal = none(c.never(t.settings))
	default:
		o.SpeedRatioAtReversal = Value{SI: c.atZero / c.atTrip}
	}
	o.MaxReverseSpeed = none("no pump")
	o.RunOutFlow, o.RunOutPower = none("no unit is left running"), none("no unit is left running")
	o.Warnings = append(o.Warnings, t.runOut(r)...)
	for i := range r.Units {
		u := &r.Units[i]
		if len(u.Speed) == 0 {
			continue
		}
		if o.MaxReverseSpeed.Reason != "" {
			o.MaxReverseSpeed, o.Spots[keyReverseSpeed] = Value{}, Spot{called(u.Station, u.Unit), -1}
		}
		for k, w := range u.Speed {
			if -w > o.MaxReverseSpeed.SI {
				o.MaxReverseSpeed, o.Spots[keyReverseSpeed] = Value{SI: -w}, Spot{called(u.Station, u.Unit), r.Time[k]}
			}
		}
		if power := u.Power[len(u.Power)-1]; driven(u) && (!exists(o.RunOutPower) || power > o.RunOutPower.SI) {
			o.RunOutPower, o.RunOutFlow = Value{SI: power}, Value{SI: u.Flow[len(u.Flow)-1]}
		}
	}
}

// driven tells whether a pump runs under power at the end: one that stands still was never started.
func driven(u *moc.UnitTrace) bool { return u.Tripped < 0 && u.Speed[len(u.Speed)-1] > 0 }

// runOut warns of the pumps left running that leave what their data speak for after the event, each station once.
func (t *trial) runOut(r *moc.Result) []string {
	var out []string
	warned := map[string]bool{}
	for i := range r.Units {
		u, end := &r.Units[i], r.Steady.Units[i].CurveEnd
		if last := u.Flow[len(u.Flow)-1]; end > 0 && driven(u) && u.Flow[0] <= end && last > end && !warned[u.Station] {
			warned[u.Station] = true
			st := t.scenario.Network.Stations[placeOf(t.scenario.Network, u.Station)]
			st.Units = 1
			out = append(out, beyondCurve(&st, end, last, "ends the run", t.settings))
		}
	}
	return out
}

// dress adds the series of the watched valve, and the profiles of the route from the leading one, so that those of all candidates are of one route.
func (t *trial) dress(o *Outcome, r *moc.Result, w *watch) {
	n := t.scenario.Network
	u := t.watched(r.Units, w)
	gamma := n.Fluid.Density * n.G()
	z := elevation(n, u.Station)
	turn := func(x []float64, f func(float64) float64) []float64 {
		y := make([]float64, len(x))
		for i := range x {
			y[i] = f(x[i])
		}
		return y
	}
	gauge := func(h float64) float64 { return gamma * (h - z) }
	o.Time = r.Time
	o.History = []Series{
		{"velocity", "velocity at the valve", quantity.Velocity, turn(u.Flow, func(q float64) float64 { return q / area(u.Bore) })},
		{"opening", "opening", quantity.Fraction, u.Opening},
		{"pressure_down", "pressure downstream of the valve", quantity.Pressure, turn(u.HeadDown, gauge)},
		{"pressure_up", "pressure upstream of the valve", quantity.Pressure, turn(u.HeadUp, gauge)},
		{"drop", "pressure drop over the valve", quantity.PressureDifference, u.Drop},
		{"flow", "flow through the valve", quantity.Flow, u.Flow},
	}
	if len(u.Speed) > 0 {
		o.History = append(o.History, Series{"speed", "pump speed", quantity.Rotation, u.Speed})
	}
	first := t.leading(r.Units)
	o.Route, o.RouteFrom = route(n, r, first), name(first)
	for i := range o.Runs {
		o.Runs[i].Force = r.Forces[i].Force
	}
}

// elevation is that of a unit's valve, m.
func elevation(n *network.Network, station string) float64 {
	for _, s := range n.Stations {
		if s.Name == station {
			return s.Elevation
		}
	}
	for _, c := range n.CheckValves {
		if c.Name == station {
			return c.Elevation
		}
	}
	return 0
}

// fail makes an outcome without results. What is known of the valve stays.
func (o *Outcome) fail(err error) {
	o.err, o.Failed = err, bare(err)
	for _, v := range o.values() {
		*v = none("no result")
	}
}

// bare is the text of an error without the name of the package that it comes from.
func bare(err error) string { return strings.TrimPrefix(err.Error(), "moc: ") }

// Unique keeps the first of equal texts, and none that is empty.
func Unique(texts []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, t := range texts {
		if t != "" && !seen[t] {
			seen[t] = true
			out = append(out, t)
		}
	}
	return out
}

const noFlow = "no flow before the event"
