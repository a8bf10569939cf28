package screen

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// Rough is how far the estimate is from full runs, as the tests of this package find it over the built-in examples.
const Rough = "Over the built-in examples it is 1.0 to 1.25 times the deceleration of a full run; where the liquid parts before the flow turns, 2.9 times in the one example there is. " +
	"The reverse velocities are for this deceleration held constant; runs of the examples have 0.4 to 1.02 times as much, as the column yields to the closing disc."

// kept is how far a header that keeps its head may go, m.
const kept = 0.05

// Bounds of the words for a deceleration, m/s2 (common practice).
const (
	gentle    = 2
	moderate  = 5
	demanding = 12
)

// Demanding is how demanding a deceleration is, in words.
func Demanding(a float64) string {
	switch {
	case a < gentle:
		return "gentle"
	case a < moderate:
		return "moderate"
	case a < demanding:
		return "demanding"
	}
	return "very demanding"
}

// writer writes quantities in a system of units.
type writer struct{ system quantity.System }

func (w writer) in(si float64, d quantity.Dimension) string {
	return choice.NewScale(d, w.system, si).With(si)
}

func (w writer) velocity(v float64) string {
	sc := choice.NewScale(quantity.Velocity, w.system, 0.1)
	sc.Places = 2
	return sc.With(v)
}

func (w writer) level(h float64) string { return quantity.Level(h).In(w.system) }

// Sentences say how demanding the case is, by what, and what it needs.
func (s *Screening) Sentences(system quantity.System) []string {
	w, r := writer{system}, s.Worst
	out := []string{w.turns(s), w.formula(s), w.holds(r)}
	if r.Parted != "" {
		out = append(out, fmt.Sprintf("The liquid parts at %s before the flow turns. There the estimate is rough.", r.Parted))
	}
	return append(out, w.need(s))
}

func (w writer) turns(s *Screening) string {
	r := s.Worst
	where := ""
	if len(s.Scenarios) > 1 {
		where = " in scenario " + s.At
	}
	units := fmt.Sprintf("%d units of %s trip", r.Units, r.Station)
	if r.Units == 1 {
		units = "one unit of " + r.Station + " trips"
	}
	return fmt.Sprintf("The service is %s: when %s%s, the flow falls from %s and turns back %s later. The check valve sees a deceleration of up to %s in the last %s before that.",
		Demanding(r.Bound), units, where, w.in(r.Velocity, quantity.Velocity), w.in(r.Time, quantity.Time), w.in(r.Bound, quantity.Acceleration), choice.NewScale(quantity.Time, w.system, r.Window).Bare().With(r.Window))
}

// formula is the deceleration at zero velocity with its numbers.
func (w writer) formula(s *Screening) string {
	r := s.Worst
	header := fmt.Sprintf("the header has gone from %s to %s", w.level(r.Before), w.level(r.Header))
	if math.Abs(r.Before-r.Header) < kept {
		header = "the header keeps its head of " + w.level(r.Before)
	}
	fell := fmt.Sprintf("%s, and the pump at %.0f %% of its speed still lifts to %s", header, 100*r.SpeedRatio, w.level(r.Pump))
	if r.Column == 0 {
		return fmt.Sprintf("At zero velocity it is %s: %s. No column of liquid is given between them: give water length or branch.", w.in(r.Tangent, quantity.Acceleration), fell)
	}
	more := ""
	if r.Bound > 1.02*r.Tangent {
		more = " Just before that it is greater, by the friction in valve and branch and the slope of the pump's curve."
	}
	n := s.Case.Scenarios[0].Network
	u := w.system.Unit(quantity.Length)
	return fmt.Sprintf("At zero velocity a = g (H_header - H_pump)/L = %s x (%.2f - %.2f)/%.2f = %s: %s. L is the liquid of pump, suction and branch on the bore of the valve.%s",
		w.in(n.G(), quantity.Acceleration), u.From(r.Header), u.From(r.Pump), u.From(r.Column), w.in(n.G()*(r.Header-r.Pump)/r.Column, quantity.Acceleration), fell, more)
}

