package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// definitions prints what the measures of the tables mean.
func (v *view) definitions() {
	v.heading("Definitions")
	for _, m := range v.measures {
		if v.shown[m.Key] {
			v.hang("  ", m.Label+": "+m.Meaning+".")
		}
	}
	if n := v.SlamNote(v.system); n != "" {
		v.hang("  ", n+".")
	}
	for _, n := range v.StayingNotes() {
		v.hang("  ", n)
	}
	if v.holds(func(d choice.Verdict) bool { return d.Unsure }) {
		v.hang("  ", "unsure: the distance to the limit is less than the numerical error.")
	}
	if v.holds(func(d choice.Verdict) bool { return d.Narrow }) {
		v.hang("  ", "narrowly: the limit would be broken if what the valve's data decide, the reverse velocity or the slam pressure rise, were 40 % greater.")
	}
	text := "Times are from the start of the run"
	var events []string
	for i := range v.Scenarios {
		if o := &v.Scenarios[i].Outcomes[0]; o.EventTime >= 0 {
			events = append(events, written(o.EventTime, quantity.Time, v.system))
		}
	}
	slices.Sort(events)
	if events = slices.Compact(events); len(events) > 0 {
		text += "; first event at " + strings.Join(events, " or ")
	}
	v.hang("  ", text+".")
}

// holds tells whether there is such a verdict.
func (v *view) holds(such func(choice.Verdict) bool) bool {
	return slices.ContainsFunc(v.Scenarios, func(s choice.ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return slices.ContainsFunc(o.Verdicts, such) })
	})
}

// written is a value by itself, rounded as in the tables.
func written(si float64, d quantity.Dimension, system quantity.System) string {
	return choice.NewScale(d, system, si).Bare().With(si)
}

// own is the installation's own deceleration and how it was taken.
func own(deceleration, bore float64, system quantity.System) string {
	return choice.NewScale(quantity.Acceleration, system, deceleration).With(deceleration) + " on a bore of " + quantity.FormatIn(bore, millimetre) + ", with an ideal valve held open"
}

// notable is the numerical error, relative to the greatest value of its row, below which it is only summed up.
const notable = 1e-3

// errors prints the numerical errors that matter beside the figures of the table.
func (v *view) errors(s *choice.ScenarioOutcomes, rows []choice.Measure) {
	var parts []string
	estimated, gas := false, false
	for k := range s.Outcomes {
		gas = gas || s.Outcomes[k].GasErrors != nil
	}
	for _, m := range rows {
		worst, greatest := 0.0, 0.0
		for k := range s.Outcomes {
			o := &s.Outcomes[k]
			e, ok := o.Errors[m.Key]
			estimated = estimated || ok
			worst, greatest = max(worst, e), max(greatest, math.Abs(m.Get(o).SI))
		}
		if worst > notable*greatest {
			d := m.Dimension
			if d == quantity.Pressure {
				d = quantity.PressureDifference
			}
			parts = append(parts, m.Label+" "+choice.NewScale(d, v.system, worst).Coarser().With(worst))
		}
	}
	if !estimated {
		return
	}
	rest := "all else"
	if len(parts) == 0 {
		rest = "all figures"
	}
	parts = append(parts, fmt.Sprintf("%s less than %g %%", rest, 100*notable))
	how := "halving the time step"
	if gas {
		how += " and, where cavities formed, by ten times the free gas"
	}
	v.paragraph("Numerical error, estimated by " + how + ": " + inLine(parts) + ".")
}
