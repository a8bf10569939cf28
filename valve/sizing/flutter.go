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

// CloseToResonance is the word for a fluctuation that shakes a disc at its own frequency.
const CloseToResonance = "close"

// Separation says how far a fluctuation of frequency ratio times the natural frequency of a disc is from resonance, with damping as a fraction of the
// critical one.
func Separation(ratio, damping float64) string {
	switch {
	case ratio < closeFrom:
		return "none, the disc follows"
	case ratio > closeTo:
		return "none, the disc lags behind"
	case damping >= NoResonance:
		return "close, but the flow damps it"
	}
	return CloseToResonance
}

// Response is the amplitude of a floating disc in a fluctuating flow over the one with which it follows a slow fluctuation, of a linear oscillation with the
// damping d, a fraction of the critical one, at the ratio r of the frequency of the fluctuation to the natural one (textbook):
//
//	R = 1/sqrt((1 - r^2)^2 + (2 d r)^2)
//
// It is no more than at resonance with 1 % of the critical damping, less than which no disc in a liquid has (common practice).
func Response(r, d float64) float64 { return 1 / math.Max(math.Hypot(1-r*r, 2*d*r), 2*leastDamping) }

// leastDamping is the least damping of a disc, a fraction of the critical one.
const leastDamping = 0.01

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
