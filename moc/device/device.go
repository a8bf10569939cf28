// Package device gives the equation of each device that joins two nodes of a network without a pipe between them.
//
// A device carries one unknown, its flow q, m3/s, from its first node (head ha, m) to its second (hb, m), and adds one equation
//
//	r(q, ha, hb) = 0
//
// to its cluster, with the partial derivatives of r. Whatever else a device holds (disc position, rotor speed) is eliminated
// inside: it is a function of q, ha and hb at the end of the step and of the state at its start. Try may be called any number of times;
// Accept makes the end of the step the new state. Nothing here allocates.
package device

import "seatwise/network/quantity"

// Equation is a residual and its derivatives, in any one unit.
type Equation struct {
	R, RQ, RA, RB float64
}

// Device is one device in a running network.
type Device interface {
	// Steady is the equation in steady flow.
	Steady(q, ha, hb float64) Equation
	// Start takes the steady flow as the initial state.
	Start(q, ha, hb float64)
	// Try is the equation at the end of a step of h seconds that begins at time t.
	Try(t, h, q, ha, hb float64) Equation
	// Event tells by how much the last Try passed an event inside its step: negative when it did, see valve.Step.
	Event() float64
	// Accept takes the end of the step as the new state.
	Accept(t, h, q, ha, hb float64)
	// Rest is called where Event is zero, before Touch: the device behaves as if the disc had come to rest.
	Rest()
	// Touch is called after Rest with the flow and heads that go with a disc at rest; the device chooses between rest and rebound.
	Touch(q, ha, hb float64)
	// SubSteps is the number of parts into which a coming step of h seconds is to be cut.
	SubSteps(h float64) int
	// Save keeps a copy of the state, Restore returns to it.
	Save()
	Restore()
}

// Settler is a device that can find the steady heads impossible: a relief valve that would be open, a tank below its floor.
// The error reads in either system of units, see [quantity.Reword].
type Settler interface {
	Settled(ha, hb float64) error // an *Objection
}

// Turner is a device whose steady equation has branches that Newton's method must not cross: Turn takes the one that belongs to the converged flow
// and heads, and tells whether it is another.
type Turner interface {
	Turn(q, ha, hb float64) bool
}

// Noter is a device with something to tell after a run: a vessel that emptied, a tank that spilled. The texts leave out its name.
type Noter interface {
	Notes() []quantity.Sentence
}

// Store is a device that keeps liquid. Its books are audited: what it holds changes by what flows into it.
type Store interface {
	// Stored is the liquid kept, m3, with what has left for good by another way than the node; from any datum.
	Stored() float64
	// Resume takes the flow that an event at another device leaves, m3/s, as that at the start of the next step.
	Resume(q float64)
}

// Objection is what a device has against the steady heads.
type Objection struct {
	quantity.Sentence
	Key  string // of the device's data that does not fit
	Hint string
}

func (o *Objection) Error() string { return o.String() }

func object(key, hint, format string, args ...any) error {
	return &Objection{quantity.Say(format, args...), key, hint}
}

// quiet is a device without events.
type quiet struct{}

func (quiet) Event() float64         { return 1 }
func (quiet) Rest()                  {}
func (quiet) Touch(_, _, _ float64)  {}
func (quiet) SubSteps(_ float64) int { return 1 }
