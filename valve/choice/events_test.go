package choice

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
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

// A later trip at another station with a lighter rotor is the harder one: the watched valve's figures do not hide it.
func TestHarderValveElsewhere(t *testing.T) {
	c := quick(t)
	n := c.Scenarios[0].Network
	aux := n.Stations[0]
	aux.Name, aux.Units = "aux", 1
	aux.Pump.Inertia = 0.3
	n.Stations = append(n.Stations, aux)
	c.Until = 5
	c.Scenarios[0].Events = []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 0.5}, {Kind: network.Trip, Target: "aux", Units: 1, Time: 2.5}}
	r, err := Run(context.Background(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Equal(t, "lift, unit 1", o.Watched)
		require.Condition(t, func() bool {
			for _, w := range o.Warnings {
				if strings.Contains(w, "the valve of aux, unit 1 sees a greater reverse velocity") {
					return true
				}
			}
			return false
		}, o.Warnings)
	}
	for _, o := range judged(t, 3, 0, network.Event{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}).Scenarios[0].Outcomes {
		for _, w := range o.Warnings {
			require.NotContains(t, w, "sees a greater reverse velocity")
		}
	}
}
