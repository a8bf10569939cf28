package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/screen"
)

// hand is a number of the report beside one that a pocket calculator gives.
type hand struct {
	what, formula string
	result, hand  string
	why           string
}

// checker is the page for the one who checks: per scenario and candidate the numbers that decide, each beside a calculation by hand.
func (b *builder) checker() Section {
	s := Section{Heading: "Checks by hand", NewPage: true, Blocks: []Block{Paragraph("Each number that decides stands beside a short calculation from the data of this report. The two are not meant to be equal: the last column says why they differ. " +
		"A difference that the reason does not explain is a question to the author of the case.")}}
	for i := range b.Scenarios {
		for k := range b.Scenarios[i].Outcomes {
			o := &b.Scenarios[i].Outcomes[k]
			if o.Failed != "" {
				continue
			}
			t := &Table{Caption: fmt.Sprintf("Candidate %s in scenario %s.", o.Candidate, b.Scenarios[i].Name), Head: []string{"number", "by hand", "result", "hand", "why they differ"}, Words: true}
			for _, h := range b.handCalculations(b.scenarioOf(b.Scenarios[i].Name), o) {
				t.add(h.what, h.formula, unbroken(h.result), unbroken(h.hand), h.why)
			}
			if len(t.Rows) > 0 {
				s.Blocks = append(s.Blocks, t)
			}
		}
	}
	return s
}

// unbroken is a value that keeps its unit beside it.
func unbroken(value string) string { return strings.ReplaceAll(value, " ", "\u00a0") }

func (b *builder) scenarioOf(scenario string) *choice.Scenario {
	for i := range b.Case.Scenarios {
		if b.Case.Scenarios[i].Name == scenario {
			return &b.Case.Scenarios[i]
		}
	}
	return &choice.Scenario{}
}

// handCalculations are, in SI and on the valve's bore,
//
//	head loss      h = zeta V^2/(2 g), zeta on the stop
//	slam           dp = rho a V_R (D_v/D_p)^2, the reverse velocity stopped at once, D_v and D_p the bores of valve and pipe
//	run-down       alpha = 1/(1 + t T_0/(I w_0)), from I dw/dt = -T_0 (w/w_0)^2, t from the trip to flow reversal, T_0 the rated torque
//	deceleration   dV/dt = g (H - Z dQ - alpha^2 H_0)/sum(L_i (D_v/D_i)^2), a rigid column at zero flow between the node that the unit delivers to and
//	               its suction, the pump at its shut-off head H_0 and the speed ratio alpha that the run gives at that moment. H is the lift before the
//	               event, dQ the flow lost, and Z what the node falls by flow, 1/Z = sum(g A/a) of its pipes + sum(-1/(dH/dQ)) of the pumps that run on. Where
//	               there is a screening estimate, its fall of that node stands for Z dQ: the tangents of the curves let it fall too little
//
// Source: rigid column and run-down are Newton's law; the rise is that of Joukowsky. A calculation whose data are not there is left out.
func (b *builder) handCalculations(sc *choice.Scenario, o *choice.Outcome) []hand {
	n := sc.Network
	if n == nil {
		return nil
	}
	g, rho := n.G(), n.Fluid.Density
	var out []hand
	if o.HeadLoss.Reason == "" && o.InitialVelocity.Reason == "" && o.Valve.LossOpen > 0 {
		v := o.InitialVelocity.SI
		why := "Rounding, and the loss of reducers where bores differ."
		if o.OpeningFraction.Reason == "" && o.OpeningFraction.SI < 0.999 {
			why = fmt.Sprintf("The disc stands at %s of its travel, not on its stop: it loses more.", b.write(o.OpeningFraction.SI, quantity.Fraction))
		}
		out = append(out, hand{"head loss", fmt.Sprintf("ζ V²/(2 g) with ζ = %.3g, V = %s", o.Valve.LossOpen, b.write(v, quantity.Velocity)), b.write(o.HeadLoss.SI, quantity.Length),
			b.write(o.Valve.LossOpen*v*v/(2*g), quantity.Length), why})
	}
	st := station(n, o.Watched)
	if st == nil {
		return out
	}
	bore, a, period := behind(n, st)
	if o.SlamPressureRise.Reason == "" && o.MaxReverseVelocity.Reason == "" && bore > 0 {
		v := o.MaxReverseVelocity.SI * square(o.Valve.Bore/bore)
		out = append(out, hand{"slam pressure rise", fmt.Sprintf("ρ a ΔV with ρ = %s, a = %s, ΔV = %s", b.write(rho, quantity.Density), b.write(a, quantity.Velocity), b.write(v, quantity.Velocity)),
			b.write(o.SlamPressureRise.SI, quantity.PressureDifference), b.write(rho*a*v, quantity.PressureDifference),
			slamReason(o.SlamPressureRise.SI/(rho*a*v), quantity.FormatIn(period, millisecond))})
	}
	p, err := pump.New(st.Pump, rho, g)
	reversal := b.reversal(o)
	if err != nil || o.SpeedRatioAtReversal.Reason != "" || reversal < 0 {
		return out
	}
	trip := tripped(sc, st.Name)
	if t := reversal - trip; trip >= 0 && t > 0 && p.Inertia > 0 {
		w := st.Pump.Speed
		out = append(out, hand{"pump speed at flow reversal", fmt.Sprintf("1/(1 + t T₀/(I ω₀)) with t = %s, T₀ = %s, I = %s, ω₀ = %s", b.write(t, quantity.Time), b.write(p.RatedTorque, quantity.Torque), b.write(p.Inertia, quantity.Inertia), b.write(w, quantity.Rotation)),
			b.write(o.SpeedRatioAtReversal.SI, quantity.Fraction), b.write(1/(1+t*p.RatedTorque/(p.Inertia*w)), quantity.Fraction),
			"By hand the torque falls with the square of the speed from its rated value; in the run it also falls as the flow dies away, so that the rotor keeps more of its speed."})
	}
	if h, ok := b.rigid(sc, st, o, p); ok {
		out = append(out, h)
	}
	return out
}

