package network

// AirVessel is a closed vessel with a cushion of gas above the liquid, connected to a node by a short pipe or a throttle.
type AirVessel struct {
	Name       string
	Node       string  `key:"at" help:"node that it is connected to"`
	Level      float64 `key:"level" dim:"length" help:"elevation of the liquid surface in steady flow"`
	Volume     float64 `key:"volume" dim:"volume" min:"1e-6" help:"whole volume of the vessel"`
	Gas        float64 `key:"gas volume" dim:"volume" min:"1e-9" help:"volume of the gas in steady flow"`
	Least      float64 `key:"least liquid" dim:"volume" def:"0" min:"0" help:"volume of liquid that is to stay in the vessel; a run that goes below it says so"`
	Area       float64 `key:"plan area" dim:"area" def:"0" min:"0" help:"horizontal area of the vessel; 0: the level is taken as constant"`
	Polytropic float64 `key:"polytropic exponent" dim:"number" def:"1.2" min:"1" max:"1.4" help:"1 isothermal to 1.4 adiabatic; 1.2 is common practice"`
	Bore       float64 `key:"connection bore" dim:"length" min:"1e-3" help:"bore on whose velocity head the losses are"`
	LossIn     float64 `key:"inflow loss" dim:"number" def:"1" min:"0" help:"loss coefficient of flow into the vessel"`
	LossOut    float64 `key:"outflow loss" dim:"number" def:"0.5" min:"0" help:"loss coefficient of flow out of the vessel"`
}

// Label implements Device.
func (v *AirVessel) Label() (section, name string) { return "air vessels", v.Name }

// Ends implements Device.
func (v *AirVessel) Ends() (from, to string) { return v.Node, "" }

// Check implements Device.
func (v *AirVessel) Check() []Finding {
	c := unwritten()
	if v.Gas >= v.Volume {
		c.fault("gas volume", "give less gas than the volume of the vessel", "the gas fills the whole vessel")
	} else if v.Volume-v.Gas <= v.Least {
		c.fault("least liquid", "give less gas or less liquid to be kept", "the vessel holds no more liquid in steady flow than is to be kept")
	}
	c.connection(v.Bore, v.Area, "vessel")
	return c.findings
}
