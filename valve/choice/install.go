package choice

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"seatwise/moc"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// Installed is a candidate in one scenario's installation, ready to be run.
type Installed struct {
	moc.Problem
	Mine  []bool // the candidate stands at this place of Valves
	Unfit error  // not nil: the candidate cannot work in one of its places; nothing can be run then
}

// Valve is the candidate where it stands first.
func (in *Installed) Valve() valve.Valve { return in.Valves[slices.Index(in.Mine, true)] }

// Install puts a candidate into every place of a scenario's installation that names no valve, and the named valves into theirs. The error wraps
// [ErrCase] or is that of a valve that cannot be made of its data.
func Install(c *Case, sc *Scenario, candidate valve.Spec) (*Installed, error) {
	in := &Installed{Problem: moc.Problem{Network: sc.Network, Events: sc.Events, Until: c.Until}}
	place := func(where, named string, slope float64) error {
		spec, mine := candidate, named == ""
		if !mine {
			var ok bool
			if spec, ok = c.Valves[named]; !ok {
				return fmt.Errorf("%w: %s has the check valve %q, which is not among the valves: %v", ErrCase, where, named, slices.Sorted(maps.Keys(c.Valves)))
			}
		}
		v, err := catalogue.Complete(spec, catalogue.Setting{Density: sc.Network.Fluid.Density, Gravity: sc.Network.G(), Slope: slope})
		switch {
		case err == nil:
		case !mine || !errors.Is(err, valve.ErrLaw):
			return fmt.Errorf("check valve %s at %s: %w", spec.Name, where, err)
		case in.Unfit == nil:
			in.Unfit = err
		}
		in.Valves, in.Mine = append(in.Valves, v), append(in.Mine, mine)
		return nil
	}
	for _, st := range sc.Network.Stations {
		if err := place("station "+st.Name, st.CheckValve, st.Slope); err != nil {
			return nil, err
		}
	}
	for _, cv := range sc.Network.CheckValves {
		if err := place("check valve "+cv.Name, cv.CheckValve, cv.Slope); err != nil {
			return nil, err
		}
	}
	if !slices.Contains(in.Mine, true) {
		return nil, fmt.Errorf("%w: no station takes the candidate; every one names a valve of its own", ErrCase)
	}
	return in, nil
}
