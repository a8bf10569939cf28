package choice

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/cost"
	"seatwise/valve/sizing"
)

// inSteady is a candidate of a type in the steady flow of u, m/s, without a run.
func inSteady(t *testing.T, typ string, u float64) *Outcome {
	t.Helper()
	s := valve.Spec{Name: "v", Type: typ, Size: 0.25}
	if typ == "measured" {
		s.Set = map[string]float64{"loss when open": 1, "full-open velocity": 1.5}
		s.Tests = []valve.TestPoint{{Deceleration: 2, ReverseVelocity: 0.1}, {Deceleration: 5, ReverseVelocity: 0.3}}
	}
	v, err := catalogue.Complete(s, catalogue.Setting{Density: 998.2, Gravity: 9.80665})
	require.NoError(t, err, typ)
	a := math.Pi / 4 * v.Bore * v.Bore
	o := &Outcome{Candidate: "v", Type: typ, Valve: v, InitialVelocity: Value{SI: u}, InitialFlow: Value{SI: u * a}, SeatImpactEnergy: Value{SI: 2}}
	o.HeadLoss = Value{SI: v.Motion.Steady(u).DP / (998.2 * standardGravity)}
	return o
}

// Every type of the catalogue gives finite figures, whose margin and opening do not fall as the flow grows.
func TestStayingOpenOfEveryFamily(t *testing.T) {
	for _, f := range catalogue.Families() {
		last := HeldFlow{Opening: none("first"), Margin: none("first")}
		for _, u := range []float64{0.02, 0.3, 0.6, 1, 1.5, 2, 2.5, 4, 8} {
			o := inSteady(t, f.Name, u)
			q := o.InitialFlow.SI
			s := o.stayingOpen(&Duty{MinimumFlow: some(q / 2), NormalFlow: &q, MaximumFlow: some(1.3 * q), Fluctuation: some(0.1), Frequency: some(1.5), Trips: 5, Starts: 10}, network.Upstream{Fitting: "bend", Distance: 0.5}, o.SeatImpactEnergy)
			require.Len(t, s.Flows, 3, f.Name)
			for _, v := range []Value{s.FullOpenVelocity, s.LeastVelocity, s.HighestTo, s.NeededMargin, s.Travel, s.Strokes, s.StopTaps, s.StopTapEnergy, s.Closures, s.ClosuresEnergy} {
				require.False(t, math.IsNaN(v.SI) || math.IsInf(v.SI, 0) || v.SI < 0, "%s at %g m/s: %+v", f.Name, u, s)
			}
			for _, h := range s.Flows {
				for _, v := range []Value{h.Flow, h.Velocity, h.Margin, h.Opening, h.HeadLoss, h.Frequency, h.Damping, h.Ratio, h.Response, h.Amplitude} {
					require.False(t, math.IsNaN(v.SI) || math.IsInf(v.SI, 0) || v.SI < 0, "%s at %g m/s: %+v", f.Name, u, h)
				}
				floats := h.Opening.SI > 0 && h.Opening.SI < 1
				require.Equal(t, floats, exists(h.Frequency), "%s at %g m/s: a floating disc swings: %+v", f.Name, u, h)
			}
			h := s.Flows[1]
			require.Equal(t, u, h.Velocity.SI)
			if exists(last.Opening) {
				require.GreaterOrEqual(t, h.Opening.SI, last.Opening.SI-1e-12, "%s at %g m/s", f.Name, u)
				require.Equal(t, exists(last.Margin), exists(h.Margin))
				require.True(t, !exists(h.Margin) || h.Margin.SI > last.Margin.SI)
			}
			last = h
		}
	}
}

