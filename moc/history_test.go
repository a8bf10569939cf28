package moc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Whatever the series, thinning keeps true rows only, within the bound, with first, last, extremes and the rows around the moments; and thinning over
// and over keeps what a bin of the last width must keep.
func TestThinning(t *testing.T) {
	const dt = 0.01
	thinned := 0
	rapid.Check(t, func(t *rapid.T) {
		series := rapid.IntRange(1, 4).Draw(t, "series")
		steps := rapid.IntRange(1, 30000).Draw(t, "steps")
		samples := rapid.IntRange(100, 6000).Draw(t, "samples")
		seed := rapid.Float64Range(0.01, 3).Draw(t, "seed")
		var moments []int
		for range rapid.IntRange(0, 3).Draw(t, "moments") {
			moments = append(moments, rapid.IntRange(0, steps).Draw(t, "moment"))
		}
		kept := make([][]float64, series)
		var into []*[]float64
		for i := range kept {
			into = append(into, &kept[i])
		}
		value := func(i, k int) float64 {
			x := seed * float64(k) * float64(i+1)
			return math.Round(100*math.Sin(x)) + 1e3*math.Sin(x/500) // with ties
		}
		h := newRows(samples, steps, len(moments), into)
		for k := range steps + 1 {
			if k%checkpointEvery == 0 && h.full() {
				var known []int
				for _, m := range moments {
					if m <= k {
						known = append(known, m)
					}
				}
				h.thin(dt, known)
				require.LessOrEqual(t, len(h.time), h.most*3/4)
				thinned++
			}
			h.time = append(h.time, float64(k)*dt)
			for i := range kept {
				kept[i] = append(kept[i], value(i, k))
			}
			require.LessOrEqual(t, len(h.time), h.most)
			require.LessOrEqual(t, cap(h.time), h.most)
		}
		if steps < h.most-checkpointEvery {
			require.Len(t, h.time, steps+1)
		}
		have := make([]bool, steps+1)
		for r, at := range h.time {
			k := h.step(r, dt)
			require.Equal(t, float64(k)*dt, at)
			require.False(t, have[k])
			have[k] = true
			for i := range kept {
				require.Equal(t, value(i, k), kept[i][r])
			}
		}
		require.True(t, have[0])
		require.True(t, have[1])
		require.True(t, have[steps])
		for _, m := range moments {
			for k := max(m-h.window, 0); k <= min(m+h.window, steps); k++ {
				require.True(t, have[k], "step %d by the moment %d", k, m)
			}
		}
		for from := 0; from <= steps; from += h.width { // of every bin the extremes
			for i := range kept {
				least, most, l, g := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
				for k := from; k < min(from+h.width, steps+1); k++ {
					v := value(i, k)
					least, most = math.Min(least, v), math.Max(most, v)
					if have[k] {
						l, g = math.Min(l, v), math.Max(g, v)
					}
				}
				require.Equal(t, [2]float64{least, most}, [2]float64{l, g})
			}
		}
	})
	require.Positive(t, thinned)
}

// The same run with few samples: the same figures, the rows a part of the same rows, whole around events, reversals and seatings, and the time between
// the first two rows the step.
func TestFewSamples(t *testing.T) {
	for _, typ := range []string{"swing", "axial spring"} {
		n := liftStation(t, 2)
		n.Pipes[0].Bends = []float64{133, 415}
		p := tripOne(t, n, typ, 30)
		solved := func(samples int) *Result {
			r, err := Solve(t.Context(), p, Settings{Samples: samples})
			require.NoError(t, err)
			return r
		}
		full, few := solved(0), solved(4000)
		require.Len(t, full.Time, full.Numerics.Steps+1)
		require.Greater(t, full.Numerics.Steps, 3*4000, "the run must outgrow its samples")
		require.LessOrEqual(t, len(few.Time), 4000)
		require.Equal(t, full.Numerics, few.Numerics)
		require.Equal(t, full.Pipes, few.Pipes)

		dt := full.Numerics.Step
		row := func(i int) int { return int(math.Round(few.Time[i] / dt)) }
		same := func(a, b []float64) {
			require.Equal(t, len(few.Time), len(b))
			require.Equal(t, bounds(a), bounds(b))
			for i, x := range b {
				require.Equal(t, a[row(i)], x)
			}
		}
		same(full.Time, few.Time)
		for i, f := range full.Units {
			g := few.Units[i]
			require.Equal(t, f.Seatings, g.Seatings)
			for k, s := range [][]float64{f.Flow, f.Opening, f.Drop, f.HeadUp, f.HeadDown, f.Speed, f.Power} {
				same(s, [][]float64{g.Flow, g.Opening, g.Drop, g.HeadUp, g.HeadDown, g.Speed, g.Power}[k])
			}
		}
		for i := range full.Nodes {
			same(full.Nodes[i].Head, few.Nodes[i].Head)
		}
		for i, f := range full.Forces {
			g := few.Forces[i]
			same(f.Force, g.Force)
			f.Force, g.Force = nil, nil
			require.Equal(t, f, g)
		}
		whole := map[int]bool{}
		for i := range few.Time {
			whole[row(i)] = true
		}
		u := full.Units[0]
		seated := int(u.Seatings[0].Time / dt)
		reversed := 0
		for k := range u.Flow {
			if full.Time[k] >= 1 && u.Flow[k] <= 0 {
				reversed = k
				break
			}
		}
		for _, moment := range []int{int(1 / dt), reversed, seated} {
			for k := moment - 40; k <= moment+40; k++ {
				require.True(t, whole[k], "step %d by the moment %d", k, moment)
			}
		}
		require.Equal(t, dt, few.Time[1]-few.Time[0])
	}
}

// bounds are the least and the greatest value.
func bounds(x []float64) [2]float64 {
	s := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, v := range x {
		s[0], s[1] = math.Min(s[0], v), math.Max(s[1], v)
	}
	return s
}

// Thinning allocates nothing either, nor do forces.
func TestNoAllocationWithFewSamples(t *testing.T) {
	n := liftStation(t, 2)
	n.Pipes[0].Bends = []float64{133, 415}
	r := started(t, tripOne(t, n, "swing", 60), Settings{Samples: 4000})
	step := func() {
		if r.low() {
			r.cavitate()
		}
		if r.step%checkpointEvery == 0 {
			r.keep()
		}
		if err := r.advance(); err != nil {
			t.Fatal(err)
		}
		r.rec.record(r)
	}
	for float64(r.step)*r.grid.dt < 1.6 { // past the change of kernel, which allocates once
		step()
	}
	first := r.rec.width
	require.Zero(t, testing.AllocsPerRun(20000, step))
	require.Greater(t, r.rec.width, first, "the bins must have doubled on the way")
}
