package main

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/choice"
)

// problem puts a candidate into every place of a scenario's installation that waits for one.
func problem(c *choice.Case, s *choice.Scenario, candidate valve.Spec) (moc.Problem, error) {
	p := moc.Problem{Network: s.Network, Events: s.Events, Until: c.Until}
	place := func(name string, slope float64) error {
		spec := candidate
		if name != "" {
			spec = c.Valves[name]
		}
		v, err := catalogue.Complete(spec, setting(s.Network, slope))
		if err != nil {
			return fmt.Errorf("valve %s: %w", spec.Name, err)
		}
		p.Valves = append(p.Valves, v)
		return nil
	}
	for _, at := range s.Network.Stations {
		if err := place(at.CheckValve, at.Slope); err != nil {
			return p, err
		}
	}
	for _, at := range s.Network.CheckValves {
		if err := place(at.CheckValve, at.Slope); err != nil {
			return p, err
		}
	}
	return p, nil
}

// own is the first valve of a problem that is the candidate.
func own(p moc.Problem, candidate string) valve.Valve {
	for _, v := range p.Valves {
		if v.Name == candidate {
			return v
		}
	}
	return p.Valves[0]
}

func setting(n *network.Network, slope float64) catalogue.Setting {
	return catalogue.Setting{Density: n.Fluid.Density, Gravity: n.G(), Slope: slope}
}
