package moc

import (
	"errors"
	"fmt"

	"seatwise/network/quantity"
)

// Classes of failure.
var (
	ErrProblem     = errors.New("moc: the problem is not complete")           // valves or events do not fit the network
	ErrNoSteady    = errors.New("moc: no steady state")                       // lift too high, disc that cannot open, contradicting heads
	ErrGrid        = errors.New("moc: no grid within the bound")              // pipes too unequal for one time step
	ErrConvergence = errors.New("moc: a cluster of devices did not converge") // at a place and time
	ErrAudit       = errors.New("moc: an audit failed")                       // volume, finiteness or vapour
)

// ReasonError says why there is no answer, in words whose quantities read in either system of units: see [quantity.Reword].
type ReasonError struct {
	Err    error // the class
	Reason quantity.Sentence
	Path   string // what it is about, in the words of a case file as in network.Finding; "" when it is no single thing
	Hint   string // what to do; may be empty
}

// noSteady is a reason for which there is no steady state.
func noSteady(path, hint, format string, args ...any) error {
	return &ReasonError{ErrNoSteady, quantity.Say(format, args...), path, hint}
}

// In is the error in the units of a system.
func (e *ReasonError) In(s quantity.System) string {
	return fmt.Sprintf("%v: %s", e.Err, e.Reason.In(s))
}

func (e *ReasonError) Error() string { return e.In(quantity.SI) }

func (e *ReasonError) Unwrap() error { return e.Err }

// PlaceError says where and when a run failed, as a [ReasonError] does.
type PlaceError struct {
	Err    error
	Place  string
	Time   float64 // s
	Reason quantity.Sentence
}

// In is the error in the units of a system.
func (e *PlaceError) In(s quantity.System) string {
	return fmt.Sprintf("%v at %s, %.4g s: %s", e.Err, e.Place, e.Time, e.Reason.In(s))
}

func (e *PlaceError) Error() string { return e.In(quantity.SI) }

func (e *PlaceError) Unwrap() error { return e.Err }
