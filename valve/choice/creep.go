package choice

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network/quantity"
)

// CreepWarnings says which creep of plastic walls is too fast for the time step.
func CreepWarnings(n *moc.Numerics, s Settings) (warnings []string) {
	for _, c := range n.FastCreep {
		warnings = append(warnings, fmt.Sprintf("%s: the retardation time of %s is less than two time steps of %s, so that this creep is all but elastic: leave it out and give modulus as 1/(1/E + %s)",
			c.Pipe, quantity.Format(c.Time, quantity.Time, s.Units), quantity.Format(n.Step, quantity.Time, s.Units), quantity.Format(c.Compliance, quantity.Compliance, s.Units)))
	}
	return warnings
}
