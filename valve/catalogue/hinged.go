package catalogue

import (
	"fmt"

	"seatwise/valve"
)

// confinement is the added mass in a valve body over that in the open.
const confinement = 1.25

const confined = "potential flow in the open, " + memory + ", times 1.25 for the body, " + practice

// hingedKeys are those of every disc on a pin.
func hingedKeys() []Key {
	return append(discKeys("N·m", "rad", "hinge friction"), classKey,
		Key{"seat angle", "rad", "inclination of the seat from the perpendicular, pressing the shut disc", 0, 1.2},
	)
}

// opensAt is the full-open velocity that the user gave, or 0.
func (d *draft) opensAt(b valve.Body) (float64, error) {
	if !d.given("full-open velocity") {
		return 0, nil
	}
	if len(b.LoadTable.Value) > 0 {
		return 0, fmt.Errorf("%w: full-open velocity and load table say the same; give one of them", ErrValue)
	}
	return d.take("full-open velocity", 0, valve.Given, ""), nil
}

// opened records the full-open velocity that follows from the catalogue's load.
func (d *draft) opened(l *valve.Law, status string) {
	if d.given("full-open velocity") {
		return
	}
	spread := 0.3
	if len(d.spec.Tables["load table"].Value) > 0 {
		spread, status = 0, fromGiven
	}
	d.about(spread, "full-open velocity", l.FullOpenVelocity(), valve.Estimated, status)
}
