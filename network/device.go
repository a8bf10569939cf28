package network

// Device is a piece of equipment at a node, or between two, other than pipes, stations, check valves and throttling valves. Its data are the
// fields of its struct; the tags of a field say how a case file gives it:
//
//	key   the key in the case file
//	dim   the dimension, in the words of package quantity
//	def   the value when it is not given; "" means it must be given
//	min   least value, max: greatest value, in SI
//	help  one sentence
//
// A device's equation is in package moc/device, in a file of the same name.
type Device interface {
	// Label is the section of a case file that lists such devices, and the name of this one.
	Label() (section, name string)
	// Ends are the nodes it stands at; to is "" for a device between a node and the surroundings.
	Ends() (from, to string)
	// Check finds what is wrong with its data, with paths inside the device ("gas volume").
	Check() []Finding
}

// Kind is a kind of device.
type Kind struct {
	Section string // of a case file
	Help    string
	New     func(name string) Device
}

// Kinds are all kinds of devices.
var Kinds = []Kind{
	{"air vessels", "a closed vessel with a cushion of gas", func(name string) Device { return &AirVessel{Name: name} }},
	{"surge tanks", "a tank or standpipe open to the atmosphere", func(name string) Device { return &SurgeTank{Name: name} }},
	{"one-way tanks", "an open tank that feeds the line through its own check valve", func(name string) Device { return &OneWayTank{Name: name} }},
	{"relief valves", "opens at a set pressure and discharges to the surroundings", func(name string) Device { return &ReliefValve{Name: name} }},
	{"rupture discs", "bursts once at a pressure and stays open", func(name string) Device { return &RuptureDisc{Name: name} }},
	{"air valves", "lets air in below atmospheric pressure and out above it", func(name string) Device { return &AirValve{Name: name} }},
	{"orifices", "a fixed loss between two nodes", func(name string) Device { return &Orifice{Name: name} }},
	{"outlets", "a demand that depends on the pressure, or holds it", func(name string) Device { return &Outlet{Name: name} }},
}
