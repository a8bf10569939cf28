package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// cosineSquared is the load of a plate that feels the velocity normal to it.
type cosineSquared float64

func (c cosineSquared) At(y float64) (f, df float64) {
	sin, cos := math.Sincos(y)
	return float64(c) * cos * cos, -2 * float64(c) * sin * cos
}

func table(t require.TestingT, x, f []float64) *Table {
	tab, err := NewTable(x, f)
	require.NoError(t, err)
	return tab
}

func TestFunctionDerivatives(t *testing.T) {
	curtain := NewCurtain(0.65, 0.65, 4*0.6, 1.13)
	for name, f := range map[string]Func{
		"constant":   Constant(3),
		"sine":       Sine{Amplitude: 26, Phase: 0.1},
		"polynomial": Polynomial{1, -2, 0.5, 3},
		"table":      table(t, []float64{0, 0.2, 0.5, 1.2}, []float64{0, 1, 3, 3.5}),
		"curtain":    curtain,
		"ring":       NewCurtain(3, 0.65, 4*1.6/0.25, 0.03),
		"gap load":   GapLoad{Form: Plate{AtStop: 0.62, Stop: 1.13}, Open: 0.65, Conductance: curtain},
		"edge jet":   NewEdgeJet(0.65, 0.65, 2.4, 1.13),
		"plate":      Plate{AtStop: 0.62, Stop: 1.13},
		"normal":     cosineSquared(2),
	} {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			y := rapid.Float64Range(1e-3, 1.1).Draw(t, "y")
			const e = 1e-6
			_, d := f.At(y)
			up, _ := f.At(y + e)
			down, _ := f.At(y - e)
			require.InDelta(t, (up-down)/(2*e), d, 2e-4*(1+math.Abs(d)), "y = %v", y)
		}))
	}
}

func TestTable(t *testing.T) {
	tab := table(t, []float64{0, 0.2, 0.5, 1.2}, []float64{0, 1, 3, 3.5})
	for _, c := range []struct{ y, f float64 }{{-1, 0}, {0, 0}, {0.2, 1}, {0.5, 3}, {1.2, 3.5}, {9, 3.5}} {
		f, _ := tab.At(c.y)
		require.InDelta(t, c.f, f, 1e-14)
	}
	last := 0.0
	for y := 0.0; y < 1.3; y += 0.01 {
		f, _ := tab.At(y)
		require.GreaterOrEqual(t, f, last-1e-14, "a monotone table has no overshoot")
		last = f
	}
	for _, bad := range []struct{ x, f []float64 }{
		{[]float64{0}, []float64{1}},
		{[]float64{0, 1}, []float64{1}},
		{[]float64{0, 0}, []float64{1, 2}},
		{[]float64{1, 0}, []float64{1, 2}},
		{[]float64{0, math.NaN()}, []float64{1, 2}},
		{[]float64{0, 1}, []float64{1, math.Inf(1)}},
	} {
		_, err := NewTable(bad.x, bad.f)
		require.ErrorIs(t, err, ErrTable)
	}
}

// FuzzTable: a table either refuses its points or is finite and between them everywhere.
func FuzzTable(f *testing.F) {
	f.Add(0.0, 0.5, 1.0, 0.0, 1.0, 2.0, 0.3)
	f.Add(0.0, 1e-300, 1.0, 0.0, 1e300, 2.0, 1e-301)
	f.Add(-1.0, 0.0, 1.0, 5.0, -1.0, 5.0, 0.5)
	f.Fuzz(func(t *testing.T, x0, x1, x2, f0, f1, f2, y float64) {
		for _, v := range []float64{x0, x1, x2, f0, f1, f2} {
			if math.Abs(v) > 1e100 || (v != 0 && math.Abs(v) < 1e-100) {
				t.Skip("beyond any unit")
			}
		}
		tab, err := NewTable([]float64{x0, x1, x2}, []float64{f0, f1, f2})
		if err != nil || math.IsNaN(y) {
			return
		}
		v, d := tab.At(y)
		lo, hi := min(f0, f1, f2), max(f0, f1, f2)
		slack := 1e-9 * (math.Abs(lo) + math.Abs(hi))
		if !(v >= lo-slack && v <= hi+slack) || math.IsNaN(d) {
			t.Fatalf("%g at %g, slope %g", v, y, d)
		}
	})
}

