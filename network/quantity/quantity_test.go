package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The factors are typed in as decimals, not computed from the definitions in
// the table. From memory, after NIST Special Publication 811 (2008), appendix
// B, with the digits its seven-figure values leave out; decimal units from the
// SI prefixes.
var factors = []struct {
	text string
	dim  Dimension
	si   float64
}{
	{"0.65", Number, 0.65},
	{"50 %", Fraction, 0.5},
	{"7 percent", Fraction, 0.07},
	{"0.81", Fraction, 0.81},
	{"1 mm", Length, 1e-3},
	{"1 cm", Length, 1e-2},
	{"1 m", Length, 1},
	{"1 km", Length, 1e3},
	{"1 µm", Length, 1e-6},
	{"1 in", Length, 0.0254},
	{"1 ft", Length, 0.3048},
	{"1 mi", Length, 1609.344},
	{"1 mm2", Area, 1e-6},
	{"1 cm2", Area, 1e-4},
	{"1 in2", Area, 6.4516e-4},
	{"1 ft2", Area, 9.290304e-2},
	{"1 l", Volume, 1e-3},
	{"1 L", Volume, 1e-3},
	{"1 litre", Volume, 1e-3},
	{"1 gal", Volume, 3.785411784e-3},
	{"1 ft3", Volume, 2.8316846592e-2},
	{"1 ms", Time, 1e-3},
	{"1 min", Time, 60},
	{"1 h", Time, 3600},
	{"1 d", Time, 86400},
	{"60 1/min", Frequency, 1},
	{"1 mm/s", Velocity, 1e-3},
	{"1 cm/s", Velocity, 1e-2},
	{"1 ft/s", Velocity, 0.3048},
	{"1 ft/min", Velocity, 5.08e-3},
	{"36 km/h", Velocity, 10},
	{"1 ft/s2", Acceleration, 0.3048},
	{"1 g", Mass, 1e-3},
	{"1 t", Mass, 1000},
	{"1 lb", Mass, 0.45359237},
	{"1 t/h", MassFlow, 0.2777777777777778},
	{"1 kg/h", MassFlow, 2.777777777777778e-4},
	{"1 kg/min", MassFlow, 1.666666666666667e-2},
	{"1 lb/s", MassFlow, 0.45359237},
	{"1 lb/min", MassFlow, 7.559872833333333e-3},
	{"1 lb/h", MassFlow, 1.259978805555556e-4},
	{"1 g/cm3", Density, 1000},
	{"1 lb/ft3", Density, 16.01846337396014},
	{"1 kN", Force, 1e3},
	{"1 MN", Force, 1e6},
	{"1 kgf", Force, 9.80665},
	{"1 lbf", Force, 4.4482216152605},
	{"1 N·s", Impulse, 1},
	{"1 kN s", Impulse, 1e3},
	{"1 lbf·s", Impulse, 4.4482216152605},
	{"1 bar", Pressure, 1e5},
	{"1 mbar", Pressure, 100},
	{"1 hPa", Pressure, 100},
	{"1 kPa", Pressure, 1e3},
	{"1 MPa", Pressure, 1e6},
	{"210 GPa", Modulus, 2.1e11},
	{"1.0e-10 1/Pa", Compliance, 1e-10},
	{"0.1 1/GPa", Compliance, 1e-10},
	{"0.1 GPa-1", Compliance, 1e-10},
	{"1e-4 1/MPa", Compliance, 1e-10},
	{"1 mm2/N", Compliance, 1e-6},
	{"1 1/psi", Compliance, 1 / 6894.757293168361},
	{"1 1/ksi", Compliance, 1 / 6894757.293168361},
	{"1 psi", Pressure, 6894.757293168361},
	{"1 ksi", Modulus, 6894757.293168361},
	{"1 mWC", Pressure, 9806.65},
	{"1 m water", PressureDifference, 9806.65},
	{"1 ftH2O", Pressure, 2989.06692},
	{"1 atm", AbsolutePressure, 101325},
	{"1 kgf/cm2", Pressure, 98066.5},
	{"3600 m3/h", Flow, 1},
	{"1 m3/min", Flow, 1.666666666666667e-2},
	{"1 m3/d", Flow, 1.157407407407407e-5},
	{"1 l/s", Flow, 1e-3},
	{"1 l/min", Flow, 1.666666666666667e-5},
	{"1 l/h", Flow, 2.777777777777778e-7},
	{"1 Ml/d", Flow, 1.157407407407407e-2},
	{"1 gpm", Flow, 6.30901964e-5},
	{"1 mgd", Flow, 4.381263638888889e-2},
	{"1 ft3/s", Flow, 2.8316846592e-2},
	{"1 cfs", Flow, 2.8316846592e-2},
	{"1 cfm", Flow, 4.719474432e-4},
	{"1 rpm", Rotation, 0.1047197551196598},
	{"1 1/min", Rotation, 0.1047197551196598},
	{"1 Hz", Rotation, 6.283185307179586},
	{"1 rev/s", Rotation, 6.283185307179586},
	{"1 kg·cm2", Inertia, 1e-4},
	{"1 g·m2", Inertia, 1e-3},
	{"1 lb·ft2", Inertia, 4.214011009380480e-2},
	{"1 lb·in2", Inertia, 2.926396534292e-4},
	{"1 slug·ft2", Inertia, 1.3558179483314004},
	{"1 kN·m", Torque, 1e3},
	{"1 lbf·ft", Torque, 1.3558179483314004},
	{"1 lbf·in", Torque, 0.1129848290276167},
	{"1 kW", Power, 1e3},
	{"1 MW", Power, 1e6},
	{"1 hp", Power, 745.6998715822702},
	{"1 kWh", Energy, 3.6e6},
	{"1 MWh", Energy, 3.6e9},
	{"1 kJ", Energy, 1e3},
	{"1 MJ", Energy, 1e6},
	{"1 ft·lbf", Energy, 1.3558179483314004},
	{"1 deg", Angle, 0.01745329251994330},
	{"15 °C", Temperature, 288.15},
	{"68 °F", Temperature, 293.15},
	{"-40 °F", Temperature, 233.15},
	{"10 °C", TemperatureDifference, 10},
	{"10 K", TemperatureDifference, 10},
	{"18 °F", TemperatureDifference, 10},
	{"1 mPa·s", DynamicViscosity, 1e-3},
	{"1 cP", DynamicViscosity, 1e-3},
	{"1 cSt", KinematicViscosity, 1e-6},
	{"1 mm2/s", KinematicViscosity, 1e-6},
	{"1 ft2/s", KinematicViscosity, 9.290304e-2},
	{"1 N/mm", SpringRate, 1e3},
	{"1 lbf/in", SpringRate, 175.1268352464764},
	{"1 lbf/ft", SpringRate, 14.59390293720636},
	{"1 N·m/deg", TorsionRate, 57.29577951308232},
	{"1 lbf·ft/rad", TorsionRate, 1.3558179483314004},
	{"1 lbf·ft/deg", TorsionRate, 77.68264622747556},
	{"1 kN·s/m", Damping, 1e3},
	{"1 lbf·s/ft", Damping, 14.59390293720636},
	{"1 lbf·ft·s/rad", TorsionalDamping, 1.3558179483314004},
}

