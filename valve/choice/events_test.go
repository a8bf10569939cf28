package choice

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve"
)

func judged(t *testing.T, until float64, stopped int, events ...network.Event) *Comparison {
	t.Helper()
	c := quick(t)
	c.Until = until
	c.Scenarios[0].Network.Stations[0].Stopped = stopped
	c.Scenarios[0].Events = events
	r, err := Run(context.Background(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	return r
}

// Units that stand at first, are started and then trip: a disc that is still open when the run ends is not "on its seat from the start".
func TestStartedThenTripped(t *testing.T) {
	events := []network.Event{{Kind: network.Start, Target: "lift", Units: 3, Time: 0.5, Over: 1}, {Kind: network.Trip, Target: "lift", Units: 3, Time: 4}}
	r := judged(t, 4.5, 3, events...)
	require.Empty(t, r.Recommended)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Contains(t, o.MaxReverseVelocity.Reason, "before the disc seats")
		require.Equal(t, noFlow, o.HeadLoss.Reason)
	}
	for _, o := range judged(t, 12, 3, events...).Scenarios[0].Outcomes {
		require.Empty(t, o.MaxReverseVelocity.Reason)
		if x := o.SpeedRatioAtReversal; x.Reason == "" {
			require.False(t, math.IsInf(x.SI, 0) || math.IsNaN(x.SI))
		}
	}
}

// A check valve that fails open has its figures up to the end of the run, and is not recommended.
func TestFailedValveIsJudged(t *testing.T) {
	r := judged(t, 6, 0, network.Event{Kind: network.Fail, Target: "lift", Units: 1, Time: 0, To: 1}, network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1})
	require.Empty(t, r.Recommended)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Equal(t, "the event holds the disc", o.Seated.Reason)
		require.Empty(t, o.PeakPressure.Reason)
		require.Empty(t, o.MaxReverseSpeed.Reason)
		require.Greater(t, o.MaxReverseSpeed.SI, 10.0)
		require.Greater(t, o.ReverseVolume.SI, 0.1)
	}
}

// twoStations is the lift station with a second one of a single unit with a lighter rotor.
func twoStations(t *testing.T) *Case {
	c := quick(t)
	n := c.Scenarios[0].Network
	aux := n.Stations[0]
	aux.Name, aux.Units = "aux", 1
	aux.Pump.Inertia = 0.3
	n.Stations = append(n.Stations, aux)
	c.Until = 5
	c.Scenarios[0].Events = []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 0.5}, {Kind: network.Trip, Target: "aux", Units: 1, Time: 2.5}}
	return c
}

func once(t *testing.T, c *Case) *Comparison {
	r, err := Run(context.Background(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	return r
}

// A later trip at another station with a lighter rotor is the harder one: its valve is the one watched, and every measure of the closing is its own. They are
// those that a comparison gives in which the candidate stands at that station alone, and the verdict is on them.
func TestHardestValveIsWatched(t *testing.T) {
	c := twoStations(t)
	r := once(t, c)
	for k, spec := range c.Candidates {
		o := r.Scenarios[0].Outcomes[k]
		require.Equal(t, "aux, unit 1", o.Watched)
		require.Equal(t, "lift, unit 1", o.RouteFrom, "one route for all candidates")
		require.Greater(t, o.Seated.SI, 2.5)
		require.Greater(t, o.ClosingStart.SI, 2.5)
		require.Equal(t, "aux, unit 1", o.Spots[keyReverse].Place)

		alone := twoStations(t)
		alone.Candidates = []valve.Spec{spec}
		alone.Valves = map[string]valve.Spec{"other": spec}
		alone.Scenarios[0].Network.Stations[0].CheckValve = "other"
		same := once(t, alone).Scenarios[0].Outcomes[0]
		require.Equal(t, o.Watched, same.Watched)
		for _, m := range Measures(LiquidPump) {
			if m.Key != keyHeadLoss {
				require.Equal(t, m.Get(&same), m.Get(&o), m.Key)
			}
		}
		require.Equal(t, same.History, o.History)
		other := twoStations(t)
		other.Candidates, other.Valves = alone.Candidates, alone.Valves
		other.Scenarios[0].Network.Stations[1].CheckValve = "other"
		easier := once(t, other).Scenarios[0].Outcomes[0]
		require.Equal(t, "lift, unit 1", easier.Watched)
		require.Less(t, easier.MaxReverseVelocity.SI, 0.9*o.MaxReverseVelocity.SI)
		require.InDelta(t, math.Max(same.HeadLoss.SI, easier.HeadLoss.SI), o.HeadLoss.SI, 1e-9, "of the place where it is greater")
		require.InEpsilon(t, once(t, alone).Scenarios[0].Own.SI, r.Scenarios[0].Own.SI, 0.01, "the steepest deceleration is that of aux")
	}
}

// A disc that the run leaves open is not hidden by another that has seated, however hard.
func TestOpenDiscIsWatched(t *testing.T) {
	c := twoStations(t)
	c.Scenarios[0].Events = []network.Event{{Kind: network.Trip, Target: "aux", Units: 1, Time: 0.5}, {Kind: network.Trip, Target: "lift", Units: 1, Time: 4.9}}
	for _, o := range once(t, c).Scenarios[0].Outcomes {
		require.Equal(t, "lift, unit 1", o.Watched)
		require.Contains(t, o.MaxReverseVelocity.Reason, "before the disc seats")
	}
}

// Like units that do the same are judged once, as the first of them; a unit that runs on is not watched.
func TestLikeUnitsAreJudgedOnce(t *testing.T) {
	for _, events := range [][]network.Event{{{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}, {{Kind: network.Trip, Target: "lift", Units: 3, Time: 1}}} {
		for _, o := range judged(t, 3, 0, events...).Scenarios[0].Outcomes {
			require.Equal(t, "lift, unit 1", o.Watched)
			require.Equal(t, "lift, unit 1", o.Spots[keyHeadLoss].Place)
		}
	}
}

// A check valve that stands alone in the line is watched where it is the hardest: the candidate of both places.
func TestStandAloneValveIsWatchedToo(t *testing.T) {
	c := quick(t)
	n := c.Scenarios[0].Network
	n.Pipes[0].From = "behind"
	n.CheckValves = []network.CheckValve{{Name: "line-valve", From: "header", To: "behind", Elevation: 102}}
	n.Pipes[0].Bore = 0.35 // for a valve of the pumps' size
	n.Reservoirs[1].Level = 140
	c.Until = 6
	c.Scenarios[0].Events[0].Units = 3
	seen := map[string]bool{}
	for _, o := range once(t, c).Scenarios[0].Outcomes {
		seen[o.Watched] = true
		require.Empty(t, o.Failed)
		if o.PeakNode != "" {
			require.NotEqual(t, "valve outlet", o.PeakNode, "of which valve?")
		}
	}
	require.Contains(t, seen, "line-valve")
	require.NotContains(t, seen, "lift, unit 2")
	require.NotContains(t, seen, "lift, unit 3")
}
