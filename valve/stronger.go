package valve

import "fmt"

// Stronger is the valve with springs stronger by a factor: preload and rate. The load of the liquid on the disc stays, so that it takes a greater velocity to
// hold the disc on its stop. The error wraps [ErrNoPart] where there is no spring; a factor that is not above zero wraps [ErrLaw].
func (v Valve) Stronger(factor float64) (Valve, error) {
	if !(factor > 0) {
		return v, fmt.Errorf("%w: a spring stronger by %g", ErrLaw, factor)
	}
	m, err := stronger(v.Motion, factor)
	if err != nil {
		return v, err
	}
	v.Motion = m
	if m, ok := m.(interface{ FullOpenVelocity() float64 }); ok {
		v.FullOpenVelocity = m.FullOpenVelocity()
	}
	return v, nil
}

func stronger(m Motion, factor float64) (Motion, error) {
	switch m := m.(type) {
	case *Law:
		return m.stronger(factor)
	case *Carried:
		l, err := m.stronger(factor)
		return &Carried{Law: l, Liquid: m.Liquid}, err
	case *Pair:
		out := *m
		for i, l := range m.Halves {
			half, err := l.stronger(factor)
			if err != nil {
				return nil, err
			}
			out.Halves[i] = half
		}
		return &out, out.Check()
	}
	return nil, ErrNoPart
}

func (l *Law) stronger(factor float64) (*Law, error) {
	if l.Preload == 0 && l.SpringRate == 0 {
		return nil, ErrNoPart
	}
	out := *l
	out.Preload, out.SpringRate = factor*l.Preload, factor*l.SpringRate
	return &out, nil
}
