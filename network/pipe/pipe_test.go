package pipe

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/fluid"
)

func water(t testing.TB, rho float64) fluid.Fluid {
	t.Helper()
	f, err := fluid.Liquid("water", rho, 2.19e9, 1.002e-3, 2339)
	require.NoError(t, err)
	return f
}

// TestWaveSpeed compares with wave speeds worked out separately from the formulas
// of the package comment, K = 2.19 GPa; tolerance 0.05 %. The two copper rows are
// the laboratory pipes of Adelaide and Gdansk.
func TestWaveSpeed(t *testing.T) {
	restraints := []Restraint{AnchoredUpstream, AnchoredThroughout, ExpansionJoints}
	for _, c := range []struct {
		name                           string
		rho, bore, wall, young, poison float64
		thin, thick                    [3]float64
	}{
		{"steel", 998.2, 0.600, 0.0060, 207e9, 0.30, [3]float64{1074.8, 1057.3, 1032.5}, [3]float64{1069.6, 1052.4, 1028.3}},
		{"ductile iron", 998.2, 0.300, 0.0072, 170e9, 0.28, [3]float64{1225.2, 1211.5, 1194.8}, [3]float64{1216.0, 1203.0, 1187.0}},
		{"PVC", 998.2, 0.1808, 0.0096, 3.0e9, 0.45, [3]float64{433.9, 428.2, 385.7}, [3]float64{407.2, 402.7, 368.3}},
		{"HDPE", 998.2, 0.1636, 0.0182, 0.9e9, 0.46, [3]float64{350.7, 346.8, 309.7}, [3]float64{307.1, 304.7, 281.0}},
		{"concrete", 998.2, 1.200, 0.120, 30e9, 0.15, [3]float64{1144.4, 1131.5, 1126.1}, [3]float64{1109.7, 1099.0, 1094.5}},
		{"copper, Adelaide", 999.1, 0.0221, 0.00163, 120e9, 0.34, [3]float64{1348.5, 1341.1, 1325.6}, [3]float64{1329.5, 1322.8, 1308.9}},
		{"copper, Gdansk", 997.7, 0.016, 0.001, 120e9, 0.34, [3]float64{1329.2, 1320.8, 1303.4}, [3]float64{1311.1, 1303.5, 1287.7}},
	} {
		f := water(t, c.rho)
		m := Material{Name: c.name, Young: c.young, Poisson: c.poison}
		for i, r := range restraints {
			thin := WallWaveSpeed(f, c.bore, c.wall, c.young, r.ThinWall(c.poison), GasContent{})
			thick := WallWaveSpeed(f, c.bore, c.wall, c.young, r.ThickWall(c.poison, c.bore, c.wall), GasContent{})
			require.InEpsilon(t, c.thin[i], thin, 5e-4, "%s, %s, thin", c.name, r)
			require.InEpsilon(t, c.thick[i], thick, 5e-4, "%s, %s, thick", c.name, r)
			want := thin
			if c.bore/c.wall < 25 {
				want = thick
			}
			require.Equal(t, want, WaveSpeed(f, c.bore, c.wall, m, r, GasContent{}), c.name)
		}
	}
	// free water, the same source
	require.InEpsilon(t, 1481.2, water(t, 998.2).SoundSpeed(), 5e-4)
}

// TestThickWallBelow25: the thick form holds below bore/wall = 25 and only there.
func TestThickWallBelow25(t *testing.T) {
	f, steel := water(t, 998.2), Material{Young: 207e9, Poisson: 0.3}
	r := AnchoredThroughout
	for bore, c1 := range map[float64]float64{0.249: r.ThickWall(0.3, 0.249, 0.01), 0.25: r.ThinWall(0.3)} {
		require.Equal(t, WallWaveSpeed(f, bore, 0.01, steel.Young, c1, GasContent{}), WaveSpeed(f, bore, 0.01, steel, r, GasContent{}))
	}
}

// TestMeasuredWaveSpeed: thick-wall copper against measurement, 1319 m/s at
// Adelaide and 1298 m/s at Gdansk (Bergant, Simpson and Vitkovsky, J. Hydraul.
// Res. 39 (2001) 249-257, from memory), within 1 %.
func TestMeasuredWaveSpeed(t *testing.T) {
	copper, _ := Lookup("copper")
	require.InEpsilon(t, 1319, WaveSpeed(water(t, 999.1), 0.0221, 0.00163, copper, AnchoredThroughout, GasContent{}), 0.01)
	require.InEpsilon(t, 1298, WaveSpeed(water(t, 997.7), 0.016, 0.001, copper, AnchoredThroughout, GasContent{}), 0.01)
}

// TestRigidPipe is Chaudhry, Applied Hydraulic Transients, example 1.1 (answer
// from memory): oil in a rigid pipe of 0.5 m, 0.4 m3/s stopped at once.
func TestRigidPipe(t *testing.T) {
	oil, err := fluid.Liquid("oil", 900, 1.5e9, 0.05, 0)
	require.NoError(t, err)
	a := WallWaveSpeed(oil, 0.5, 0.01, math.Inf(1), 1, GasContent{})
	require.InEpsilon(t, 1290.99, a, 5e-4)
	v := 0.4 / (math.Pi * 0.25 * 0.5 * 0.5)
	require.InEpsilon(t, 268.09, a*v/9.81, 5e-4)
}

