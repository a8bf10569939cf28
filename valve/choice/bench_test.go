package choice

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/valve"
	"seatwise/valve/characteristic"
)

// The velocity that a trip put on a valve, put on it by the bench, closes it in the same way: run and bench share the code of the disc, and a
// characteristic differs from an installation by the course of the velocity alone. The bench takes steps of its own; the course is straight
// between the steps of the run and goes straight on behind the velocity just before the seating.
func TestBenchRepeatsTrip(t *testing.T) {
	for _, kind := range []string{"swing", "tilting disc", "dual plate", "nozzle", "ball"} {
		c := quick(t, spec("v", kind))
		in, err := Install(c, &c.Scenarios[0], c.Candidates[0])
		require.NoError(t, err)
		require.NoError(t, in.Unfit)
		r, err := moc.Solve(context.Background(), in.Problem, moc.Settings{})
		require.NoError(t, err)
		require.Zero(t, r.Bin, "every step is there")
		var u *moc.UnitTrace
		for i := range r.Units {
			if r.Units[i].Tripped >= 0 {
				u = &r.Units[i]
			}
		}
		require.NotNil(t, u)
		require.NotEmpty(t, u.Seatings, kind)
		first := u.Seatings[0]
		var course characteristic.Course
		for k := 0; r.Time[k] < first.Time; k++ {
			course.Time = append(course.Time, r.Time[k])
			course.Velocity = append(course.Velocity, u.Flow[k]/area(u.Bore))
		}
		n := len(course.Time) - 1
		slope := (first.Velocity - course.Velocity[n]) / (first.Time - course.Time[n])
		course.Time = append(course.Time, first.Time, first.Time+0.05)
		course.Velocity = append(course.Velocity, first.Velocity, first.Velocity+0.05*slope)
		var v valve.Valve
		for i, mine := range in.Mine {
			if mine {
				v = in.Valves[i]
			}
		}
		p, err := characteristic.Follow(v, course, characteristic.Settings{Step: 1e-3})
		require.NoError(t, err)
		require.Equal(t, characteristic.Seats, p.Outcome, kind)
		require.InEpsilon(t, -first.Velocity, p.ReverseVelocity, 1e-3, kind)
		require.InDelta(t, first.Time, p.Time, 2e-4, kind)
		require.InEpsilon(t, first.Speed, p.SeatRate, 1e-3, kind)
	}
}
