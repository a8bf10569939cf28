package kernel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// One step of the cavities against the equations of type cavity and of Gas as they stand there, with small and with large gas volumes.
func TestGasAgainstItsEquations(t *testing.T) {
	signs := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 40).Draw(t, "n")
		r := rapid.SampledFrom([]float64{0, 1, 400, 1e5}).Draw(t, "r")
		k := math.Pow(10, rapid.Float64Range(-9, -3).Draw(t, "log K"))
		dt, b := 0.01, 500.0
		l := NewLine(n, b, r, dt, zeros(n+1), 0)
		h, hv := make([]float64, n+1), make([]float64, n+1)
		for i := range h {
			hv[i] = rapid.Float64Range(-20, 0).Draw(t, "hv")
			h[i] = hv[i] + 1 + rapid.Float64Range(0, 100).Draw(t, "h")
		}
		l.Set(h, rapid.Float64Range(-0.5, 0.5).Draw(t, "q"))
		l.Gas(k, hv)
		g := l.cavity
		for i := 1; i < n; i++ {
			if rapid.Bool().Draw(t, "grown") {
				g.other[i] = math.Pow(10, rapid.Float64Range(-8, -1).Draw(t, "log V"))
			}
			l.p[l.pb+i] += rapid.Float64Range(-100, 100).Draw(t, "P")
		}
		before, old := l.Clone(), append([]float64(nil), g.other...)
		l.Interior()
		stored, friction := 0.0, 0.0
		for i := 1; i < n; i++ {
			p, m := before.p[before.pb+i-1], before.m[before.mb+i+1]
			lost := r * math.Abs(p-m) / (2 * b) // R|Q|
			bz := b + lost/2
			head, v := g.head[i], g.v[i]
			qu, qd := (p-head)/bz, (head-m)/bz
			size := old[i] + v + 2*dt*(math.Abs(p)+math.Abs(m)+2*math.Abs(hv[i]))/bz
			require.Greater(t, v, 0.0)
			require.Greater(t, head, hv[i])
			require.InDelta(t, old[i]+2*dt*(qd-qu), v, 1e-14*size+8e-16*dt*math.Abs(head)/bz, "continuity")
			x := k / v // the head itself has lost the digits of a small x
			require.InDelta(t, hv[i]+x, head, 1e-14*(math.Abs(hv[i])+x), "isothermal")
			require.InDelta(t, head+(b-lost/2)*qd, l.p[l.pb+i], 1e-12*(math.Abs(p)+math.Abs(m)+math.Abs(head)))
			require.InDelta(t, head-(b-lost/2)*qu, l.m[l.mb+i], 1e-12*(math.Abs(p)+math.Abs(m)+math.Abs(head)))
			stored += v
			friction += lost * (qu - qd)
			signs[old[i]*bz+2*dt*(2*hv[i]-p-m) > 0]++
		}
		require.InEpsilon(t, stored, g.sum, 1e-13)
		require.InDelta(t, friction, g.friction, 1e-11*(1+math.Abs(friction)))
	})
	require.Greater(t, signs[true], 20)
	require.Greater(t, signs[false], 20)
}
