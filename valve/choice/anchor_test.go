package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/quantity"
)

// bent is [quick] with bends in the main and in the branches.
func bent(t testing.TB) *Case {
	c := quick(t)
	n := c.Scenarios[0].Network
	n.Pipes[0].Bends = []float64{133, 415}
	n.Stations[0].Branch.Bends = []float64{3}
	return c
}

// The hardest loaded run is that of the greatest force in the series, with its place, time and error, and stands in the reasons.
func TestAnchorForce(t *testing.T) {
	c := bent(t)
	c.Limits.AnchorForce = some(60e3)
	r := compare(t, c)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Len(t, o.Runs, 3+3*2)
		require.Equal(t, "branch", o.Runs[3].Pipe)
		require.Equal(t, "branch of lift, unit 2", o.Runs[5].Pipe)
		require.Equal(t, []string{"header", "tower", "valve outlet", "header"}, []string{o.Runs[0].Behind, o.Runs[0].Ahead, o.Runs[3].Behind, o.Runs[3].Ahead})
		greatest, at, where := 0.0, 0.0, ""
		for _, run := range o.Runs {
			require.Len(t, run.Force, len(o.Time))
			for i, f := range run.Force {
				if math.Abs(f) > greatest {
					greatest, at, where = math.Abs(f), o.Time[i], run.Name(quantity.SI)
				}
			}
		}
		require.InEpsilon(t, greatest, o.AnchorForce.SI, 1e-12)
		require.InDelta(t, at, o.AnchorForceTime.SI, 1e-9)
		require.Equal(t, where, o.Spots[keyAnchor].Place)
		require.Positive(t, o.AnchorImpulse.SI)
		require.Positive(t, o.AnchorForceError.SI)
		require.Less(t, o.AnchorForceError.SI, 0.1*greatest)
		require.Contains(t, r.text(), "the anchor force of ")
	}
	require.Len(t, r.Cautions(), len((&Comparison{}).Cautions())+2, "on the optimistic defaults, and on what the force is not")
}

