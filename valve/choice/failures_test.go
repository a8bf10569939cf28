package choice

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

func TestFailures(t *testing.T) {
	c := quick(t)
	c.Limits = Limits{ReverseVelocity: some(0.3)}
	failed, err := WithFailures(c)
	require.NoError(t, err)
	require.Len(t, c.Candidates, 2, "the case itself stays")
	var names []string
	for _, s := range failed.Candidates {
		names = append(names, s.Name)
	}
	swing, spring := c.Candidates[0].Name, c.Candidates[1].Name
	require.Equal(t, []string{swing, swing + "-stuck-disc", swing + "-worn-bearing",
		spring, spring + "-broken-spring", spring + "-stuck-disc", spring + "-worn-bearing"}, names, "a plain swing disc has no spring")

	r := compare(t, failed)
	o := r.Scenarios[0].Outcomes
	require.Equal(t, compare(t, c).Recommended, r.Recommended)
	for _, x := range r.standings() {
		require.Contains(t, []string{swing, spring}, x.name)
	}
	require.Greater(t, o[4].MaxReverseVelocity.SI, 2*o[3].MaxReverseVelocity.SI, "a ring disc without its spring waits for the flow")
	for k, sound := range map[int]int{1: 0, 5: 3} {
		require.Empty(t, o[k].Unseated)
		require.Equal(t, "the disc is stuck open", o[k].Seated.Reason)
		require.Greater(t, o[k].ReverseVolume.SI, 3*o[sound].ReverseVolume.SI)
		require.False(t, *o[k].LimitsMet)
	}
	require.Greater(t, o[2].MaxReverseVelocity.SI, o[0].MaxReverseVelocity.SI, "friction holds the disc back")
	require.Equal(t, "a failure has no price", o[1].PriceRatio.Reason)

	require.Len(t, r.Failures, 6)
	text := strings.Join(r.Failures, "\n")
	require.Contains(t, text, spring+" with a broken spring: reverse velocity ")
	require.Contains(t, text, swing+" with a stuck disc: the valve does not close, reverse volume ")
	require.Contains(t, text, "it breaks the limits: reverse velocity")
	require.Contains(t, text, "none is recommended")
	require.False(t, slices.ContainsFunc(r.Reasons, func(s string) bool { return strings.Contains(s, "stuck-disc") }))
	require.Nil(t, compare(t, c).Failures)
}

// In a falling pipe the weight of a disc whose spring is broken holds it open: the variant has no result and says so.
func TestBrokenSpringInDownflow(t *testing.T) {
	c := quick(t, spec("nozzle", "nozzle"))
	c.Scenarios[0].Network.Stations[0].Slope = -1.5707963
	failed, err := WithFailures(c)
	require.NoError(t, err)
	require.Equal(t, valve.BrokenSpring, failed.Candidates[1].Failure)
	r := compare(t, failed)
	require.Contains(t, r.Failures[0], "nozzle with a broken spring: no result: ")
	require.Contains(t, r.Failures[0], "its weight holds it open")
}

func TestFailureNames(t *testing.T) {
	_, err := WithFailures(quick(t, spec("a", "swing"), spec("A-Stuck-disc", "swing")))
	require.ErrorIs(t, err, ErrCase)
	require.ErrorContains(t, err, "a with a stuck disc would be called a-stuck-disc")
}
