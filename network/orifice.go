package network

// Orifice is a sharp-edged orifice plate between two nodes, or any other loss that does not change.
type Orifice struct {
	Name     string
	From     string  `key:"from" help:"node on one side"`
	To       string  `key:"to" help:"node on the other side"`
	PipeBore float64 `key:"pipe bore" dim:"length" min:"1e-3" help:"bore of the pipe, on whose velocity head the loss is"`
	Bore     float64 `key:"bore" instead:"loss" dim:"length" def:"0" min:"0" help:"bore of a sharp-edged plate, from which its loss follows; 0: the loss is given"`
	Loss     float64 `key:"loss" instead:"bore" dim:"number" def:"0" min:"0" help:"loss coefficient, in place of the bore of the plate"`
}

// Bore ratios for which the loss of a sharp-edged plate is known (ISO 5167-2).
const (
	LeastBoreRatio    = 0.10
	GreatestBoreRatio = 0.75
)

// Label implements Device.
func (o *Orifice) Label() (section, name string) { return "orifices", o.Name }

// Ends implements Device.
func (o *Orifice) Ends() (from, to string) { return o.From, o.To }

// Check implements Device.
func (o *Orifice) Check() []Finding {
	c := unwritten()
	pipe := c.positive("pipe bore", "pipe bore", "m", o.PipeBore)
	bore := c.notNegative("bore", "bore", "m", o.Bore)
	loss := c.notNegative("loss", "loss", "", o.Loss)
	if !pipe || !bore || !loss {
		return c.findings
	}
	switch {
	case o.Bore > 0 && o.Loss > 0:
		c.fault("loss", "give bore or loss", "the loss is given twice, by the bore of the plate and by a coefficient")
	case o.Bore == 0 && o.Loss == 0:
		c.fault("bore", "give bore or loss", "the orifice has neither bore nor loss")
	case o.Bore >= o.PipeBore:
		c.fault("bore", "give the bore of the plate, smaller than that of the pipe", "the bore of the plate is not smaller than that of the pipe")
	case o.Bore > GreatestBoreRatio*o.PipeBore:
		c.warn("bore", "give the loss in its place", "the loss of a plate is known up to a bore ratio of %.2f, this one has %.3f", GreatestBoreRatio, o.Bore/o.PipeBore)
	case o.Bore > 0 && o.Bore < LeastBoreRatio*o.PipeBore:
		c.warn("bore", "give the loss in its place", "the loss of a plate is known from a bore ratio of %.2f on, this one has %.3f", LeastBoreRatio, o.Bore/o.PipeBore)
	}
	return c.findings
}
