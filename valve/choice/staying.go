package choice

import (
	"seatwise/moc"
	"seatwise/valve/sizing"
)

// openMargin is the margin of a unit in steady flow over its full-open velocity.
func openMargin(u moc.SteadyUnit) Value {
	if u.Shut {
		return none(noFlow)
	}
	return marginAt(u.Velocity, u.FullOpenVelocity)
}

// marginAt is the margin of a velocity over the full-open velocity, both m/s.
func marginAt(u, open float64) Value {
	if !(open > 0) {
		return none("no flow is needed to hold the valve open")
	}
	return Value{SI: u / open}
}

// Staying says in a word how well the steady flow holds the disc on its stop; "" where there is no margin.
func (o *Outcome) Staying() string {
	if !exists(o.OpenMargin) {
		return ""
	}
	return sizing.Margin(o.OpenMargin.SI).Words()
}
