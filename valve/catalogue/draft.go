package catalogue

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/valve"
)

// draft is a valve while it is being completed; it records every datum that is asked of it.
type draft struct {
	spec    valve.Spec
	setting Setting
	keys    []Key
	data    []valve.Datum

	usual int     // seat of the family
	faces int     // the seat it has
	leaks float64 // conductance of the shut seat
}

// given tells whether the user set a datum.
func (d *draft) given(key string) bool {
	_, ok := d.spec.Set[key]
	return ok
}

// take is the user's value, or the catalogue's with its origin and status.
func (d *draft) take(key string, value float64, origin valve.Origin, status string) float64 {
	return d.about(0, key, value, origin, status)
}

// about is take for a value that may differ either way by a fraction, the spread, which the status states.
func (d *draft) about(spread float64, key string, value float64, origin valve.Origin, status string) float64 {
	if set, ok := d.spec.Set[key]; ok {
		d.record(key, set, valve.Given, "as given")
		return set
	}
	if spread > 0 {
		status = fmt.Sprintf("%s, ±%.0f %%", status, 100*spread)
	}
	d.record(key, value, origin, status)
	d.data[len(d.data)-1].Spread = spread
	return value
}

func (d *draft) record(key string, value float64, origin valve.Origin, status string) {
	k, _ := find(d.keys, key)
	x := valve.Datum{Key: key, Label: k.Help, Value: value, Unit: k.Unit, Origin: origin, Status: status}
	if k.Named() {
		x.Word = k.Word(value)
	}
	d.data = append(d.data, x)
}

// amend replaces what is on record for a key that the user did not set.
func (d *draft) amend(spread float64, key string, value float64, origin valve.Origin, status string) {
	d.data = slices.DeleteFunc(d.data, func(x valve.Datum) bool { return x.Key == key })
	d.about(spread, key, value, origin, status)
}

func find(keys []Key, name string) (Key, bool) {
	for _, k := range keys {
		if k.Name == name {
			return k, true
		}
	}
	return Key{}, false
}

func list(keys []Key) string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	return strings.Join(names, ", ")
}

