package network

// Outlet lets liquid out to the atmosphere, the more the higher the pressure: a demand that depends on pressure, a nozzle, a leak. With a
// sustained pressure it throttles itself to keep the pressure at its node from falling below it, and shuts when it cannot.
type Outlet struct {
	Name      string
	Node      string  `key:"at" help:"node that it takes from"`
	Elevation float64 `key:"elevation" dim:"length" help:"elevation of its mouth"`
	Flow      float64 `key:"flow" dim:"flow" min:"1e-9" help:"flow at the pressure given, fully open"`
	Pressure  float64 `key:"pressure" dim:"pressure" min:"1" help:"gauge pressure at which that flow leaves"`
	Sustained float64 `key:"sustained pressure" dim:"pressure" def:"0" min:"0" help:"gauge pressure that it throttles itself to keep up; 0: always fully open"`
}

// Label implements Device.
func (o *Outlet) Label() (section, name string) { return "outlets", o.Name }

// Ends implements Device.
func (o *Outlet) Ends() (from, to string) { return o.Node, "" }

// Check implements Device.
func (o *Outlet) Check() []Finding {
	c := unwritten()
	c.finite("elevation", "elevation", o.Elevation)
	c.positive("flow", "flow", "m3/s", o.Flow)
	c.positive("pressure", "pressure", "Pa", o.Pressure)
	c.notNegative("sustained pressure", "sustained pressure", "Pa", o.Sustained)
	return c.findings
}