// slamReason says why the slam differs from the rise of a sudden stop, by their ratio.
func slamReason(ratio float64, period string) string {
	switch {
	case math.IsNaN(ratio):
		return "There is no reverse velocity to stop."
	case ratio < 0.98:
		return "By hand the greatest reverse velocity stops at once; in the run the disc takes off part of it before it lands, or a wave comes back from the end of the pipe, after " + period + ", before it has landed."
	case ratio > 1.02:
		return "In the run the pressure was not steady when the disc landed: a wave that was under way, or a cavity, adds to the stop of the reverse velocity."
	}
	return "They agree: the disc lands so fast that no wave comes back from the end of the pipe, after " + period + ", before it has landed."
}

// rigid is the deceleration of the rigid column of a unit's branch at zero flow.
func (b *builder) rigid(sc *choice.Scenario, st *network.Station, o *choice.Outcome, p *pump.Pump) (hand, bool) {
	n := sc.Network
	suction := slices.IndexFunc(n.Reservoirs, func(r network.Reservoir) bool { return r.Name == st.From })
	if o.Deceleration.Reason != "" || st.Branch == nil || suction < 0 || len(o.Route) == 0 || stopped(sc, st) >= st.Units-st.Stopped {
		return hand{}, false
	}
	i := slices.IndexFunc(o.Route, func(r choice.Profile) bool {
		return slices.ContainsFunc(n.Pipes, func(p network.Pipe) bool { return p.Name == r.Pipe && p.From == st.To })
	})
	if i < 0 || len(o.Route[i].Steady) == 0 {
		return hand{}, false
	}
	if o.InitialFlow.Reason != "" || slices.ContainsFunc(n.Stations, func(x network.Station) bool { return x.To == st.To && x.Name != st.Name }) {
		return hand{}, false
	}
	lift := o.Route[i].Steady[0] - n.Reservoirs[suction].Head(0)
	head := square(o.SpeedRatioAtReversal.SI) * p.ShutOffHead()
	yielding := 0.0 // 1/Z
	for i := range n.Pipes {
		if x := &n.Pipes[i]; x.From == st.To || x.To == st.To {
			yielding += n.G() * math.Pi / 4 * square(x.Bore) / x.WaveSpeed
		}
	}
	lost := stopped(sc, st)
	if _, slope, _ := p.Head(o.InitialFlow.SI, st.Pump.Speed); slope < 0 {
		yielding -= float64(st.Units-st.Stopped-lost) / slope
	}
	fall := float64(lost) * o.InitialFlow.SI / yielding
	of := "by the flow lost"
	why := "By hand it is that of a rigid column at the moment of zero flow. The hand calculation takes the curves of the pumps that run on as straight, so that its header falls too little and its deceleration is too great; the result is the mean slope of the velocity before that moment."
	if r := b.reversed(sc, st); r != nil {
		fall, of = r.Before-r.Header, "by the screening estimate"
		why = "By hand it is that of a rigid column at the moment of zero flow, with the fall of the header of the screening estimate; the result is the mean slope of the velocity before that moment."
	}
	length := st.Branch.Length * square(o.Valve.Bore/st.Branch.Bore)
	if st.Column.Length > 0 && st.Column.Bore > 0 {
		length += st.Column.Length * square(o.Valve.Bore/st.Column.Bore)
	}
	if length <= 0 || lift-fall <= head {
		return hand{}, false
	}
	return hand{"deceleration", fmt.Sprintf("g (H − ΔH − α² H₀)/L with H = %s from suction to header before the event, ΔH = %s the fall of the header %s, α = %s, H₀ = %s, L = %s", b.write(lift, quantity.Length), b.write(fall, quantity.Length), of, b.write(o.SpeedRatioAtReversal.SI, quantity.Fraction),
		b.write(p.ShutOffHead(), quantity.Length), b.write(length, quantity.Length)), b.write(o.Deceleration.SI, quantity.Acceleration), b.write(n.G()*(lift-fall-head)/length, quantity.Acceleration),
		why}, true
}

