package catalogue

import (
	"fmt"

	"seatwise/valve"
)

// needs are the data without which a family makes no valve.
var needs = map[string][]string{"measured": {TestPoints, "full-open velocity", "loss when open"}}

// Needs are the data that must be given because the catalogue has none for the family; nil when it has all.
func (f Family) Needs() []string { return needs[f.Name] }

// Definitions of the deceleration of a test.
const (
	decelerationIs = "deceleration"
	atReversal     = 0
	overClosing    = 1
)

// usualWindow is the time before zero velocity over which a deceleration is taken, s.
const usualWindow = 0.050

var measured = family{
	Family: Family{
		Name: "measured",
		Help: "known by test points alone: shuts at the reverse velocity of the points for the deceleration of the flow; needs test points, its loss and a full-open velocity",
		Keys: []Key{
			{"bore", "m", "bore", 0.01, 2},
			{"loss when open", "1", "loss coefficient when open", 1e-3, 1e4},
			{"full-open velocity", "m/s", "steady velocity at which the disc reaches its stop as the flow rises", 0.01, 100},
			{"test bore", "m", "bore of the valve that was tested", 0.01, 2},
			{"test full-open velocity", "m/s", "full-open velocity of the valve that was tested", 0.01, 100},
			{"deceleration window", "s", "time before zero velocity over which the deceleration is taken", 1e-3, 10},
			{decelerationIs, "1", "what the deceleration of the tests is: at reversal, of the velocity as it is zero, or closing, the mean slope from the full-open velocity to the seat", 0, 1},
			{"deceleration from", "m/s", "velocity from which the deceleration is the mean slope down to zero; 0: the slope at zero velocity", 0, 100},
			{"price", "1", "price over that of a swing valve of the same size; 0 when unknown", 0, 1000},
			capacityKey,
		},
		Tables: []string{TestPoints},
	},
	build: func(d *draft) (valve.Valve, error) {
		_, lossy := d.spec.Set["loss when open"]
		_, own := d.spec.Set["full-open velocity"]
		_, tested := d.spec.Set["test full-open velocity"]
		switch {
		case len(d.spec.Tests) == 0:
			return valve.Valve{}, fmt.Errorf("%w: %s are missing; write rows of deceleration and reverse velocity, e.g. [5 m/s2, 0.3 m/s]", ErrValue, TestPoints)
		case !lossy:
			return valve.Valve{}, fmt.Errorf("%w: its loss is missing; give loss when open, or kv", ErrValue)
		case !own && !tested:
			return valve.Valve{}, fmt.Errorf("%w: full-open velocity is missing; that of the valve that was tested if it has the same bore", ErrValue)
		}
		m := &valve.Measured{Density: d.setting.Density}
		bore := d.take("bore", d.spec.Size, valve.Default, "nominal size")
		m.Loss = d.take("loss when open", 0, valve.Given, "")
		full := d.take("full-open velocity", d.spec.Set["test full-open velocity"], valve.Default, "as that of the test")
		testBore := d.take("test bore", bore, valve.Default, "the valve itself was tested")
		testFull := d.take("test full-open velocity", full, valve.Default, "the valve itself was tested")
		m.Watch.Window = d.take("deceleration window", usualWindow, valve.Default, practice)
		m.Watch.From = d.take("deceleration from", 0, valve.Default, "slope at zero velocity")
		m.Watch.Through = d.take(decelerationIs, atReversal, valve.Default, "by window or mean slope at zero velocity") == overClosing
		switch {
		case d.given("deceleration window") && m.Watch.From > 0:
			return valve.Valve{}, fmt.Errorf("%w: deceleration window and deceleration from are two definitions; give one of them", ErrValue)
		case m.Watch.Through && (d.given("deceleration window") || m.Watch.From > 0):
			return valve.Valve{}, fmt.Errorf("%w: a deceleration over the closing has no window and no velocity of its own; leave these out", ErrValue)
		}
		m.FullOpen = full
		if m.Watch.Begin = full; m.Watch.From > 0 {
			m.Watch.Begin = m.Watch.From
		}
		var err error
		if m.Curve, err = valve.NewReverseCurve(d.spec.Tests, valve.Similar{Size: bore / testBore, Velocity: full / testFull}); err != nil {
			return valve.Valve{}, fmt.Errorf("%w: %w", ErrValue, err)
		}
		if err := m.Check(); err != nil {
			return valve.Valve{}, err
		}
		least, most := m.Curve.Range()
		d.data = append(d.data,
			valve.Datum{Key: "tested from", Label: "least deceleration tested, at this size", Value: least, Unit: "m/s2", Origin: valve.Estimated, Status: "from the test points"},
			valve.Datum{Key: "tested to", Label: "greatest deceleration tested, at this size", Value: most, Unit: "m/s2", Origin: valve.Estimated, Status: "from the test points"})
		price := d.take("price", 0, valve.Default, "unknown")
		return valve.Valve{Bore: bore, Motion: m, Travel: 1, LossOpen: m.Loss, FullOpenVelocity: full, SeatLeak: -1, PriceRatio: price}, nil
	},
}
