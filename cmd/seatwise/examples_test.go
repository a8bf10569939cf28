package main

import (
	"context"
	"io/fs"
	"math"
	"path"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/valve"
	"seatwise/valve/choice"
)

func exampleCase(t *testing.T, name string) *choice.Case {
	t.Helper()
	src, err := examples.Files.ReadFile(name + ".yaml")
	require.NoError(t, err)
	doc, err := casefile.Read(name+".yaml", src, func(p string) ([]byte, error) { return fs.ReadFile(examples.Files, path.Clean(p)) })
	require.NoError(t, err)
	c, err := doc.Case()
	require.NoError(t, err)
	return c
}

func compared(t *testing.T, c *choice.Case) *choice.Comparison {
	t.Helper()
	r, err := choice.Run(context.Background(), c, choice.Settings{GridsAtMost: 1})
	require.NoError(t, err)
	return r
}

// What the trade knows (common practice, no source): with an air vessel near the header the flow turns back harder, and the same valve closes
// against a greater reverse velocity than without it.
func TestAirVesselDrivesTheFlowBack(t *testing.T) {
	with := exampleCase(t, "air-vessel")
	with.Scenarios = with.Scenarios[1:] // all units trip: the vessel alone holds the header
	without := exampleCase(t, "air-vessel")
	without.Scenarios = without.Scenarios[1:]
	bare := *without.Scenarios[0].Network
	bare.Devices = nil
	without.Scenarios[0].Network = &bare
	a, b := compared(t, with), compared(t, without)
	for i := range with.Candidates {
		x, y := a.Scenarios[0].Outcomes[i], b.Scenarios[0].Outcomes[i]
		require.Empty(t, x.MaxReverseVelocity.Reason+y.MaxReverseVelocity.Reason)
		require.Greater(t, x.MaxReverseVelocity.SI, 1.2*y.MaxReverseVelocity.SI, x.Candidate)
	}
	require.Equal(t, "spring-disc", a.Recommended)
}

// The further the vessel stands from the header, the softer it drives the flow back.
func TestAirVesselDistance(t *testing.T) {
	last := 1e9
	for _, distance := range []float64{0, 40, 160} {
		c := exampleCase(t, "air-vessel")
		c.Candidates = c.Candidates[:1]
		c.Scenarios = c.Scenarios[1:]
		n := *c.Scenarios[0].Network
		if distance > 0 {
			main := n.Pipes[0]
			tie := main
			tie.Name, tie.To = "tie", "vessel-node"
			tie.Profile = []network.Point{main.Profile[0], {Chainage: distance, Elevation: main.Profile[0].Elevation}}
			tie.Bore = 0.3
			n.Pipes = append([]network.Pipe{tie}, n.Pipes...)
			v := *n.Devices[0].(*network.AirVessel)
			v.Node = "vessel-node"
			n.Devices = []network.Device{&v}
		}
		c.Scenarios[0].Network = &n
		v := compared(t, c).Scenarios[0].Outcomes[0].MaxReverseVelocity
		require.Empty(t, v.Reason)
		require.Less(t, v.SI, last, "at %g m", distance)
		last = v.SI
	}
}

// At the high point the column parts for every candidate: no check valve mends that, and none is recommended.
func TestHighPointPartsWhateverTheValve(t *testing.T) {
	r := compared(t, exampleCase(t, "high-point"))
	for _, o := range r.Scenarios[0].Outcomes {
		require.Empty(t, o.CavityMax.Reason)
		require.Greater(t, o.CavityMax.SI, 0.02, o.Candidate)
		require.Contains(t, o.Spots["cavity_max_m3"].Place, "rising-main")
	}
	require.Empty(t, r.Recommended)
}

// In the ring the head losses of both ways round a loop are the same, what comes to a node leaves it or is drawn there, and the ring turns back the flow
// of the lighter pump harder than that of one of the two that stay in company.
func TestRingOfTwoStations(t *testing.T) {
	c := exampleCase(t, "two-stations-loop")
	in, err := choice.Install(c, &c.Scenarios[0], c.Candidates[0])
	require.NoError(t, err)
	st, err := moc.SteadyState(in.Problem)
	require.NoError(t, err)
	flow, loss := map[string]float64{}, map[string]float64{}
	for _, p := range st.Pipes {
		flow[p.Name], loss[p.Name] = p.Flow, p.HeadLoss
	}
	require.InDelta(t, 0, loss["north-lower"]+loss["cross-link"]-loss["south-lower"], 1e-9)
	require.InDelta(t, 0, loss["north-upper"]-loss["cross-link"]-loss["south-upper"], 1e-9)
	require.InDelta(t, 70.0/3600, flow["north-lower"]-flow["north-upper"]-flow["cross-link"], 1e-9)
	require.InDelta(t, flow["quarry-main"]+flow["south-lower"]+flow["cross-link"], flow["south-upper"], 1e-9)
	require.InDelta(t, flow["north-upper"]+flow["south-upper"], flow["hill-main"], 1e-9)
	r := compared(t, c)
	for i := range c.Candidates {
		alone, company := r.Scenarios[0].Outcomes[i], r.Scenarios[1].Outcomes[i]
		require.Equal(t, "quarry, unit 1", alone.Watched)
		require.Equal(t, "marsh, unit 1", company.Watched)
		require.Greater(t, alone.MaxReverseVelocity.SI, 1.5*company.MaxReverseVelocity.SI)
	}
	require.Equal(t, 2, r.Places(0), "each column names its valve")
	require.Equal(t, 1, (&choice.Comparison{Case: exampleCase(t, "lift-station")}).Places(0))
}

