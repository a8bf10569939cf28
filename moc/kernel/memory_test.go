package kernel

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// forms of memory, by name.
func memories(l *Line, name string) {
	switch name {
	case "laminar":
		l.Unsteady(Zielke(4e-5, 0.05))
	case "turbulent":
		l.Unsteady(VardyBrown(1e-6, 0.2, 1e5))
	case "acceleration":
		l.Unsteady(Acceleration(0.03))
	case "wall":
		l.Wall(creep, 2e9)
	case "wall and turbulent":
		l.Unsteady(VardyBrown(1e-6, 0.2, 1e5))
		l.Wall(creep, 2e9)
	}
}

var memoryNames = []string{"laminar", "turbulent", "acceleration", "wall", "wall and turbulent"}

func TestUnsteadySteadyStaysSteady(t *testing.T) {
	n, q0, r := 50, 0.2, 30/(0.04*50)
	for _, name := range memoryNames {
		l := NewLine(n, 500, r, 1e-3, zeros(n+1), 0)
		left := steady(l, q0, 70)
		memories(l, name)
		for range 30_000 {
			drive(l, left, 70)
		}
		for i := range n + 1 {
			require.InDelta(t, 70+r*q0*q0*float64(n-i), l.Head(i), 1e-9, name)
			require.InDelta(t, q0, l.Flow(i), 1e-12, name)
		}
	}
}

func TestUnsteadyStorage(t *testing.T) {
	for _, name := range memoryNames {
		for _, kind := range kinds {
			t.Run(name+"/"+kind, func(t *testing.T) {
				n := 40
				l := NewLine(n, 500, 2, 0.01, zeros(n+1), 0)
				h, hv := make([]float64, n+1), make([]float64, n+1)
				for i := range h {
					h[i], hv[i] = 30, -10
				}
				l.Set(h, 0.1)
				memories(l, name)
				part(l, kind, 1e-5, hv)
				s0, in, passed := l.Storage(), 0.0, 0.0
				for k := range 4000 {
					a := l.Left.Q - l.Right.Q
					drive(l, 30, math.Max(30+35*math.Sin(float64(k)/17), -9.9))
					in += 0.01 / 2 * (a + l.Left.Q - l.Right.Q)
					passed += 0.01 * math.Abs(l.Left.Q)
				}
				require.Greater(t, passed, 1.0)
				require.InDelta(t, l.Storage()-s0, in, 1e-12*passed)
				if kind != "" {
					most := 0.0
					for i := range n + 1 {
						v, _ := l.LargestCavity(i)
						most = math.Max(most, v)
					}
					require.Greater(t, most, 1e-4)
				}
			})
		}
	}
}

// The momentum of the liquid changes by the trapezoidal integral of the heads at the ends and of the friction head:
//
//	B d(sum Q) = -(H_N - H_0) - sum d        (over a step; sums by the trapezoidal rule, both sides' mean in time)
func TestLossInTheMomentum(t *testing.T) {
	n := 30
	for _, name := range []string{"none", "laminar", "turbulent", "acceleration"} {
		l := NewLine(n, 500, 2, 1e-3, zeros(n+1), 0)
		left := steady(l, 0.1, 60)
		memories(l, name)
		sum := func() (momentum, push float64) {
			for i := range n + 1 {
				w := 1.0
				if i == 0 || i == n {
					w = 0.5
				}
				momentum += w * l.B * l.Flow(i)
				push -= w * l.Loss(i)
			}
			return momentum, push + l.Left.H - l.Right.H
		}
		m, push := sum()
		require.InDelta(t, 0, push, 1e-12)
		for k := range 500 {
			drive(l, left, 60+10*math.Sin(float64(k)/20))
			m1, push1 := sum()
			require.InDelta(t, (push+push1)/2, m1-m, 1e-9, name)
			m, push = m1, push1
		}
	}
}

