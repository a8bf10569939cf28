package kernel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// convolution is the scheme of type unsteady in heads and flows, with the whole history of every node.
type convolution struct {
	b, r, lambda, k float64
	w               []float64
	h, d            []float64
	q               [][]float64 // by node, from the start
}

func (c *convolution) step(left, right float64) {
	n := len(c.h) - 1
	h, d := make([]float64, n+1), make([]float64, n+1)
	now := func(i int) float64 { return c.q[i][len(c.q[i])-1] }
	past := make([]float64, n+1)
	for i := range past {
		past[i] = -c.k * c.w[0] * now(i)
		for j, t := 1, len(c.q[i])-1; t >= 1; j, t = j+1, t-1 {
			past[i] += c.k * c.w[j] * (c.q[i][t] - c.q[i][t-1])
		}
	}
	up := func(i int) float64 { return c.h[i] + c.b*now(i) - c.d[i]/2 }
	down := func(i int) float64 { return c.h[i] - c.b*now(i) + c.d[i]/2 }
	z := c.b + (c.lambda+c.k*c.w[0])/2
	q := make([]float64, n+1)
	for i := range q {
		switch i {
		case 0:
			h[0], q[0] = left, (left-down(1)-past[0]/2)/(z+c.r/2*math.Abs(now(0)))
		case n:
			q[n] = right
			h[n] = up(n-1) - past[n]/2 - (z+c.r/2*math.Abs(now(n)))*right
		default:
			p, m := up(i-1), down(i+1)
			x := (p-m)/2 - past[i]/2
			h[i], q[i] = (p+m)/2, 2*x/(z+math.Sqrt(z*z+2*c.r*math.Abs(x)))
		}
	}
	for i := range d {
		v := math.Abs(q[i])
		if i == 0 || i == n {
			v = math.Abs(now(i))
		}
		d[i] = c.r*v*q[i] + (c.lambda+c.k*c.w[0])*q[i] + past[i]
	}
	for i := range q {
		c.q[i] = append(c.q[i], q[i])
	}
	c.h, c.d = h, d
}

// laminarMeans are the means of W over steps from the zeros of J2 alone: sums over 2e5 of them and the rest by its integral.
func laminarMeans(step float64, n int) []float64 {
	const last = 200_000
	w := make([]float64, n)
	for s := 1; s <= last; s++ {
		b := (float64(s) + 0.75) * math.Pi
		x := b - 15/(8*b)
		for range 4 {
			if s < 1000 {
				j2 := math.Jn(2, x)
				x -= j2 / (math.J1(x) - 2*j2/x)
			}
		}
		e := x * x
		m := -math.Expm1(-e*step) / (e * step)
		for j := 0; j < n && e*step*float64(j) < 40; j++ {
			w[j] += m * math.Exp(-e*step*float64(j))
		}
	}
	w[0] += 1 / (math.Pi * math.Pi * (last + 1.25)) / step
	return w
}

func TestAgainstConvolution(t *testing.T) {
	n, periods := 40, 10
	steps := 4 * n * periods
	for _, c := range []struct {
		name string
		f    Friction
		v, r float64
		w    func(step float64) []float64
		loss bool
	}{
		{name: "laminar", f: Zielke(oil.nu, oil.bore), v: 0.128, w: func(step float64) []float64 { return laminarMeans(step, steps+1) }},
		{name: "turbulent", f: VardyBrown(1e-6, oil.bore, 2e4), v: 0.8, w: func(step float64) []float64 {
			w := make([]float64, steps+1)
			b := 863.0697 // B at a Reynolds number of 2e4, calculated apart
			for j := range w {
				w[j] = (math.Erf(math.Sqrt(b*step*float64(j+1))) - math.Erf(math.Sqrt(b*step*float64(j)))) / (2 * math.Sqrt(b) * step)
			}
			return w
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := c.v * oil.area()
			wave := oil.a * c.v / gravity
			nu := c.f.(Weighting).rate * oil.bore * oil.bore / 4
			r := 0.0
			l := oil.line(n, 0)
			lambda := 32 * nu / (gravity * oil.bore * oil.bore * oil.area()) * oil.length / float64(n)
			if c.name == "laminar" {
				l.R = lambda / q
			} else {
				l.R = 0.026 / (2 * gravity * oil.bore * oil.area() * oil.area()) * oil.length / float64(n)
				r, lambda = l.R, 0
			}
			left := steady(l, q, 20)
			l.Unsteady(c.f)
			ref := convolution{b: l.B, r: r, lambda: lambda, k: 16 * nu / (gravity * oil.bore * oil.bore * oil.area()) * oil.length / float64(n),
				w: c.w(4 * nu * l.Dt / (oil.bore * oil.bore)), h: make([]float64, n+1), d: make([]float64, n+1), q: make([][]float64, n+1)}
			for i := range ref.h {
				ref.h[i], ref.q[i], ref.d[i] = l.Head(i), []float64{q}, l.dl
			}
			plain := l.Clone()
			plain.memory = nil
			plain.R = l.dl / (q * q)
			worst, flow := 0.0, 0.0
			var peaks, slack [3]float64
			for k := range steps {
				feed(l, left, 0)
				feed(plain, left, 0)
				ref.step(left, 0)
				if k < 12*n && k/(2*n)%2 == 0 { // while the wave at the valve is a rise
					i := k / (4 * n)
					peaks[i], slack[i] = math.Max(peaks[i], l.Right.H-left), math.Max(slack[i], plain.Right.H-left)
				}
				for i := range n + 1 {
					worst = math.Max(worst, math.Abs(l.Head(i)-ref.h[i]))
					flow = math.Max(flow, math.Abs(l.Flow(i)-ref.q[i][len(ref.q[i])-1]))
				}
			}
			t.Logf("largest deviation %.2g of the wave's head, %.2g of its flow; first peaks over the reservoir %.3f m, quasi-steady %.3f m", worst/wave, flow/q, peaks, slack)
			require.Less(t, worst, 5e-3*wave)
			require.Less(t, flow, 5e-3*q)
			require.Less(t, peaks[2], slack[2])
		})
	}
}
