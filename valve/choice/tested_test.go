package choice

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

// benched is a candidate known by the characteristic of another one, at the decelerations given.
func benched(t *testing.T, of valve.Spec, decelerations ...float64) valve.Spec {
	t.Helper()
	v, err := catalogue.Complete(of, catalogue.Setting{Density: 999.1, Gravity: network.Gravity})
	require.NoError(t, err)
	points, err := characteristic.Curve(v, decelerations, characteristic.Settings{})
	require.NoError(t, err)
	s := set(spec(of.Name+"-tested", "measured"), map[string]float64{"loss when open": v.LossOpen, "full-open velocity": v.FullOpenVelocity})
	for _, p := range points {
		s.Tests = append(s.Tests, valve.TestPoint{Deceleration: p.Deceleration, ReverseVelocity: p.ReverseVelocity})
	}
	return s
}

// In an installation a measured valve shuts at the reverse velocity of its points for the deceleration of the flow there. A curve made of a law on
// the bench, which prescribes the velocity, over-states that law in the lift station: there the column yields to the seating disc. By how much was
// found, not set: a ring disc, which hardly takes part, 6 %; the swing disc half as much again.
func TestMeasuredInTheLiftStation(t *testing.T) {
	swing, spring := spec("swing", "swing"), spec("spring", "axial spring")
	mean := benched(t, swing, 2, 4, 6, 8, 10, 14)
	mean.Name, mean.Set["deceleration from"] = "by-mean-slope", 2.3
	r := compare(t, quick(t, swing, benched(t, swing, 2, 4, 6, 8, 10, 14), spring, benched(t, spring, 2, 4, 6, 8, 10, 14), mean))
	all := r.Scenarios[0].Outcomes
	for i, most := range map[int]float64{1: 1.6, 3: 1.1} {
		law, o := all[i-1], all[i]
		t.Logf("%s: %.3f m/s at %.2f m/s2, the law %.3f m/s at %.2f m/s2", o.Candidate, o.MaxReverseVelocity.SI, o.Deceleration.SI, law.MaxReverseVelocity.SI, law.Deceleration.SI)
		require.Greater(t, o.MaxReverseVelocity.SI, law.MaxReverseVelocity.SI)
		require.Less(t, o.MaxReverseVelocity.SI, most*law.MaxReverseVelocity.SI)
		require.Less(t, o.ReverseVelocityError.SI, 0.01)
		require.NotContains(t, strings.Join(o.Warnings, "\n"), "tested")
		// The tangent of the watch is the deceleration of the comparison but for the shape of the window.
		require.InEpsilon(t, o.Valve.Motion.(*valve.Measured).Curve.At(o.Deceleration.SI), o.MaxReverseVelocity.SI, 0.03)
	}
	o := all[4]
	v := o.History[0].Values
	fall := crossing(o.Time, v, 0, o.EventTime) - crossing(o.Time, v, 2.3, o.EventTime)
	t.Logf("%s: %.3f m/s at a mean slope of %.2f m/s2", o.Candidate, o.MaxReverseVelocity.SI, 2.3/fall)
	// The flow does not quite get to the curve: the valve shuts by the length that has flowed back.
	ratio := o.MaxReverseVelocity.SI / o.Valve.Motion.(*valve.Measured).Curve.At(2.3/fall)
	require.True(t, ratio > 0.9 && ratio <= 1.001, "ratio %g", ratio)
}

// Beyond the points there is a warning that says how far, and nothing worse.
func TestMeasuredBeyondItsPoints(t *testing.T) {
	swing := spec("plain-swing", "swing")
	short, late := benched(t, swing, 2, 3, 4), benched(t, swing, 12, 16, 20)
	slow := benched(t, swing, 4, 8, 12)
	slow.Set["full-open velocity"] *= 1.3
	short.Name, late.Name, slow.Name = "short", "late", "slow"
	r := compare(t, quick(t, short, late, slow))
	for i, words := range []string{`decelerates by 6\.\d+ m/s2, \d\d % above the greatest tested, 4 m/s2: its reverse velocity is extrapolated`,
		`decelerates by 6\.\d+ m/s2, \d\d % below the least tested, 12 m/s2: its reverse velocity is taken in proportion`,
		`steady velocity of 2\.5\d* m/s does not hold the disc on its stop, which takes 3\.0\d* m/s`} {
		o := r.Scenarios[0].Outcomes[i]
		require.Regexp(t, words, strings.Join(o.Warnings, "\n"), o.Candidate)
		require.False(t, math.IsNaN(o.MaxReverseVelocity.SI))
	}
	require.Regexp(t, "short.*extrapolated", strings.Join(r.Warnings, "\n"))
}