func TestFactors(t *testing.T) {
	seen := map[Dimension]map[string]bool{}
	for _, f := range factors {
		q, err := Parse(f.text, f.dim)
		require.NoError(t, err, f.text)
		require.InEpsilon(t, f.si, q.SI, 2e-15, f.text)
		require.Equal(t, f.dim, q.Dim, f.text)
		u := unitOf(t, f.text, f.dim)
		d := dimensionTable[f.dim].units
		if seen[d] == nil {
			seen[d] = map[string]bool{}
		}
		seen[d][u.Symbol] = true
	}
	// Every unit that is not the SI unit itself has a factor above.
	for _, e := range unitTable {
		if e.num == 1 && e.den == 1 && e.offset == 0 {
			continue
		}
		found := seen[e.dim][e.symbol] || seen[e.dim][e.symbol+" abs"]
		require.True(t, found, "no independent factor for %q (%s)", e.symbol, e.dim)
	}
}

func unitOf(t *testing.T, text string, d Dimension) Unit {
	t.Helper()
	n, err := scanNumber(text, d)
	require.NoError(t, err)
	u, err := unitAt(text, n.end, d)
	require.NoError(t, err)
	return u
}

// Decimal units give the float that the same value in SI has.
func TestDecimalUnitsAreExact(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		si   float64
	}{
		{"6.3 mm", Length, 0.0063}, {"9.5 mm", Length, 0.0095}, {"0.1 mm", Length, 0.0001},
		{"81 %", Fraction, 0.81}, {"7 %", Fraction, 0.07}, {"101.3 kPa", AbsolutePressure, 101300},
		{"-0.5 bar", Pressure, -50000}, {"1.1 mPa·s", DynamicViscosity, 0.0011},
		{"36 m3/h", Flow, 0.01}, {"15 °C", Temperature, 288.15},
	} {
		q, err := Parse(c.text, c.dim)
		require.NoError(t, err, c.text)
		require.Equal(t, c.si, q.SI, c.text)
	}
}

