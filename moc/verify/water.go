package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network/fluid"
)

func water() []Case {
	return []Case{
		{"F1", Formula, "IAPWS R7-97(2012), Industrial Formulation 1997, tables 5 and 35", releaseTables},
		{"F2", Formula, "M. Chaplin, Water properties data, London South Bank University (independent compilation)", compilation},
	}
}

// releaseTables hold nine digits.
func releaseTables(context.Context) ([]Check, error) {
	const digits = 6e-9
	var checks []Check
	for _, c := range []struct{ T, p, volume, sound float64 }{
		{300, 3e6, 0.100215168e-2, 0.150773921e4},
		{300, 80e6, 0.971180894e-3, 0.163469054e4},
		{500, 3e6, 0.120241800e-2, 0.124071337e4},
	} {
		f, err := fluid.Water(c.T, c.p)
		if err != nil {
			return nil, err
		}
		at := fmt.Sprintf("at %g K and %g MPa", c.T, c.p/1e6)
		checks = append(checks,
			ratio("density "+at, "kg/m3", 1/c.volume, f.Density, digits),
			ratio("speed of sound "+at, "m/s", c.sound, f.SoundSpeed(), digits),
			ratio("bulk modulus "+at, "Pa", c.sound*c.sound/c.volume, f.BulkModulus, 3*digits))
	}
	for _, c := range []struct{ T, MPa float64 }{{300, 0.353658941e-2}, {500, 0.263889776e1}, {600, 0.123443146e2}} {
		f, err := fluid.Water(c.T, 20e6)
		if err != nil {
			return nil, err
		}
		checks = append(checks, ratio(fmt.Sprintf("vapour pressure at %g K", c.T), "MPa", c.MPa, f.VapourPressure/1e6, digits))
	}
	return checks, nil
}

// compilation is rounded to four digits, and its own trends break at some temperatures: a comparison within 0.5 %, viscosity within 2 %.
func compilation(context.Context) ([]Check, error) {
	rows := []struct{ degC, density, mPas, GPa, sound, kPa float64 }{
		{0, 999.8, 1.792, 1.966, 1402, 0.611},
		{10, 999.7, 1.307, 2.094, 1448, 1.228},
		{20, 998.2, 1.002, 2.193, 1483, 2.339},
		{30, 995.7, 0.797, 2.268, 1510, 4.247},
		{40, 992.2, 0.653, 2.319, 1530, 7.385},
		{50, 988.0, 0.547, 2.351, 1543, 12.353},
		{60, 983.2, 0.467, 2.365, 1551, 19.947},
		{70, 977.8, 0.400, 2.364, 1555, 31.202},
		{80, 971.8, 0.355, 2.349, 1554, 47.415},
		{90, 965.4, 0.310, 2.321, 1550, 70.181},
		{100, 958.4, 0.283, 2.282, 1543, 101.325},
	}
	var worst [5]Check // of each property, the temperature at which it deviates most
	for _, c := range rows {
		f, err := fluid.Water(c.degC+273.15, math.Max(101325, 1.01*1e3*c.kPa))
		if err != nil {
			return nil, err
		}
		at := fmt.Sprintf(", at %g °C where it deviates most of %d temperatures", c.degC, len(rows))
		for i, q := range [...]Check{
			ratio("density"+at, "kg/m3", c.density, f.Density, 5e-3),
			ratio("viscosity"+at, "mPa s", c.mPas, 1e3*f.Viscosity, 2e-2),
			ratio("isentropic bulk modulus"+at, "GPa", c.GPa, f.BulkModulus/1e9, 5e-3),
			ratio("speed of sound"+at, "m/s", c.sound, f.SoundSpeed(), 5e-3),
			ratio("vapour pressure"+at, "kPa", c.kPa, f.VapourPressure/1e3, 5e-3),
		} {
			if worst[i].Quantity == "" || math.Abs(q.Deviation) > math.Abs(worst[i].Deviation) {
				worst[i] = compared(q)
			}
		}
	}
	return worst[:], nil
}