// The opening of a disc is 1 from the margin 1 upwards, its amplitude half the way between two places of rest, and what a year makes of it a matter of counting.
func TestWear(t *testing.T) {
	o := inSteady(t, "swing", 2)
	vo, q := o.Valve.FullOpenVelocity, o.InitialFlow.SI
	flow := func(m float64) float64 { return q * m * vo / 2 }
	at := func(u float64) float64 { return o.Valve.Motion.Opening(o.Valve.Motion.Steady(u).State) }
	d := &Duty{Runs: []cost.Run{{Flow: flow(0.7), Time: 3600e3}, {Flow: flow(1.05), Time: 7200e3}, {Flow: flow(2), Time: 1e7}}, Fluctuation: some(0.1), Frequency: some(2), Trips: 5, Starts: 10}
	s := o.stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy)
	response := func(u float64) float64 {
		swing, ok := o.Valve.Oscillation(u)
		require.True(t, ok)
		return sizing.Response(2/swing.Frequency, swing.Damping)
	}
	floating, tapping := (at(0.77*vo)-at(0.63*vo))/2*response(0.7*vo), (1-at(0.945*vo))/2
	require.InEpsilon(t, 2*floating*2*3600e3+2*tapping*2*7200e3, s.Strokes.SI, 1e-9)
	require.InEpsilon(t, 2*o.Valve.Travel*s.Strokes.SI, s.Travel.SI, 1e-12)
	require.True(t, s.Hinged)
	require.InEpsilon(t, 2*7200e3, s.StopTaps.SI, 1e-12, "the disc meets its stop in the second flow alone")
	e, ok := o.Valve.ImpactEnergy(2 * math.Pi * 2 * tapping * o.Valve.Travel)
	require.True(t, ok)
	require.InEpsilon(t, 2*7200e3*e, s.StopTapEnergy.SI, 1e-9)
	require.Equal(t, []float64{15, 30}, []float64{s.Closures.SI, s.ClosuresEnergy.SI})

	// Without a flow table the normal flow holds all the year, without a normal flow that before the event.
	d.Runs = nil
	d.NormalFlow = some(flow(0.7))
	require.InEpsilon(t, 2*floating*2*8760*3600, o.stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Strokes.SI, 1e-9)
	d.NormalFlow = nil
	require.InEpsilon(t, (at(2.2)-at(1.8))*response(2)*2*8760*3600, o.stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Strokes.SI, 1e-9)

	// A disc on its stop does not wear; one that is not asked about says so.
	d.NormalFlow = some(flow(1.2))
	require.Zero(t, o.stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Strokes.SI)
	d.Frequency = nil
	require.Equal(t, noFrequency, o.stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Strokes.Reason)
	require.False(t, inSteady(t, "nozzle", 2).stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Hinged)
	require.Equal(t, noDisc, inSteady(t, "ideal", 2).stayingOpen(d, network.Upstream{}, o.SeatImpactEnergy).Strokes.Reason)
}