// reversed is the screening estimate of a station in a scenario; nil: there is none.
func (b *builder) reversed(sc *choice.Scenario, st *network.Station) *screen.Reversal {
	if b.Screening == nil {
		return nil
	}
	for i := range b.Screening.Scenarios {
		d := &b.Screening.Scenarios[i]
		for k := range d.Reversals {
			if r := &d.Reversals[k]; d.Scenario == sc.Name && r.Station == st.Name && r.Parted == "" {
				return r
			}
		}
	}
	return nil
}

// reversal is when the velocity at the valve first is zero after the event, s; negative: never.
func (b *builder) reversal(o *choice.Outcome) float64 {
	for _, h := range o.History {
		if h.Key != "velocity" {
			continue
		}
		for i := 1; i < len(h.Values) && i < len(o.Time); i++ {
			if o.Time[i] > o.EventTime && h.Values[i] <= 0 && h.Values[i-1] > 0 {
				f := h.Values[i-1] / (h.Values[i-1] - h.Values[i])
				return o.Time[i-1] + f*(o.Time[i]-o.Time[i-1])
			}
		}
	}
	return math.Inf(-1)
}

// station is that of a watched valve, "lift, unit 1"; nil for a valve that stands alone.
func station(n *network.Network, watched string) *network.Station {
	for i := range n.Stations {
		s := &n.Stations[i]
		for unit := 1; unit <= s.Units; unit++ {
			if watched == s.Name || watched == fmt.Sprintf("%s, unit %d", s.Name, unit) {
				return s
			}
		}
	}
	return nil
}

// behind is the bore and wave speed of the pipe that a unit's valve closes on, and its return time 2 L/a; 0 where several begin there.
func behind(n *network.Network, s *network.Station) (bore, a, period float64) {
	if r := s.Branch; r != nil {
		return r.Bore, r.WaveSpeed, 2 * r.Length / r.WaveSpeed
	}
	found := 0
	for i := range n.Pipes {
		if p := &n.Pipes[i]; p.From == s.To || p.To == s.To {
			found++
			bore, a, period = p.Bore, p.WaveSpeed, 2*p.Length()/p.WaveSpeed
		}
	}
	if found != 1 || s.Units > 1 {
		return 0, 0, 0
	}
	return bore, a, period
}

// tripped is when the units of a station first trip, s; negative: they do not.
func tripped(sc *choice.Scenario, name string) float64 {
	first := -1.0
	for _, e := range sc.Events {
		if e.Kind == network.Trip && e.Target == name && (first < 0 || e.Time < first) {
			first = e.Time
		}
	}
	return first
}

// stopped is how many units of a station trip.
func stopped(sc *choice.Scenario, s *network.Station) int {
	units := 0
	for _, e := range sc.Events {
		if e.Kind == network.Trip && e.Target == s.Name {
			if e.Units == 0 {
				return s.Units
			}
			units += e.Units
		}
	}
	return units
}

func square(x float64) float64 { return x * x }
