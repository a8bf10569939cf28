package choice

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// The built-in example against an independent calculation (coupled disc and flow, 0.5 ms step, branch and main elastic): swing 0.638 m/s at
// 6.8 m/s2, speed ratio 0.72, 11.4 bar at the valve; spring disc 0.104 m/s and 5.5 bar. Catalogue and `water length` differ from it, hence the bands.
func TestLiftStation(t *testing.T) {
	r := compare(t, liftStation(t))
	sc := r.Scenarios[0]
	swing, spring := sc.Outcomes[0], sc.Outcomes[1]

	within := func(lo, hi float64, v Value) {
		t.Helper()
		require.Empty(t, v.Reason)
		require.GreaterOrEqual(t, v.SI, lo)
		require.LessOrEqual(t, v.SI, hi)
	}
	within(0.50, 0.80, swing.MaxReverseVelocity)
	within(5, 9, swing.Deceleration)
	within(5, 9, sc.Own)
	within(0.66, 0.78, swing.SpeedRatioAtReversal)
	within(8.8e5, 14e5, swing.PeakPressure)
	require.Equal(t, "valve outlet", swing.PeakNode)
	require.Equal(t, "lift, unit 1", swing.Watched)
	require.False(t, *swing.LimitsMet)

	within(0, 0.15, spring.MaxReverseVelocity)
	require.True(t, *spring.LimitsMet)
	require.Equal(t, "spring-disc", r.Recommended)
	for _, words := range []string{"plain-swing (price ratio 1) fails: ", "above the design pressure with 10 % surge allowance of 8.8 bar (valve outlet, 1.5",
		"more head in steady flow", "±40 %"} {
		require.Contains(t, r.text(), words)
	}

	for _, o := range sc.Outcomes {
		require.GreaterOrEqual(t, o.Numerics.Grids, 2)
		require.Less(t, o.Numerics.VolumeResidual, 1e-7)
		require.LessOrEqual(t, o.ReverseVelocityError.SI, math.Max(0.01*o.MaxReverseVelocity.SI, 5e-3))
		for _, s := range o.History {
			require.Len(t, s.Values, len(o.Time), s.Key)
		}
		require.Equal(t, []string{"lift/1/branch", "rising-main"}, []string{o.Route[0].Pipe, o.Route[1].Pipe})
		require.InDelta(t, 606, o.Route[1].Chainage[len(o.Route[1].Chainage)-1], 1e-9)
	}
	require.Contains(t, r.Assumptions[0], "moving mass")

	// the head above vapour is that of the lowest pressure: (p + p_atm - p_v)/(rho g)
	water := r.Case.Scenarios[0].Network.Fluid
	require.InEpsilon(t, (spring.MinPressure.SI+101300-water.VapourPressure)/(water.Density*9.80665), spring.VapourMargin.SI, 1e-12)
	require.Less(t, swing.VapourMargin.SI, 0.5, "a cavity with a little free gas")
	require.Equal(t, []string{SlamSevere, SlamNone}, []string{swing.SlamClass(), spring.SlamClass()})
}

// The jump over the seating is a V_R/g on the pipe's bore (N. Joukowsky, 1898), whatever the valve's own bore.
func TestSlamIsJoukowsky(t *testing.T) {
	small := spec("small", "swing")
	small.Size = 0.2
	c := quick(t, spec("plain", "swing"), small, spec("spring", "axial spring"))
	r := compare(t, c)
	b, rho := c.Scenarios[0].Network.Stations[0].Branch, c.Scenarios[0].Network.Fluid.Density
	for _, o := range r.Scenarios[0].Outcomes {
		onPipe := o.MaxReverseVelocity.SI * math.Pow(o.Valve.Bore/b.Bore, 2)
		t.Log(o.Candidate, rho*b.WaveSpeed*onPipe, o.SlamPressureRise)
		require.InEpsilon(t, rho*b.WaveSpeed*onPipe, o.SlamPressureRise.SI, 0.01, o.Candidate)
	}
}

