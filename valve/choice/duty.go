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
	return d != nil && (d.MinimumFlow != nil || d.NormalFlow != nil || d.MaximumFlow != nil || d.Fluctuation != nil || d.Frequency != nil || d.Starts > 0 || d.leastOfRuns() > 0)
}

// Least is the least flow, m3/s, at which the disc is to stay open, and what it is called: the minimum flow that is given, else the least above zero that the flow
// table holds for any time. False: neither is given.
func (d *Duty) Least() (name string, flow float64, ok bool) {
	if d.MinimumFlow != nil {
		return minimumFlow, *d.MinimumFlow, true
	}
	if q := d.leastOfRuns(); q > 0 {
		return leastOfRuns, q, true
	}
	return "", 0, false
}

// leastOfRuns is the least flow above zero of the flow table, m3/s; 0: none.
func (d *Duty) leastOfRuns() float64 {
	var least float64
	for _, r := range d.Runs {
		if r.Flow > 0 && r.Time > 0 && (least == 0 || r.Flow < least) {
			least = r.Flow
		}
	}
	return least
}

// Fittings are the names of those that may stand upstream of a check valve.
func Fittings() []string {
	var names []string
	for _, f := range sizing.Fittings() {
		names = append(names, f.Name)
	}
	return names
}