func sorted[V any](m map[string]V) []string {
	names := make([]string, 0, len(m))
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Statuses that several data share.
const (
	practice  = "common practice"
	memory    = "from memory"
	derived   = "derived"
	fromGiven = "derived from the given data"
)

// generic is the spread of generic data, a fraction (common practice).
const generic = 0.4

// class takes the pressure class, PN, and returns the factor by which its masses exceed those of PN 16 and below, (PN/16)^0.4 (common practice).
func (d *draft) class(pn float64) float64 {
	pn = d.take("pressure class", pn, valve.Default, "class of the generic data, PN 10 to 16")
	return math.Pow(math.Max(16, pn)/16, 0.4)
}

// leak is the conductance of the seat, from its leakage class where that is given.
func (d *draft) leak() float64 {
	pn := d.nominalPressure()
	if !d.given(leakageClass) {
		leak := d.take("leak", 0, valve.Default, "tight seat in the run")
		if d.given("leak") {
			d.take(leakageClass, leak/valve.SeatConductance(1, d.spec.Size, pn), valve.Default, "that of the leak")
			return leak
		}
		s := seats[d.faces]
		d.take(leakageClass, s.rate, valve.Default, fmt.Sprintf("class %s, guessed for a %s seat, for the leak flow alone, %s", s.class, s.name, practice))
		return leak
	}
	rate := d.take(leakageClass, 0, valve.Given, "")
	return d.take("leak", valve.SeatConductance(rate, d.spec.Size, pn), valve.Estimated, fmt.Sprintf("%s from the leakage class, tested at 1.1 times PN %g", derived, pn))
}

const leakageClass = "leakage class"

var classKey = Key{"pressure class", "1", "pressure class of the body, PN", 1, 1000}

// mass is factor D^3, kg, with the least thickness of small plates below DN100.
func mass(factor, d float64) float64 {
	return factor * d * d * d * math.Sqrt(math.Max(1, 0.1/d))
}

// bySize interpolates in log D between DN100, DN300 and DN600 and holds the ends.
func bySize(d, at100, at300, at600 float64) float64 {
	between := func(a, b, fa, fb float64) float64 {
		u := math.Log(d/a) / math.Log(b/a)
		return fa + math.Min(1, math.Max(0, u))*(fb-fa)
	}
	if d < 0.3 {
		return between(0.1, 0.3, at100, at300)
	}
	return between(0.3, 0.6, at300, at600)
}

// water is the density, kg/m3, for which the full-open velocities of the spring valves are stated.
const water = 998.2

// body takes the data that all valves with a disc share.
func (d *draft) body(loss, lossSpread float64, lossStatus, friction string) valve.Body {
	b := valve.Body{
		Density:   d.setting.Density,
		Gravity:   d.setting.Gravity,
		Bore:      d.take("bore", d.spec.Size, valve.Default, "nominal size"),
		Slope:     d.take("slope", d.setting.Slope, valve.Estimated, "from the pipe"),
		LossTable: d.spec.Tables["loss table"],
		LoadTable: d.spec.Tables["load table"],
	}
	if n := len(b.LossTable.Value); n > 0 {
		loss, lossSpread, lossStatus = b.LossTable.Value[n-1], 0, "last row of the loss table"
	}
	b.LossOpen = d.about(lossSpread, "loss when open", loss, valve.Catalogue, lossStatus)
	b.Contraction = d.about(0.06, "contraction", 0.65, valve.Default, practice)
	b.Damper.Coefficient = d.take("damper", 0, valve.Default, "no dashpot")
	b.Damper.Span = d.about(0.5, "damper span", 0.2, valve.Default, practice)
	b.Friction = d.take(friction, 0, valve.Default, "free bearings; closes earlier than a worn or packed one")
	d.faces = int(d.take(seatKind, float64(d.usual), valve.Default, "usual of the type, "+practice))
	b.Leak = d.leak()
	d.leaks = d.seatLeak(b.Leak)
	b.Restitution = d.rebound()
	return b
}

// finish fills what all valves with one disc report.
func (d *draft) finish(l *valve.Law, bore, reach, price float64) valve.Valve {
	return d.complete(l, l.Travel, bore, reach, price)
}

// disc is a motion with a stop.
type disc interface {
	valve.Motion
	OpenLoss() float64
	FullOpenVelocity() float64
}

// complete fills what all valves with a disc report.
func (d *draft) complete(m disc, travel, bore, reach, price float64) valve.Valve {
	v := valve.Valve{
		Bore:             bore,
		Motion:           m,
		Travel:           travel,
		Reach:            reach,
		LossOpen:         m.OpenLoss(),
		FullOpenVelocity: m.FullOpenVelocity(),
		SeatLeak:         d.leaks,
		PriceRatio:       d.about(generic, "price", price, valve.Catalogue, practice),
	}
	for i := 1; i <= 24; i++ {
		if u := 0.05 * float64(i) * v.FullOpenVelocity; u > 0 && m.Steady(u).Snaps {
			v.Warnings = append(v.Warnings, fmt.Sprintf("the disc snaps open: at %.2f m/s load and resistance meet at more than one opening", u))
			break
		}
	}
	return v
}

// discKeys are the keys of all valves with a disc; force is the unit of the generalised force, rate that of y.
func discKeys(force, travel, friction string) []Key {
	const big = 1e9
	return []Key{
		{"bore", "m", "bore", 0.01, 2},
		{"moving mass", "kg", "mass of disc and arm", 1e-6, 1e6},
		{"disc density", "kg/m3", "density of the disc", 100, 25000},
		{"added mass", "kg", "liquid that moves with the disc", 0, 1e6},
		{"travel", travel, "travel from seat to stop", 1e-4, 1.553},
		{"preload", force, "spring on the seat", 0, big},
		{"spring rate", force + "/" + travel, "spring rate", 0, big},
		{"full-open velocity", "m/s", "steady velocity at which the disc reaches its stop as the flow rises, against friction too", 0.01, 100},
		{"loss when open", "1", "loss coefficient on the stop", 1e-3, 1e4},
		{"contraction", "1", "contraction of the jet through the gap", 0.3, 1},
		{"damper", force + "·s2/" + travel + "2", "dashpot, closing force over rate squared", 0, big},
		{"damper span", "1", "dashpot, last part of the travel", 0.01, 1},
		{friction, force, "dry friction", 0, big},
		{leakageClass, "1", "leakage class of the seat, A to G of ISO 5208, or mm3/s per mm of nominal bore in the test", 0, 1000},
		{"leak", "1", "effective leak area over bore area", 0, 0.2},
		{seatKind, "1", "soft or hard: rubber or plastic on one of the faces, or metal on metal; for rebound and leak", 0, 1},
		{restitution, "1", "rebound over impact speed", 0, 0.9},
		{"slope", "rad", "slope of the pipe, positive rising in the direction of flow", -math.Pi / 2, math.Pi / 2},
		{"price", "1", "price over that of a swing valve of the same size", 0, 1000},
		capacityKey,
		crackingKey,
	}
}

var discTables = []string{"loss table", "load table", TestPoints}
