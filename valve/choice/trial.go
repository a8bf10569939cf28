package choice

import (
	"fmt"

	"seatwise/valve"
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

// prepare installs a candidate in a scenario.
func prepare(c *Case, sc *Scenario, spec valve.Spec, s Settings) (*trial, error) {
	in, err := Install(c, sc, spec)
	if err != nil {
		return nil, err
	}
	t := &trial{scenario: sc, settings: s, problem: in.Problem, friction: c.Friction, cavities: c.Cavities, mine: in.Mine, limits: c.Limits.list()}
	t.outcome = Outcome{Candidate: spec.Name, Type: spec.Type, Scenario: sc.Name, Valve: in.Valve()}
	t.outcome.EventTime, t.outcome.slam = t.event(), c.Limits.SlamBounds
	if len(sc.Events) == 0 {
		t.problem.Until = shortest
	}
	t.outcome.PriceRatio = none("no price is known")
	if p := t.outcome.Valve.PriceRatio; p > 0 {
		t.outcome.PriceRatio = Value{SI: p}
	}
	if spec.Failure != valve.Sound {
		t.outcome.PriceRatio = none("a failure has no price")
	}
	if in.Unfit != nil {
		t.outcome.fail(in.Unfit)
	}
	return t, nil
}

// shortest is the run of a scenario in which nothing happens, s: one step, which shows the steady state.
const shortest = 1e-9
