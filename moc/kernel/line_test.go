package kernel

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// slow is the same scheme written node by node in heads and flows, with the quadratic solved outright.
type slow struct{ h, q []float64 }

func (s *slow) step(b, r, left, right float64) {
	n := len(s.h) - 1
	h, q := make([]float64, n+1), make([]float64, n+1)
	up := func(i int) float64 { return s.h[i] + b*s.q[i] - r/2*s.q[i]*math.Abs(s.q[i]) }
	down := func(i int) float64 { return s.h[i] - b*s.q[i] + r/2*s.q[i]*math.Abs(s.q[i]) }
	root := func(x float64) float64 { // b q + r/2 q|q| = x
		return 2 * x / (b + math.Sqrt(b*b+2*r*math.Abs(x)))
	}
	for i := 1; i < n; i++ {
		p, m := up(i-1), down(i+1)
		h[i], q[i] = (p+m)/2, root((p-m)/2)
	}
	// Heads given at both ends, friction there with the old flow.
	h[0], h[n] = left, right
	q[0] = (left - down(1)) / (b + r/2*math.Abs(s.q[0]))
	q[n] = (up(n-1) - right) / (b + r/2*math.Abs(s.q[n]))
	// The ends keep their own linear friction in the waves they send: see TestAgainstSlow.
	s.h, s.q = h, q
}

// kinds of cavities, by name.
var kinds = []string{"", "gas", "vapour"}

// part gives a line cavities.
func part(l *Line, kind string, k float64, hv []float64) {
	switch kind {
	case "gas":
		l.Gas(k, hv)
	case "vapour":
		l.Vapour(hv)
	}
}

func zeros(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = -1e9
	}
	return v
}

// drive runs a line with heads given at both ends.
func drive(l *Line, left, right float64) {
	cm, cp := l.ArriveLeft(), l.ArriveRight()
	zl, zr := math.Abs(l.Left.Q), math.Abs(l.Right.Q)
	ql := (left - cm) / l.Impedance(l.Left.Q)
	qr := (cp - right) / l.Impedance(l.Right.Q)
	l.Interior()
	l.SetLeft(left, ql, zl)
	l.SetRight(right, qr, zr)
}

// forms are the forms of the liquid kernel that this machine runs.
func forms() []form {
	if f := fastest(); f.name != scalar.name {
		return []form{f, scalar}
	}
	return []form{scalar}
}

// use makes lines use the form until the test or benchmark ends.
func use(tb testing.TB, f form) {
	was := liquid
	liquid = f
	tb.Cleanup(func() { liquid = was })
}

// eachForm runs a test once with every form.
func eachForm(t *testing.T, test func(t *testing.T)) {
	for _, f := range forms() {
		t.Run("kernel="+f.name, func(t *testing.T) {
			use(t, f)
			test(t)
		})
	}
}

func TestFrictionlessAgainstSlow(t *testing.T) { eachForm(t, testFrictionlessAgainstSlow) }

func testFrictionlessAgainstSlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "n")
		steps := rapid.IntRange(1, 1500).Draw(t, "steps")
		q0 := rapid.Float64Range(-1, 1).Draw(t, "q0")
		l := NewLine(n, 500, 0, 1, zeros(n+1), 0)
		h := make([]float64, n+1)
		for i := range h {
			h[i] = 100
		}
		l.Set(h, q0)
		s := slow{h: append([]float64(nil), h...), q: make([]float64, n+1)}
		for i := range s.q {
			s.q[i] = q0
		}
		for k := range steps {
			left, right := 100+10*math.Sin(float64(k)), 90.0
			drive(l, left, right)
			s.step(500, 0, left, right)
		}
		for i := range n + 1 {
			require.InDelta(t, s.h[i], l.Head(i), 1e-8)
			require.InDelta(t, s.q[i], l.Flow(i), 1e-10)
		}
	})
}