// TestFreeGas: one part in a thousand by volume at atmospheric pressure slows a
// wave in a rigid pipe to 311.64 m/s (1/K_m = 0.999/2.19e9 + 0.001/101325 1/Pa,
// rho_m = 997.2018 kg/m3, by hand).
func TestFreeGas(t *testing.T) {
	f := water(t, 998.2)
	gas := GasContent{Fraction: 1e-3, Pressure: 101325}
	require.InDelta(t, 311.64, WallWaveSpeed(f, 0.5, 0.01, math.Inf(1), 1, gas), 0.01)
	none := WallWaveSpeed(f, 0.5, 0.01, 207e9, 1, GasContent{})
	last := none
	for _, phi := range []float64{1e-9, 1e-6, 1e-4, 1e-3, 1e-2} {
		a := WallWaveSpeed(f, 0.5, 0.01, 207e9, 1, GasContent{phi, 101325})
		require.Less(t, a, last)
		last = a
	}
	require.InEpsilon(t, none, WallWaveSpeed(f, 0.5, 0.01, 207e9, 1, GasContent{1e-12, 101325}), 1e-7)
}

// TestColebrook compares with the closed form by the Lambert W function in 30
// digits.
func TestColebrook(t *testing.T) {
	for _, c := range []struct{ re, k, f float64 }{
		{4000, 0, 0.0399070140556349},
		{4000, 0.05, 0.0769868348892249},
		{1e5, 0, 0.0179897730842738},
		{1e5, 1e-4, 0.0185138660774716},
		{1e6, 1e-3, 0.0199434658404769},
		{1e7, 1e-5, 0.00899571174483444},
		{1e8, 0, 0.00594046635163676},
	} {
		require.InEpsilon(t, c.f, FrictionFactor(c.re, c.k), 1e-11, "Re %g, k/D %g", c.re, c.k)
	}
	// fully rough limit
	rough := 2 * math.Log10(3.7/0.01)
	require.InEpsilon(t, 1/(rough*rough), FrictionFactor(1e14, 0.01), 1e-9)
}

func TestFrictionFactor(t *testing.T) {
	require.Equal(t, 0.064, FrictionFactor(1000, 0.01))
	require.Equal(t, 0.064, FrictionFactor(-1000, 0.01))
	require.Equal(t, 64.0, FrictionFactor(0, 0))
	for _, k := range []float64{0, 1e-5, 1e-3, 0.05} {
		for _, re := range []float64{laminarTo, turbulentFrom} {
			const d = 1e-3
			l, m, r := FrictionFactor(re-d, k), FrictionFactor(re, k), FrictionFactor(re+d, k)
			require.InDelta(t, l, m, 1e-7)
			require.InDelta(t, m, r, 1e-7)
			require.InDelta(t, (m-l)/d, (r-m)/d, 1e-8) // slope, about 1e-5
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		re := math.Exp(rapid.Float64Range(math.Log(1e-6), math.Log(1e12)).Draw(t, "log Re"))
		k := rapid.Float64Range(-1, 1).Draw(t, "k/D")
		f := FrictionFactor(re, k)
		require.True(t, f > 0 && f <= 64)
		more := re * 1.001
		require.Greater(t, FrictionFactor(more, k)*more*more, f*re*re, "lost head must rise with the flow")
	})
	for _, odd := range []float64{0, math.Inf(1), math.MaxFloat64, math.SmallestNonzeroFloat64} {
		for _, k := range []float64{0, math.Inf(1), -1} {
			require.False(t, math.IsNaN(FrictionFactor(odd, k)), "Re %g, k/D %g", odd, k)
		}
	}
}

func TestMaterials(t *testing.T) {
	for _, name := range Names() {
		for _, written := range []string{name, strings.ToUpper(name), "  " + strings.ReplaceAll(name, " ", "  ")} {
			m, ok := Lookup(written)
			require.True(t, ok, written)
			require.Equal(t, name, m.Name)
		}
		m, _ := Lookup(name)
		require.True(t, m.Young > 0.7e9 && m.Young < 212e9, name)
		require.True(t, m.Poisson > 0.09 && m.Poisson < 0.5, name)
		require.True(t, m.Roughness > 0 && m.Roughness < 3e-3, name)
		require.Contains(t, m.Status, "common practice")
	}
	for alias, name := range aliases {
		m, ok := Lookup(alias)
		require.True(t, ok)
		require.Equal(t, name, m.Name)
	}
	_, ok := Lookup("cheese")
	require.False(t, ok)
}

func TestRestraint(t *testing.T) {
	for _, r := range []Restraint{AnchoredThroughout, AnchoredUpstream, ExpansionJoints} {
		got, err := ParseRestraint(" " + strings.ToUpper(r.String()))
		require.NoError(t, err)
		require.Equal(t, r, got)
	}
	_, err := ParseRestraint("anchored througout")
	require.ErrorIs(t, err, ErrRestraint)
	require.ErrorContains(t, err, `did you mean "anchored throughout"`)
	require.Equal(t, "Restraint(7)", Restraint(7).String())
}
