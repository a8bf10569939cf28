package quantity

// System is a choice of units for output.
type System uint8

// The systems of units.
const (
	SI System = iota // metric units of the trade: bar, m3/h, m
	US               // US customary units: psi, gpm, ft
)

// String is the name of the system.
func (s System) String() string {
	if s == US {
		return "us"
	}
	return "si"
}

// outputUnits holds the symbols of the preferred units, SI and US.
var outputUnits = [dimensions][2]string{
	Number:                {"", ""},
	Fraction:              {"%", "%"},
	Length:                {"m", "ft"},
	Area:                  {"m2", "ft2"},
	Volume:                {"m3", "gal"},
	Time:                  {"s", "s"},
	Frequency:             {"Hz", "Hz"},
	Velocity:              {"m/s", "ft/s"},
	Acceleration:          {"m/s2", "ft/s2"},
	Mass:                  {"kg", "lb"},
	MassFlow:              {"kg/s", "lb/s"},
	Density:               {"kg/m3", "lb/ft3"},
	Force:                 {"kN", "lbf"},
	Impulse:               {"kN·s", "lbf·s"},
	Pressure:              {"bar", "psi"},
	AbsolutePressure:      {"bar abs", "psi abs"},
	PressureDifference:    {"bar", "psi"},
	Modulus:               {"GPa", "ksi"},
	Compliance:            {"1/GPa", "1/ksi"},
	Flow:                  {"m3/h", "gpm"},
	Rotation:              {"rpm", "rpm"},
	Inertia:               {"kg·m2", "lb·ft2"},
	Torque:                {"N·m", "lbf·ft"},
	Power:                 {"kW", "hp"},
	Energy:                {"J", "ft·lbf"},
	Angle:                 {"deg", "deg"},
	Temperature:           {"°C", "°F"},
	TemperatureDifference: {"K", "°F"},
	DynamicViscosity:      {"mPa·s", "mPa·s"},
	KinematicViscosity:    {"mm2/s", "mm2/s"},
	SpringRate:            {"N/m", "lbf/in"},
	TorsionRate:           {"N·m/rad", "lbf·ft/rad"},
	Damping:               {"N·s/m", "lbf·s/ft"},
	TorsionalDamping:      {"N·m·s/rad", "lbf·ft·s/rad"},
}

// Unit is the preferred unit of the system for dimension d.
func (s System) Unit(d Dimension) Unit {
	u, err := ParseUnit(outputUnits[d][s], d)
	if err != nil {
		panic("quantity: preferred unit is not in the table")
	}
	return u
}