// Classes, ripple and the fitting upstream at their edges.
func TestHeldFlow(t *testing.T) {
	o := inSteady(t, "swing", 2)
	vo, q := o.Valve.FullOpenVelocity, o.InitialFlow.SI
	held := func(m float64, d Duty) HeldFlow { return o.held(namedFlow{normalFlow, q * m * vo / 2}, &d) }
	for _, c := range []struct {
		m     float64
		class string
	}{{1.2 + 1e-12, "good"}, {1.2 - 1e-9, "close"}, {1 + 1e-12, "close"}, {1 - 1e-9, "flutters"}, {0.6 + 1e-12, "flutters"}, {0.6 - 1e-9, "flutters severely"}} {
		h := held(c.m, Duty{})
		require.Equal(t, c.class, h.Class, "%.15g", c.m)
		require.Empty(t, h.Ripple)
		require.Equal(t, noFluctuation, h.Amplitude.Reason)
		require.Equal(t, c.m >= 1, h.Opening.SI == 1, "%.15g", c.m)
	}
	ripple := Duty{Fluctuation: some(0.2)}
	require.Equal(t, "stays on its stop", held(1.25+1e-9, ripple).Ripple)
	require.Equal(t, "leaves its stop in every cycle", held(1.25-1e-9, ripple).Ripple)
	require.Equal(t, "floats", held(0.8, ripple).Ripple)
	require.Equal(t, "closes in every cycle", held(1.5, Duty{Fluctuation: some(1)}).Ripple)
	require.Contains(t, held(1.3, ripple).Frequency.Reason, "rests on its stop")

	slow := held(0.8, Duty{Frequency: some(1e-3)})
	require.InDelta(t, 1, slow.Response.SI, 1e-5)
	swing, ok := o.Valve.Oscillation(0.8 * vo)
	require.True(t, ok)
	require.Equal(t, sizing.CloseToResonance, held(0.8, Duty{Frequency: &swing.Frequency}).Separation)

	up := func(bores float64) StayingOpen {
		return o.stayingOpen(&Duty{NormalFlow: &q}, network.Upstream{Fitting: "bend", Distance: bores * o.Valve.Bore}, o.SeatImpactEnergy)
	}
	require.InDelta(t, 1.35, up(2.5).NeededMargin.SI, 1e-12)
	s := up(2.5)
	for m, words := range map[float64]string{1.34: "too little", 1.36: "enough"} {
		require.Equal(t, words, s.disturbed(&HeldFlow{Margin: Value{SI: m}}))
	}
	for u, words := range map[float64]string{2.5: "", 2.51: "above some texts", 3: "above some texts", 3.01: "above"} {
		require.Equal(t, words, s.tooFast(&HeldFlow{Velocity: Value{SI: u}}), "%g", u)
	}
}

// Through a comparison: rows, warnings and notes of a duty that shows every line.
func TestStayingOpenOfAComparison(t *testing.T) {
	c := quick(t, spec("plain", "swing"), spec("ring", "axial spring"), spec("plates", "dual plate"))
	c.Scenarios[0].Network.Stations[0].Upstream = network.Upstream{Fitting: "pump", Distance: 1}
	h := 1.0 / 3600
	frequency := 1.5
	c.Duty = &Duty{MinimumFlow: some(200 * h), MaximumFlow: some(560 * h), Fluctuation: some(0.1), Frequency: &frequency, Trips: 5, Starts: 100, Runs: []cost.Run{{Flow: 300 * h, Time: 3600e3}}}
	r := compare(t, c)
	require.Len(t, r.Staying, 3)
	o := r.Scenarios[0].Outcomes[0]
	require.Equal(t, []string{minimumFlow, beforeEvent, maximumFlow}, []string{r.Staying[0].Flows[0].Name, r.Staying[0].Flows[1].Name, r.Staying[0].Flows[2].Name})
	require.InEpsilon(t, o.OpenMargin.SI, r.Staying[0].Flows[1].Margin.SI, 1e-12)
	require.InEpsilon(t, o.HeadLoss.SI, r.Staying[0].Flows[1].HeadLoss.SI, 1e-9)
	require.InEpsilon(t, 105*o.SeatImpactEnergy.SI, r.Staying[0].ClosuresEnergy.SI, 1e-12)
	require.Contains(t, r.Staying[2].ClosuresEnergy.Reason, "one moving disc")
	labels := map[string]bool{}
	for _, row := range r.StayingRows(quantity.SI) {
		require.Len(t, row.Cells, 3)
		labels[row.Label] = true
	}
	for _, l := range []string{"fitting upstream", "minimum flow, m3/h", "maximum flow, m3/h", "hold of the disc", "margin behind the fitting", "in the fluctuation", "resonance", "natural frequency, Hz",
		"against the highest", "wear index, strokes a year", "energy on the seat, J", "taps on the stop a year"} {
		require.True(t, labels[l], "%s: %v", l, labels)
	}
	text := strings.Join(r.Warnings, "\n")
	require.Contains(t, text, "plain: at the minimum flow of 200 m3/h the disc flutters severely")
	require.Contains(t, r.text(), "The disc of plates leaves its stop: at the minimum flow it flutters severely (full-open margin 0.56")
	require.Contains(t, strings.Join(r.StayingNotes(), "\n"), "does not predict lives")

	// Where nothing is asked and every disc is held well there is nothing to say.
	with := *r.Case
	with.Duty = nil
	n := *with.Scenarios[0].Network
	n.Stations = append([]network.Station(nil), n.Stations...)
	n.Stations[0].Upstream = network.Upstream{}
	with.Scenarios = []Scenario{{Name: "base", Network: &n}}
	calm := *r
	calm.Case = &with
	calm.Scenarios[0].Outcomes = append([]Outcome(nil), calm.Scenarios[0].Outcomes...)
	require.NotNil(t, calm.staying(), "the swing disc has a margin that is close")
	for i := range calm.Scenarios[0].Outcomes {
		calm.Scenarios[0].Outcomes[i].OpenMargin = Value{SI: 1.2}
	}
	require.Nil(t, calm.staying())
	require.Nil(t, (&Comparison{}).StayingNotes())
}