func TestCurtainLoss(t *testing.T) {
	// zeta = zeta_open + (1/(Cc alpha) - 1/(Cc alpha_max))^2, alpha_max capped at 1/Cc.
	c := NewCurtain(0.65, 0.65, 2.4, 1.13)
	for _, y := range []float64{0.05, 0.2, 0.5} {
		g, _ := c.At(y)
		require.InEpsilon(t, 0.65+math.Pow(1/(0.65*2.4*y)-1, 2), 1/(g*g), 1e-12)
	}
	g, slope := c.At(0.9)
	require.InEpsilon(t, 0.65, 1/(g*g), 1e-12)
	require.Zero(t, slope)
	g, slope = c.At(0)
	require.Zero(t, g)
	require.InEpsilon(t, 0.65*2.4, slope, 1e-12)

	// A disc of two edges does not open to the full bore: alpha_max = 4 (1 + 0.6) 0.12 = 0.768.
	ring := NewCurtain(3, 0.65, 4*1.6/0.25, 0.03)
	g, _ = ring.At(0.03)
	require.InEpsilon(t, 3, 1/(g*g), 1e-12)
	g, _ = ring.At(0.015)
	require.InEpsilon(t, 3+math.Pow(1/(0.65*0.384)-1/(0.65*0.768), 2), 1/(g*g), 1e-12)
}

func TestEdgeJet(t *testing.T) {
	j := NewEdgeJet(0.65, 0.65, 2.4, 1.13)
	stop := 0.65 * 2.4 * 1.13
	for _, y := range []float64{0.05, 0.2, 0.5, 1, 1.13} {
		g, _ := j.At(y)
		u := 0.65 * 2.4 * y
		require.InEpsilon(t, 0.65+1/(u*u)-1/(stop*stop), 1/(g*g), 1e-12)
	}
	g, slope := j.At(0)
	require.Zero(t, g)
	require.InEpsilon(t, 0.65*2.4, slope, 1e-12)
	g, slope = j.At(2)
	require.InEpsilon(t, 0.65, 1/(g*g), 1e-12)
	require.Zero(t, slope)
}

func TestPlate(t *testing.T) {
	p := Plate{AtStop: 0.6, Stop: 65 * math.Pi / 180}
	stop, _ := p.At(p.Stop)
	require.InDelta(t, 0.6, stop, 1e-12)
	// Rayleigh: a plate at 30 degrees of incidence bears (4 + pi)/2/(4 + pi/2) of the force of one across the stream.
	across, _ := p.At(0)
	at30, _ := p.At(60 * math.Pi / 180)
	require.InDelta(t, (4+math.Pi)/2/(4+math.Pi/2), at30/across, 1e-12)
}

func TestPhiInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-50, 50).Draw(t, "x")
		q, slope := phi(x, laminar)
		back, inverse := phiInverse(q, laminar)
		require.InDelta(t, x, back, 1e-14*(1e-3+math.Abs(x)))
		require.InEpsilon(t, 1/slope, inverse, 1e-12)
	})
}

func TestCoefficients(t *testing.T) {
	// V = 1.2199 C/sqrt(rho) at 998.2 kg/m3, converted from ft/s and ft3/lb by hand.
	for c, v := range map[float64]float64{30: 1.158, 35: 1.351, 40: 1.544, 48: 1.853, 55: 2.124, 60: 2.317, 80: 3.089, 100: 3.861, 140: 5.406} {
		require.InDelta(t, v, MinimumVelocity(c, 998.2), 5e-4, "C = %v", c)
	}
	require.InDelta(t, 1.2199, MinimumVelocity(1, 1), 5e-5)
	require.InDelta(t, 11.57, MinimumVelocity(60, 40), 5e-3)

	require.InDelta(t, 3599, KvFromZeta(0.3, 1), 0.5)
	require.InEpsilon(t, 1.599e-3*math.Pow(300, 4)/(3599*3599), ZetaFromKv(0.3, 3599), 5e-4)
	require.InEpsilon(t, 200*200/(25.01*math.Sqrt(2)), KvFromZeta(0.2, 2), 5e-4)
	require.InEpsilon(t, 0.7, ZetaFromKv(0.1, KvFromZeta(0.1, 0.7)), 1e-12)
}
