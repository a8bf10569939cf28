package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

// broken runs the lift station for half a second with a fault put in by spoil, and gives the audit's verdict.
func broken(t *testing.T, spoil func(r *run)) error {
	t.Helper()
	r := started(t, tripOne(t, liftStation(t, 2), "swing", 2), Settings{})
	for range int(0.5 / r.grid.dt) {
		require.NoError(t, r.advance())
		spoil(r)
	}
	return r.audit.check(r)
}

// Each audit catches the fault that it is for.
func TestAuditsCatchFaults(t *testing.T) {
	require.NoError(t, broken(t, func(*run) {}))
	for _, c := range []struct {
		name, want string
		spoil      func(r *run)
	}{
		{"a pipe end that sends more than it passes", "the volume is out of balance", func(r *run) {
			l := r.lines[0]
			l.SetRight(l.Right.H+1e-6, l.Right.Q, math.Abs(l.Right.Q))
		}},
		{"a node that loses a litre a day", "the volume is out of balance", func(r *run) {
			r.clusters[0].defect += 1e-3 / 86400 * r.grid.dt
		}},
		{"a head that is not a number", "not a number", func(r *run) { r.heads[r.m.index["header"]] = math.NaN() }},
		{"a head below vapour", "below vapour head", func(r *run) { r.heads[r.m.index["header"]] = 85 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := broken(t, c.spoil)
			require.ErrorIs(t, err, ErrAudit)
			require.ErrorContains(t, err, c.want)
		})
	}
}

// A pump whose discharge node has no pipe to form a cavity in: the run says where and when, and what to do.
func TestVapourWhereNoCavityCanForm(t *testing.T) {
	n := liftStation(t, 0)
	n.Stations[0].Elevation = 111.6 // nearly a suction lift's worth above the sump, which falls
	n.Reservoirs[0].Levels = []network.Level{{Head: 101.5}, {Time: 1, Head: 101.5}, {Time: 2, Head: 101}}
	n.Stations[0].Pump.Inertia = 0.05 // and no speed left to hold its head
	n.Pipes[0].Profile[0].Elevation = 111.6
	n.Pipes[0].Profile[1].Elevation = 111.7
	_, err := Solve(context.Background(), tripOne(t, n, "swing", 6), Settings{})
	var place *PlaceError
	require.ErrorAs(t, err, &place)
	require.ErrorIs(t, err, ErrAudit)
	require.Greater(t, place.Time, 1.0)
	require.ErrorContains(t, err, "give the pump a water length")
}
