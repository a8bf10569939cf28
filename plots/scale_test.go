package plots

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLinear(t *testing.T) {
	labels := func(a axis) (out []string) {
		for _, k := range a.ticks {
			if k.label != "" {
				out = append(out, k.label)
			}
		}
		return out
	}
	a := linear("", -0.66, 2.53, 6)
	require.Equal(t, []string{"−1", "0", "1", "2", "3"}, labels(a))
	require.Equal(t, []string{"0", "0.05", "0.10", "0.15", "0.20"}, labels(linear("", 0, 0.19, 5)))
	require.Equal(t, []string{"0", "50", "100", "150", "200"}, labels(linear("", 0, 200, 6)))
	require.Equal(t, []string{"1.0", "1.1", "1.2", "1.3", "1.4"}, labels(window("", 0.98, 1.42, 6)))
	require.Equal(t, []string{"0.5", "1", "2", "5", "10", "20", "50"}, labels(logarithmic("", 0.5, 50)))
	require.Equal(t, []string{"1", "10", "100", "1000", "10000"}, labels(logarithmic("", 1.5, 8000)))
}

// Steps are 1, 2 or 5 times a power of ten, lie inside the axis, are few, and none is a negative zero.
func TestLinearProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e8, 1e8).Draw(t, "lo")
		hi := lo + rapid.OneOf(rapid.Float64Range(0, 1e8), rapid.Float64Range(0, 1e-3)).Draw(t, "range")
		want := rapid.IntRange(2, 10).Draw(t, "want")
		a := linear("", lo, hi, want)
		slack := 1e-8*(hi-lo) + 1e-9*math.Max(math.Abs(lo), math.Abs(hi))
		require.LessOrEqual(t, a.min, lo+slack)
		require.GreaterOrEqual(t, a.max, hi-slack)
		var at []float64
		for _, k := range a.ticks {
			require.NotEqual(t, "−0", k.label)
			if k.label != "" {
				at = append(at, k.at)
				require.InDelta(t, 0.5, a.at(k.at), 0.5+1e-6)
			}
		}
		require.LessOrEqual(t, len(at), want+3)
		require.GreaterOrEqual(t, len(at), 2)
		step := at[1] - at[0]
		m := step / math.Pow(10, math.Floor(math.Log10(step*(1+1e-6))))
		require.True(t, slices.ContainsFunc([]float64{1, 2, 5}, func(x float64) bool { return math.Abs(m-x) < 1e-3*x }), "step %g", step)
	})
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{fixed(-0.001, 1), "0.0"}, {fixed(-1.25, 1), "−1.2"}, {fixed(11.914, 2), "11.91"},
		{short(8.8, 3), "8.8"}, {short(8, 3), "8"}, {short(127.63, 3), "128"}, {short(0.00261, 2), "0.0026"}, {short(-0.5, 3), "−0.5"}, {short(1200, 2), "1200"},
		{twoFigures(0.104), "0.10"}, {twoFigures(0.638), "0.64"}, {twoFigures(7), "7.0"}, {twoFigures(0), "0"}, {twoFigures(45.2), "45"},
	} {
		require.Equal(t, c.want, c.got)
	}
}

// However many points are left out, every column keeps its first, least, greatest and last value.
func TestReduceProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "points")
		cols := rapid.IntRange(1, 40).Draw(t, "columns")
		seed := rapid.Int64().Draw(t, "seed")
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i] = float64(i)
			seed = seed*6364136223846793005 + 1442695040888963407
			y[i] = float64(seed >> 40)
		}
		lo := rapid.Float64Range(-10, float64(n)).Draw(t, "lo")
		hi := lo + rapid.Float64Range(0.5, float64(n)).Draw(t, "length")
		pts := reduce(x, y, lo, hi, cols)
		require.LessOrEqual(t, len(pts), 4*(cols+3))
		require.True(t, sort.SliceIsSorted(pts, func(i, j int) bool { return pts[i].x < pts[j].x }))
		most, least, found := math.Inf(-1), math.Inf(1), false
		for i := range x {
			if x[i] >= lo && x[i] <= hi {
				most, least, found = math.Max(most, y[i]), math.Min(least, y[i]), true
			}
		}
		if !found {
			return
		}
		got := map[float64]bool{}
		for _, p := range pts {
			require.Equal(t, y[int(p.x)], p.y)
			got[p.y] = true
		}
		require.True(t, got[most] && got[least])
	})
}

func TestStylesDiffer(t *testing.T) {
	seen := map[string]bool{}
	for i := range 63 {
		s := candidateLine(i)
		key := fmt.Sprint(s.Color, s.Dashes)
		require.False(t, seen[key])
		seen[key] = true
		require.NotEqual(t, dotted, s.Dashes, "dots are for limits")
	}
	grey := map[string]bool{} // by dashes and badges alone
	for i := range 35 {
		s := candidateLine(i)
		key := fmt.Sprintf("%v %T", s.Dashes, s.badge)
		require.False(t, grey[key], i)
		grey[key] = true
	}
}

func TestTexts(t *testing.T) {
	sty := textStyle(smallSize, ink)
	require.Equal(t, "a b c", clean(" a\n\tb \x07 c\r\n"))
	require.Equal(t, "?", clean("\xff"))
	long := "a-name-that-goes-on-and-on"
	require.Equal(t, long, shorten(long, sty, 1000))
	cut := shorten(long, sty, 60)
	require.LessOrEqual(t, sty.Width(cut), 60*sty.Width("x")/sty.Width("x"))
	require.Regexp(t, "^a-n.*….*on$", cut)
	for _, l := range wrap("one two three four five "+long+long+long, sty, 80) {
		require.LessOrEqual(t, float64(sty.Width(l)), 80.0)
	}
}
