package plots

import (
	"fmt"
	"math"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// synthetic is a comparison in closed form, no solver: a column of velocity v0 that decelerates steadily, a disc that reaches its seat at
// a given reverse velocity, and a pressure that then jumps by rho a v and rings down with the period of a main of 600 m.
func synthetic(candidates, scenarios int) *choice.Comparison {
	design, allowance, least, reverse := 8e5, 0.1, -0.5e5, 0.3
	c := &choice.Comparison{Service: "liquid pump discharge", Case: &choice.Case{
		Name: "lift", Title: "Ostermere lift station", Example: true,
		Limits: choice.Limits{DesignPressure: &design, SurgeAllowance: &allowance, MinimumPressure: &least, ReverseVelocity: &reverse},
	}}
	discs := []struct {
		name    string
		reverse float64 // m/s at seating
	}{
		{"plain-swing", 0.638}, {"spring-disc", 0.104}, {"nozzle", 0.06}, {"dual-plate", 0.21}, {"tilting-disc", 0.33},
		{"swing-counterweighted", 0.47}, {"swing-heavy-body", 0.71}, {"spring-light", 0.15}, {"ideal", 0},
	}
	names := []string{"base", "two-trip", "all-trip", "low-tower", "high-sump"}
	for k := range scenarios {
		s := choice.ScenarioOutcomes{Name: names[k], Own: choice.Value{SI: 6.8}}
		c.Case.Scenarios = append(c.Case.Scenarios, choice.Scenario{Name: names[k],
			Network: &network.Network{Fluid: fluid.Fluid{Name: "water", Density: 999.1, VapourPressure: 1705}, Atmosphere: 101300},
			Events:  []network.Event{{Target: "lift", Units: 1, Time: 1}}})
		for i := range candidates {
			d := discs[i]
			s.Outcomes = append(s.Outcomes, outcome(c.Case, d.name, names[k], d.reverse, 6.8+1.7*float64(k)))
		}
		c.Scenarios = append(c.Scenarios, s)
	}
	return c
}

func outcome(c *choice.Case, name, scenario string, reverse, deceleration float64) choice.Outcome {
	const (
		step, until = 0.0005, 11.0
		event       = 1.0
		v0          = 2.53
		rho, wave   = 999.1, 1100.0
		steady      = 5.2e5
		static      = 4.85e5
		main        = 600.0
	)
	reverse *= deceleration / 6.8
	closed := event + (v0+reverse)/deceleration
	start := event + 0.55*v0/deceleration
	rise := rho * wave * reverse
	n := int(until/step) + 1
	t, v, y, p := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	sag := 1.1e5 * (1 - math.Exp(-(closed-event)/0.12))
	for i := range t {
		t[i] = float64(i) * step
		v[i], y[i], p[i] = v0, 1, steady
		switch {
		case t[i] >= closed:
			v[i], y[i] = 0, 0
			tau := t[i] - closed
			p[i] = static + (rise-sag+steady-static)*math.Exp(-tau/1.6)*math.Cos(2*math.Pi*tau/(4*main/wave)) +
				0.12*rise*math.Exp(-tau/0.1)*math.Sin(2*math.Pi*tau/0.0218)
		case t[i] > event:
			v[i] = v0 - deceleration*(t[i]-event)
			p[i] = steady - 1.1e5*(1-math.Exp(-(t[i]-event)/0.12))
			if t[i] > start {
				y[i] = 1 - math.Pow((t[i]-start)/(closed-start), 2)
			}
		}
	}
	peak, least, at := math.Inf(-1), math.Inf(1), 0.0
	for i := range p {
		if p[i] > peak {
			peak, at = p[i], t[i]
		}
		least = math.Min(least, p[i])
	}
	bound := *c.Limits.DesignPressure * (1 + *c.Limits.SurgeAllowance)
	val := func(x float64) choice.Value { return choice.Value{SI: x} }
	return choice.Outcome{
		Candidate: name, Type: "swing", Scenario: scenario, EventTime: event, Watched: "lift, unit 1", RouteFrom: "lift, unit 1",
		InitialVelocity: val(v0), Deceleration: val(deceleration), MaxReverseVelocity: val(reverse), Seated: val(closed),
		PeakPressure: val(peak), PeakError: val(0.004*peak + 0.01*rise), PeakTime: val(at), PeakNode: "header", MinPressure: val(least),
		SlamPressureRise: val(rise), CavityMax: choice.Value{Reason: "no cavity formed"},
		Verdicts: []choice.Verdict{{Measure: peakMeasure, Limit: "design pressure with 10 % surge allowance", Scenario: scenario,
			Value: peak, Bound: bound, Met: peak <= bound, Margin: bound - peak, Place: "header", Time: at, Unsure: math.Abs(bound-peak) < 0.1e5}},
		Time: t, History: []choice.Series{
			{Key: velocityKey, Label: "velocity", Dimension: quantity.Velocity, Values: v},
			{Key: openingKey, Label: "opening", Dimension: quantity.Fraction, Values: y},
			{Key: pressureKey, Label: "pressure downstream", Dimension: quantity.Pressure, Values: p},
		},
		Route: route(steady, peak, least, static, rho),
	}
}

// route is the branch and the rising main with straight lines of extreme head, pulled in by the tower.
func route(steady, peak, least, static, rho float64) []choice.Profile {
	head := func(p float64) float64 { return 102 + p/(rho*network.Gravity) }
	build := func(name string, from, to float64, n int) choice.Profile {
		p := choice.Profile{Pipe: name}
		for i := range n {
			x := from + (to-from)*float64(i)/float64(n-1)
			f := x / 606
			p.Chainage = append(p.Chainage, x)
			p.Elevation = append(p.Elevation, elevation(x-6))
			p.Steady = append(p.Steady, head(steady)+f*(151.5-head(steady)))
			p.Highest = append(p.Highest, math.Max(head(steady)+f*(151.5-head(steady)), 151.5+(head(peak)-151.5)*math.Cos(f*math.Pi/2)))
			low := 151.5 - (head(steady)-head(least)+head(peak)-head(static))*0.5*math.Sqrt(1-f)
			vapour := p.Elevation[i] + (1705-101300)/(rho*network.Gravity)
			p.Lowest = append(p.Lowest, math.Max(low, vapour))
			p.Cavity = append(p.Cavity, 0.002*math.Max(0, vapour-low))
		}
		return p
	}
	return []choice.Profile{build("lift/1/branch", 0, 6, 7), build("rising-main", 6, 606, 201)}
}

func elevation(x float64) float64 {
	pts := [][2]float64{{0, 102}, {133, 108}, {415, 118}, {600, 140}}
	for i := 1; i < len(pts); i++ {
		if x <= pts[i][0] {
			f := math.Max(0, (x-pts[i-1][0])/(pts[i][0]-pts[i-1][0]))
			return pts[i-1][1] + f*(pts[i][1]-pts[i-1][1])
		}
	}
	panic(fmt.Sprintf("no elevation at %g m", x))
}

// awkward is a comparison with everything that may be missing or too long: a title with marks, a long name, a candidate that failed, one
// that never seats, no limits, no events.
func awkward() *choice.Comparison {
	c := synthetic(4, 2)
	c.Case.Title = "Pump house <A> & \"B\" at the far end of a very long lane, with a\nsecond line \x07 and more words than a figure is wide, by far"
	c.Case.Limits = choice.Limits{}
	for k := range c.Scenarios {
		c.Case.Scenarios[k].Events = nil
		outs := c.Scenarios[k].Outcomes
		for i := range outs {
			outs[i].Verdicts = nil
			outs[i].EventTime = -1
		}
		outs[0].Candidate = "swing-valve-with-a-name-that-goes-on-and-on-until-nobody-reads-it"
		outs[1] = choice.Outcome{Candidate: outs[1].Candidate, EventTime: -1, PeakPressure: choice.Value{Reason: "the run failed"}}
		outs[2].Seated = choice.Value{Reason: "it never reaches its seat"}
		outs[2].MaxReverseVelocity = choice.Value{Reason: "it never reaches its seat"}
		outs[2].PeakError = choice.Value{Reason: "one grid only"}
	}
	return c
}