// Trade facts: a spring disc turns back less flow than a swing disc at the same trip, and a compact one costs more head and money.
func TestSwingAgainstSpring(t *testing.T) {
	r := compare(t, quick(t))
	swing, spring := r.Scenarios[0].Outcomes[0], r.Scenarios[0].Outcomes[1]
	require.GreaterOrEqual(t, spring.MaxReverseVelocity.SI, 0.0)
	require.Greater(t, swing.MaxReverseVelocity.SI, spring.MaxReverseVelocity.SI)
	require.Equal(t, []float64{1, 1}, []float64{swing.OpeningFraction.SI, spring.OpeningFraction.SI}, "both on their stops")
	require.Greater(t, spring.HeadLoss.SI, swing.HeadLoss.SI)
	require.Greater(t, spring.PriceRatio.SI, swing.PriceRatio.SI)
	require.Less(t, swing.ClosingStart.SI, swing.Seated.SI)
	require.Greater(t, swing.ReverseVolume.SI, spring.ReverseVolume.SI)
	require.Greater(t, swing.RunOutFlow.SI, swing.InitialFlow.SI, "two units share what three did")
	// The swing disc's edge moves by arm plus radius: reach times rate, and the liquid it carries is the sweep (disc over bore area times arm).
	require.InEpsilon(t, swing.MaxReverseVelocity.SI*swing.Valve.Reach/(1.1*1.1*0.6*0.25), swing.SeatImpactSpeed.SI, 0.02)
}

func dump(t *testing.T, c *Case, workers int) string {
	r, err := Run(context.Background(), c, Settings{Workers: workers})
	require.NoError(t, err)
	for i := range r.Scenarios {
		for k := range r.Scenarios[i].Outcomes {
			r.Scenarios[i].Outcomes[k].Valve.Motion = nil // functions
		}
	}
	b, err := json.Marshal(r)
	require.NoError(t, err)
	return string(b)
}

func TestWorkersDoNotShow(t *testing.T) {
	c := quick(t, spec("plain", "swing"), spec("spring", "axial spring"), spec("nozzle", "nozzle"))
	require.True(t, dump(t, c, 1) == dump(t, c, 4), "results depend on the number of workers")
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Run(ctx, quick(t), Settings{})
	require.ErrorIs(t, err, context.Canceled)

	ctx, cancel = context.WithCancel(context.Background())
	defer cancel()
	_, err = Run(ctx, quick(t), Settings{Workers: 1, Progress: func(float64) { cancel() }})
	require.ErrorIs(t, err, context.Canceled, "on the way")
}

// An interrupted comparison holds what was finished, as it would have been, in the order of the case, and recommends nothing.
func TestInterruptedKeepsWhatIsFinished(t *testing.T) {
	c := quick(t, spec("first", "swing"), spec("second", "axial spring"))
	c.Until = 2
	c.Scenarios = append(c.Scenarios, c.Scenarios[0])
	c.Scenarios[1].Name = "again"
	whole := compare(t, c)
	require.NotEmpty(t, whole.Recommended)
	require.False(t, whole.Interrupted)
	require.Empty(t, whole.Missing)

	for _, at := range []float64{0.4, 0.8} {
		ctx, cancel := context.WithCancel(t.Context())
		part, err := Run(ctx, c, Settings{Workers: 1, Progress: func(done float64) {
			if done > at {
				cancel()
			}
		}})
		require.ErrorIs(t, err, context.Canceled)
		require.NotNil(t, part, "at %g", at)
		require.True(t, part.Interrupted)
		require.Empty(t, part.Recommended)
		require.Contains(t, part.Reasons[0], "the comparison was interrupted, and there are no results of ")
		require.NotEmpty(t, part.Missing)
		finished := 0
		for i, sc := range part.Scenarios {
			for k, o := range sc.Outcomes {
				if part.missed(o.Candidate, sc.Name) {
					require.Equal(t, unfinished, o.Failed)
					require.Nil(t, o.LimitsMet)
					require.False(t, part.Meets(o.Candidate))
					continue
				}
				require.Equal(t, finished, i*len(c.Candidates)+k, "in order")
				finished++
				want := whole.Scenarios[i].Outcomes[k]
				want.Valve.Motion, o.Valve.Motion = nil, nil // functions
				require.Equal(t, want, o)
			}
		}
		require.Positive(t, finished)
		require.Equal(t, finished > len(c.Candidates), len(part.Scenarios) == 2, "a scenario of which nothing was finished is left out")
		for _, g := range part.Governing {
			require.NotContains(t, part.Lacks(), g.Candidate)
		}
		cancel()
	}
}

func TestProgressRisesToOne(t *testing.T) {
	last := 0.0
	_, err := Run(context.Background(), quick(t), Settings{Progress: func(done float64) {
		require.Greater(t, done, last)
		last = done
	}})
	require.NoError(t, err)
	require.InDelta(t, 1, last, 1e-9)
}

func TestSingleStepHasNoEstimate(t *testing.T) {
	r, err := Run(context.Background(), quick(t), Settings{GridsAtMost: 1})
	require.NoError(t, err)
	o := r.Scenarios[0].Outcomes[0]
	require.Equal(t, "a single time step", o.PeakError.Reason)
	require.NotEmpty(t, o.History)
	require.Equal(t, 1, o.Numerics.Grids)
}

