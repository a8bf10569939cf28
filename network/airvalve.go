package network

// AirValve lets air into the line when the pressure at it falls below the atmosphere's, and lets the air out again, but no liquid. It may have a
// second stage: when little air is left, a float or a flap narrows the way out, so that the liquid arrives slowly.
type AirValve struct {
	Name           string
	Node           string  `key:"at" help:"node that it stands on"`
	Elevation      float64 `key:"elevation" dim:"length" help:"elevation of the valve"`
	In             float64 `key:"inflow area" dim:"area" min:"1e-8" help:"area through which air enters"`
	Out            float64 `key:"outflow area" dim:"area" min:"0" help:"area through which air leaves; 0: it stays in the line"`
	CoefficientIn  float64 `key:"inflow coefficient" dim:"number" def:"0.6" min:"0.01" max:"1" help:"discharge coefficient on the inflow area; 0.6 is common practice"`
	CoefficientOut float64 `key:"outflow coefficient" dim:"number" def:"0.6" min:"0.01" max:"1" help:"discharge coefficient on the outflow areas; 0.6 is common practice"`
	Stage          float64 `key:"second stage volume" dim:"volume" def:"0" min:"0" help:"volume of air left at which the second stage begins; 0: there is none"`
	StageOut       float64 `key:"second stage area" dim:"area" def:"0" min:"0" help:"area through which air leaves in the second stage"`
	Polytropic     float64 `key:"polytropic exponent" dim:"number" def:"1" min:"1" max:"1.4" help:"of the air in the line: 1 isothermal to 1.4 adiabatic; 1 is common practice for small pockets"`
	Temperature    float64 `key:"air temperature" dim:"temperature" def:"288.15" min:"200" max:"400" help:"of the air outside and in the line"`
}

// Label implements Device.
func (v *AirValve) Label() (section, name string) { return "air valves", v.Name }

// Ends implements Device.
func (v *AirValve) Ends() (from, to string) { return v.Node, "" }

// Check implements Device.
func (v *AirValve) Check() []Finding {
	c := unwritten()
	c.finite("elevation", "elevation", v.Elevation)
	c.positive("inflow area", "inflow area", "m2", v.In)
	c.notNegative("outflow area", "outflow area", "m2", v.Out)
	c.coefficient("inflow coefficient", v.CoefficientIn)
	c.coefficient("outflow coefficient", v.CoefficientOut)
	if !(v.Polytropic >= 1 && v.Polytropic <= 1.4) {
		c.fault("polytropic exponent", "give 1 (isothermal) to 1.4 (adiabatic)", "polytropic exponent is %s", c.show("polytropic exponent", v.Polytropic, ""))
	}
	if !(v.Temperature >= 200 && v.Temperature <= 400) {
		c.fault("air temperature", "give -73 °C to 127 °C", "air temperature is %s", c.show("air temperature", v.Temperature, "K"))
	}
	if !c.notNegative("second stage volume", "second stage volume", "m3", v.Stage) || !c.notNegative("second stage area", "second stage area", "m2", v.StageOut) {
		return c.findings
	}
	switch {
	case v.Stage == 0 && v.StageOut > 0:
		c.fault("second stage volume", "give the volume of air left at which it begins", "there is a second stage area but no second stage volume")
	case v.Stage > 0 && v.StageOut == 0:
		c.fault("second stage area", "give the area through which the last air leaves", "there is a second stage volume but no second stage area")
	case v.Stage > 0 && v.StageOut >= v.Out:
		c.fault("second stage area", "the second stage narrows the way out", "the second stage area is not smaller than the outflow area")
	}
	return c.findings
}
