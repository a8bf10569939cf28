package quantity

import "math"

// Definitions, all exact.
const (
	inch       = 0.0254                     // m
	foot       = 12 * inch                  // m
	pound      = 0.45359237                 // kg
	gravity    = 9.80665                    // m/s2, standard gravity
	gallon     = 231 * inch * inch * inch   // m3, US
	poundForce = pound * gravity            // N
	psi        = poundForce / (inch * inch) // Pa
	water      = 1000 * gravity             // Pa per metre, conventional
	minute     = 60                         // s
	hour       = 3600                       // s
	day        = 86400                      // s
	turn       = 2 * math.Pi                // rad
	degree     = math.Pi / 180              // rad
)

// entry is one unit: SI = (v + offset) num/den. Spellings are normalised
// (see normalise): a middle dot for the product, plain digits.
type entry struct {
	dim      Dimension
	symbol   string
	num, den float64
	offset   float64
	also     []string
}

type also = []string

var unitTable = []entry{
	{Number, "", 1, 1, 0, nil},
	{Fraction, "%", 1, 100, 0, also{"percent"}},
	{Fraction, "", 1, 1, 0, nil},

	{Length, "m", 1, 1, 0, also{"metre", "metres", "meter", "meters"}},
	{Length, "mm", 1, 1e3, 0, nil},
	{Length, "cm", 1, 1e2, 0, nil},
	{Length, "km", 1e3, 1, 0, nil},
	{Length, "µm", 1, 1e6, 0, also{"um"}},
	{Length, "in", inch, 1, 0, also{"inch", "inches"}},
	{Length, "ft", foot, 1, 0, also{"foot", "feet"}},
	{Length, "mi", 5280 * foot, 1, 0, also{"mile", "miles"}},

	{Area, "m2", 1, 1, 0, nil},
	{Area, "cm2", 1, 1e4, 0, nil},
	{Area, "mm2", 1, 1e6, 0, nil},
	{Area, "in2", inch * inch, 1, 0, nil},
	{Area, "ft2", foot * foot, 1, 0, nil},

	{Volume, "m3", 1, 1, 0, nil},
	{Volume, "l", 1, 1e3, 0, also{"L", "litre", "litres", "liter", "liters", "dm3"}},
	{Volume, "gal", gallon, 1, 0, also{"gal(US)", "US gal"}},
	{Volume, "ft3", foot * foot * foot, 1, 0, nil},

	{Time, "s", 1, 1, 0, also{"sec", "second", "seconds"}},
	{Time, "ms", 1, 1e3, 0, nil},
	{Time, "min", minute, 1, 0, also{"minute", "minutes"}},
	{Time, "h", hour, 1, 0, also{"hr", "hour", "hours"}},
	{Time, "d", day, 1, 0, also{"day", "days"}},

	{Frequency, "Hz", 1, 1, 0, also{"1/s", "s-1"}},
	{Frequency, "1/min", 1, minute, 0, also{"min-1"}},

	{Velocity, "m/s", 1, 1, 0, nil},
	{Velocity, "cm/s", 1, 1e2, 0, nil},
	{Velocity, "mm/s", 1, 1e3, 0, nil},
	{Velocity, "km/h", 1, 3.6, 0, nil},
	{Velocity, "ft/s", foot, 1, 0, also{"fps"}},
	{Velocity, "ft/min", foot, minute, 0, nil},

	{Acceleration, "m/s2", 1, 1, 0, nil},
	{Acceleration, "ft/s2", foot, 1, 0, nil},

	{Mass, "kg", 1, 1, 0, nil},
	{Mass, "g", 1, 1e3, 0, nil},
	{Mass, "t", 1e3, 1, 0, also{"tonne", "tonnes"}},
	{Mass, "lb", pound, 1, 0, also{"lbm", "lbs"}},

	{MassFlow, "kg/s", 1, 1, 0, nil},
	{MassFlow, "kg/min", 1, minute, 0, nil},
	{MassFlow, "kg/h", 1, hour, 0, nil},
	{MassFlow, "t/h", 1, 3.6, 0, nil},
	{MassFlow, "lb/s", pound, 1, 0, also{"lbm/s"}},
	{MassFlow, "lb/min", pound, minute, 0, also{"lbm/min"}},
	{MassFlow, "lb/h", pound, hour, 0, also{"lbm/h"}},

	{Density, "kg/m3", 1, 1, 0, nil},
	{Density, "g/cm3", 1e3, 1, 0, also{"kg/l", "kg/L", "kg/dm3", "t/m3"}},
	{Density, "lb/ft3", pound / (foot * foot * foot), 1, 0, also{"lbm/ft3"}},

	{Force, "N", 1, 1, 0, nil},
	{Force, "kN", 1e3, 1, 0, nil},
	{Force, "MN", 1e6, 1, 0, nil},
	{Force, "kgf", gravity, 1, 0, nil},
	{Force, "lbf", poundForce, 1, 0, nil},

	{Impulse, "N·s", 1, 1, 0, also{"Ns"}},
	{Impulse, "kN·s", 1e3, 1, 0, also{"kNs"}},
	{Impulse, "lbf·s", poundForce, 1, 0, nil},

	{Pressure, "bar", 1e5, 1, 0, nil},
	{Pressure, "mbar", 1e2, 1, 0, nil},
	{Pressure, "Pa", 1, 1, 0, also{"N/m2"}},
	{Pressure, "hPa", 1e2, 1, 0, nil},
	{Pressure, "kPa", 1e3, 1, 0, also{"kN/m2"}},
	{Pressure, "MPa", 1e6, 1, 0, also{"N/mm2"}},
	{Pressure, "GPa", 1e9, 1, 0, also{"kN/mm2"}},
	{Pressure, "psi", psi, 1, 0, also{"lbf/in2"}},
	{Pressure, "ksi", 1e3 * psi, 1, 0, nil},
	{Pressure, "mWC", water, 1, 0, also{"m WC", "mH2O", "m H2O", "m water", "m water column"}},
	{Pressure, "ftH2O", foot * water, 1, 0, also{"ft H2O", "ft water", "ftWC", "ft water column"}},
	{Pressure, "atm", 101325, 1, 0, nil},
	{Pressure, "kgf/cm2", gravity * 1e4, 1, 0, nil},

	{Compliance, "1/Pa", 1, 1, 0, also{"Pa-1", "m2/N"}},
	{Compliance, "1/MPa", 1, 1e6, 0, also{"MPa-1", "mm2/N"}},
	{Compliance, "1/GPa", 1, 1e9, 0, also{"GPa-1"}},
	{Compliance, "1/psi", 1, psi, 0, also{"psi-1", "in2/lbf"}},
	{Compliance, "1/ksi", 1, 1e3 * psi, 0, also{"ksi-1"}},

	{Flow, "m3/s", 1, 1, 0, nil},
	{Flow, "m3/h", 1, hour, 0, also{"m3/hr"}},
	{Flow, "m3/min", 1, minute, 0, nil},
	{Flow, "m3/d", 1, day, 0, also{"m3/day"}},
	{Flow, "l/s", 1, 1e3, 0, also{"L/s"}},
	{Flow, "l/min", 1, 1e3 * minute, 0, also{"L/min"}},
	{Flow, "l/h", 1, 1e3 * hour, 0, also{"L/h"}},
	{Flow, "Ml/d", 1e3, day, 0, also{"ML/d", "Ml/day", "ML/day"}},
	{Flow, "gpm", gallon, minute, 0, also{"gpm(US)", "US gpm", "gal/min", "US gal/min"}},
	{Flow, "mgd", 1e6 * gallon, day, 0, also{"MGD", "mgd(US)", "US mgd"}},
	{Flow, "ft3/s", foot * foot * foot, 1, 0, also{"cfs"}},
	{Flow, "ft3/min", foot * foot * foot, minute, 0, also{"cfm"}},

	{Rotation, "rpm", turn, minute, 0, also{"1/min", "min-1", "r/min", "rev/min"}},
	{Rotation, "rad/s", 1, 1, 0, nil},
	{Rotation, "rev/s", turn, 1, 0, also{"Hz", "r/s"}},

	{Inertia, "kg·m2", 1, 1, 0, nil},
	{Inertia, "kg·cm2", 1, 1e4, 0, nil},
	{Inertia, "g·m2", 1, 1e3, 0, nil},
	{Inertia, "lb·ft2", pound * foot * foot, 1, 0, also{"lbm·ft2"}},
	{Inertia, "lb·in2", pound * inch * inch, 1, 0, also{"lbm·in2"}},
	{Inertia, "slug·ft2", poundForce * foot, 1, 0, also{"lbf·ft·s2"}},

	{Torque, "N·m", 1, 1, 0, also{"Nm"}},
	{Torque, "kN·m", 1e3, 1, 0, also{"kNm"}},
	{Torque, "lbf·ft", poundForce * foot, 1, 0, also{"ft·lbf"}},
	{Torque, "lbf·in", poundForce * inch, 1, 0, also{"in·lbf"}},

	{Power, "kW", 1e3, 1, 0, nil},
	{Power, "W", 1, 1, 0, nil},
	{Power, "MW", 1e6, 1, 0, nil},
	{Power, "hp", 550 * poundForce * foot, 1, 0, nil},

	{Energy, "kWh", 1e3 * hour, 1, 0, also{"kW·h"}},
	{Energy, "MWh", 1e6 * hour, 1, 0, also{"MW·h"}},
	{Energy, "J", 1, 1, 0, nil},
	{Energy, "kJ", 1e3, 1, 0, nil},
	{Energy, "MJ", 1e6, 1, 0, nil},
	{Energy, "ft·lbf", poundForce * foot, 1, 0, nil},

	{Angle, "deg", degree, 1, 0, also{"°", "degree", "degrees"}},
	{Angle, "rad", 1, 1, 0, nil},

	{Temperature, "°C", 1, 1, 273.15, also{"degC", "deg C"}},
	{Temperature, "K", 1, 1, 0, nil},
	{Temperature, "°F", 5, 9, 459.67, also{"degF", "deg F"}},

	{DynamicViscosity, "mPa·s", 1, 1e3, 0, also{"cP"}},
	{DynamicViscosity, "Pa·s", 1, 1, 0, also{"N·s/m2"}},

	{KinematicViscosity, "mm2/s", 1, 1e6, 0, also{"cSt"}},
	{KinematicViscosity, "m2/s", 1, 1, 0, nil},
	{KinematicViscosity, "ft2/s", foot * foot, 1, 0, nil},

	{SpringRate, "N/m", 1, 1, 0, nil},
	{SpringRate, "N/mm", 1e3, 1, 0, also{"kN/m"}},
	{SpringRate, "lbf/in", poundForce / inch, 1, 0, nil},
	{SpringRate, "lbf/ft", poundForce / foot, 1, 0, nil},

	{TorsionRate, "N·m/rad", 1, 1, 0, also{"Nm/rad"}},
	{TorsionRate, "N·m/deg", 1 / degree, 1, 0, also{"Nm/deg", "N·m/°", "Nm/°"}},
	{TorsionRate, "lbf·ft/rad", poundForce * foot, 1, 0, also{"ft·lbf/rad"}},
	{TorsionRate, "lbf·ft/deg", poundForce * foot / degree, 1, 0, also{"ft·lbf/deg", "lbf·ft/°"}},

	{Damping, "N·s/m", 1, 1, 0, nil},
	{Damping, "kN·s/m", 1e3, 1, 0, also{"N·s/mm"}},
	{Damping, "lbf·s/ft", poundForce / foot, 1, 0, nil},

	{TorsionalDamping, "N·m·s/rad", 1, 1, 0, also{"Nm·s/rad", "N·m·s", "Nms/rad"}},
	{TorsionalDamping, "lbf·ft·s/rad", poundForce * foot, 1, 0, also{"lbf·ft·s"}},
}

