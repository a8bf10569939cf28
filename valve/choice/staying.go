package choice

import (
	"seatwise/moc"
	"seatwise/valve/sizing"
)

// openMargin is the margin of a unit in steady flow over its full-open velocity.
func openMargin(u moc.SteadyUnit) Value {
	switch {
	case u.Shut:
		return none(noFlow)
	case !(u.FullOpenVelocity > 0):
		return none("no flow is needed to hold the valve open")
	}
	return Value{SI: u.Velocity / u.FullOpenVelocity}
}

// Staying says in a word how well the steady flow holds the disc on its stop; "" where there is no margin.
func (o *Outcome) Staying() string {
	if !exists(o.OpenMargin) {
		return ""
	}
	return sizing.Margin(o.OpenMargin.SI).Words()
}