// Where the candidates stand in several places the figures are of the valve watched: its own head loss, not the greatest of all.
func TestStayingOpenOfTwoStations(t *testing.T) {
	c := twoStations(t)
	c.Duty = &Duty{MinimumFlow: some(0.05)}
	aux := &c.Scenarios[0].Network.Stations[1]
	narrow := *aux.Branch
	narrow.MinorLoss = 15
	aux.Branch, aux.Upstream = &narrow, network.Upstream{Fitting: "tee", Distance: 0}
	r := once(t, c)
	for i, k := range r.Staying {
		o := &r.Scenarios[0].Outcomes[i]
		require.Equal(t, o.Watched, k.Watched)
		require.Equal(t, "aux, unit 1", k.Watched)
		require.Equal(t, "tee", k.Upstream)
		require.InEpsilon(t, o.Valve.Motion.Steady(o.InitialVelocity.SI).DP/(o.Valve.Density*standardGravity), k.Flows[1].HeadLoss.SI, 1e-9)
	}
	require.Equal(t, "watched at", r.StayingRows(quantity.SI)[0].Label)
	require.Contains(t, strings.Join(r.Warnings, "\n"), "duty: the candidates stand in several places")
}

func TestGreat(t *testing.T) {
	for x, text := range map[float64]string{0: "0", 905: "905", 1.3: "1.3", 0.0123: "0.0123", 9994: "9994", 10000: "10 thousand", 480123: "480 thousand", 999600: "1 million", 1.334e6: "1.33 million", 15e9: "15 thousand million"} {
		require.Equal(t, text, great(x), fmt.Sprint(x))
	}
}

// The least flow of the flow table stands for a minimum flow that is not given, and the disc is looked at there.
func TestLeastFlow(t *testing.T) {
	runs := []cost.Run{{Flow: 0.1, Time: 10}, {Flow: 0, Time: 5}, {Flow: 0.03, Time: 0}, {Flow: 0.08, Time: 20}}
	name, q, ok := (&Duty{Runs: runs}).Least()
	require.True(t, ok)
	require.Equal(t, leastOfRuns, name)
	require.Equal(t, 0.08, q)
	name, q, _ = (&Duty{Runs: runs, MinimumFlow: some(0.09)}).Least()
	require.Equal(t, minimumFlow, name)
	require.Equal(t, 0.09, q)
	_, _, ok = (&Duty{Trips: 3}).Least()
	require.False(t, ok)
	require.True(t, (&Duty{Runs: runs}).asked())

	o := inSteady(t, "swing", 2.5)
	flow := 0.8 * o.Valve.FullOpenVelocity / 2.5 * o.InitialFlow.SI
	s := o.stayingOpen(&Duty{Runs: []cost.Run{{Flow: flow, Time: 10}}}, network.Upstream{}, none("none"))
	require.InEpsilon(t, 0.8, s.at(leastOfRuns).Margin.SI, 1e-12)
	require.Equal(t, "flutters", s.at(leastOfRuns).Class)
	require.NotNil(t, s.at(beforeEvent))
}

