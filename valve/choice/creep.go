package choice

import (
	"fmt"
	"strings"

	"seatwise/moc"
	"seatwise/network/quantity"
)

// CreepWarnings says which creep of plastic walls is too fast for the time step.
func CreepWarnings(n *moc.Numerics, s Settings) (warnings []string) {
	for _, c := range n.FastCreep {
		where := c.Pipe
		if station, _, ok := strings.Cut(where, "/"); ok { // see moc.Part
			where = "branches of " + station
		}
		warnings = append(warnings, fmt.Sprintf("%s: the retardation time of %s is less than two time steps of %s, so that this creep is all but elastic: leave it out and give modulus as 1/(1/E + %s)",
			where, quantity.Format(c.Time, quantity.Time, s.Units), quantity.Format(n.Step, quantity.Time, s.Units), quantity.Format(c.Compliance, quantity.Compliance, s.Units)))
	}
	return Unique(warnings)
}
