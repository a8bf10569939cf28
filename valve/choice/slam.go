package choice

import (
	"math"

	"seatwise/network/quantity"
)

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

// UsualSlamBounds are 0.5 ft/s and 1 ft/s, rounded (A. Ballun, Journal AWWA 99(3), 2007, from memory).
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

// SlamNote defines the classes of slam, with their bounds and status; "" where the comparison shows none.
func (c *Comparison) SlamNote(system quantity.System) string {
	for i := range c.Scenarios {
		for k := range c.Scenarios[i].Outcomes {
			o := &c.Scenarios[i].Outcomes[k]
			if o.SlamClass() == "" {
				continue
			}
			b, status := o.slam.orUsual(), "bounds as the case gives them"
			if b == UsualSlamBounds {
				status = "A. Ballun, Journal AWWA 99(3), 2007, from memory"
			}
			write := func(v float64) string { return quantity.Format(v, quantity.Velocity, system) }
			return "slam class: by the greatest reverse velocity on the bore of the valve, none up to " + write(b.None) + ", mild up to " + write(b.Mild) + ", severe above (" + status + ")"
		}
	}
	return ""
}

// slamWords is the class of slam as it stands below the reverse velocity of the first closing, with the later one where that makes the class harder:
// "severe (later 0.326 m/s)".
func (o *Outcome) slamWords(sc Scale) string {
	class := o.SlamClass()
	if class == "" || class == o.slam.Class(o.MaxReverseVelocity.SI) {
		return class
	}
	return class + " (later " + sc.With(o.LaterReverseVelocity.SI) + ")"
}
