package kernel

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/require"
)

const gravity = 9.80665

// tube is a pipe between a reservoir on the left and an end of given flow on the right.
type tube struct{ length, bore, a, nu float64 }

// The line of E. L. Holmboe, W. T. Rouleau, The effect of viscous shear on transients in liquid lines, J. Basic Eng. 89 (1967) 174-180, from memory.
var oil = tube{length: 36.09, bore: 0.0254, a: 1324, nu: 3.967e-5}

func (p tube) area() float64 { return math.Pi / 4 * p.bore * p.bore }

func (p tube) line(n int, r float64) *Line {
	return NewLine(n, p.a/(gravity*p.area()), r, p.length/p.a/float64(n), zeros(n+1), 0)
}

// steady sets the flow q of the line with the head right at the right end, and gives the head at the left end.
func steady(l *Line, q, right float64) float64 {
	h := make([]float64, l.N+1)
	for i := range h {
		h[i] = right + l.R*q*math.Abs(q)*float64(l.N-i)
	}
	l.Set(h, q)
	return h[0]
}

// feed advances a line with the head given on the left and the flow given on the right.
func feed(l *Line, left, q float64) {
	cm, cp := l.ArriveLeft(), l.ArriveRight()
	zl, zr := math.Abs(l.Left.Q), math.Abs(l.Right.Q)
	ql := (left - cm) / l.Impedance(l.Left.Q)
	h := cp - l.Impedance(l.Right.Q)*q
	l.Interior()
	l.SetLeft(left, ql, zl)
	l.SetRight(h, q, zr)
}

// mode lets the first mode of a line go from rest, closed on the right and with the head 0 on the left, and gives the head at the right end.
func mode(l *Line, steps int) []float64 {
	h := make([]float64, steps+1)
	h[0] = l.Right.H
	for k := range steps {
		feed(l, 0, 0)
		h[k+1] = l.Right.H
	}
	return h
}

func sine(l *Line) {
	h := make([]float64, l.N+1)
	for i := range h {
		h[i] = math.Sin(math.Pi / 2 * float64(i) / float64(l.N))
	}
	l.Set(h, 0)
}

// Linear friction: the telegraph equation. H" + R H' + omega^2 H = 0 with R = 32 nu/D^2 for the first mode.
func TestTelegraph(t *testing.T) {
	n := 100
	l := oil.line(n, 0)
	sine(l)
	l.Unsteady(Poiseuille(oil.nu, oil.bore))
	h := mode(l, 40*n)
	half := 16 * oil.nu / (oil.bore * oil.bore)
	require.InEpsilon(t, 0.98382, half, 1e-4)
	omega := math.Sqrt(math.Pow(math.Pi/2*oil.a/oil.length, 2) - half*half)
	worst := 0.0
	for k, x := range h {
		s := float64(k) * l.Dt
		worst = math.Max(worst, math.Abs(x-math.Exp(-half*s)*(math.Cos(omega*s)+half/omega*math.Sin(omega*s))))
	}
	t.Logf("largest deviation %.2g, amplitude ratio a period %.6f", worst, h[40*n]/h[36*n])
	require.Less(t, worst, 1e-4)
	require.InEpsilon(t, 0.89828, h[40*n]/h[36*n], 1e-3)
}

// root follows Newton's method with a difference quotient.
func root(f func(complex128) complex128, s complex128) complex128 {
	for range 60 {
		d := s * 1e-6
		s -= f(s) * d / (f(s+d) - f(s))
	}
	return s
}

