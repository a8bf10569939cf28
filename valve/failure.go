package valve

import (
	"errors"
	"fmt"
)

// Failure is the part of a valve that has failed.
type Failure uint8

const (
	Sound        Failure = iota
	BrokenSpring         // no preload and no rate; of two plates, in one
	StuckDisc            // it stays on its stop
	WornBearing          // dry friction of hinge or guide more by WornShare of the force that closes the open disc
)

// Failures are all that a valve can have.
var Failures = []Failure{BrokenSpring, StuckDisc, WornBearing}

func (f Failure) String() string {
	return [...]string{"sound", "broken spring", "stuck disc", "worn bearing"}[f]
}

// WornShare is the dry friction that wear adds over the force or moment that closes the disc on its stop: three times and more that of a bush or a
// packed shaft in good order, 0.05 to 0.1 of it (common practice).
const WornShare = 0.3

// ErrNoPart is that a valve has no such part as could fail.
var ErrNoPart = errors.New("valve: no part that could fail so")

// Failed is the valve with a part failed. Without its spring a disc that weight does not close either is left to the reverse flow. The error wraps
// ErrNoPart, or ErrLaw where the weight then holds the disc open.
func (v Valve) Failed(f Failure) (Valve, error) {
	if f == Sound {
		return v, nil
	}
	m, idle, err := failed(v.Motion, f)
	if err != nil {
		return v, err
	}
	v.Motion = m
	if m, ok := m.(interface{ FullOpenVelocity() float64 }); ok {
		v.FullOpenVelocity = m.FullOpenVelocity()
	}
	if idle {
		v.Warnings = append(v.Warnings[:len(v.Warnings):len(v.Warnings)], fmt.Sprintf("%s: nothing but reverse flow closes the disc", f))
	}
	return v, nil
}

// failed is a motion with a part failed, and whether nothing but reverse flow closes its disc then.
func failed(m Motion, f Failure) (Motion, bool, error) {
	if f == StuckDisc {
		switch m := m.(type) {
		case interface {
			Stuck(opening float64) (*Stuck, error)
		}:
			s, err := m.Stuck(1)
			return s, false, err
		case *Measured:
			return &Stuck{At: 1, Loss: m.Loss, Density: m.Density}, false, nil
		}
		return nil, false, ErrNoPart
	}
	switch m := m.(type) {
	case *Law:
		l, idle, err := m.failed(f)
		return l, idle, err
	case *Carried:
		l, idle, err := m.failed(f)
		return &Carried{Law: l, Liquid: m.Liquid}, idle, err
	case *Pair:
		return m.failed(f)
	}
	return nil, false, ErrNoPart
}

// failed is a pair with the spring of its second disc broken, or both bearings worn. A plate that nothing closes is told by the pair itself.
func (p *Pair) failed(f Failure) (Motion, bool, error) {
	out, idle := *p, false
	for i, l := range p.Halves {
		if f == BrokenSpring && i == 0 {
			continue
		}
		half, at, err := l.failed(f)
		if err != nil {
			return nil, false, fmt.Errorf("%s disc: %w", ordinal(i), err)
		}
		out.Halves[i], idle = half, idle || at
	}
	return &out, idle && f != BrokenSpring, out.Check()
}

// failed is a law with a part failed, and whether nothing closes the disc at some opening.
func (l *Law) failed(f Failure) (*Law, bool, error) {
	out := *l
	switch f {
	case BrokenSpring:
		if l.Preload == 0 && l.SpringRate == 0 {
			return nil, false, ErrNoPart
		}
		out.Preload, out.SpringRate = 0, 0
	case WornBearing:
		r, _ := l.resist(l.Travel)
		out.Friction += WornShare * max(0, r)
	}
	opening, r := out.weakest()
	if r < 0 {
		return nil, false, fmt.Errorf("%w: with its spring broken the disc does not close: at %.0f %% opening its weight holds it open", ErrLaw, 100*opening)
	}
	return &out, r == 0, nil
}