func TestNothingHappens(t *testing.T) {
	c := quick(t)
	c.Scenarios[0].Events = nil
	r := compare(t, c)
	require.Equal(t, nothingHappens, r.Scenarios[0].Own.Reason)
	for _, o := range r.Scenarios[0].Outcomes {
		for _, v := range o.transient() {
			require.Equal(t, nothingHappens, v.Reason)
		}
		require.Positive(t, o.HeadLoss.SI)
		require.Negative(t, o.EventTime)
		// the pump stands 0.5 m below the sump's level, and the tower's level is 49.5 m above the valve
		require.Greater(t, o.SteadyPressure.SI, 4.8e5)
		require.True(t, *o.LimitsMet)
	}
	require.Contains(t, r.text(), "says nothing about closing and slam")
	require.Contains(t, r.text(), "The limit on the reverse velocity was not judged for plain-swing: "+nothingHappens)
	require.NotContains(t, r.text(), "good enough")
}

// A unit that stands still is not left running, and one that runs beside it is.
func TestStandingUnitIsNotLeftRunning(t *testing.T) {
	for standing, running := range map[int]bool{1: true, 2: false} {
		c := quick(t)
		c.Scenarios[0].Network.Stations[0].Stopped = standing
		o := compare(t, c).Scenarios[0].Outcomes[0]
		require.Empty(t, o.Failed)
		if running {
			require.Empty(t, o.RunOutFlow.Reason)
			require.Greater(t, o.RunOutFlow.SI, o.InitialFlow.SI/2)
			continue
		}
		require.Equal(t, "no unit is left running", o.RunOutFlow.Reason)
		require.Equal(t, "no unit is left running", o.RunOutPower.Reason)
	}
}

// A disc that never opens is the outcome of its candidate, with the reason, not the end of the comparison.
func TestDiscNeverOpens(t *testing.T) {
	shut := set(spec("shut", "axial spring"), map[string]float64{"preload": 5e4, "spring rate": 1e5})
	r := compare(t, quick(t, shut, spec("spring", "axial spring")))
	o := r.Scenarios[0].Outcomes[0]
	require.Contains(t, o.Failed, "cannot open")
	require.Equal(t, "no result", o.PeakPressure.Reason)
	require.Nil(t, o.LimitsMet)
	require.Equal(t, "spring", r.Recommended)
	require.Contains(t, r.text(), "shut (price ratio 1.5) fails: it has no result: no steady state: the disc of lift cannot open")
	require.Contains(t, r.Warnings[len(r.Warnings)-1], "shut: no result: ")

	_, err := Run(context.Background(), quick(t, shut), Settings{})
	require.ErrorIs(t, err, moc.ErrNoSteady, "all candidates fail")
	require.ErrorContains(t, err, "shut: no steady state: ")
}

// openAtTheEnd requires that nothing is known of a valve whose run has ended too early, and that it is not taken.
func openAtTheEnd(t *testing.T, r *Comparison, i int, words string) {
	t.Helper()
	o := r.Scenarios[0].Outcomes[i]
	require.Contains(t, o.Unseated, words)
	for _, v := range []Value{o.MaxReverseVelocity, o.ReverseVelocityError, o.SlamPressureRise, o.PeakPressure, o.PeakError, o.Seated, o.ReverseVolume, o.MaxReverseSpeed} {
		require.Equal(t, o.Unseated, v.Reason)
		require.Zero(t, v.SI)
	}
	for _, v := range o.Verdicts {
		require.NotContains(t, []string{keyReverse, keyPeak, keyReverseSpeed}, v.Measure)
	}
	require.NotEqual(t, o.Candidate, r.Recommended)
	require.False(t, r.Meets(o.Candidate))
	require.Contains(t, r.text(), o.Candidate+" (price ratio ")
	require.Contains(t, r.text(), "fails: "+o.Unseated)
}

// A valve that stays open in reverse flow is not recommended, even when no limit catches it.
func TestDiscNeverSeats(t *testing.T) {
	open := set(spec("open", "ideal"), map[string]float64{"closes at": 20, "price": 0.5})
	c := quick(t, open, spec("spring", "axial spring"))
	c.Limits = Limits{DesignPressure: some(8e5)}
	r := compare(t, c)
	openAtTheEnd(t, r, 0, "the run ends at 3 s before the disc seats, while ")
	require.Contains(t, r.Scenarios[0].Outcomes[0].Unseated, " m3/h pass in reverse")
	require.Equal(t, "spring", r.Recommended)
	require.True(t, r.Meets("spring"))
}

