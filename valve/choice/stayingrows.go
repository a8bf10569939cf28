package choice

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seatwise/network/quantity"
)

// stayingTable makes rows of how the candidates stay open.
type stayingTable struct {
	of     []StayingOpen
	system quantity.System
	rows   []Row
}

// StayingRows are the lines of how the candidates stay open and what they wear, in words, for a screen or a report; the cells of a row are in the order of
// Staying. A line that says nothing of any of them is left out.
func (c *Comparison) StayingRows(system quantity.System) []Row {
	t := &stayingTable{of: c.Staying, system: system}
	if c.Places(0) > 1 {
		t.words("watched at", false, func(s *StayingOpen) string { return s.Watched })
	}
	t.values("full-open velocity", quantity.Velocity, false, func(s *StayingOpen) Value { return s.FullOpenVelocity })
	t.values("least velocity by the rule C√v", quantity.Velocity, false, func(s *StayingOpen) Value { return s.LeastVelocity })
	t.highest()
	t.words("fitting upstream", false, func(s *StayingOpen) string {
		if s.Upstream == "" {
			return ""
		}
		d := NewScale(quantity.Length, t.system, s.Distance.SI).Bare()
		return fmt.Sprintf("%s, %s or %.1f bores", s.Upstream, d.With(s.Distance.SI), s.Bores.SI)
	})
	t.values("margin needed behind it", quantity.Number, true, func(s *StayingOpen) Value { return s.NeededMargin })
	for _, name := range []string{minimumFlow, leastOfRuns, normalFlow, beforeEvent, maximumFlow} {
		t.flow(name)
	}
	t.year()
	return t.rows
}

func (t *stayingTable) add(label string, detail bool, cell func(*StayingOpen) Cell) {
	row := Row{Label: label, Detail: detail}
	said := false
	for i := range t.of {
		c := cell(&t.of[i])
		row.Cells, said = append(row.Cells, c), said || c.Text != ""
	}
	if said {
		t.rows = append(t.rows, row)
	}
}

func (t *stayingTable) words(label string, detail bool, text func(*StayingOpen) string) {
	t.add(label, detail, func(s *StayingOpen) Cell { return Cell{Text: text(s)} })
}

// values is a row of one scale.
func (t *stayingTable) values(label string, d quantity.Dimension, detail bool, get func(*StayingOpen) Value) {
	var all []float64
	for i := range t.of {
		if v := get(&t.of[i]); exists(v) {
			all = append(all, v.SI)
		}
	}
	sc := NewScale(d, t.system, all...)
	t.add(sc.Label(label), detail, func(s *StayingOpen) Cell {
		v := get(s)
		if !exists(v) {
			return Cell{Reason: v.Reason}
		}
		return Cell{Text: sc.Text(v.SI)}
	})
}

func (t *stayingTable) highest() {
	sc := NewScale(quantity.Velocity, t.system, 1)
	sc.Places = 1
	t.add(sc.Label("highest velocity"), false, func(s *StayingOpen) Cell {
		switch {
		case !exists(s.HighestTo):
			return Cell{Reason: s.HighestTo.Reason}
		case s.HighestFrom.SI < s.HighestTo.SI:
			return Cell{Text: sc.Text(s.HighestFrom.SI) + " to " + sc.Text(s.HighestTo.SI)}
		}
		return Cell{Text: sc.Text(s.HighestTo.SI)}
	})
}

// at is the flow of a name.
func (s *StayingOpen) at(name string) *HeldFlow {
	if i := slices.IndexFunc(s.Flows, func(h HeldFlow) bool { return h.Name == name }); i >= 0 {
		return &s.Flows[i]
	}
	return nil
}

