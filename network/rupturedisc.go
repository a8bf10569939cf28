package network

// RuptureDisc is a disc that bursts once, at a pressure, and leaves an orifice to the atmosphere.
type RuptureDisc struct {
	Name        string
	Node        string  `key:"at" help:"node that it protects"`
	Elevation   float64 `key:"elevation" dim:"length" help:"elevation of the disc, where its burst pressure counts"`
	Burst       float64 `key:"burst pressure" dim:"pressure" min:"1" help:"gauge pressure at which it bursts"`
	Area        float64 `key:"area" dim:"area" min:"1e-8" help:"flow area once burst"`
	Coefficient float64 `key:"discharge coefficient" dim:"number" def:"0.62" min:"0.01" max:"1" help:"0.62 for the disc alone, a nozzle before and a free mouth behind it (API 520-1, from memory)"`
	Rise        float64 `key:"discharge height" dim:"length" def:"0" help:"height of the mouth of the discharge pipe above the disc"`
}

// Label implements Device.
func (d *RuptureDisc) Label() (section, name string) { return "rupture discs", d.Name }

// Ends implements Device.
func (d *RuptureDisc) Ends() (from, to string) { return d.Node, "" }

// Check implements Device.
func (d *RuptureDisc) Check() []Finding {
	c := unwritten()
	c.finite("elevation", "elevation", d.Elevation)
	c.positive("burst pressure", "burst pressure", "Pa", d.Burst)
	c.positive("area", "area", "m2", d.Area)
	c.coefficient("discharge coefficient", d.Coefficient)
	c.finite("discharge height", "discharge height", d.Rise)
	return c.findings
}

// coefficient checks a discharge coefficient.
func (c *checker) coefficient(path string, x float64) {
	if !(x > 0 && x <= 1) {
		c.fault(path, "give more than 0 and at most 1", "%s is %s", path, c.show(path, x, ""))
	}
}