// refused holds spellings, in lower case, that look like a unit but need
// something else to be written.
var refused = map[string]struct{ msg, hint string }{
	"\"":     {"a quotation mark is no unit", "write in for inches"},
	"''":     {"a quotation mark is no unit", "write in for inches"},
	"″":      {"a double prime is no unit", "write in for inches"},
	"'":      {"an apostrophe is no unit", "write ft for feet, min for minutes"},
	"′":      {"a prime is no unit", "write ft for feet, min for minutes"},
	"kgf·m2": {gd2Msg, gd2Hint},
	"kp·m2":  {gd2Msg, gd2Hint},
	"nm3/h":  {referenceMsg, referenceHint},
	"nm3/s":  {referenceMsg, referenceHint},
	"sm3/h":  {referenceMsg, referenceHint},
	"sm3/s":  {referenceMsg, referenceHint},
	"scfm":   {referenceMsg, referenceHint},
	"scfh":   {referenceMsg, referenceHint},
	"mmscfd": {referenceMsg, referenceHint},
}

const (
	gd2Msg        = "GD2 = 4 I"
	gd2Hint       = "write the inertia I as kg·m2"
	referenceMsg  = "a volume at reference conditions depends on the gas"
	referenceHint = "write a mass flow (kg/s) or the flow at line conditions (m3/h)"
)
