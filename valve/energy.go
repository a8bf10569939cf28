package valve

// ImpactEnergy is the kinetic energy, J, with which the disc meets seat or stop at a rate w, rad/s or m/s:
//
//	E = 1/2 M w^2
//
// with the liquid that moves with the disc in M, as in the law of motion; not all of that liquid's share reaches the seat, so that E is an upper bound.
// False for a valve without one disc: two plates need not meet their seats together.
func (v Valve) ImpactEnergy(w float64) (float64, bool) {
	switch m := v.Motion.(type) {
	case *Law:
		return m.Inertia / 2 * w * w, true
	case *Carried:
		return m.Inertia / 2 * w * w, true
	}
	return 0, false
}
