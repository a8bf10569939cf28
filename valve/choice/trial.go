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

// trials are all candidates in all scenarios, scenario by scenario. Data that no valve can be made of are an error; a valve that cannot work where
// it stands is a trial that has failed.
func trials(c *Case, s Settings) ([]*trial, error) {
	switch {
	case len(c.Candidates) == 0:
		return nil, fmt.Errorf("%w: there are no candidates", ErrCase)
	case len(c.Scenarios) == 0:
		return nil, fmt.Errorf("%w: there is no scenario", ErrCase)
	}
	var out []*trial
	for i := range c.Scenarios {
		for _, spec := range c.Candidates {
			t, err := prepare(c, &c.Scenarios[i], spec, s)
			if err != nil {
				return nil, err
			}
			out = append(out, t)
		}
	}
	return out, nil
}

// prepare puts a candidate in its places, and the named valves in theirs.
func prepare(c *Case, sc *Scenario, spec valve.Spec, s Settings) (*trial, error) {
	t := &trial{scenario: sc, settings: s, problem: moc.Problem{Network: sc.Network, Events: sc.Events, Until: c.Until}}
	t.outcome = Outcome{Candidate: spec.Name, Type: spec.Type, Scenario: sc.Name}
	t.outcome.EventTime = t.event()
	if len(sc.Events) == 0 {
		t.problem.Until = shortest
	}
	t.outcome.PriceRatio = none("no price is known")
	placed := false
	place := func(where, named string, slope float64) error {
		at, mine := spec, named == ""
		if !mine {
			var ok bool
			if at, ok = c.Valves[named]; !ok {
				return fmt.Errorf("%w: %s has the check valve %q, which is not among the valves: %v", ErrCase, where, named, slices.Sorted(maps.Keys(c.Valves)))
			}
		}
		v, err := catalogue.Complete(at, catalogue.Setting{Density: sc.Network.Fluid.Density, Gravity: sc.Network.G(), Slope: slope})
		if err != nil && !(mine && errors.Is(err, valve.ErrLaw)) {
			return fmt.Errorf("check valve %s at %s: %w", at.Name, where, err)
		}
		if err != nil && t.outcome.Failed == "" {
			t.outcome.fail(err)
		}
		if mine && !placed {
			placed, t.outcome.Valve = true, v
			if v.PriceRatio > 0 {
				t.outcome.PriceRatio = Value{SI: v.PriceRatio}
			}
		}
		t.problem.Valves, t.mine = append(t.problem.Valves, v), append(t.mine, mine)
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
	if !placed {
		return nil, fmt.Errorf("%w: no station takes the candidate; every one names a valve of its own", ErrCase)
	}
	return t, nil
}

// shortest is the run of a scenario in which nothing happens, s: one step, which shows the steady state.
const shortest = 1e-9
