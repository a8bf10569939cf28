package kernel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// random is a line at its own heads and flow, with the vapour heads hv.
func random(t *rapid.T, n int, r float64) (l *Line, hv []float64) {
	l = NewLine(n, 500, r, 0.01, zeros(n+1), 0)
	h := make([]float64, n+1)
	hv = make([]float64, n+1)
	for i := range h {
		hv[i] = rapid.Float64Range(-20, 0).Draw(t, "hv")
		h[i] = hv[i] + 1 + rapid.Float64Range(0, 50).Draw(t, "h")
	}
	l.Set(h, rapid.Float64Range(-0.3, 0.3).Draw(t, "q"))
	return l, hv
}

// One step against the equations of type cavity and the conditions of Vapour as they stand there: cavities that open, stay and close.
func TestVapourAgainstItsEquations(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 40).Draw(t, "n")
		r := rapid.SampledFrom([]float64{0, 1, 400, 1e5}).Draw(t, "r")
		l, hv := random(t, n, r)
		l.Vapour(hv)
		c := l.cavity
		for i := 1; i < n; i++ {
			if rapid.Bool().Draw(t, "open") {
				c.other[i] = math.Pow(10, rapid.Float64Range(-8, -2).Draw(t, "log V"))
			}
			l.p[l.pb+i] += rapid.Float64Range(-100, 100).Draw(t, "P")
		}
		before, old := l.Clone(), append([]float64(nil), c.other...)
		l.Interior()
		stored := 0.0
		for i := 1; i < n; i++ {
			p, m := before.p[before.pb+i-1], before.m[before.mb+i+1]
			size := math.Abs(p) + math.Abs(m) + math.Abs(hv[i])
			head, v := l.Head(i), c.v[i]
			require.GreaterOrEqual(t, v, 0.0)
			require.GreaterOrEqual(t, head, hv[i])
			require.Zero(t, (head-hv[i])*v)
			stored += v
			if v == 0 && old[i] == 0 {
				seen["none"]++
				require.InDelta(t, (p+m)/2, head, 1e-15*size)
				require.InDelta(t, p+m, l.p[l.pb+i]+l.m[l.mb+i], 1e-14*size)
				continue
			}
			lost := r * math.Abs(p-m) / (2 * 500) // R|Q|
			bz := 500 + lost/2
			qu, qd := (p-head)/bz, (head-m)/bz
			require.InDelta(t, old[i]+2*l.Dt*(qd-qu), v, 1e-14*(old[i]+v+2*l.Dt*size/bz), "continuity")
			require.InDelta(t, head+(500-lost/2)*qd, l.p[l.pb+i], 1e-12*size)
			require.InDelta(t, head-(500-lost/2)*qu, l.m[l.mb+i], 1e-12*size)
			switch {
			case v == 0:
				seen["closes"]++
			case old[i] == 0:
				seen["opens"]++
			default:
				seen["stays"]++
			}
		}
		require.InDelta(t, stored, c.sum, 1e-13*(1e-9+stored))
	})
	require.Len(t, seen, 4)
	for what, times := range seen {
		require.Greater(t, times, 20, what)
	}
}

