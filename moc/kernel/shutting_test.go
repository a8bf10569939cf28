package kernel

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"
)

// shutting is the exact rise of the head at the valve of a line of oil over its steady value, m, at the time t after the valve begins to shut,
// its flow falling evenly to nothing in the time closing. In laminar flow between the steady profile and rest all is linear, and with F = 1 - 2 I1(x)/(x I0(x)), x = (D/2) sqrt(s/nu), the
// Laplace transform is
//
//	H(s) = B Q0/(s sqrt(F)) tanh(s L/(a sqrt(F))) (1 - exp(-s closing))/(s closing)
//
// inverted by its Fourier series over 0..2 T with Lanczos' factors against the jumps.
func shutting(p tube, joukowsky, closing, t, period float64) float64 {
	const n = 20_000
	c := 10 / period
	sum := 0.0
	for k := range n {
		s := complex(c, float64(k)*math.Pi/period)
		x := complex(p.bore/2, 0) * cmplx.Sqrt(s/complex(p.nu, 0))
		f := cmplx.Sqrt(1 - 2*bessel(x)/x)
		shut := (1 - cmplx.Exp(-s*complex(closing, 0))) / (s * complex(closing, 0))
		y := real(complex(joukowsky, 0) * shut / (s * f) * cmplx.Tanh(s*complex(p.length/p.a, 0)/f) * cmplx.Rect(1, imag(s)*t))
		if k == 0 {
			y /= 2
		} else {
			z := math.Pi * float64(k) / n
			y *= math.Sin(z) / z
		}
		sum += y
	}
	return math.Exp(c*t) / period * sum
}

// bessel is I1(x)/I0(x): the power series, far out the asymptotic one.
func bessel(x complex128) complex128 {
	i0, i1 := complex(1, 0), complex(1, 0)
	a, b := i0, i1
	if cmplx.Abs(x) > 25 {
		for k := 1; k < 12; k++ {
			c, odd := complex(float64(k), 0)*8*x, float64((2*k-1)*(2*k-1))
			a *= complex(odd, 0) / c
			b *= complex(odd-4, 0) / c
			i0, i1 = i0+a, i1+b
		}
		return i1 / i0
	}
	for k := 1; k < 150; k++ {
		c := complex(float64(k), 0)
		a *= x * x / 4 / (c * c)
		b *= x * x / 4 / (c * (c + 1))
		i0, i1 = i0+a, i1+b
	}
	return i1 * x / 2 / i0
}

// The line of oil in the middle of the first twelve plateaus at the valve and a tenth before their ends, shut within a step and in a quarter of
// 2L/a. A jump of the flow is the hardest case: the front it sends is steeper than any grid near the valve.
func TestShutting(t *testing.T) {
	q := 0.128 * oil.area()
	joukowsky := oil.a * 0.128 / gravity
	phase := 2 * oil.length / oil.a
	for _, c := range []struct {
		closing float64 // of 2L/a; 0: one step
		n       int
		bound   float64
	}{{0, 20, 0.015}, {0, 80, 6e-3}, {0, 320, 2.5e-3}, {0.25, 20, 3e-3}, {0.25, 80, 1e-3}, {0.25, 320, 1e-3}} {
		l, plain := oil.line(c.n, 0), oil.line(c.n, 0)
		l.R = 32 * oil.nu / (gravity * oil.bore * oil.bore * oil.area()) * oil.length / float64(c.n) / q
		plain.R = l.R
		left := steady(l, q, 0)
		steady(plain, q, 0)
		l.Unsteady(Zielke(oil.nu, oil.bore))
		plain.Unsteady(Poiseuille(oil.nu, oil.bore))
		closing := math.Max(c.closing*phase, l.Dt)
		worst, late := 0.0, 0.0
		var peaks [3]string
		for k := range 24 * c.n {
			now := float64(k+1) * l.Dt
			end := q * math.Max(0, 1-now/closing)
			feed(l, left, end)
			feed(plain, left, end)
			for _, share := range []float64{0.5, 0.9} {
				if (k+1)%(2*c.n) != int(share*float64(2*c.n)) {
					continue
				}
				i := k / (2 * c.n)
				exact := shutting(oil, joukowsky, closing, now, 12*phase)
				worst = math.Max(worst, math.Abs(l.Right.H-exact))
				late = math.Max(late, math.Abs(plain.Right.H-exact))
				if share == 0.5 && i%2 == 0 && i < 6 {
					peaks[i/2] = fmt.Sprintf("%.3f (exact %.3f, quasi-steady %.3f) m", l.Right.H-left, exact-left, plain.Right.H-left)
				}
			}
		}
		t.Logf("shut in %.3g of 2L/a, %d reaches: largest deviation %.5f of a Joukowsky head, quasi-steady %.3f; rises %v", closing/phase, c.n, worst/joukowsky, late/joukowsky, peaks)
		require.Less(t, worst, c.bound*joukowsky)
		require.Greater(t, late, 0.2*joukowsky)
	}
}
