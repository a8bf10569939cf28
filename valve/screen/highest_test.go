package screen

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// The highest head of the header against a full run each, whose ideal valves shut as the flow turns.
func TestHighestHeadAgainstRuns(t *testing.T) {
	names := []string{"lift-station.yaml", "short-high-head.yaml"}
	if !testing.Short() {
		names = append(names, "tested-valve.yaml", "two-stations-loop.yaml", "air-vessel.yaml", "running-cost.yaml")
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := example(t, name)
			for i := range c.Scenarios {
				sc := &c.Scenarios[i]
				in, err := choice.Install(c, sc, valve.Spec{Name: "at once", Type: "ideal", Size: choice.HeldOpen(c, sc).Size})
				require.NoError(t, err)
				st, err := moc.SteadyState(in.Problem)
				require.NoError(t, err)
				all, err := Estimate(in.Problem, st)
				require.NoError(t, err)
				r, err := moc.Solve(context.Background(), in.Problem, moc.Settings{})
				require.NoError(t, err)
				for _, s := range sc.Network.Stations {
					k := slices.IndexFunc(all, func(r Reversal) bool { return r.Station == s.Name })
					if k < 0 {
						continue
					}
					n := slices.IndexFunc(r.Nodes, func(n moc.NodeTrace) bool { return n.Name == s.To })
					most := slices.Max(r.Nodes[n].Head)
					require.GreaterOrEqual(t, all[k].Highest, all[k].Before)
					require.InDelta(t, most, all[k].Highest, math.Max(0.2, 0.03*(most-all[k].Before)), sc.Name)
					t.Logf("%s, %s: header %.2f m before, estimate %.2f m, run %.2f", name, sc.Name, all[k].Before, all[k].Highest, most)
				}
			}
		})
	}
}
