//go:build !purego

package kernel

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fused is the vector form written node by node: math.FMA rounds once, as the instruction does, so that it must agree to the last bit.
var fused = form{"fused", func(l *Line, p, m []float64) {
	var c coefficients
	c.set(l)
	for i := range p {
		h, s := p[i]+m[i], p[i]-m[i]
		a := math.Abs(s)
		e := c.k[4]
		for i := 3; i >= 0; i-- {
			e = math.FMA(-a, e, c.k[i])
		}
		e *= a
		if a > c.most {
			u := c.k[0] * a
			r := 2 / (1 + math.Sqrt(math.FMA(u, 4, 1)))
			e = u * r * r
		}
		p[i], m[i] = math.FMA(-e, s, p[i]), math.FMA(e, s, m[i])
		l.envelope(i+1, h/2)
	}
}}

func needVector(tb testing.TB) form {
	f := fastest()
	if f.name == scalar.name {
		tb.Skip("this processor has no AVX2 and FMA")
	}
	return f
}

// anyState is a line in a random state in which about one node in rare has a new extreme, and the difference of the waves is spread over
// twelve decades.
func anyState(r *rand.Rand, n int, friction float64, rare int) *Line {
	l := NewLine(n, 500, friction, 1, zeros(n+1), 0)
	for i := range l.p {
		l.p[i] = 200 * (r.Float64() - 0.3)
	}
	for i := range l.m {
		l.m[i] = 200 * (r.Float64() - 0.3)
	}
	l.max[n], l.min[n] = 1e9, -1e9 // nothing but its bounds keeps a sweep off the end
	for i := range n - 1 {
		p, m := &l.p[l.pb+i], &l.m[l.mb+2+i]
		*m = *p + (r.Float64()-0.5)*math.Pow(10, 12*r.Float64()-8)
		h := *p + *m
		l.max[i+1], l.min[i+1], l.warn[i+1] = h+r.Float64(), h-r.Float64(), h-0.5
		if r.IntN(20) == 0 { // low, whether lowest or not
			l.warn[i+1] = h + 0.1
		}
		switch r.IntN(2 * rare) {
		case 0:
			l.max[i+1] = h - 1
		case 1:
			l.min[i+1] = h + 1
		case 2:
			l.max[i+1], l.min[i+1] = h, h // reached, not passed
		}
	}
	l.steps = int32(r.IntN(1000))
	return l
}

// sweep is one step of the inner nodes.
func sweep(f form, l *Line) {
	f.step(l, l.p[l.pb:l.pb+l.N-1], l.m[l.mb+2:l.mb+l.N+1])
}

// sameBits also takes one NaN for another: which of two comes out of a sum is not told.
func sameBits(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool {
		return math.Float64bits(x) == math.Float64bits(y) || x != x && y != y
	})
}

// One step of the same state: the heads are the same sums in every form, so the envelope, its steps and the warning must be equal, and so
// must all that is not an inner node; the waves are equal to the last bit of the fused arithmetic and to rounding of the plain one.
func compareForms(t require.TestingT, v form, l *Line) {
	a, b, c := l.Clone(), l.Clone(), l.Clone()
	sweep(v, a)
	sweep(fused, b)
	sweep(scalar, c)
	require.True(t, sameBits(b.p, a.p), "n=%d R=%g", l.N, l.R)
	require.True(t, sameBits(b.m, a.m), "n=%d R=%g", l.N, l.R)
	for _, x := range []*Line{b, c} {
		require.True(t, sameBits(x.max, a.max))
		require.True(t, sameBits(x.min, a.min))
		require.True(t, slices.Equal(x.maxAt, a.maxAt))
		require.True(t, slices.Equal(x.minAt, a.minAt))
		require.Equal(t, x.Low, a.Low)
	}
	for i := range l.N - 1 {
		i, j := l.pb+i, l.mb+2+i
		tol := 1e-15 * (math.Abs(l.p[i]) + math.Abs(l.m[j])) // some five roundings of d <= |P| + |M|, and one of the sum
		if math.IsNaN(c.p[i]) || math.IsInf(tol, 0) {
			continue
		}
		require.InDelta(t, c.p[i], a.p[i], tol)
		require.InDelta(t, c.m[j], a.m[j], tol)
	}
}