// With friction the two differ at the ends only by the linearisation |Q| of one step before, which vanishes with the step: compare the
// inner nodes of a long line before the end's difference arrives there.
func TestFrictionAgainstSlow(t *testing.T) { eachForm(t, testFrictionAgainstSlow) }

func testFrictionAgainstSlow(t *testing.T) {
	for _, r := range []float64{0.01, 5, 400} { // the last is beyond the series of liquid
		n, q0 := 80, 0.3
		l := NewLine(n, 500, r, 1, zeros(n+1), 0)
		h := make([]float64, n+1)
		for i := range h {
			h[i] = 100 - r*q0*q0*float64(i) + 3*math.Sin(float64(i))
		}
		l.Set(h, q0)
		s := slow{h: append([]float64(nil), h...), q: make([]float64, n+1)}
		for i := range s.q {
			s.q[i] = q0
		}
		for range n/2 - 1 {
			drive(l, h[0], h[n])
			s.step(500, r, h[0], h[n])
		}
		require.InEpsilon(t, s.h[n/2], l.Head(n/2), 1e-12)
		require.InEpsilon(t, s.q[n/2], l.Flow(n/2), 1e-10)
	}
}

func TestSteadyStaysSteady(t *testing.T) { eachForm(t, testSteadyStaysSteady) }

func testSteadyStaysSteady(t *testing.T) {
	n, q0, r := 50, 0.2, 30/(0.04*50)
	l := NewLine(n, 500, r, 1, zeros(n+1), 0)
	h := make([]float64, n+1)
	for i := range h {
		h[i] = 100 - r*q0*q0*float64(i)
	}
	l.Set(h, q0)
	for range 100_000 {
		drive(l, h[0], h[n])
	}
	for i := range h {
		require.InDelta(t, h[i], l.Head(i), 1e-9)
		require.InDelta(t, q0, l.Flow(i), 1e-12)
	}
}

// The storage changes by the trapezoidal integral of the end flows to rounding, with friction and with cavities as well.
func TestStorage(t *testing.T) { eachForm(t, testStorage) }

func testStorage(t *testing.T) {
	for _, c := range []struct {
		name   string
		r, tol float64
		kind   string
	}{{"liquid", 0, 1e-12, ""}, {"friction", 2, 1e-12, ""}, {"gas", 0, 1e-12, "gas"}, {"gas and friction", 2, 1e-12, "gas"},
		{"vapour", 0, 1e-12, "vapour"}, {"vapour and friction", 2, 1e-12, "vapour"}} {
		t.Run(c.name, func(t *testing.T) {
			n := 40
			l := NewLine(n, 500, c.r, 0.01, zeros(n+1), 0)
			h, hv := make([]float64, n+1), make([]float64, n+1)
			for i := range h {
				h[i], hv[i] = 30, -10
			}
			l.Set(h, 0.1)
			part(l, c.kind, 1e-5, hv)
			s0, in, passed := l.Storage(), 0.0, 0.0
			for k := range 4000 {
				a := l.Left.Q - l.Right.Q
				right := 30 + 35*math.Sin(float64(k)/17)
				drive(l, 30, math.Max(right, -9.9))
				b := l.Left.Q - l.Right.Q
				in += 0.01 / 2 * (a + b)
				passed += 0.01 * math.Abs(l.Left.Q)
			}
			require.Greater(t, passed, 1.0)
			require.InDelta(t, l.Storage()-s0, in, c.tol*passed)
			if c.kind != "" {
				most := 0.0
				for i := range n + 1 {
					v, _ := l.LargestCavity(i)
					most = math.Max(most, v)
				}
				require.Greater(t, most, 1e-4, "the cavities must have grown for this to test anything")
			}
		})
	}
}

func TestVapourWarning(t *testing.T) { eachForm(t, testVapourWarning) }