// The first mode decays and turns as the closed form says: exp(s t) with
//
//	laminar    s^2 + omega^2 (1 - 2 I1(x)/(x I0(x))) = 0,  x = (D/2) sqrt(s/nu)       (the flow between cylinders of liquid, no weighting function)
//	turbulent  s^2 (1 + 2/sqrt(s/rate + B)) + omega^2 = 0,  rate = 4 nu/D^2           (W's Laplace transform)
func TestModes(t *testing.T) {
	omega := math.Pi / 2 * oil.a / oil.length
	w2 := complex(omega*omega, 0)
	for _, c := range []struct {
		name string
		f    Friction
		eq   func(s complex128) complex128
	}{
		{"laminar", Zielke(oil.nu, oil.bore), func(s complex128) complex128 {
			x := complex(oil.bore/2, 0) * cmplx.Sqrt(s/complex(oil.nu, 0))
			return s*s + w2*(1-2*bessel(x)/x)
		}},
		{"turbulent", VardyBrown(1e-6, oil.bore, 2e4), func(s complex128) complex128 {
			rate := complex(4e-6/(oil.bore*oil.bore), 0)
			return s*s*(1+2/cmplx.Sqrt(s/rate+863.0697)) + w2
		}},
	} {
		s := root(c.eq, complex(-1, omega))
		for _, n := range []int{20, 40, 80} {
			l := oil.line(n, 0)
			sine(l)
			l.Unsteady(c.f)
			h := mode(l, 40*n)
			decay, turn := ring(h, l.Dt)
			t.Logf("%s, %d reaches: decay %.4f 1/s against %.4f, frequency %.4f against %.4f", c.name, n, decay, -real(s), turn, imag(s))
			if n == 80 {
				require.InEpsilon(t, -real(s), decay, 5e-3)
				require.InEpsilon(t, imag(s), turn, 5e-4)
			}
		}
	}
}

// ring is the decay and the angular frequency of a ringing history, from its extremes after the first period.
func ring(h []float64, dt float64) (decay, turn float64) {
	var at, size []float64
	for k := 1; k+1 < len(h); k++ {
		if (h[k]-h[k-1])*(h[k+1]-h[k]) < 0 {
			a, b := (h[k+1]-h[k-1])/2, h[k+1]-2*h[k]+h[k-1]
			at, size = append(at, (float64(k)-a/b)*dt), append(size, h[k]-a*a/(2*b))
		}
	}
	i, j := 2, len(at)-2
	for (j-i)%2 != 0 {
		j--
	}
	span := at[j] - at[i]
	return math.Log((size[i]-size[i+1])/(size[j]-size[j+1])) / span, math.Pi * float64(j-i) / span
}

// Behind a change of the flow the head has risen by a Joukowsky head if the flow was slowed, which travels at a, and by 1 + k of one if it was
// quickened, which travels at a/(1 + k): the jump conditions of the equations of type Acceleration.
func TestAccelerationFronts(t *testing.T) {
	n, k := 400, 0.1
	for _, c := range []struct {
		name         string
		from, to, by float64
	}{{"slowed", 0.1, 0.04, 1}, {"to rest", 0.1, 0, 1}, {"quickened", 0, 0.1, 1 + k}, {"quickened in motion", 0.05, 0.1, 1 + k}, {"backwards", 0, -0.1, 1 + k}, {"slowed backwards", -0.1, -0.02, 1}} {
		l := NewLine(n, 500, 0, 1e-3, zeros(n+1), 0)
		left := steady(l, c.from, 50)
		l.Unsteady(Acceleration(k))
		const ramp, steps = 100, 300
		for j := range steps {
			feed(l, left, c.from+(c.to-c.from)*math.Min(1, float64(j+1)/ramp))
		}
		middle := 0.0 // distance from the right end at which half of the change has come, in reaches
		for i := n; math.Abs(l.Flow(i)-c.from) > math.Abs(c.to-c.from)/2; i-- {
			middle++
		}
		rise := (l.Head(n-100) - left) / (500 * (c.from - c.to))
		t.Logf("%s: %.6f of a Joukowsky head, middle at %g", c.name, rise, middle)
		require.InEpsilon(t, c.by, rise, 1e-6, c.name)
		require.InDelta(t, c.to, l.Flow(n-100), 1e-7, c.name)
		require.InDelta(t, (steps-ramp/2)/c.by, middle, 1.5, c.name)
	}
}
