package verify

import (
	"context"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/valve/choice"
)

// undisturbed is an installation in which nothing happens: no event, and whatever moves by itself stays where it is at the start.
func undisturbed(n network.Network) *network.Network {
	n.Reservoirs, n.Throttles = slices.Clone(n.Reservoirs), slices.Clone(n.Throttles)
	for i := range n.Reservoirs {
		r := &n.Reservoirs[i]
		r.Level, r.Levels = r.Head(0), nil
	}
	for i := range n.Throttles {
		n.Throttles[i].Schedule = n.Throttles[i].Schedule[:min(len(n.Throttles[i].Schedule), 1)]
	}
	return &n
}

// TestExamplesStaySteady: in 100 s without an event no head of an example changes by more than 1e-6 m, at any node of the grid. The first candidate runs all
// the time, the others, whose discs may float, a part of it, all on a coarse grid.
func TestExamplesStaySteady(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 5)
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			raw, err := examples.Files.ReadFile(name)
			require.NoError(t, err)
			doc, err := casefile.Read(name, raw, examples.Files.ReadFile)
			require.NoError(t, err)
			c, err := doc.Case()
			require.NoError(t, err)
			for k, candidate := range c.Candidates {
				in, err := choice.Install(c, &c.Scenarios[0], candidate)
				require.NoError(t, err)
				p := in.Problem
				p.Network, p.Events, p.Until = undisturbed(*p.Network), nil, 100
				if k > 0 || testing.Short() {
					p.Until = 2
				}
				r, err := moc.Solve(context.Background(), p, moc.Settings{Friction: c.Friction, ReachesAtValve: 2, ReachesInLongest: 50})
				require.NoError(t, err, candidate.Name)
				most := 0.0
				for _, pipe := range r.Pipes {
					for i, h := range pipe.Steady {
						most = math.Max(most, math.Max(pipe.Max[i]-h, h-pipe.Min[i]))
					}
				}
				for _, n := range r.Nodes {
					for _, h := range n.Head {
						most = math.Max(most, math.Abs(h-n.Head[0]))
					}
				}
				t.Logf("%s: %.2g m in %g s", candidate.Name, most, p.Until)
				require.LessOrEqual(t, most, 1e-6, candidate.Name)
				require.Negative(t, r.Numerics.CavityFrom, "no pipe is let part")
			}
		})
	}
}