func testVapourWarning(t *testing.T) {
	n := 10
	v := make([]float64, n+1)
	l := NewLine(n, 500, 0, 1, v, 1)
	h := make([]float64, n+1)
	for i := range h {
		h[i] = 20
	}
	l.Set(h, 0)
	require.False(t, l.Low)
	drive(l, 20, 20)
	require.False(t, l.Low)
	for range 3 {
		drive(l, 10.6, 20) // arrives at inner nodes as 10.6
	}
	require.False(t, l.Low)
	for range 30 {
		drive(l, 20, 10.2)
	}
	require.True(t, l.Low, "two drops meet below 1 m")
}

func TestCopyTo(t *testing.T) {
	n := 30
	for _, kind := range kinds {
		l := NewLine(n, 500, 1, 1, zeros(n+1), 0)
		h, hv := make([]float64, n+1), make([]float64, n+1)
		for i := range h {
			h[i] = 40
		}
		l.Set(h, 0.05)
		part(l, kind, 1e-6, hv)
		for k := range 700 {
			drive(l, 40+5*math.Sin(float64(k)/3), 35)
		}
		c := l.Clone()
		for range 900 {
			drive(l, 42, 35)
		}
		back := NewLine(n, 500, 1, 1, zeros(n+1), 0)
		c.CopyTo(back)
		for range 900 {
			drive(back, 42, 35)
		}
		for i := range n + 1 {
			require.Equal(t, l.Head(i), back.Head(i))
			require.Equal(t, l.Flow(i), back.Flow(i))
			a, at := l.Highest(i)
			b, bt := back.Highest(i)
			require.Equal(t, a, b)
			require.Equal(t, at, bt)
		}
	}
}

// Interior, the ends and all: reported as node updates per second. In "falling" every node has a new lowest head at every step, as when a
// line drains after a trip, the dearest case for the envelope.
func BenchmarkLine(b *testing.B) {
	for _, f := range forms() {
		for _, nodes := range []int{10, 30, 100, 1000, 10000} {
			b.Run(fmt.Sprintf("kernel=%s/nodes=%d", f.name, nodes), func(b *testing.B) {
				use(b, f)
				benchmarkLine(b, sloping(nodes), 20, 0)
			})
		}
		b.Run(fmt.Sprintf("kernel=%s/falling/nodes=1000", f.name), func(b *testing.B) {
			use(b, f)
			benchmarkLine(b, sloping(1000), 0, 1e-4)
		})
	}
	// In "open" the line is so low that some of its nodes have cavities.
	for _, kind := range kinds[1:] {
		b.Run("kernel="+kind+"/nodes=1000", func(b *testing.B) {
			l := sloping(1000)
			part(l, kind, 1e-6, make([]float64, 1000))
			benchmarkLine(b, l, 20, 0)
		})
		b.Run("kernel="+kind+"/open/nodes=1000", func(b *testing.B) {
			l := sloping(1000)
			hv := make([]float64, 1000)
			for i := range hv {
				hv[i] = l.Head(i) - 10
			}
			part(l, kind, 1e-6, hv)
			benchmarkLine(b, l, 60, 0)
		})
	}
}

// sloping is a line in steady flow.
func sloping(nodes int) *Line {
	n := nodes - 1
	l := NewLine(n, 500, 30/(0.04*float64(n)), 1e-3, zeros(nodes), 0)
	h := make([]float64, nodes)
	for i := range h {
		h[i] = 100 - 30*float64(i)/float64(n)
	}
	l.Set(h, 0.2)
	return l
}

// benchmarkLine steps a line whose right end swings, m, and whose ends both fall, m per step.
func benchmarkLine(b *testing.B, l *Line, swing, fall float64) {
	var wave [512]float64
	for k := range wave {
		wave[k] = swing * math.Sin(2*math.Pi*float64(k)/float64(len(wave)))
	}
	left, right, k := 100.0, 70.0, 0
	b.ReportAllocs()
	for b.Loop() {
		left, right = left-fall, right-fall
		drive(l, left, right+wave[k%len(wave)])
		k++
	}
	b.ReportMetric(float64(l.N+1)*float64(b.N)/b.Elapsed().Seconds(), "nodes/s")
}