// In the branch the disc shuts off, all liquid is stopped once: the slam pushes the branch's run next to the valve with the slam pressure rise on the bore, within the
// time that the wave takes to pass it. The run is a bend away from the junction, whose answer comes later.
func TestSlamPushesTheBranch(t *testing.T) {
	c := bent(t)
	c.Candidates = c.Candidates[:1]
	r, err := Run(t.Context(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	o := &r.Scenarios[0].Outcomes[0]
	b := c.Scenarios[0].Network.Stations[0].Branch
	k := 0
	for o.Time[k] < o.Seated.SI {
		k++
	}
	jump := o.Runs[3].Force[k] - o.Runs[3].Force[k-1]
	require.InEpsilon(t, -o.SlamPressureRise.SI*math.Pi/4*b.Bore*b.Bore, jump, 0.05)
}

func TestAnchorForceWithout(t *testing.T) {
	c := quick(t)
	c.Limits.AnchorForce = some(60e3)
	r, err := Run(t.Context(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	o := r.Scenarios[0].Outcomes[0]
	require.Equal(t, noBends, o.AnchorForce.Reason)
	require.Empty(t, o.Runs)
	require.Contains(t, r.text(), "The limit on the anchor force was not judged for spring-disc: no bends are given.")
	require.Equal(t, Rank(Seldom), measure(LiquidPump, keyAnchor).Rank, "no row without a value")
}

func pushed(push Push, seated, slam float64) *Outcome {
	return silent(func(o *Outcome) {
		o.Runs = []StraightRun{{Pipe: "main", To: 30, Area: 0.1, Forward: Push{Force: 1}, Reverse: push}}
		o.Seated, o.SlamPressureRise, o.Spots, o.settling = Value{SI: seated}, Value{SI: slam}, map[string]Spot{}, 10
		o.anchor(true, Settings{})
	})
}

// Of a force after the seating the slam on the bore is what the valve's data decide, at most all of it; of one before it nothing.
func TestAnchorForceNarrowly(t *testing.T) {
	l := Limits{AnchorForce: some(50e3)}
	v := one(t, pushed(Push{40e3, 2, 9}, 1, 3e5), l)
	require.Equal(t, "main, 0 m to 30 m", v.Place)
	require.Equal(t, 2.0, v.Time)
	require.True(t, v.Met)
	require.True(t, v.Narrow, "0.4 of 30 kN is more than 10 kN")
	require.False(t, one(t, pushed(Push{40e3, 2, 9}, 1, 2e5), l).Narrow)
	require.True(t, one(t, pushed(Push{36e3, 2, 9}, 1, 9e5), l).Narrow, "all of it")
	require.False(t, one(t, pushed(Push{35e3, 2, 9}, 1, 9e5), l).Narrow)
	require.False(t, one(t, pushed(Push{40e3, 0.9, 9}, 1, 9e5), l).Narrow, "before the seating")
	require.False(t, one(t, pushed(Push{51e3, 2, 9}, 1, 9e5), l).Met)
}

// A limit is broken late when no run breaks it sooner.
func TestAnchorForceLate(t *testing.T) {
	o := pushed(Push{60e3, 80, 9}, 2, 3e5)
	l := Limits{AnchorForce: some(50e3)}
	late := func(forces ...[]float64) float64 {
		push := overload{1, 50e3, -1}
		for k, now := range []float64{0, 1, 5, 20, 80} {
			var f []float64
			for _, run := range forces {
				f = append(f, run[k])
			}
			push.take(now, f)
		}
		o.exceeded = map[string]float64{keyAnchor: push.first}
		return one(t, o, l).Late
	}
	require.InDelta(t, 78, late([]float64{-70e3, 0, 10, 20, -60e3}), 1e-12, "what was before the event does not count")
	require.Zero(t, late([]float64{0, 0, 10, 20, -60e3}, []float64{0, 0, -55e3, 0, 0}))
	require.InDelta(t, 78, late([]float64{0, 0, 50e3, 0, 0}), 1e-12, "at the limit is not beyond it")
}

// A run in which the disc stays open has not shown its greatest force.
func TestAnchorForceOfAnOpenDisc(t *testing.T) {
	o := pushed(Push{40e3, 2, 9}, 1, 3e5)
	o.Unseated = "the run ends at 3 s before the disc seats"
	o.leaveOpen()
	require.Equal(t, o.Unseated, o.AnchorForce.Reason)
	require.Equal(t, o.Unseated, o.AnchorImpulse.Reason)
	require.NotContains(t, o.Spots, keyAnchor)
}

func TestStraightRunName(t *testing.T) {
	for _, x := range []struct {
		run    StraightRun
		si, us string
	}{
		{StraightRun{Pipe: "main", From: 12, To: 40}, "main, 12 m to 40 m", "main, 39.4 ft to 131 ft"},
		{StraightRun{Pipe: "main", From: 12.5, To: 400}, "main, 12.5 m to 400 m", "main, 41 ft to 1312 ft"},
		{StraightRun{Pipe: "main", From: 0, To: 0.5}, "main, 0 m to 0.5 m", "main, 0 ft to 1.64 ft"},
		{StraightRun{Pipe: "main", From: 1500.2, To: 1500.7}, "main, 1500.2 m to 1500.7 m", "main, 4922 ft to 4924 ft"},
		{StraightRun{Pipe: "main", From: 1500, To: 1500.4}, "main, 1500 m to 1500.4 m", "main, 4921 ft to 4923 ft"},
	} {
		require.Equal(t, []string{x.si, x.us}, []string{x.run.Name(quantity.SI), x.run.Name(quantity.US)})
	}
}

// Runs lie between bends and ends; a pipe of which no bend is told has none.
func TestRunsOfANetwork(t *testing.T) {
	n := bent(t).Scenarios[0].Network
	require.Equal(t, 9, n.Runs())
	require.Equal(t, [][2]float64{{0, 133}, {133, 415}, {415, 600}}, network.Runs(600, n.Pipes[0].Bends))
	require.Nil(t, network.Runs(600, nil))
	require.Equal(t, [][2]float64{{0, 600}}, network.Runs(600, []float64{0}))
}