// A run that ends while the flow still falls shows nothing of a valve, and does not speak for it.
func TestRunEndsBeforeTheDiscSeats(t *testing.T) {
	c := liftStation(t)
	c.Until = 1.35
	r := compare(t, c)
	openAtTheEnd(t, r, 0, "the run ends at 1.35 s before the disc seats")
	require.NotContains(t, r.Scenarios[0].Outcomes[0].Unseated, "reverse")
	require.False(t, r.Meets("plain-swing"))
	require.Contains(t, r.text(), "let the run go on longer")

	c = quick(t, spec("swing", "swing"), spec("spring", "axial spring"))
	c.Until, c.Limits = 1.02, Limits{ReverseVelocity: some(0.3)}
	r = compare(t, c)
	require.Empty(t, r.Recommended)
	require.Contains(t, r.text(), "No valve is recommended: none of the candidates")
	openAtTheEnd(t, r, 0, "before the disc seats")
	openAtTheEnd(t, r, 1, "before the disc seats")

	c.Limits = Limits{}
	require.Contains(t, compare(t, c).text(), " s before the disc seats.")
}

// A scenario in which nothing happens has nothing that a limit on the reverse velocity could concern: it does not stand against a candidate.
func TestMeetsAgreesWithTheRecommendation(t *testing.T) {
	c := quick(t)
	c.Limits = Limits{ReverseVelocity: some(0.3)}
	still := c.Scenarios[0]
	still.Name, still.Events = "still", nil
	c.Scenarios = append(c.Scenarios, still)
	r := compare(t, c)
	require.Equal(t, "spring-disc", r.Recommended)
	require.True(t, r.Meets("spring-disc"))
	require.False(t, r.Meets("plain-swing"))
	require.False(t, r.Meets("no-such-valve"))
	require.Nil(t, r.Scenarios[1].Outcomes[1].LimitsMet)

	c.Scenarios = c.Scenarios[1:]
	r = compare(t, c)
	require.Empty(t, r.Recommended)
	require.False(t, r.Meets("spring-disc"), "nothing was judged")
}

// The unit clusters weigh in the cost of a run, and a scenario in which nothing happens costs one step.
func TestCostOfARun(t *testing.T) {
	cost := func(units int, until float64, events bool) float64 {
		c := quick(t)
		c.Scenarios[0].Network.Stations[0].Units, c.Until = units, until
		if !events {
			c.Scenarios[0].Events = nil
		}
		ts, err := trials(c, Settings{})
		require.NoError(t, err)
		return ts[0].cost(0)
	}
	// 400 reaches of the main and 4 of each branch: in their branches alone nine more units would be a tenth more work.
	require.Greater(t, cost(12, 3, true), 2*cost(3, 3, true))
	require.InEpsilon(t, 2*cost(3, 3, true), cost(3, 6, true), 0.01)
	require.Less(t, cost(3, 3, false), 1e-3*cost(3, 3, true))
}

// In a pipe that falls, a swing disc hangs open; a spring disc does not.
func TestDownflow(t *testing.T) {
	c := quick(t)
	c.Scenarios[0].Network.Stations[0].Slope = -math.Pi / 2
	r := compare(t, c)
	require.Contains(t, r.Scenarios[0].Outcomes[0].Failed, "does not close by itself")
	require.Equal(t, "spring-disc", r.Recommended)
	require.Empty(t, r.Scenarios[0].Own.Reason, "the installation's deceleration needs no candidate that works")
}

func TestBadCases(t *testing.T) {
	run := func(change func(*Case)) error {
		c := quick(t)
		change(c)
		_, err := Run(context.Background(), c, Settings{})
		return err
	}
	require.ErrorIs(t, run(func(c *Case) { c.Candidates = nil }), ErrCase)
	require.ErrorIs(t, run(func(c *Case) { c.Scenarios = nil }), ErrCase)
	require.ErrorContains(t, run(func(c *Case) { c.Scenarios[0].Network.Stations[0].CheckValve = "old" }), `"old"`)
	require.ErrorIs(t, run(func(c *Case) { c.Candidates[0].Type = "gate" }), catalogue.ErrType)
	require.ErrorContains(t, run(func(c *Case) {
		c.Valves = map[string]valve.Spec{"old": spec("old", "swing")}
		c.Scenarios[0].Network.Stations[0].CheckValve = "old"
	}), "no station takes the candidate")
}

