package choice

import (
	"slices"
	"strings"

	"seatwise/moc"
)

// undamped says, of the candidates that break a limit late, what would damp the waves in the plant and is left out here.
func (r *reasons) undamped(all []*standing) {
	for _, free := range []bool{true, false} {
		var names, without []string
		for _, x := range all {
			late := slices.ContainsFunc(x.worst(failing), func(v Verdict) bool { return v.Late > 0 })
			if late && free == slices.ContainsFunc(x.outcomes, func(o *Outcome) bool { return frictionless(o.Valve) }) {
				names = append(names, x.name)
			}
		}
		if r.Case.Friction == moc.QuasiSteady {
			without = append(without, "unsteady friction in the pipes is not modelled")
		}
		if free {
			without = append(without, "no dry friction at hinge or guide is given")
		}
		if len(names) > 0 && len(without) > 0 {
			r.add("Late waves of %s are damped less here than in the plant: %s.", strings.Join(names, ", "), strings.Join(without, ", and "))
		}
	}
}
