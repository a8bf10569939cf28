package sizing

import "math"

// Bounds of the ratio of a fluctuation to the natural frequency of a disc between which the two are too close (common practice).
const (
	closeFrom = 0.8
	closeTo   = 1.25
)

// NoResonance is the damping, a fraction of the critical one, from which an oscillation does not grow whatever the frequency of what drives it: 1/sqrt(2), where
// the peak of the response of a linear oscillation ends (textbook).
const NoResonance = math.Sqrt2 / 2

// Separation says how far a fluctuation of frequency ratio times the natural frequency of a disc is from resonance, with damping as a fraction of the
// critical one.
func Separation(ratio, damping float64) string {
	switch {
	case ratio < closeFrom:
		return "slower than the disc swings: it follows"
	case ratio > closeTo:
		return "faster than the disc swings: it lags behind"
	case damping >= NoResonance:
		return "close to resonance, but the flow damps it"
	}
	return "close to resonance"
}

// Ripple says what a fluctuation of relative amplitude a, amplitude over mean, does to a disc whose full-open margin is m in the mean.
//
//	m (1 - a) > 1   on its stop all the time
//	m (1 + a) > 1   it leaves the stop and meets it again in every cycle
//	otherwise       it floats all the time
func Ripple(m, a float64) Rest {
	switch {
	case m*(1-a) > Held:
		return Resting
	case m*(1+a) > Held && a > 0:
		return Tapping
	}
	return Floating
}

// Rest tells where a disc is through a fluctuation.
type Rest uint8

// Where a disc is through a fluctuation.
const (
	Resting  Rest = iota // on its stop
	Tapping              // off its stop and back in every cycle
	Floating             // off its stop
)

// String is that in words.
func (r Rest) String() string {
	return [...]string{"stays on its stop", "leaves its stop in every cycle", "floats"}[r]
}