// Two stations side by side: the one that trips has a valve of its own, and the candidate on the other is watched.
func TestNamedValveStaysInItsPlace(t *testing.T) {
	c := quick(t)
	n := c.Scenarios[0].Network
	other := n.Stations[0]
	other.Name, other.Units, other.CheckValve = "old", 1, "old-swing"
	n.Stations[0].Units = 2
	n.Stations = append([]network.Station{other}, n.Stations...)
	c.Valves = map[string]valve.Spec{"old-swing": spec("old-swing", "swing")}
	c.Scenarios[0].Events[0].Target = "old"
	c.Until = 2
	r := compare(t, c)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Equal(t, "lift, unit 1", o.Watched)
		require.Equal(t, "the pump runs on", o.SpeedRatioAtReversal.Reason)
	}
	require.Equal(t, "no unit with the candidate trips", r.Scenarios[0].Own.Reason)

	c.Scenarios[0].Events[0].Target = "lift"
	r = compare(t, c)
	require.Less(t, r.Scenarios[0].Outcomes[1].MaxReverseVelocity.SI, r.Scenarios[0].Outcomes[0].MaxReverseVelocity.SI)
}

// A check valve that stands alone in the line is a place for the candidate too.
func TestStandAloneValve(t *testing.T) {
	c := quick(t, spec("ideal", "ideal"))
	n := c.Scenarios[0].Network
	n.Stations[0].CheckValve = "pump-valve"
	n.Pipes[0].From = "behind"
	n.CheckValves = []network.CheckValve{{Name: "line-valve", From: "header", To: "behind", Elevation: 102}}
	c.Candidates[0].Size = 0.7
	c.Valves = map[string]valve.Spec{"pump-valve": spec("pump-valve", "axial spring")}
	c.Scenarios[0].Events[0].Units = 3
	c.Until = 4
	r := compare(t, c)
	o := r.Scenarios[0].Outcomes[0]
	require.Equal(t, "line-valve", o.Watched)
	require.Equal(t, "rising-main", o.Route[0].Pipe)
	require.Equal(t, "the valve has no pump of its own", o.SpeedRatioAtReversal.Reason)
	require.Empty(t, o.Seated.Reason)
}

// The worst scenario governs, and the recommendation holds in all of them.
func TestScenarios(t *testing.T) {
	c := quick(t)
	all := c.Scenarios[0]
	all.Name, all.Events = "all-trip", []network.Event{{Kind: network.Trip, Target: "lift", Units: 3, Time: 1}}
	c.Scenarios = append(c.Scenarios, all)
	c.Limits = Limits{ReverseVelocity: some(0.9)}
	r := compare(t, c)
	a, b := r.Scenarios[0].Outcomes[0].MaxReverseVelocity.SI, r.Scenarios[1].Outcomes[0].MaxReverseVelocity.SI
	want := "base"
	if b > a {
		want = "all-trip"
	}
	found := false
	for _, g := range r.Governing {
		if g.Candidate == "plain-swing" && g.Measure == keyReverse {
			found = true
			require.Equal(t, Governing{"plain-swing", keyReverse, want, math.Max(a, b)}, g)
		}
		require.NotEqual(t, "initial_flow_m3_s", g.Measure, "neither way is better")
	}
	require.True(t, found)
	require.Contains(t, r.text(), "scenario "+want)
	require.Contains(t, r.text(), "every limit in every scenario")
}

func TestUSUnits(t *testing.T) {
	r, err := Run(context.Background(), quick(t), Settings{Units: quantity.US})
	require.NoError(t, err)
	require.Contains(t, r.text(), " psi")
	require.Contains(t, r.text(), " ft/s")
	require.NotContains(t, r.text(), " bar")
	require.NotContains(t, r.text(), " m/s")
	require.NotContains(t, r.text(), " m ")
}

// Without a pipe behind the valve there are no pipe pressures to report, and nothing that is not a number.
func TestNoPipeBehindTheValve(t *testing.T) {
	c := liftStation(t)
	n := c.Scenarios[0].Network
	n.Pipes, n.Stations[0].To, n.Stations[0].Branch = nil, "tower", nil
	c.Until = 1.2
	r, err := Run(context.Background(), c, Settings{GridsAtMost: 1})
	require.NoError(t, err)
	require.Contains(t, r.text(), "The limit on the design pressure with 10 % surge allowance was not judged for spring-disc: "+noPipe)
	for _, o := range r.Scenarios[0].Outcomes {
		require.Equal(t, noPipe, o.PeakPressure.Reason)
		for _, m := range Measures(r.Service) {
			v := m.Get(&o)
			require.False(t, math.IsNaN(v.SI) || math.IsInf(v.SI, 0), m.Key)
		}
	}
}