// The recommendation of each example, by its installation and limits: no datum of a valve is set in any of them.
func TestExamplesRecommend(t *testing.T) {
	for name, want := range map[string]string{"lift-station": "spring-disc", "short-high-head": "spring-disc", "gentle-main": "plain-swing", "air-vessel": "spring-disc", "high-point": "",
		"two-stations-loop": "spring-disc", "plastic-main": "plain-swing", "running-cost": "dual-plate"} {
		c := exampleCase(t, name)
		for _, spec := range c.Candidates {
			require.Equal(t, valve.Spec{Name: spec.Name, Type: spec.Type, Size: spec.Size, Set: map[string]float64{}, Tables: map[string]valve.Points{}}, spec, name)
		}
		require.Equal(t, want, compared(t, c).Recommended, name)
	}
}

// loads are the runs of a candidate in a scenario.
func loads(t *testing.T, c *choice.Comparison, scenario int, candidate string) []choice.StraightRun {
	t.Helper()
	for _, o := range c.Scenarios[scenario].Outcomes {
		if o.Candidate == candidate {
			require.Empty(t, o.AnchorForce.Reason)
			return o.Runs
		}
	}
	require.Fail(t, "no such candidate", candidate)
	return nil
}

// The swing disc slams and the spring disc does not: the first run of the main is pushed harder. The front that a slam sends into the main pushes the first run
// against the flow with what the junction lets pass of it: with n branches of area A_b that shut together, of N at the junction, and a main of area A, of the slam at
// the valve 2 n A_b/a_b / (N A_b/a_b + A/a) times A (a wave speed; derived, as in a junction of pipes without loss).
func TestSlamLoadsTheFirstRun(t *testing.T) {
	c := exampleCase(t, "short-high-head")
	r := compared(t, c)
	for k, shut := range []float64{1, 2} {
		swing, spring := loads(t, r, k, "plain-swing"), loads(t, r, k, "spring-disc")
		require.Len(t, swing, 4)
		worst := func(x choice.StraightRun) float64 { return max(x.Forward.Force, x.Reverse.Force) }
		require.Greater(t, worst(swing[0]), 1.5*worst(spring[0]))

		o := &r.Scenarios[k].Outcomes[0]
		n := c.Scenarios[k].Network
		b, main := n.Stations[0].Branch, n.Pipes[0]
		area := func(bore float64) float64 { return math.Pi / 4 * bore * bore }
		branch, line := area(b.Bore)/b.WaveSpeed, area(main.Bore)/main.WaveSpeed
		want := o.SlamPressureRise.SI * area(main.Bore) * 2 * shut * branch / (2*branch + line)
		arrives := o.Seated.SI + b.Length/b.WaveSpeed
		before, after := 0.0, 0.0
		for i, x := range o.Time {
			if x < arrives-1e-3 {
				before = swing[0].Force[i]
			}
			if x < arrives+3e-3 { // before the branch has answered
				after = swing[0].Force[i]
			}
		}
		t.Logf("jump %.0f N, expected %.0f N", before-after, want)
		require.InEpsilon(t, want, before-after, 0.05, "scenario %d", k)
	}
}

// The force on a straight main is that of the pressures at its two ends: to rounding without friction, and within the friction head with it.
func TestForceIsThatOfThePressures(t *testing.T) {
	for name, friction := range map[string]float64{"without friction": 1e-12, "with friction": 0.02} {
		c := exampleCase(t, "short-high-head")
		n := *c.Scenarios[0].Network
		n.Pipes = slices.Clone(n.Pipes)
		main := &n.Pipes[0]
		main.Bends, main.FrictionFactor, main.MinorLoss = []float64{0}, friction, 0
		c.Scenarios[0].Network = &n
		in, err := choice.Install(c, &c.Scenarios[0], c.Candidates[0])
		require.NoError(t, err)
		in.Until = 3
		r, err := moc.Solve(t.Context(), in.Problem, moc.Settings{})
		require.NoError(t, err)
		require.Len(t, r.Forces, 1)
		head := func(node string) []float64 {
			i := slices.IndexFunc(r.Nodes, func(x moc.NodeTrace) bool { return x.Name == node })
			require.GreaterOrEqual(t, i, 0)
			return r.Nodes[i].Head
		}
		from, to := head("manifold"), head("high-service")
		scale := n.Fluid.Density * n.G() * math.Pi / 4 * main.Bore * main.Bore
		tolerance := 1e-9
		if friction > 1e-6 {
			tolerance = 1.05 * scale * (from[0] - to[0])
		}
		worst, greatest := 0.0, 0.0
		for i, f := range r.Forces[0].Force {
			pressures := scale * (to[i] - from[i] - (to[0] - from[0]))
			worst, greatest = max(worst, math.Abs(f-pressures)), max(greatest, math.Abs(f))
		}
		require.Greater(t, greatest, 5e3)
		require.Less(t, tolerance, greatest/3, name)
		require.LessOrEqual(t, worst, max(tolerance, 1e-9*greatest), name)
		if friction > 1e-6 {
			require.Greater(t, worst, 0.1*tolerance, "friction is part of the force")
		}
	}
}
