package network

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The straight runs of a pipe follow one another from its beginning to its end, and their ends are the bends within it, whatever the list.
func TestRuns(t *testing.T) {
	require.Nil(t, Runs(600, nil))
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(0.1, 1e5).Draw(t, "length")
		one := rapid.OneOf(rapid.Float64Range(-10, 2*length), rapid.SampledFrom([]float64{0, length, math.NaN(), math.Inf(1), 50, 50}))
		bends := rapid.SliceOfN(one, 1, 20).Draw(t, "bends")
		runs := Runs(length, bends)
		require.NotEmpty(t, runs)
		require.Equal(t, []float64{0, length}, []float64{runs[0][0], runs[len(runs)-1][1]})
		for i, r := range runs {
			require.Less(t, r[0], r[1])
			if i > 0 {
				require.Equal(t, runs[i-1][1], r[0])
				require.Contains(t, bends, r[0])
			}
		}
		for _, x := range bends {
			within := x > 0 && x < length
			require.Equal(t, within, slices.ContainsFunc(runs[1:], func(r [2]float64) bool { return r[0] == x }))
		}
	})
}

// The runs of all units count, and are bounded.
func TestNumberOfRuns(t *testing.T) {
	n := &Network{Pipes: []Pipe{{Name: "main", Profile: []Point{{}, {Chainage: 600}}}},
		Stations: []Station{{Name: "lift", Units: 100, Branch: &Branch{Length: 10, Bends: []float64{1, 2, 3, 4, 5, 6, 7, 8, 9}}}}}
	require.Equal(t, 1000, n.Runs())
	told := func() bool {
		return slices.ContainsFunc(n.Validate(), func(f Finding) bool { return f.Path == "pipes" && f.Text == "the bends make 1001 straight runs" })
	}
	require.False(t, told())
	n.Pipes[0].Bends = []float64{600}
	require.True(t, told())
	require.Zero(t, (*Network)(nil).Runs())
}
