package screen

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

func screened(t *testing.T, c *choice.Case) *Screening {
	t.Helper()
	s, err := Screen(context.Background(), c, choice.Settings{})
	require.NoError(t, err)
	return s
}

func surveyed(t *testing.T, c *choice.Case) *Screening {
	t.Helper()
	s, err := survey(context.Background(), c, choice.Settings{})
	require.NoError(t, err)
	return s
}

func (s *Screening) family(name string) *Family {
	return &s.Families[slices.IndexFunc(s.Families, func(f Family) bool { return f.Name == name })]
}

// judged is a generic type alone, without the time that all of them take.
func (s *Screening) judged(kind string) *Family {
	spec := valve.Spec{Name: kind, Type: kind, Size: s.Size}
	f := &Family{Name: kind, Spec: spec, Because: s.Case.Against(spec)}
	s.judge(f)
	return f
}

// The reverse velocities of the screening against one run each: no run is above the range, and none below the part of it that a type is given before it is
// called too slow.
func TestReverseVelocityAgainstRuns(t *testing.T) {
	names := []string{"lift-station.yaml"}
	if !testing.Short() {
		names = append(names, "short-high-head.yaml", "tested-valve.yaml", "two-stations-loop.yaml", "air-vessel.yaml")
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c := example(t, name)
			s := surveyed(t, c)
			sc := &c.Scenarios[slices.IndexFunc(c.Scenarios, func(sc choice.Scenario) bool { return sc.Name == s.At })]
			for _, kind := range []string{"swing", "nozzle"} {
				in, err := choice.Install(c, sc, valve.Spec{Name: kind, Type: kind, Size: s.Size})
				require.NoError(t, err)
				r, err := moc.Solve(context.Background(), in.Problem, moc.Settings{})
				require.NoError(t, err)
				found := 0.0
				for _, u := range r.Units {
					if u.Tripped >= 0 && len(u.Seatings) > 0 {
						found = math.Max(found, -u.Seatings[0].Velocity)
					}
				}
				f := s.judged(kind)
				t.Logf("%s %s: run %.3f m/s, screening %.3f (%.3f to %.3f)", name, kind, found, f.Velocity, f.Reverse.Low, f.Reverse.High)
				require.Positive(t, found)
				require.LessOrEqual(t, found, f.Reverse.High, kind)
				require.GreaterOrEqual(t, found, f.Reverse.Low/yields, kind)
			}
		})
	}
}

func TestScreenOfTheBuiltInExample(t *testing.T) {
	c := example(t, "lift-station.yaml")
	s := screened(t, c)
	require.Equal(t, "base", s.At)
	require.Equal(t, Need{0.3, ByLimit}, s.Need)
	require.Equal(t, "demanding", Demanding(s.Worst.Bound))
	require.Equal(t, 2, s.Worst.Others)
	require.Equal(t, Enough, s.family("axial spring").Verdict)
	require.Equal(t, Slow, s.family("swing").Verdict)
	require.Equal(t, RuledOut, s.family("nozzle gas").Verdict)
	// rho a V_r on the branch, which has the bore of the valve.
	n := c.Scenarios[0].Network
	f := s.family("swing")
	require.InEpsilon(t, n.Fluid.Density*n.Stations[0].Branch.WaveSpeed*f.Velocity, f.Rise, 1e-9)
	require.True(t, slices.IsSortedFunc(s.Families, func(a, b Family) int { return int(a.Verdict) - int(b.Verdict) }))
	for _, text := range append(s.Sentences(quantity.US), s.Conclusion()) {
		require.NotContains(t, text, "NaN")
		require.NotContains(t, text, " m/s")
	}

	// The block is a section of a case that can be read and screened again to the same verdicts.
	d, err := casefile.Read("again.yaml", []byte("format: 1\ncandidates:\n"+s.Block(6)), nil)
	require.NoError(t, err)
	_, err = d.Case()
	require.ErrorContains(t, err, "stations is missing")
	require.NotContains(t, err.Error(), "candidates")

	// What the service asks goes before the dynamics.
	c.Service.Dirty = true
	require.Equal(t, RuledOut, s.judged("axial spring").Verdict)
	require.Equal(t, Slow, s.judged("swing").Verdict)

	c.Service.Dirty, c.Service.Piggable = false, true
	require.Equal(t, RuledOut, s.judged("swing heavy").Verdict)
	require.Contains(t, s.Conclusion(), "the travel must clear the bore")
}