// holds says what keeps the header up.
func (w writer) holds(r *Reversal) string {
	var out []string
	switch {
	case r.Others == 1:
		out = append(out, "One other unit runs on and helps to hold the header.")
	case r.Others > 1:
		out = append(out, fmt.Sprintf("%d other units run on and help to hold the header.", r.Others))
	}
	if m := r.Main; m.Pipe != "" {
		back := w.in(m.Return, quantity.Time)
		switch {
		case r.Returned() && m.Rigid > 0:
			out = append(out, fmt.Sprintf("The wave is back from the end of %s after 2L/a = %s, before the flow turns: the main acts as a column.", m.Pipe, back))
		case r.Returned():
			out = append(out, fmt.Sprintf("The wave is back from the end of %s after 2L/a = %s, before the flow turns: what lies behind it has its say.", m.Pipe, back))
		default:
			out = append(out, fmt.Sprintf("The wave is back from the end of %s after 2L/a = %s, later than the flow turns: until then the main answers with its impedance a/(gA).", m.Pipe, back))
		}
		if m.Rigid > 0 {
			out = append(out, fmt.Sprintf("As one rigid column of units and main against the level behind it, it would be %s.", w.in(m.Rigid, quantity.Acceleration)))
		}
	}
	if r.Held > 0 && math.Abs(r.Before-r.Header) >= kept {
		out = append(out, fmt.Sprintf("A header that kept its steady head would make it %s.", w.in(r.Held, quantity.Acceleration)))
	}
	return strings.Join(out, " ")
}

// NotScreened is what the verdicts are silent about.
const NotScreened = "Only that is screened, not the pressures along the line, the lowest pressure or the forces on anchors: compare tells those."

func (w writer) need(s *Screening) string {
	because := map[Because]string{
		ByLimit:    "by the limits of the case",
		ByPressure: fmt.Sprintf("by the limit on the pressure: the header alone reaches %s at the valve after the trip, and with more the Joukowsky rise rho a V_r on top of that would break it (the slam may come earlier, at less)", w.in(s.Reaches, quantity.Pressure)),
		ByRotation: "as the pump must not turn backwards: the valve has to close without slam (common practice)",
		ByBackflow: "as no limit is given and backflow is harmful: no slam (common practice)",
		BySlam:     "as no limit is given and backflow is harmless: no severe slam (common practice)",
	}[s.Need.Because]
	if s.Need.beyond() {
		bar := choice.NewScale(quantity.Pressure, w.system, s.Reaches)
		bar.Places++
		return fmt.Sprintf("Needed: more than a valve can do. By this estimate (within 3 %% of its rise) the header alone reaches %s at the valve, however fast that shuts, and the limit allows %s: lower that pressure first.",
			bar.With(s.Reaches), bar.With(*s.Case.Limits.Peak()))
	}
	return fmt.Sprintf("Needed: a reverse velocity of at most %s, %s. %s", w.velocity(s.Need.Velocity), because, NotScreened)
}

// Columns are the heads of the table of families.
func Columns(system quantity.System) []string {
	v, p := choice.NewScale(quantity.Velocity, system, 0.1), choice.NewScale(quantity.Pressure, system, 1e5)
	return []string{v.Label("reverse velocity"), "range", p.Label("pressure rise"), "slam", "velocity over full-open", "price"}
}

// Cells are those of a family; empty where there is no figure.
func (s *Screening) Cells(f *Family, system quantity.System) []string {
	out := make([]string, 6)
	if !f.Made() {
		return out
	}
	if f.Seats {
		s.closing(f, system, out)
	} else {
		out[0] = "does not seat"
	}
	out[4], out[5] = "no disc", "not known"
	if f.Margin > 0 {
		out[4] = fmt.Sprintf("%.2f", f.Margin)
	}
	if f.Floats() {
		out[4] += " floats"
	}
	if f.Price > 0 {
		out[5] = fmt.Sprintf("%.2g", f.Price)
	}
	return out
}

