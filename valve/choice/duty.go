package choice

import (
	"seatwise/valve/cost"
	"seatwise/valve/sizing"
)

// Duty is what one unit does in a year.
type Duty struct {
	Runs   []cost.Run // flows and how long they hold
	Trips  float64    // a year
	Starts float64    // a year, each of which ends in a normal closure

	MinimumFlow, NormalFlow, MaximumFlow *float64 // m3/s; nil: not given
	Fluctuation                          *float64 // amplitude of the flow over its mean; nil: not given
	Frequency                            *float64 // of the fluctuation, Hz; nil: not given
}

// asked tells whether the case asks how the discs stay open.
func (d *Duty) asked() bool {
	return d != nil && (d.MinimumFlow != nil || d.NormalFlow != nil || d.MaximumFlow != nil || d.Fluctuation != nil || d.Frequency != nil || d.Starts > 0)
}

// Fittings are the names of those that may stand upstream of a check valve.
func Fittings() []string {
	var names []string
	for _, f := range sizing.Fittings() {
		names = append(names, f.Name)
	}
	return names
}