func TestNeed(t *testing.T) {
	c := example(t, "lift-station.yaml")
	limit := c.Limits.ReverseVelocity
	need := func() Need { return surveyed(t, c).Need }
	c.Service.NoRotation = true
	require.Equal(t, Need{0.15, ByRotation}, need())
	c.Limits.ReverseVelocity = nil
	c.Service.NoRotation = false
	c.Limits.DesignPressure, c.Limits.SurgeAllowance = nil, nil
	require.Equal(t, Need{0.15, ByBackflow}, need())
	c.Service.Harmless = true
	require.Equal(t, Need{0.3, BySlam}, need())
	c.Limits.SlamClass, c.Limits.SlamBounds = choice.SlamNone, choice.SlamBounds{None: 0.2, Mild: 0.4}
	require.Equal(t, Need{0.2, ByLimit}, need())
	c.Limits.ReverseVelocity, c.Limits.Margin = limit, 0.5
	require.Equal(t, Need{0.1, ByLimit}, need(), "half of every limit is kept to spare")
	c.Limits.Margin, c.Limits.SlamClass = 0, ""
	require.Equal(t, Need{0.3, ByLimit}, need())
	p := 6e5
	c.Limits.DesignPressure = &p
	s := surveyed(t, c)
	require.Equal(t, ByPressure, s.Need.Because)
	// (6 bar - rho g (H_header - z))/(rho a)
	n := c.Scenarios[0].Network
	st := n.Stations[0]
	require.InEpsilon(t, (p-n.Fluid.Density*n.G()*(s.Worst.Before-st.Elevation))/(n.Fluid.Density*st.Branch.WaveSpeed), s.Need.Velocity, 1e-9)
	p = 4e5
	require.Zero(t, need().Velocity, "the steady pressure is above it")
}

// Where the line itself breaks the limit on the pressure no type is called fast enough: the runs of this case have 16 bar and more with every valve.
func TestLineBreaksTheLimitItself(t *testing.T) {
	c := example(t, "short-high-head.yaml")
	p := 12.5e5
	c.Limits.DesignPressure = &p
	s := surveyed(t, c)
	require.Equal(t, Need{0, ByPressure}, s.Need)
	require.Greater(t, s.Reaches, *c.Limits.Peak())
	require.Equal(t, InVain, s.judged("axial spring").Verdict)
	require.Contains(t, s.Sentences(quantity.SI)[len(s.Sentences(quantity.SI))-1], "however fast that shuts")

	p = 25e5 // room for slam, counted from the highest head
	s = surveyed(t, c)
	require.Equal(t, ByLimit, s.Need.Because)
	c.Limits.ReverseVelocity, c.Limits.SlamClass, c.Service.Harmless = nil, "", true
	n := c.Scenarios[0].Network
	station := n.Stations[0]
	high := n.Fluid.Density * n.G() * (s.Scenarios[1].Reversals[0].Highest - station.Elevation)
	p = (high + 1e5) / (1 + *c.Limits.SurgeAllowance)
	s = surveyed(t, c)
	require.Equal(t, ByPressure, s.Need.Because)
	require.InEpsilon(t, 1e5/s.Scenarios[1].stops[0].rise, s.Need.Velocity, 1e-6)
}

func TestPipeThatFalls(t *testing.T) {
	c := example(t, "lift-station.yaml")
	c.Scenarios[0].Network.Stations[0].Slope = -math.Pi / 2
	s := surveyed(t, c)
	f := s.judged("swing")
	require.Equal(t, RuledOut, f.Verdict)
	require.False(t, f.Made())
	require.Contains(t, f.Because[0], "level or rising pipe")
	require.Equal(t, Enough, s.judged("axial spring").Verdict)
}

func TestCandidatesWithDataOfTheirOwn(t *testing.T) {
	s := surveyed(t, example(t, "tested-valve.yaml"))
	own := s.own()
	require.Len(t, own, 1, "the plain generic candidates are among the types")
	f := &Family{Name: own[0].Name, Spec: own[0], Candidate: true}
	s.judge(f)
	require.InDelta(t, 0.13, f.Velocity, 0.02, "between its test points at 3 and 6 m/s2")
	require.Equal(t, f.Reverse.Low, f.Reverse.High)
}

func TestNothingToScreen(t *testing.T) {
	c := example(t, "lift-station.yaml")
	c.Scenarios[0].Events = nil
	_, err := Screen(context.Background(), c, choice.Settings{})
	require.ErrorIs(t, err, ErrNothing)
}

// TestNeverSeats: a disc that its bearing holds open has no reverse velocity, rise or slam, rather than none of 0.
func TestNeverSeats(t *testing.T) {
	f := Family{Name: "stuck", Margin: 1.1, made: true}
	cells := (&Screening{Case: &choice.Case{}}).Cells(&f, quantity.SI)
	require.Equal(t, []string{"does not seat", "", "", "", "1.10", "not known"}, cells)
}
