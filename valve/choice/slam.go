package choice

import "math"

// Classes of slam by the greatest reverse velocity of the valve, first or later: v up to the first bound is none, up to the second mild, above it severe.
const (
	SlamNone   = "none"
	SlamMild   = "mild"
	SlamSevere = "severe"
)

// SlamClasses are the words of the classes, the softest first.
func SlamClasses() []string { return []string{SlamNone, SlamMild, SlamSevere} }

// SlamBounds are the greatest reverse velocities of the classes, m/s. The zero value is [UsualSlamBounds].
type SlamBounds struct{ None, Mild float64 }

// UsualSlamBounds are 0.5 ft/s and 1 ft/s, rounded (common practice).
var UsualSlamBounds = SlamBounds{None: 0.15, Mild: 0.30}

func (b SlamBounds) orUsual() SlamBounds {
	if b == (SlamBounds{}) {
		return UsualSlamBounds
	}
	return b
}

// Class is that of a reverse velocity, m/s.
func (b SlamBounds) Class(v float64) string {
	switch b = b.orUsual(); {
	case v <= b.None:
		return SlamNone
	case v <= b.Mild:
		return SlamMild
	}
	return SlamSevere
}

// slamBound is the greatest reverse velocity of the class allowed; nil without such a limit.
func (l *Limits) slamBound() *float64 {
	b := l.SlamBounds.orUsual()
	switch l.SlamClass {
	case SlamNone:
		return &b.None
	case SlamMild:
		return &b.Mild
	}
	return nil
}

// SlamClass is the class of the hardest closing; "" where no reverse velocity is known.
func (o *Outcome) SlamClass() string {
	if !exists(o.MaxReverseVelocity) || o.Failed != "" {
		return ""
	}
	v := o.MaxReverseVelocity.SI
	if exists(o.LaterReverseVelocity) {
		v = math.Max(v, o.LaterReverseVelocity.SI)
	}
	return o.slam.Class(v)
}