// Spellings that must read alike, and the case file's own.
func TestSpellings(t *testing.T) {
	for _, c := range []struct {
		dim   Dimension
		si    float64
		texts []string
	}{
		{Inertia, 2.2, []string{"2.2 kg·m2", "2.2 kg m2", "2.2 kg*m2", "2.2 kg.m2", "2.2 kg·m²", "2.2 kg m²", "2.2 kg.m²",
			"2.2 kg m^2", "2.2 kg · m2", "2.2kg·m2", " 2.2 kg·m2 ", "2.2\u00a0kg·m2", "2.2\u2009kg\u202fm²", "2.2 kg\u22c5m2", "+2.2 kg-m2"}},
		{Flow, 0.125, []string{"450 m3/h", "450 m³/h", "450m3/h", "450 m^3 / h", "4.5e2 m3/h", "4.5E+2 m3/hr", "45000e-2 m3/h", "45000e\u22122 m3/h"}},
		{Pressure, -5e4, []string{"-0.5 bar", "\u22120.5 bar", "-.5 bar", "-0.5 barg", "-0.5 bar g", "-0.5 bar(g)", "-0.5 bar (g)", "-0.5 bar gauge", "-50 kPa g"}},
		{Temperature, 288.15, []string{"15 °C", "15°C", "15 degC", "15 deg C", "15 ° C", "15 \u2103", "15 ºC", "288.15 K", "59 °F", "59 degF"}},
		{Torque, 3, []string{"3 N·m", "3 Nm", "3 N m", "3 N.m", "3 N*m"}},
		{Length, 1e-4, []string{"100 µm", "100 \u03bcm", "100 um"}},
		{Rotation, 2 * math.Pi, []string{"60 rpm", "60 1/min", "60 min-1", "60 min⁻¹", "60 rev/min", "1 Hz", "60 1 / min"}},
		{TorsionRate, 180 / math.Pi, []string{"1 N·m/deg", "1 Nm/°", "1 N m/deg"}},
		{Angle, math.Pi / 6, []string{"30 deg", "30°", "30 °"}},
		{Volume, 3.785411784e-3, []string{"1 gal", "1 US gal", "1 gal(US)", "1 gal (US)"}},
	} {
		for _, text := range c.texts {
			q, err := Parse(text, c.dim)
			require.NoError(t, err, text)
			require.InEpsilon(t, c.si, q.SI, 1e-15, text)
		}
	}
}