// With no gas to speak of the gas kernel gives, and that of vapour without cavities, what the liquid kernel gives; without quadratic friction, which it takes otherwise.
func TestUnsteadyWithLittleGas(t *testing.T) {
	for _, name := range []string{"laminar", "turbulent", "wall", "wall and turbulent"} {
		n := 30
		run := func(kind string) *Line {
			l := NewLine(n, 500, 0, 1e-3, zeros(n+1), 0)
			left := steady(l, 0, 60)
			memories(l, name)
			hv := make([]float64, n+1)
			for i := range hv {
				hv[i] = -10
			}
			part(l, kind, 1e-13, hv)
			for k := range 500 {
				drive(l, left, 60+10*math.Sin(float64(k)/20))
			}
			return l
		}
		a := run("")
		for kind, tolerance := range map[string]float64{"gas": 1e-6, "vapour": 1e-9} {
			b := run(kind)
			for i := range n + 1 {
				require.InDelta(t, a.Head(i), b.Head(i), tolerance, name)
				require.InDelta(t, a.Flow(i), b.Flow(i), tolerance/100, name)
			}
		}
	}
}

// From rest the waves never hold more energy than they held at the start, whatever the step and the coefficients.
func TestUnsteadyIsPassive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "n")
		log := func(lo, hi float64, name string) float64 {
			return math.Pow(10, rapid.Float64Range(lo, hi).Draw(t, name))
		}
		l := NewLine(n, log(0, 4, "B"), log(-3, 6, "R"), log(-5, 2, "dt"), zeros(n+1), 0)
		h := make([]float64, n+1)
		for i := 1; i <= n; i++ {
			h[i] = rapid.Float64Range(-100, 100).Draw(t, "h")
		}
		if rapid.Bool().Draw(t, "wall") {
			l.Set(make([]float64, n+1), 0)
			l.Wall(KelvinVoigt{J: []float64{1e-10, 1e-10}, Tau: []float64{log(-3, 1, "tau"), log(-3, 1, "tau")}}, log(7, 11, "modulus"))
		}
		l.Set(h, 0)
		switch rapid.IntRange(0, 3).Draw(t, "friction") {
		case 1:
			l.Unsteady(Zielke(log(-7, -3, "nu"), log(-2, 0, "D")))
		case 2:
			l.Unsteady(VardyBrown(log(-7, -3, "nu"), log(-2, 0, "D"), log(3.5, 7, "Re")))
		case 3:
			l.Unsteady(Acceleration(log(-3, 1, "k")))
		}
		energy := func() (e float64) {
			for i := range n {
				e += math.Pow(l.p[l.pb+i], 2) + math.Pow(l.m[l.mb+i+1], 2)
			}
			return e
		}
		most := energy()
		for range 300 {
			feed(l, 0, 0)
			require.LessOrEqual(t, energy(), most*(1+1e-9))
		}
	})
}

func TestUnsteadyCopyTo(t *testing.T) {
	n := 30
	for _, name := range memoryNames {
		for _, kind := range kinds {
			fresh := func() *Line {
				l := NewLine(n, 500, 1, 1e-3, zeros(n+1), 0)
				steady(l, 0.05, 40)
				return l
			}
			l := fresh()
			memories(l, name)
			part(l, kind, 1e-6, make([]float64, n+1))
			for k := range 700 {
				drive(l, 40+5*math.Sin(float64(k)/3), 35)
			}
			c := l.Clone()
			for range 900 {
				drive(l, 42, 35)
			}
			back := fresh()
			c.CopyTo(back)
			for range 900 {
				drive(back, 42, 35)
			}
			for i := range n + 1 {
				require.Equal(t, l.Head(i), back.Head(i), name)
				require.Equal(t, l.Flow(i), back.Flow(i), name)
			}
			require.Equal(t, l.Storage(), back.Storage())
			require.Zero(t, testing.AllocsPerRun(50, func() {
				drive(l, 41, 35)
				l.CopyTo(back)
			}), name)
		}
	}
}

func BenchmarkUnsteady(b *testing.B) {
	for _, name := range append([]string{"none"}, memoryNames...) {
		for _, nodes := range []int{100, 1000} {
			b.Run(fmt.Sprintf("form=%s/nodes=%d", name, nodes), func(b *testing.B) {
				l := NewLine(nodes-1, 500, 1/(0.04*float64(nodes)), 1e-3, zeros(nodes), 0)
				left := steady(l, 0.2, 70)
				memories(l, name)
				k := 0
				b.ReportAllocs()
				for b.Loop() {
					drive(l, left, 70+20*math.Sin(float64(k)/80))
					k++
				}
				b.ReportMetric(float64(nodes)*float64(b.N)/b.Elapsed().Seconds(), "nodes/s")
			})
		}
	}
}