// closing fills the cells of how a disc shuts.
func (s *Screening) closing(f *Family, system quantity.System, out []string) {
	v := choice.NewScale(quantity.Velocity, system, 0.1)
	v.Places = 2
	out[0], out[1] = v.Text(f.Velocity), "as given"
	switch {
	case f.Reverse.Open:
		out[1] = "from " + v.Text(math.Min(f.Reverse.Low, f.Velocity))
	case f.Reverse.High > f.Reverse.Low:
		out[1] = v.Text(f.Reverse.Low) + "–" + v.Text(f.Reverse.High)
	}
	rise := choice.NewScale(quantity.Pressure, system, math.Max(f.Rise, 1e5))
	rise.Places = 1
	out[2] = rise.Text(f.Rise)
	out[3] = s.Slam(f)
}

// Slam is the class of slam of a family by the data as they are.
func (s *Screening) Slam(f *Family) string { return s.Case.Limits.Slam(f.Velocity) }

// Key explains the columns.
func (s *Screening) Key(system quantity.System) string {
	w, slam := writer{system}, s.Case.Limits.SlamSteps()
	return "Range: every single datum of the generic valve varied by its spread. Fast enough: the whole range keeps within the reverse velocity needed; nothing else is judged. Too slow: even the low end is more than twice that. " +
		"Rise: Joukowsky, rho a V_r in the branch. Slam: none up to " + w.velocity(slam.None) + ", mild up to " + w.velocity(slam.Mild) + ", else severe (common practice). Velocity over full-open: of the least steady " +
		"flow of a unit; below 1 the disc floats and wears, good is 1.2. Price: over that of a plain swing valve (common practice, ±40 %)."
}

// Groups are the families by verdict, in order.
func (s *Screening) Groups() [][]Family {
	var out [][]Family
	for _, f := range s.Families {
		if n := len(out); n == 0 || out[n-1][0].Verdict != f.Verdict {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], f)
	}
	return out
}

// Reasons are why families are ruled out, those of one reason together.
func (s *Screening) Reasons() []string {
	var order []string
	by := map[string][]string{}
	for i := range s.Families {
		f := &s.Families[i]
		if len(f.Because) == 0 {
			continue
		}
		because := strings.Join(f.Because, "; ")
		if by[because] == nil {
			order = append(order, because)
		}
		by[because] = append(by[because], f.Name)
	}
	for i, because := range order {
		order[i] = strings.Join(by[because], ", ") + ": " + because
	}
	return order
}

// Conclusion is what to do next, in words.
func (s *Screening) Conclusion() string {
	var enough, worth, slow, floats, ask []string
	asks := ""
	for i := range s.Families {
		f := &s.Families[i]
		if f.Floats() && f.Verdict <= Worth {
			floats = append(floats, f.Name)
		}
		if text := s.Case.Asks(f.Spec); text != "" && f.Verdict < RuledOut {
			asks, ask = text, append(ask, f.Name)
		}
		switch f.Verdict {
		case Enough:
			enough = append(enough, f.Name)
		case Worth:
			worth = append(worth, f.Name)
		case Slow:
			slow = append(slow, f.Name)
		}
	}
	var out []string
	if len(enough) > 0 {
		out = append(out, "Fast enough by this estimate, with each datum alone varied by its spread: "+strings.Join(enough, ", ")+". Whether they meet the limits on pressures and forces too, compare tells.")
	}
	if len(worth) > 0 {
		out = append(out, "It hangs on the data, so worth simulating: "+strings.Join(worth, ", ")+".")
	}
	if len(slow) > 0 {
		out = append(out, "Too slow, whichever single datum is varied: "+strings.Join(slow, ", ")+".")
	}
	if len(floats) > 0 {
		out = append(out, "The steady flow does not hold the disc open of: "+strings.Join(floats, ", ")+". A smaller size of these would be held.")
	}
	if len(ask) > 0 {
		out = append(out, "Of "+strings.Join(ask, ", ")+": "+asks+" (common practice).")
	}
	switch {
	case len(enough)+len(worth) > 0:
	case s.Need.beyond():
		out = append(out, "No valve alone keeps within the limit on the pressure: change the installation, e.g. by an air vessel, or the limits, and see by compare.")
	default:
		out = append(out, "No type keeps within the need: change the installation, e.g. a heavier rotor or a longer branch, or the limits.")
	}
	return strings.Join(out, " ")
}
