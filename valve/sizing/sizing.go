// Package sizing holds the rules by which a check valve stays open in steady flow: velocities, what stands upstream of it, flutter, and what it wears.
package sizing

// Margin of a steady velocity v, m/s, over the full-open velocity, m/s, that holds the disc just on its stop:
//
//	m = v/v_open
//
// Above 1 the disc rests on its stop and below it floats and moves with every disturbance of the flow; discs that do are the leading cause of early wear of
// check valves (US NRC, letter to licensees of 6 September 1988, as quoted in the trade; the bounds are common practice).
type Margin float64

// Bounds of the classes of a margin (common practice).
const (
	Good   = 1.2 // and above: steady against the usual disturbances
	Held   = 1.0 // up to Good: close; a fitting near by or a fluctuation may lift the disc off its stop
	Severe = 0.6 // below it the disc swings about in the stream; up to Held it flutters
)

// Words say what a margin means.
func (m Margin) Words() string {
	switch {
	case m >= Good:
		return "good"
	case m >= Held:
		return "close"
	case m >= Severe:
		return "flutters"
	}
	return "flutters severely"
}