// Whatever the heads at the ends do, no node is below its vapour head, none with a cavity above it, no volume is negative, and the storage balances.
func TestVapourHoldsTheHead(t *testing.T) {
	parted := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 30).Draw(t, "n")
		l, hv := random(t, n, rapid.SampledFrom([]float64{0, 2, 300}).Draw(t, "r"))
		memories(l, rapid.SampledFrom(append([]string{""}, memoryNames...)).Draw(t, "memory"))
		l.Vapour(hv)
		s0, in, passed := l.Storage(), 0.0, 1e-3
		left, right := l.Left.H, l.Right.H
		for range rapid.IntRange(1, 400).Draw(t, "steps") {
			if rapid.IntRange(0, 9).Draw(t, "jump") == 0 {
				left = math.Max(hv[0], rapid.Float64Range(-40, 60).Draw(t, "left"))
				right = math.Max(hv[n], rapid.Float64Range(-40, 60).Draw(t, "right"))
			}
			was := l.Left.Q - l.Right.Q
			drive(l, left, right)
			in += l.Dt / 2 * (was + l.Left.Q - l.Right.Q)
			passed += l.Dt * (math.Abs(l.Left.Q) + math.Abs(l.Right.Q))
			for i := 1; i < n; i++ {
				v := l.cavity.v[i]
				require.GreaterOrEqual(t, v, 0.0)
				require.GreaterOrEqual(t, l.Head(i), hv[i])
				require.Zero(t, (l.Head(i)-hv[i])*v)
				most, _ := l.LargestCavity(i)
				require.GreaterOrEqual(t, most, (v+l.cavity.other[i])/2)
			}
		}
		require.InDelta(t, in, l.Storage()-s0, 1e-12*passed)
		for i := range n + 1 {
			if v, at := l.LargestCavity(i); v > 1e-6 {
				require.Positive(t, at)
				parted++
			}
		}
	})
	require.Greater(t, parted, 50)
}

// Without a cavity the waves of the vapour kernel are those of the liquid kernel, to the last digit.
func TestVapourIsLiquidAboveItsHead(t *testing.T) {
	use(t, scalar)
	for _, r := range []float64{0, 5, 400} { // the last is beyond the series of liquid
		run := func(vapour bool) *Line {
			n := 40
			l := NewLine(n, 500, r, 0.01, zeros(n+1), 0)
			h, hv := make([]float64, n+1), make([]float64, n+1)
			for i := range h {
				h[i], hv[i] = 60-r*0.04*float64(i), -1e6
			}
			l.Set(h, 0.2)
			if vapour {
				l.Vapour(hv)
			}
			for k := range 1000 {
				drive(l, h[0], h[n]+30*math.Sin(float64(k)/9))
			}
			return l
		}
		a, b := run(false), run(true)
		for i := range a.N + 1 {
			require.Equal(t, a.p[a.pb+i], b.p[b.pb+i])
			require.Equal(t, a.m[a.mb+i], b.m[b.mb+i])
			require.InEpsilon(t, a.Head(i), b.Head(i), 1e-15) // there of the waves that leave
			ta, ka := a.Highest(i)
			tb, kb := b.Highest(i)
			require.Equal(t, ta, tb)
			require.Equal(t, ka, kb)
		}
		require.InEpsilon(t, a.Storage(), b.Storage(), 1e-12)
	}
}

// The gas form goes to the vapour form as the gas vanishes.
func TestLittleGasIsVapour(t *testing.T) {
	n := 24
	run := func(kind string, k float64) *Line {
		l := NewLine(n, 500, 0, 0.01, zeros(n+1), 0)
		h, hv := make([]float64, n+1), make([]float64, n+1)
		for i := range h {
			h[i], hv[i] = 20, 15-30*math.Abs(float64(i)/float64(n)-0.4) // a summit
		}
		l.Set(h, 0.02)
		part(l, kind, k, hv)
		for s := range 60 {
			drive(l, 20, 20-25*math.Sin(float64(s)/30))
		}
		return l
	}
	vapour := run("vapour", 0)
	summit := 9 + 1
	most, _ := vapour.LargestCavity(summit)
	require.Greater(t, most, 1e-4)
	last := math.Inf(1)
	for _, k := range []float64{1e-6, 1e-8, 1e-10} {
		gas := run("gas", k)
		off := 0.0
		for i := range n + 1 {
			off = math.Max(off, math.Abs(gas.Head(i)-vapour.Head(i)))
		}
		got, _ := gas.LargestCavity(summit)
		t.Logf("K %g m4: largest deviation of a head %.3g m, of the summit's cavity %.3g of its volume", k, off, got/most-1)
		require.Less(t, off, last/5)
		last = off
	}
	require.Less(t, last, 1e-2)
}
