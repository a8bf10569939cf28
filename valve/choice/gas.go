package choice

import (
	"fmt"
	"math"
	"strings"
)

// moreGas is the free gas of the run that shows what the assumption about it is worth: ten times the default.
const moreGas = 1e-6

// scatter adds to the errors of an outcome with cavities what a run with more free gas at the same time step shows, and says so.
func (o *Outcome) scatter(gas *grid, s Settings) {
	o.GasErrors = nil
	if gas == nil || o.Failed != "" {
		return
	}
	if gas.outcome.Failed != "" {
		o.Warnings = append(o.Warnings, "how far the results depend on the free gas assumed in cavities is unknown, as the run with ten times as much failed: "+gas.outcome.Failed)
		return
	}
	o.GasErrors = map[string]float64{}
	var moved []string
	for _, m := range Measures(LiquidPump) {
		a, b := m.Get(o), m.Get(&gas.outcome)
		e, estimated := o.Errors[m.Key]
		if !estimated || !exists(a) || !exists(b) {
			continue
		}
		d := math.Abs(a.SI - b.SI)
		o.Errors[m.Key], o.GasErrors[m.Key] = e+d, d
		if m.Better != Neither && m.Rank != Detail || m.Key == keyLater {
			if sc := NewScale(m.Dimension, s.Units, a.SI); sc.Text(a.SI) != sc.Text(b.SI) && d > 0.01*math.Abs(a.SI) {
				moved = append(moved, fmt.Sprintf("the %s is %s instead of %s", m.Label, sc.With(b.SI), sc.With(a.SI)))
			}
		}
	}
	o.errors("")
	text := "the results depend on the free gas that is assumed in the cavities: with ten times as much "
	if len(moved) == 0 {
		text += "nothing changes by more than 1 %"
	} else {
		text += strings.Join(moved, ", ") + "; the difference is part of the error"
	}
	o.Warnings = append(o.Warnings, text)
}

// cavities tells whether some formed in a pipe.
func (o *Outcome) cavities() bool { return o.Failed == "" && o.EventTime >= 0 && exists(o.CavityMax) }