// flow is the block of rows of one flow.
func (t *stayingTable) flow(name string) {
	if !slices.ContainsFunc(t.of, func(s StayingOpen) bool { return s.at(name) != nil }) {
		return
	}
	values := func(label string, d quantity.Dimension, detail bool, get func(*HeldFlow) Value) {
		t.values(label, d, detail, func(s *StayingOpen) Value {
			if h := s.at(name); h != nil {
				return get(h)
			}
			return none(noFlow)
		})
	}
	words := func(label string, text func(*StayingOpen, *HeldFlow) string) {
		t.words(label, true, func(s *StayingOpen) string {
			if h := s.at(name); h != nil {
				return text(s, h)
			}
			return ""
		})
	}
	values(name, quantity.Flow, false, func(h *HeldFlow) Value { return h.Flow })
	values("velocity", quantity.Velocity, true, func(h *HeldFlow) Value { return h.Velocity })
	words("against the highest", (*StayingOpen).tooFast)
	values("full-open margin", quantity.Number, true, func(h *HeldFlow) Value { return h.Margin })
	if name != beforeEvent { // what the comparison itself has in its first lines
		values("opening", quantity.Fraction, true, func(h *HeldFlow) Value { return h.Opening })
		values("head loss", quantity.Length, true, func(h *HeldFlow) Value { return h.HeadLoss })
	}
	words("hold of the disc", func(_ *StayingOpen, h *HeldFlow) string { return h.Class })
	words("margin behind the fitting", (*StayingOpen).disturbed)
	words("in the fluctuation", func(_ *StayingOpen, h *HeldFlow) string { return h.Ripple })
	values("natural frequency", quantity.Frequency, true, func(h *HeldFlow) Value { return h.Frequency })
	values("damping, of critical", quantity.Fraction, true, func(h *HeldFlow) Value { return h.Damping })
	values("frequency ratio", quantity.Number, true, func(h *HeldFlow) Value { return h.Ratio })
	words("resonance", func(_ *StayingOpen, h *HeldFlow) string { return h.Separation })
	values("amplitude in a slow fluctuation", quantity.Fraction, true, func(h *HeldFlow) Value { return h.Amplitude })
	values("amplitude over that", quantity.Number, true, func(h *HeldFlow) Value { return h.Response })
}

// tooFast says whether a velocity is above the highest of the type.
func (s *StayingOpen) tooFast(h *HeldFlow) string {
	switch {
	case !exists(s.HighestTo) || !exists(h.Velocity) || h.Velocity.SI <= s.HighestFrom.SI:
		return ""
	case h.Velocity.SI <= s.HighestTo.SI:
		return "above some texts"
	}
	return "above"
}

// disturbed says whether a margin is enough behind the fitting upstream.
func (s *StayingOpen) disturbed(h *HeldFlow) string {
	switch {
	case !exists(s.NeededMargin) || !exists(h.Margin):
		return ""
	case h.Margin.SI >= s.NeededMargin.SI:
		return "enough"
	}
	return "too little"
}

// year is the block of what happens in a year.
func (t *stayingTable) year() {
	amount := func(label string, detail bool, d quantity.Dimension, get func(*StayingOpen) Value) {
		u := t.system.Unit(d)
		t.add(Scale{Unit: u}.Label(label), detail, func(s *StayingOpen) Cell {
			v := get(s)
			if !exists(v) {
				return Cell{Reason: v.Reason}
			}
			return Cell{Text: great(u.From(v.SI))}
		})
	}
	amount("wear index, strokes a year", false, quantity.Number, func(s *StayingOpen) Value { return s.Strokes })
	t.add("way of hinge or guide", true, func(s *StayingOpen) Cell {
		u := t.system.Unit(quantity.Length)
		switch {
		case !exists(s.Travel):
			return Cell{Reason: s.Travel.Reason}
		case s.Hinged:
			return Cell{Text: great(s.Travel.SI/(2*math.Pi)) + " turns"}
		}
		return Cell{Text: great(u.From(s.Travel.SI)) + " " + u.Symbol}
	})
	amount("taps on the stop a year", false, quantity.Number, func(s *StayingOpen) Value { return s.StopTaps })
	amount("energy of the taps", true, quantity.Energy, func(s *StayingOpen) Value { return s.StopTapEnergy })
	amount("closures a year", false, quantity.Number, func(s *StayingOpen) Value { return s.Closures })
	amount("energy on the seat", true, quantity.Energy, func(s *StayingOpen) Value { return s.ClosuresEnergy })
}

// great writes a number of three digits, the powers of a thousand in words.
func great(x float64) string {
	for _, p := range []struct {
		size float64
		word string
	}{{1e9, " thousand million"}, {1e6, " million"}, {1e4, " thousand"}} {
		if math.Abs(x) >= p.size*(1-5e-4) {
			if p.size == 1e4 {
				p.size = 1e3
			}
			return digits(x/p.size) + p.word
		}
	}
	return digits(x)
}