func TestVectorAgainstScalar(t *testing.T) {
	v := needVector(t)
	r := rand.New(rand.NewPCG(1, 2))
	low, all := 0, 0
	for n := 1; n <= 1000; n++ {
		if n > 70 && n < 1000 {
			continue
		}
		for _, friction := range []float64{0, 1e-3, 5, 400, 1e6} { // 1e6: u = |s|, nearly all beyond the series
			for _, rare := range []int{2, 10, 1000} {
				l := anyState(r, n, friction, rare)
				compareForms(t, v, l)
				sweep(v, l)
				all++
				if l.Low {
					low++
				}
			}
		}
	}
	require.Greater(t, low, all/10)
	require.Less(t, low, all*9/10)
}

func TestVectorRapid(t *testing.T) {
	v := needVector(t)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 90).Draw(t, "n")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		l := anyState(r, n, rapid.SampledFrom([]float64{0, 1e-6, 1, 30, 1e3, 1e9}).Draw(t, "friction"), rapid.IntRange(2, 50).Draw(t, "rare"))
		// A broken node spoils no neighbour.
		for range rapid.IntRange(0, 3).Draw(t, "broken") {
			if n > 1 {
				bad := rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, 5e-324, math.Copysign(0, -1)}).Draw(t, "bad")
				l.p[l.pb+r.IntN(n-1)] = bad
			}
		}
		compareForms(t, v, l)
	})
}

// Every node beside every boundary of the series: both sides of it agree.
func TestVectorAtTheEndOfTheSeries(t *testing.T) {
	v := needVector(t)
	for lane := range 30 {
		for _, f := range []float64{1 - 1e-15, 1, 1 + 1e-15, 1 + 1e-9} {
			l := NewLine(31, 500, 5, 1, zeros(32), 0)
			s := series * 4 * l.B * l.B / l.R * f
			l.p[l.pb+lane] = s
			compareForms(t, v, l)
			sweep(v, l)
			u := series * f
			c := 2 / (1 + math.Sqrt(1+4*u))
			require.InEpsilon(t, s*u*c*c, l.m[l.mb+2+lane], 1e-13) // M = 0 + d
			require.InEpsilon(t, s-s*u*c*c, l.p[l.pb+lane], 1e-15)
		}
	}
}

// Many steps with the ends driven: the same bits as node by node, so where a node lies in the pipe does not matter.
func TestVectorRunsLikeFused(t *testing.T) {
	v := needVector(t)
	for _, n := range []int{2, 3, 7, 12, 33, 100, 999} {
		for _, friction := range []float64{0, 3, 400} {
			run := func(f form) *Line {
				use(t, f)
				l := NewLine(n, 500, friction, 1, zeros(n+1), 120)
				h := make([]float64, n+1)
				for i := range h {
					h[i] = 100 - 10*float64(i)/float64(n)
				}
				l.Set(h, 0.1)
				for k := range 3000 {
					drive(l, 100+10*math.Sin(float64(k)/7), 90-float64(k)/100)
				}
				return l
			}
			a, b := run(v), run(fused)
			require.True(t, sameBits(b.p, a.p) && sameBits(b.m, a.m), "n=%d R=%g", n, friction)
			require.True(t, sameBits(b.max, a.max) && sameBits(b.min, a.min))
			require.True(t, slices.Equal(b.maxAt, a.maxAt) && slices.Equal(b.minAt, a.minAt))
			require.Equal(t, b.Low, a.Low)
		}
	}
}

func FuzzVector(f *testing.F) {
	v := needVector(f)
	f.Add(uint16(2), 5.0, uint64(1), 10.0, -3.0)
	f.Add(uint16(37), 0.0, uint64(2), 1e3, 1e3)
	f.Add(uint16(200), 1e5, uint64(3), -1e-9, 0.0)
	f.Fuzz(func(t *testing.T, n uint16, friction float64, seed uint64, p, m float64) {
		if !(friction >= 0 && friction <= 1e12) { // of the shortest reach of the thinnest pipe
			return
		}
		r := rand.New(rand.NewPCG(seed, 7))
		l := anyState(r, 1+int(n%300), friction, 5)
		if l.N > 1 {
			i := r.IntN(l.N - 1)
			l.p[l.pb+i], l.m[l.mb+2+i] = p, m
		}
		compareForms(t, v, l)
	})
}
