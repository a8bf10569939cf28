package kernel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The exact column is the sum over 30 zeros of J2, calculated independently.
func TestZielke(t *testing.T) {
	w := Zielke(1e-6, 0.1)
	for _, c := range [][2]float64{{0.001, 7.7049}, {0.005, 2.819041}, {0.010, 1.686457}, {0.020, 0.913967}, {0.050, 0.297603}, {0.100, 0.072382}, {0.200, 0.005119}} {
		require.InEpsilon(t, c[1], w.At(c[0]), 5e-4, "tau %g", c[0])
	}
	for _, tau := range []float64{zielkeChange, 0.02} {
		require.InEpsilon(t, w.At(tau*(1-1e-9)), w.At(tau*(1+1e-9)), 3e-4, "a jump at %g", tau)
	}
	// Squares of the zeros: tables of Bessel functions.
	for i, n := range []float64{26.3746, 70.8500, 135.0207, 218.9202, 322.5551, 445.93, 589.04, 751.89} {
		require.InEpsilon(t, n, zielkeExponents[i], 2e-5)
	}
	// Rayleigh's sum of 1/j^2 over the zeros of J2 is 1/12.
	require.InEpsilon(t, 1.0/12, w.area(0, 5), 2e-5)
}

func TestVardyBrown(t *testing.T) {
	for _, c := range [][2]float64{{1e4, 526.2}, {1e5, 2484.8}, {1e6, 9036.6}} {
		require.InEpsilon(t, c[1], smoothDecay(c[0]), 1e-3)
		w := VardyBrown(1e-6, 0.1, c[0])
		require.InEpsilon(t, 0.282095*math.Exp(-c[1]*1e-4)/math.Sqrt(1e-4), w.At(1e-4), 1e-3)
		require.InEpsilon(t, 1/(2*math.Sqrt(smoothDecay(c[0]))), w.area(0, 1), 1e-12)
	}
}

func TestShearDecay(t *testing.T) {
	for _, c := range [][3]float64{{1870, 0.0042169, 0.03247}, {3750, 0.0023950, 0.02447}, {5600, 0.0017452, 0.02089}, {1e4, 0.0011181, 0.01672},
		{1e5, 2.2036e-4, 0.00742}, {1e6, 5.4677e-5, 0.00370}, {1e7, 1.7079e-5, 0.00207}} {
		require.InEpsilon(t, c[1], ShearDecay(c[0]), 1e-3)
		require.InDelta(t, c[2], math.Sqrt(ShearDecay(c[0]))/2, 1e-3*c[2]+5e-6)
	}
	require.InEpsilon(t, 0.034496, float64(AccelerationAt(100)), 1e-4)
	require.InEpsilon(t, 0.01672, float64(AccelerationAt(1e4)), 1e-3)
}

// The means of W over a step from its areas, against the midpoint rule.
func TestArea(t *testing.T) {
	for _, w := range []Weighting{Zielke(1e-6, 0.1), VardyBrown(1e-6, 0.1, 1e5), VardyBrownRough(1e-6, 0.1, 1e6, 1e-3)} {
		for _, from := range []float64{1e-6, 1e-4, 3e-3, 9e-3, 0.012} {
			to, sum, n := 1.5*from, 0.0, 20000
			for i := range n {
				sum += w.At(from+(to-from)*(float64(i)+0.5)/float64(n)) * (to - from) / float64(n)
			}
			require.InEpsilon(t, sum, w.area(from, to), 3e-5, "from %g", from)
		}
	}
}

func TestExponentials(t *testing.T) {
	for _, c := range []struct {
		name string
		w    Weighting
	}{{"laminar", Zielke(1e-6, 0.1)}, {"smooth 4e3", VardyBrown(1e-6, 0.1, 4e3)}, {"smooth 1e6", VardyBrown(1e-6, 0.1, 1e6)}, {"rough", VardyBrownRough(1e-6, 0.5, 1e6, 1e-4)}} {
		for step := 1e-13; step < 100; step *= 10 {
			e, b, first := exponentials(c.w, step)
			far := math.Min(7/c.w.slow, longest*step)
			worst, sum := 0.0, first
			for k := range e {
				require.GreaterOrEqual(t, b[k], 0.0)
				require.True(t, e[k] >= 0 && e[k] < 1)
				sum += b[k]
			}
			require.Greater(t, first, 0.0)
			require.InEpsilon(t, c.w.area(0, step)/step, sum, 1e-12)
			for j := 1.0; j*step <= far; j = math.Ceil(j * 1.03) {
				s := 0.0
				for k := range e {
					s += b[k] * math.Pow(e[k], j)
				}
				worst = math.Max(worst, math.Abs(s*step/c.w.area(j*step, (j+1)*step)-1))
			}
			t.Logf("%s, step %.0e, %.0f steps: %.2g", c.name, step, far/step, worst)
			require.Less(t, worst, 8e-3)
			if far < 1e4*step {
				require.Less(t, worst, 2e-3)
			}
		}
	}
}

func BenchmarkExponentials(b *testing.B) {
	w := VardyBrown(1e-6, 0.3, 1e5)
	for b.Loop() {
		exponentials(w, 1e-7)
	}
}