// digits writes a number with three digits before and behind the point, without zeros at its end.
func digits(x float64) string {
	places := 0
	if x != 0 {
		places = max(0, 2-int(math.Floor(math.Log10(math.Abs(x)*(1+5e-4)))))
	}
	text := strconv.FormatFloat(x, 'f', min(places, mostPlaces), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// StayingNotes define the lines of [Comparison.StayingRows] and name their sources.
func (c *Comparison) StayingNotes() []string {
	if len(c.Staying) == 0 {
		return nil
	}
	notes := []string{
		"hold of the disc: by the full-open margin, velocity over full-open velocity, from 1.2 good, from 1 close, below 1 it flutters, below 0.6 severely (common practice).",
		"A disc that is not held on its stop is the leading cause of early wear (US NRC, letter to licensees of 6 September 1988, as quoted in the trade).",
	}
	has := func(such func(*StayingOpen) bool) bool {
		return slices.ContainsFunc(c.Staying, func(s StayingOpen) bool { return such(&s) })
	}
	flows := func(such func(*HeldFlow) bool) bool {
		return has(func(s *StayingOpen) bool {
			return slices.ContainsFunc(s.Flows, func(h HeldFlow) bool { return such(&h) })
		})
	}
	note := func(show bool, text string) {
		if show {
			notes = append(notes, text)
		}
	}
	note(has(func(s *StayingOpen) bool { return exists(s.LeastVelocity) }), "least velocity by the rule C√v, v the specific volume: V = 1.22 C/√ρ in m/s with ρ in kg/m3; C 60 for a swing disc (texts on piping design), 80 and 30 for a tilting disc at 5° and 15°, 40 for a lifting disc (from memory). It knows no size.")
	note(has(func(s *StayingOpen) bool { return s.ByRule }), "Generic swing and tilting discs are made by this rule in a level pipe, so the two agree: the rule does not confirm their full-open velocity.")
	note(has(func(s *StayingOpen) bool { return s.Type == "swing heavy" && exists(s.LeastVelocity) }), "For the body of high loss (swing heavy, 100 f_T) a handbook has C 35 (from memory); the 60 used here asks for more velocity and is on the safe side.")
	var sources []string
	for _, s := range c.Staying {
		if s.HighestSource != "" {
			sources = append(sources, s.HighestSource)
		}
	}
	note(len(sources) > 0, "highest velocity, in water: "+strings.Join(Unique(sources), "; ")+".")
	note(has(func(s *StayingOpen) bool { return s.Upstream != "" }), "margin needed: 1 where the straight run behind the fitting is 5 bores (common practice), 10 behind a pump, a control valve or two bends out of plane (EPRI NP-5479, from memory) and behind an orifice plate (common practice). "+
		"With less it is 1.2 to 1.5 (common practice): 1.2 just short of that run, 1.5 at the valve, and evenly in between, which is this program's choice.")
	note(flows(func(h *HeldFlow) bool { return h.Ripple != "" }), "in the fluctuation: the disc stays on its stop while the margin times (1 − amplitude over mean) is above 1. It closes in every cycle where the least flow of the fluctuation leaves it on its seat and the greatest does not, as it follows a slow fluctuation.")
	note(flows(func(h *HeldFlow) bool { return h.Ripple == cyclic }), "closures a year: trips and starts, and f t of the times t in which a fluctuation of the frequency f closes the disc.")
	note(flows(func(h *HeldFlow) bool { return exists(h.Frequency) }), "natural frequency: f = √(k/M)/2π of the floating disc at constant flow, k the slope of closing less opening force at its place of rest. A fluctuation at 0.8 to 1.25 times f is close to resonance (common practice); from a damping of 71 % nothing grows. "+
		"Over the amplitude in a slow fluctuation the disc swings by 1/√((1 − r²)² + (2 d r)²), r the ratio of the frequency of the fluctuation to f, d the damping: a linear oscillation.")
	note(has(func(s *StayingOpen) bool { return exists(s.Strokes) }), "wear index: full strokes from seat to stop and back, N = Σ 4 a R f t/2 over the flow table, or 8760 h at the normal flow, with the amplitude a of the opening between its places of rest at the least and the greatest flow of the fluctuation, "+
		"what a floating disc swings over that, R, the frequency f and the time t. It compares candidates, it does not predict lives: load, materials and dirt are left out.")
	note(has(func(s *StayingOpen) bool { return exists(s.ClosuresEnergy) }), "energy on the seat: closures by trips and starts a year times that of the hardest first seating in the scenarios of this case, of the disc and the liquid that moves with it, of which not all reaches the seat. "+
		"It is taken for every closure: one with the pump running down is softer, one in an event that is not a scenario here may be harder.")
	note(has(func(s *StayingOpen) bool { return exists(s.StopTapEnergy) && s.StopTaps.SI > 0 }), "energy of the taps: ½ M (2π f y)² each, y the amplitude of the disc: that of the wear index, a R, at most half the travel.")
	return notes
}
