package network

// ReliefValve opens while the pressure is above its set pressure, closes while it is below its closing pressure, keeps its lift between the two,
// and discharges to the atmosphere. The capacity is given by area and discharge coefficient, or by the flow coefficient Kv.
type ReliefValve struct {
	Name        string
	Node        string  `key:"at" help:"node that it protects"`
	Elevation   float64 `key:"elevation" dim:"length" help:"elevation of the valve, where its set pressure counts"`
	Set         float64 `key:"set pressure" dim:"pressure" min:"1" help:"gauge pressure above which it opens"`
	BlowDown    float64 `key:"blow-down" dim:"fraction" def:"0" min:"0" max:"1" help:"it closes below the set pressure less this fraction of it"`
	Opening     float64 `key:"opening time" dim:"time" def:"0" min:"0" help:"time from shut to full lift; 0: as fast as the pressure asks"`
	Closing     float64 `key:"closing time" dim:"time" def:"0" min:"0" help:"time from full lift to shut; 0: as fast as the pressure asks"`
	Area        float64 `key:"area" instead:"kv" dim:"area" def:"0" min:"0" help:"flow area at full lift; 0: the capacity is given by kv"`
	Coefficient float64 `key:"discharge coefficient" dim:"number" def:"0.62" min:"0.01" max:"1" help:"on the area; 0.62, a sharp-edged orifice, is common practice"`
	Kv          float64 `key:"kv" instead:"area" dim:"number" def:"0" min:"0" help:"flow of cold water, m3/h, at full lift and 1 bar (IEC 60534-1), in place of area"`
	Rise        float64 `key:"discharge height" dim:"length" def:"0" help:"height of the mouth of the discharge pipe above the valve"`
}

// Label implements Device.
func (v *ReliefValve) Label() (section, name string) { return "relief valves", v.Name }

// Ends implements Device.
func (v *ReliefValve) Ends() (from, to string) { return v.Node, "" }

// Check implements Device.
func (v *ReliefValve) Check() []Finding {
	c := unwritten()
	c.finite("elevation", "elevation", v.Elevation)
	c.positive("set pressure", "set pressure", "Pa", v.Set)
	if !(v.BlowDown >= 0 && v.BlowDown < 1) {
		c.fault("blow-down", "give 0 % or more, less than 100 %", "blow-down is %s", c.show("blow-down", 100*v.BlowDown, "%"))
	}
	c.notNegative("opening time", "opening time", "s", v.Opening)
	c.notNegative("closing time", "closing time", "s", v.Closing)
	c.finite("discharge height", "discharge height", v.Rise)
	area, kv := c.notNegative("area", "area", "m2", v.Area), c.notNegative("kv", "kv", "", v.Kv)
	switch {
	case !area || !kv:
	case v.Area > 0 && v.Kv > 0:
		c.fault("kv", "give area or kv", "the capacity is given twice, by an area and by a flow coefficient")
	case v.Area == 0 && v.Kv == 0:
		c.fault("area", "give area or kv", "the valve has neither area nor flow coefficient")
	case v.Area > 0:
		c.coefficient("discharge coefficient", v.Coefficient)
	}
	return c.findings
}
