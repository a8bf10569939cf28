package kernel

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"
)

// The line of D. Covas and others, J. Hydraul. Res. 42 (2004) 517-531 and 43 (2005) 56-70, from memory: creep and the modulus rho a^2 c1 D/e with
// water and a wall of 6.3 mm anchored throughout, Poisson's ratio 0.46.
var (
	plastic      = tube{length: 277, bore: 0.0506, a: 395, nu: 1e-6}
	creep        = KelvinVoigt{J: []float64{1.057e-10, 1.054e-10, 0.9051e-10, 0.2617e-10, 0.7456e-10}, Tau: []float64{0.05, 0.5, 1.5, 5, 10}}
	creepModulus = 998.2 * 395 * 395 * 1.064 * 0.0506 / 0.0063
)

// A viscoelastic wall under a head at the left end that swings, closed on the right: the heads of the ends are as 1 to 1/cos(kappa L) with
//
//	kappa^2 = (omega/a)^2 (1 + sum C_k/(1 + i omega tau_k))
func TestWall(t *testing.T) {
	for _, c := range []struct {
		omega float64
		n     int
	}{{1, 40}, {2.1, 40}, {2.1, 160}, {5, 160}} {
		l := plastic.line(c.n, 0)
		steady(l, 0, 10)
		l.Wall(creep, creepModulus)
		left, right, seen := 0.0, complex(0, 0), 0.0
		turn := 2 * math.Pi / c.omega
		last := 30 * math.Ceil(10/turn) * turn
		for k := 1; seen < turn; k++ {
			s := float64(k) * l.Dt
			left = 10 + math.Sin(c.omega*s)
			feed(l, left, 0)
			if s > last {
				weight := math.Min(l.Dt, turn-seen)
				seen += weight
				right += cmplx.Rect(2/turn*weight*(l.Right.H-10), -c.omega*s) * 1i
			}
		}
		sum := complex(1, 0)
		for k, j := range creep.J {
			sum += complex(creepModulus*j, 0) / complex(1, c.omega*creep.Tau[k])
		}
		want := 1 / cmplx.Cos(complex(c.omega*plastic.length/plastic.a, 0)*cmplx.Sqrt(sum))
		t.Logf("omega %g, %d reaches: %.5f against %.5f", c.omega, c.n, right, want)
		require.Less(t, cmplx.Abs(right-want), 5e-3*cmplx.Abs(want))
	}
}

// A valve shut at the end of the plastic line: the wall creeps, and the swings die away and grow longer, which an elastic wall would not show.
func TestWallAfterClosure(t *testing.T) {
	n := 100
	elastic, viscous := plastic.line(n, 0), plastic.line(n, 0)
	left := steady(elastic, 1.01e-3, 45)
	steady(viscous, 1.01e-3, 45)
	viscous.Wall(creep, creepModulus)
	var e, v []float64
	for range 40 * n {
		feed(elastic, left, 0)
		feed(viscous, left, 0)
		e, v = append(e, elastic.Right.H-left), append(v, viscous.Right.H-left)
	}
	joukowsky := plastic.a * 1.01e-3 / plastic.area() / gravity
	require.InEpsilon(t, joukowsky, e[36*n+n], 1e-9, "the elastic line swings for ever")
	require.InEpsilon(t, joukowsky, v[0], 0.02)
	top := func(from, to int) (x float64) {
		for _, h := range v[from:to] {
			x = math.Max(x, h)
		}
		return x
	}
	t.Logf("Joukowsky %.2f m; at the valve %.2f m at first, %.2f m before the wave comes back; the third rise is %.2f m", joukowsky, v[0], v[2*n-2], top(8*n, 12*n))
	require.Less(t, top(8*n, 12*n), 0.6*joukowsky)
}
