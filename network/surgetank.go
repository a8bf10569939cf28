package network

import "math"

// SurgeTank is a tank open to the atmosphere, or a standpipe, connected to a node by a short pipe or a throttle. In steady flow its level is the
// head of the node.
type SurgeTank struct {
	Name     string
	Node     string      `key:"at" help:"node that it is connected to"`
	Area     float64     `key:"plan area" instead:"area table" dim:"area" def:"0" min:"0" help:"horizontal area, the same at every level; 0: by the area table"`
	Areas    []LevelArea `key:"area table" help:"horizontal area against level, in place of plan area: linear between rows, constant outside, a step where two rows have the same level"`
	Overflow float64     `key:"overflow level" dim:"length" help:"elevation of the crest over which it spills, or of its rim"`
	Bottom   float64     `key:"bottom level" dim:"length" help:"elevation of the floor, below which it is empty"`
	Bore     float64     `key:"connection bore" dim:"length" min:"1e-3" help:"bore on whose velocity head the losses are"`
	LossIn   float64     `key:"inflow loss" dim:"number" def:"1" min:"0" help:"loss coefficient of flow into the tank, throttle included"`
	LossOut  float64     `key:"outflow loss" dim:"number" def:"0.5" min:"0" help:"loss coefficient of flow out of the tank, throttle included"`
}

// LevelArea is a row of a table of horizontal area against level.
type LevelArea struct {
	Level float64 `key:"level" dim:"length" help:"elevation"`
	Area  float64 `key:"area" dim:"area" min:"1e-6" help:"horizontal area of the liquid surface there"`
}

// Label implements Device.
func (t *SurgeTank) Label() (section, name string) { return "surge tanks", t.Name }

// Ends implements Device.
func (t *SurgeTank) Ends() (from, to string) { return t.Node, "" }

// Check implements Device.
func (t *SurgeTank) Check() []Finding {
	c := unwritten()
	switch {
	case len(t.Areas) == 0 && t.Area == 0:
		c.fault("plan area", "give plan area or area table", "the tank has neither plan area nor area table")
	case len(t.Areas) == 0:
		c.positive("plan area", "plan area", "m2", t.Area)
	case t.Area != 0:
		c.fault("plan area", "give plan area or area table", "the plan area is given twice, by a value and by a table")
	}
	c.areas("area table", t.Areas)
	if t.Overflow <= t.Bottom {
		c.fault("overflow level", "levels are elevations", "the overflow level is not above the bottom level")
	}
	c.connection(t.Bore, t.narrowest(), "tank")
	return c.findings
}

// narrowest is the least horizontal area given, m2.
func (t *SurgeTank) narrowest() float64 {
	least := math.Inf(1)
	for _, r := range t.Rows() {
		least = math.Min(least, r.Area)
	}
	return least
}

// Rows is the horizontal area against level, one row where it is constant.
func (t *SurgeTank) Rows() []LevelArea {
	if len(t.Areas) > 0 {
		return t.Areas
	}
	return []LevelArea{{Level: t.Bottom, Area: t.Area}}
}
