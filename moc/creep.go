package moc

import (
	"seatwise/moc/kernel"
	"seatwise/network"
)

// wall is the creep of a plastic pipe in a liquid of density rho, kg/m3, as the kernel has it: its elements and rho a^2 c1 D/e, Pa.
//
// The wall has got used to the steady pressures. The time step follows the waves, not the retardation times. The trapezoidal rule carries an element at
// the angular frequency w as if it were the one at w' = (2/dt) tan(w dt/2), which at w = 1/tau, where the element damps most, is 2 % off at dt = tau/2 and
// 9 % at dt = tau. An element much faster than the step is elastic for every wave that the grid can carry, yet its strain answers a jump of the
// head with an error that swings from step to step: such a one belongs into the modulus, and the result names it (FastCreep).
func (c *conduit) wall(rho float64) (v kernel.KelvinVoigt, modulus float64) {
	for _, e := range c.creep.Elements {
		v.J, v.Tau = append(v.J, e.Compliance), append(v.Tau, e.Time)
	}
	return v, rho * c.a * c.a * c.creep.Stretch
}

// FastCreep is an element of a pipe's creep that the time step does not resolve.
type FastCreep struct {
	Pipe string
	network.CreepElement
}

// fastCreep finds the retardation times below two time steps.
func (m *model) fastCreep(g *grid) (found []FastCreep) {
	for i := range m.pipes {
		c := &m.pipes[i]
		for _, e := range c.creep.Elements {
			if e.Time < 2*g.dt {
				found = append(found, FastCreep{c.name, e})
			}
		}
	}
	return found
}
