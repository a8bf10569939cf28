package moc

import (
	"errors"
	"fmt"
)

// Classes of failure.
var (
	ErrProblem     = errors.New("moc: the problem is not complete")           // valves or events do not fit the network
	ErrNoSteady    = errors.New("moc: no steady state")                       // lift too high, disc that cannot open, contradicting heads
	ErrGrid        = errors.New("moc: no grid within the bound")              // pipes too unequal for one time step
	ErrConvergence = errors.New("moc: a cluster of devices did not converge") // at a place and time
	ErrAudit       = errors.New("moc: an audit failed")                       // volume, finiteness or vapour
)

// PlaceError says where and when a run failed.
type PlaceError struct {
	Err   error
	Place string
	Time  float64 // s
	Text  string
}

func (e *PlaceError) Error() string {
	return fmt.Sprintf("%v at %s, %.4g s: %s", e.Err, e.Place, e.Time, e.Text)
}

func (e *PlaceError) Unwrap() error { return e.Err }