// A disc that every cycle of the flow shuts is counted so, and nothing is said to hold it.
func TestClosesInEveryCycle(t *testing.T) {
	o := inSteady(t, "swing", 2)
	q := o.InitialFlow.SI
	d := &Duty{Runs: []cost.Run{{Flow: q, Time: 1000}, {Flow: 0.9 * q, Time: 500}}, NormalFlow: &q, Fluctuation: some(1), Frequency: some(1.6), Trips: 5, Starts: 900}
	s := o.stayingOpen(d, network.Upstream{}, Value{SI: 3})
	require.InEpsilon(t, 905+1.6*1500, s.Closures.SI, 1e-12)
	require.Contains(t, s.ClosuresEnergy.Reason, "closes in every cycle")
	require.Equal(t, cyclic, s.at(normalFlow).Ripple)
	require.Equal(t, notHeld, s.at(normalFlow).Class)
	d.Frequency = nil
	require.Contains(t, o.stayingOpen(d, network.Upstream{}, Value{SI: 3}).Closures.Reason, noFrequency)
	d.Fluctuation = some(0.1)
	s = o.stayingOpen(d, network.Upstream{}, Value{SI: 3})
	require.Equal(t, []float64{905, 905 * 3}, []float64{s.Closures.SI, s.ClosuresEnergy.SI})
}

// The energy of taps is of the amplitude with the response of a disc that floats in the mean, at most half the travel.
func TestTapsOfAFloatingDisc(t *testing.T) {
	o := inSteady(t, "swing", 2)
	u := 0.95 * o.Valve.FullOpenVelocity
	swing, ok := o.Valve.Oscillation(u)
	require.True(t, ok)
	for _, f := range []float64{swing.Frequency, 10 * swing.Frequency} {
		d := &Duty{Runs: []cost.Run{{Flow: u / 2 * o.InitialFlow.SI, Time: 100}}, Fluctuation: some(0.1), Frequency: &f}
		s := o.stayingOpen(d, network.Upstream{}, none("none"))
		y := math.Min(o.amplitude(u, d.Fluctuation).SI*sizing.Response(f/swing.Frequency, swing.Damping), mostAmplitude)
		e, _ := o.Valve.ImpactEnergy(2 * math.Pi * f * y * o.Valve.Travel)
		require.InEpsilon(t, 100*f*e, s.StopTapEnergy.SI, 1e-9)
	}
}

// The hardest seating of all scenarios counts.
func TestHardestSeating(t *testing.T) {
	of := func(e Value) ScenarioOutcomes { return ScenarioOutcomes{Outcomes: []Outcome{{SeatImpactEnergy: e}}} }
	c := &Comparison{Scenarios: []ScenarioOutcomes{of(Value{SI: 2}), of(none("no event")), of(Value{SI: 7})}}
	require.Equal(t, 7.0, c.hardestSeating(0).SI)
	c.Scenarios[0] = of(none("no event"))
	require.Equal(t, Value{SI: 7}, c.hardestSeating(0))
}

// Only a disc with a spring can have a weaker one; only generic discs of the rule are called so.
func TestWhatWouldHoldIt(t *testing.T) {
	require.NotContains(t, inSteady(t, "swing", 2).easier("hold it"), "spring")
	for _, typ := range []string{"axial spring", "dual plate", "swing spring"} {
		require.Contains(t, inSteady(t, typ, 2).easier("hold it"), "closes later", typ)
	}
	byRule := func(typ string) bool {
		return inSteady(t, typ, 2).stayingOpen(nil, network.Upstream{}, none("none")).ByRule
	}
	require.True(t, byRule("swing"))
	require.True(t, byRule("tilting disc"))
	require.False(t, byRule("lift"))
}
