package quantity

import "strings"

// Dimension is the kind of quantity that a unit measures. Kinds that share
// units but not their meaning (torque and energy, pressure and modulus) are
// dimensions of their own.
type Dimension uint8

// The dimensions, with their SI unit.
const (
	Number                Dimension = iota // 1
	Fraction                               // 1
	Length                                 // m; heads, levels and chainages too
	Area                                   // m2
	Volume                                 // m3
	Time                                   // s
	Frequency                              // 1/s
	Velocity                               // m/s
	Acceleration                           // m/s2
	Mass                                   // kg
	MassFlow                               // kg/s
	Density                                // kg/m3
	Force                                  // N
	Impulse                                // N s
	Pressure                               // Pa, gauge unless marked absolute
	AbsolutePressure                       // Pa
	PressureDifference                     // Pa
	Modulus                                // Pa
	Compliance                             // 1/Pa
	Flow                                   // m3/s
	Rotation                               // rad/s
	Inertia                                // kg m2
	Torque                                 // N m
	Power                                  // W
	Energy                                 // J
	Angle                                  // rad
	Temperature                            // K
	TemperatureDifference                  // K
	DynamicViscosity                       // Pa s
	KinematicViscosity                     // m2/s
	SpringRate                             // N/m
	TorsionRate                            // N m/rad
	Damping                                // N s/m
	TorsionalDamping                       // N m s/rad

	dimensions // how many
)

var dimensionTable = [dimensions]struct {
	name    string
	example string
	units   Dimension // the dimension whose units are used
}{
	Number:                {"number", "0.65", Number},
	Fraction:              {"fraction", "10 %", Fraction},
	Length:                {"length", "52 m", Length},
	Area:                  {"area", "0.05 m2", Area},
	Volume:                {"volume", "2 m3", Volume},
	Time:                  {"time", "0.5 s", Time},
	Frequency:             {"frequency", "25 Hz", Frequency},
	Velocity:              {"velocity", "2.5 m/s", Velocity},
	Acceleration:          {"acceleration", "6.8 m/s2", Acceleration},
	Mass:                  {"mass", "12 kg", Mass},
	MassFlow:              {"mass flow", "3 kg/s", MassFlow},
	Density:               {"density", "900 kg/m3", Density},
	Force:                 {"force", "250 N", Force},
	Impulse:               {"impulse", "12 kN·s", Impulse},
	Pressure:              {"pressure", "8 bar", Pressure},
	AbsolutePressure:      {"absolute pressure", "101.3 kPa", Pressure},
	PressureDifference:    {"pressure difference", "0.3 bar", Pressure},
	Modulus:               {"modulus", "1.5 GPa", Pressure},
	Compliance:            {"compliance", "0.2 1/GPa", Compliance},
	Flow:                  {"flow", "430 m3/h", Flow},
	Rotation:              {"rotational speed", "1480 rpm", Rotation},
	Inertia:               {"moment of inertia", "2.2 kg·m2", Inertia},
	Torque:                {"torque", "335 N·m", Torque},
	Power:                 {"power", "75 kW", Power},
	Energy:                {"energy", "120 kWh", Energy},
	Angle:                 {"angle", "70 deg", Angle},
	Temperature:           {"temperature", "15 °C", Temperature},
	TemperatureDifference: {"temperature difference", "10 K", Temperature},
	DynamicViscosity:      {"dynamic viscosity", "5 mPa·s", DynamicViscosity},
	KinematicViscosity:    {"kinematic viscosity", "5 mm2/s", KinematicViscosity},
	SpringRate:            {"spring rate", "2500 N/m", SpringRate},
	TorsionRate:           {"torsion rate", "80 N·m/rad", TorsionRate},
	Damping:               {"damping", "400 N·s/m", Damping},
	TorsionalDamping:      {"torsional damping", "15 N·m·s/rad", TorsionalDamping},
}

// Dimensions returns all dimensions in order.
func Dimensions() []Dimension {
	all := make([]Dimension, dimensions)
	for i := range all {
		all[i] = Dimension(i)
	}
	return all
}

// String is the dimension in plain words: "pressure", "flow".
func (d Dimension) String() string {
	if d >= dimensions {
		return "unknown dimension"
	}
	return dimensionTable[d].name
}

// DimensionNamed is the dimension whose plain words are name; false when there is none.
func DimensionNamed(name string) (Dimension, bool) {
	for d := range dimensions {
		if dimensionTable[d].name == name {
			return d, true
		}
	}
	return 0, false
}

// article is the name with "a" or "an" before it.
func (d Dimension) article() string {
	name := d.String()
	if strings.ContainsRune("aeiou", rune(name[0])) {
		return "an " + name
	}
	return "a " + name
}

// Example is a text that [Parse] accepts for d.
func (d Dimension) Example() string { return dimensionTable[d].example }

// exampleUnit is the unit of the example with the space before it.
func (d Dimension) exampleUnit() string {
	number, unit, found := strings.Cut(d.Example(), " ")
	if !found || number == "" {
		return ""
	}
	return " " + unit
}