func TestGaugeAndAbsolute(t *testing.T) {
	const psi10 = 68947.57293168361
	for _, c := range []struct {
		text     string
		dim      Dimension
		si       float64
		absolute bool
	}{
		{"3 bar", Pressure, 3e5, false},
		{"3 barg", Pressure, 3e5, false},
		{"3 bar abs", Pressure, 3e5, true},
		{"3 bara", Pressure, 3e5, true},
		{"3 bar a", Pressure, 3e5, true},
		{"3 bar(a)", Pressure, 3e5, true},
		{"3 bar (abs)", Pressure, 3e5, true},
		{"3 bar absolute", Pressure, 3e5, true},
		{"10 psia", Pressure, psi10, true},
		{"10 psig", Pressure, psi10, false},
		{"101.3 kPa abs", Pressure, 101300, true},
		{"10 m water abs", Pressure, 98066.5, true},
		{"10 mWC g", Pressure, 98066.5, false},
		{"101.3 kPa", AbsolutePressure, 101300, true},
		{"1 Paa", Pressure, 1, true},
		{"14.5 psi abs", AbsolutePressure, 1.45 * psi10, true},
		{"3 bar", PressureDifference, 3e5, false},
		{"2 GPa", Modulus, 2e9, false},
	} {
		q, err := Parse(c.text, c.dim)
		require.NoError(t, err, c.text)
		require.InEpsilon(t, c.si, q.SI, 1e-15, c.text)
		require.Equal(t, c.absolute, q.Absolute, c.text)
	}
}

func TestTextIsWhatWasWritten(t *testing.T) {
	q, err := Parse(" \u22120.50\u00a0bar ", Pressure)
	require.NoError(t, err)
	require.Equal(t, "\u22120.50\u00a0bar", q.Text)
}

func TestZeroHasNoSign(t *testing.T) {
	q, err := Parse("-0.0 m", Length)
	require.NoError(t, err)
	require.False(t, math.Signbit(q.SI))
}

func TestColumns(t *testing.T) {
	u, err := ParseUnit("m3/h", Flow)
	require.NoError(t, err)
	q, err := u.Parse("36")
	require.NoError(t, err)
	require.Equal(t, Quantity{SI: 0.01, Dim: Flow, Text: "36"}, q)

	abs, err := ParseUnit(" psia", Pressure)
	require.NoError(t, err)
	q, err = abs.Parse("0")
	require.NoError(t, err)
	require.True(t, q.Absolute)
	_, err = abs.Parse("-1")
	require.EqualError(t, err, "an absolute pressure is never negative: write a gauge pressure, or check the sign")

	_, err = u.Parse("36 m3/h")
	require.EqualError(t, err, `"m3/h" follows the number: write the number alone, its unit is m3/h`)
	plain, err := ParseUnit("", Number)
	require.NoError(t, err)
	_, err = plain.Parse("3 m")
	require.EqualError(t, err, `"m" follows the number: write the number alone, its unit is none (a plain number)`)
	_, err = ParseUnit("kg·m2 (GD2)", Inertia)
	require.EqualError(t, err, "GD2 = 4 I: write the inertia I as kg·m2")
	_, err = ParseUnit(strings.Repeat("m", 401), Length)
	require.EqualError(t, err, "the text is too long for a unit: e.g. 52 m")
	_, err = ParseUnit("  bar", Flow)
	var e *Error
	require.ErrorAs(t, err, &e)
	require.Equal(t, 2, e.Offset)
	require.Equal(t, `"bar" is a pressure, a flow is wanted: e.g. 430 m3/h`, e.Error())
}

func TestDimensionNamed(t *testing.T) {
	for _, d := range Dimensions() {
		got, ok := DimensionNamed(d.String())
		require.True(t, ok, d)
		require.Equal(t, d, got)
	}
	for _, name := range []string{"", "lenght", "Length", "unknown dimension"} {
		_, ok := DimensionNamed(name)
		require.False(t, ok, name)
	}
}
