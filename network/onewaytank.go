package network

// OneWayTank is an open tank that feeds its node through a check valve of its own when the head there falls below its level, and takes nothing
// back. The pipe by which it is filled again is left out: filling takes far longer than a surge.
type OneWayTank struct {
	Name    string
	Node    string  `key:"at" help:"node that it feeds"`
	Level   float64 `key:"level" dim:"length" help:"elevation of the liquid surface at the start, below the head of the node in steady flow"`
	Bottom  float64 `key:"bottom level" dim:"length" help:"elevation of the floor, below which it is empty"`
	Area    float64 `key:"plan area" dim:"area" min:"1e-6" help:"horizontal area, the same at every level"`
	Bore    float64 `key:"connection bore" dim:"length" min:"1e-3" help:"bore on whose velocity head the loss is"`
	LossOut float64 `key:"outflow loss" dim:"number" def:"2.5" min:"0" help:"loss coefficient of entrance, connection and open check valve together; 2.5 is common practice"`
}

// Label implements Device.
func (t *OneWayTank) Label() (section, name string) { return "one-way tanks", t.Name }

// Ends implements Device.
func (t *OneWayTank) Ends() (from, to string) { return t.Node, "" }

// Check implements Device.
func (t *OneWayTank) Check() []Finding {
	c := unwritten()
	if t.Level <= t.Bottom {
		c.fault("level", "levels are elevations", "the tank is empty at the start: its level is not above the bottom level")
	}
	c.connection(t.Bore, t.Area, "tank")
	return c.findings
}
