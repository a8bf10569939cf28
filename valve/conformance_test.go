package valve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/valve"
	"seatwise/valve/catalogue"
)

var level = catalogue.Setting{Density: 998.2, Gravity: 9.80665}

// everyValve is every family in three sizes and the options that change its equations.
func everyValve(t require.TestingT) map[string]valve.Valve {
	every := map[string]valve.Valve{}
	add := func(name string, spec valve.Spec, s catalogue.Setting) {
		v, err := catalogue.Complete(spec, s)
		require.NoError(t, err, name)
		every[name] = v
	}
	for _, f := range catalogue.Families() {
		for _, size := range []float64{0.1, 0.25, 0.6} {
			add(fmt.Sprintf("%s DN%.0f", f.Name, 1000*size), least(f, size), level)
		}
	}
	up := level
	up.Slope = math.Pi / 2
	down := level
	down.Slope = -math.Pi / 2
	type set = map[string]float64
	for name, c := range map[string]struct {
		kind    string
		set     set
		setting catalogue.Setting
	}{
		"swing upflow":         {"swing", nil, up},
		"swing spring":         {"swing", set{"preload": 5, "spring rate": 4}, level},
		"swing counterweight":  {"swing", set{"counterweight": 5, "counterweight arm": 0.3}, level},
		"swing friction":       {"swing", set{"hinge friction": 1, "restitution": 0}, level},
		"swing damper":         {"swing", set{"damper": 40, "damper span": 0.3}, level},
		"swing leak":           {"swing", set{"leak": 0.01}, level},
		"spring upflow":        {"axial spring", nil, up},
		"spring downflow":      {"axial spring", nil, down},
		"spring friction":      {"axial spring", set{"guide friction": 20, "damper": 100}, level},
		"nozzle strong spring": {"nozzle", set{"full-open velocity": 2.5}, level},
		"tilting upflow":       {"tilting disc", nil, up},
		"lift spring":          {"lift", set{"preload": 20, "spring rate": 500}, up},
		"lever against":        {"swing lever", set{"counterweight": 2, "counterweight arm": -0.2}, level},
		"heavy class":          {"tilting disc steep", set{"pressure class": 100}, level},
		"plates, pin level":    {"dual plate", set{"hinge pin": math.Pi / 2}, level},
		"plates upflow":        {"dual plate", nil, up},
		"plates downflow":      {"dual plate", set{"preload": 6}, down},
		"unequal plates":       {"dual plate", set{"second plate mass": 1.3, "second plate preload": 0.7, "second plate spring rate": 0.8}, level},
		"broken spring":        {"dual plate", set{"second plate preload": 0, "second plate spring rate": 0}, level},
		"plates friction":      {"dual plate", set{"hinge friction": 0.2, "damper": 0.5, "leak": 0.01}, level},
		"closes late":          {"ideal", set{"closes at": 0.4}, level},
	} {
		add(name, valve.Spec{Type: c.kind, Size: 0.25, Set: c.set}, c.setting)
	}
	for _, f := range catalogue.Families() {
		if f.Name == "measured" {
			mean := least(f, 0.25)
			mean.Set["deceleration from"] = 1.5
			add("mean slope", mean, level)
		}
	}
	add("tables", valve.Spec{Type: "swing", Size: 0.25, Tables: map[string]valve.Points{
		"loss table": {Opening: []float64{0.05, 0.2, 0.5, 1}, Value: []float64{150, 9, 1.5, 0.8}},
		"load table": {Opening: []float64{0.05, 0.2, 0.5, 1}, Value: []float64{150, 10, 2, 0.7}},
	}}, level)
	stuck, err := every["swing DN250"].Motion.(*valve.Law).Stuck(0.3)
	require.NoError(t, err)
	every["stuck"] = valve.Valve{Motion: stuck, Travel: 1, FullOpenVelocity: 1}
	return every
}

// least is the least that makes a valve of a family: nothing where the catalogue has all.
func least(f catalogue.Family, size float64) valve.Spec {
	spec := valve.Spec{Type: f.Name, Size: size}
	if len(f.Needs()) > 0 {
		spec.Set = map[string]float64{"loss when open": 1, "full-open velocity": 2}
		spec.Tests = []valve.TestPoint{{Deceleration: 1, ReverseVelocity: 0}, {Deceleration: 4, ReverseVelocity: 0.2}, {Deceleration: 12, ReverseVelocity: 1}}
	}
	return spec
}

func all(valve.Valve) bool { return true }

func shutsTight(v valve.Valve) bool {
	s, _ := v.Motion.Shut()
	leak := 0.0
	for _, l := range laws(v) {
		leak += l.Leak
	}
	return v.Motion.Opening(s) == 0 && leak == 0
}

// laws are the laws of the discs of a valve: none, one or two.
func laws(v valve.Valve) []*valve.Law {
	switch m := v.Motion.(type) {
	case *valve.Law:
		return []*valve.Law{m}
	case *valve.Pair:
		return m.Halves[:]
	}
	return nil
}

func hasDiscs(v valve.Valve) bool { return laws(v) != nil }

// conform checks a property of every valve, or of those that pass the filter.
func conform(t *testing.T, filter func(valve.Valve) bool, check func(t *rapid.T, v valve.Valve)) {
	for name, v := range everyValve(t) {
		if !filter(v) {
			continue
		}
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) { check(t, v) }))
	}
}

// anyState draws a state that a run can meet: each disc moving within the travel, or held.
func anyState(t *rapid.T, v valve.Valve) valve.State {
	s := alone(anyDisc(t, v, ""))
	if len(laws(v)) == 2 {
		s.Second = anyDisc(t, v, "second ")
	}
	return s
}

func alone(d valve.Disc) valve.State {
	return valve.State{Y: d.Y, W: d.W, Force: d.Force, Contact: d.Contact, Fresh: d.Fresh}
}

// apart are the states of the discs of a valve, each as if it were the only one.
func apart(v valve.Valve, s valve.State) []valve.State {
	second := alone(s.Second)
	s.Second = valve.Disc{}
	return []valve.State{s, second}[:max(1, len(laws(v)))]
}

func anyDisc(t *rapid.T, v valve.Valve, of string) valve.Disc {
	switch rapid.IntRange(0, 4).Draw(t, of+"contact") {
	case 0:
		return valve.Disc{Contact: valve.Seated, Fresh: rapid.Bool().Draw(t, of+"fresh")}
	case 1:
		return valve.Disc{Y: v.Travel, Contact: valve.Stopped, Fresh: rapid.Bool().Draw(t, of+"fresh")}
	}
	return valve.Disc{
		Y:     v.Travel * rapid.Float64Range(1e-4, 1).Draw(t, of+"opening"),
		W:     v.Travel * rapid.Float64Range(-40, 40).Draw(t, of+"rate"),
		Force: rapid.Float64Range(-2000, 2000).Draw(t, of+"force"),
		Fresh: rapid.Bool().Draw(t, of+"fresh"),
	}
}

func finite(x ...float64) bool {
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func TestFiniteWithTheRightSigns(t *testing.T) {
	conform(t, all, func(t *rapid.T, v valve.Valve) {
		s := anyState(t, v)
		h := math.Pow(10, rapid.Float64Range(-7, -1.5).Draw(t, "lg h"))
		u := rapid.Float64Range(-15, 15).Draw(t, "v")
		dp := rapid.Float64Range(-1, 1).Draw(t, "sign") * math.Pow(10, rapid.Float64Range(-3, 7).Draw(t, "lg dp"))
		step := v.Motion.Advance(s, h, u, dp)
		require.True(t, finite(step.R, step.RV, step.RP, step.Event, step.State.Y, step.State.W, step.State.Force, step.State.Second.Y, step.State.Second.W, step.State.Second.Force), "%+v", step)
		require.GreaterOrEqual(t, step.RV, 0.0)
		require.LessOrEqual(t, step.RP, 0.0)
		require.False(t, step.State.Fresh || step.State.Second.Fresh)
		n := v.Motion.SubSteps(s, h)
		require.True(t, n >= 1 && n <= 32)
		e := v.Motion.Steady(math.Abs(u) + 1e-3)
		require.True(t, finite(e.DP, e.Slope, e.State.Y))
		rest := v.Motion.Touch(step.State, dp)
		require.True(t, finite(rest.Y, rest.W, rest.Second.Y, rest.Second.W))
	})
}

// At any pressure drop the closure has one velocity, found by Newton's method; there the derivatives are those of the residual.
func TestDerivatives(t *testing.T) {
	conform(t, all, func(t *rapid.T, v valve.Valve) {
		s := anyState(t, v)
		h := math.Pow(10, rapid.Float64Range(-6, -3.4).Draw(t, "lg h"))
		dp := rapid.Float64Range(-1, 1).Draw(t, "sign") * math.Pow(10, rapid.Float64Range(0, 5.5).Draw(t, "lg dp"))
		u := v.Motion.Advance(s, h, 0, dp).State.W * 0.5
		if s.Contact == valve.Seated && dp < 0 {
			u = 0
		}
		lo, hi := -1e4, 1e4 // the residual rises with the velocity; a disc that the liquid's acceleration moves is not convex in it
		for range 200 {
			step := v.Motion.Advance(s, h, u, dp)
			if step.R > 0 {
				hi = u
			} else {
				lo = u
			}
			du := step.R / step.RV
			if math.Abs(du) < 1e-15*(1+math.Abs(u)) {
				break
			}
			if u -= du; !(u > lo && u < hi) { // an end of the bracket would come back for ever
				u = lo + (hi-lo)/2
			}
		}
		at := v.Motion.Advance(s, h, u, dp)
		require.InDelta(t, 0, at.R, 1e-11*(1+math.Abs(u))*(1+at.RV))

		// The step of the difference crosses no contact and no change of form.
		same := func(a, b valve.Step) bool {
			one, other := apart(v, a.State), apart(v, b.State)
			for i, a := range one {
				b := other[i]
				if a.Contact != b.Contact || (a.W == 0) != (b.W == 0) || (a.Y < 0) != (b.Y < 0) || (a.Y > v.Travel) != (b.Y > v.Travel) {
					return false
				}
			}
			return (a.RV == 1) == (b.RV == 1)
		}
		e := 1e-5 * (math.Abs(dp) + 1)
		below, above := v.Motion.Advance(s, h, u, dp-e), v.Motion.Advance(s, h, u, dp+e)
		// The linear core of the loss law is v_lam wide.
		if same(below, at) && same(above, at) && math.Abs(dp) > 100 {
			d := (above.R - below.R) / (2 * e)
			require.InDelta(t, d, at.RP, 2e-3*math.Abs(d)+1e-12, "dR/d(dp) at %+v", at)
		}
		e = 1e-7
		below, above = v.Motion.Advance(s, h, u-e, dp), v.Motion.Advance(s, h, u+e, dp)
		require.InDelta(t, (above.R-below.R)/(2*e), at.RV, 1e-4*(1+at.RV))
	})
}

// A law's step obeys the trapezoidal rule, or backward Euler from a fresh state.
func TestStepEquations(t *testing.T) {
	conform(t, hasDiscs, func(t *rapid.T, v valve.Valve) {
		before := anyState(t, v)
		h := math.Pow(10, rapid.Float64Range(-6, -3).Draw(t, "lg h"))
		dp := rapid.Float64Range(-2e5, 2e5).Draw(t, "dp")
		after := apart(v, v.Motion.Advance(before, h, 0, dp).State)
		for i, l := range laws(v) {
			stepEquations(t, l, apart(v, before)[i], after[i], h, dp)
		}
	})
}

func stepEquations(t *rapid.T, l *valve.Law, s, n valve.State, h, dp float64) {
	if n.W == 0 {
		return
	}
	mean := func(a, b float64) float64 {
		if s.Fresh {
			return b
		}
		return (a + b) / 2
	}
	if s.Contact != valve.Free {
		s.Force = 0
	}
	scale := math.Abs(s.Y) + h*(math.Abs(s.W)+math.Abs(n.W))
	require.InDelta(t, s.Y+h*mean(s.W, n.W), n.Y, 1e-14*scale)
	force := mean(s.Force, n.Force)
	require.InDelta(t, l.Inertia*(n.W-s.W), h*force, 1e-10*l.Inertia*(math.Abs(n.W)+math.Abs(s.W))+1e-9*h*(1+math.Abs(dp)*l.Area*l.Arm))
}

func TestNoFlowWhenShut(t *testing.T) {
	conform(t, shutsTight, func(t *rapid.T, v valve.Valve) {
		s, opens := v.Motion.Shut()
		dp := opens*(1-1e-12) - rapid.Float64Range(0, 1e7).Draw(t, "below")
		u := rapid.Float64Range(-10, 10).Draw(t, "v")
		step := v.Motion.Advance(s, 1e-3, u, dp)
		require.Equal(t, u, step.R)
		require.Equal(t, 1.0, step.RV)
		require.Zero(t, step.RP)
		require.Equal(t, s, step.State)
		require.Positive(t, step.Event)

		// The opening branch joins it.
		above := v.Motion.Advance(s, 1e-3, 0, opens+1e-9*(1+opens))
		if hasDiscs(v) {
			require.InDelta(t, 0, above.State.Speed(), 1e-9)
			require.InDelta(t, 0, above.R, 1e-9)
		}
	})
}

func TestLossFallsWithOpening(t *testing.T) {
	for name, v := range everyValve(t) {
		for _, l := range laws(v) {
			last := -1.0
			for i := 0; i <= 1000; i++ {
				g, _ := l.Conductance.At(l.Travel * float64(i) / 1000)
				require.GreaterOrEqual(t, g, last, "%s at %d", name, i)
				last = g
			}
			kappa, _ := l.Load.At(0)
			require.Equal(t, 1.0, kappa, "%s: a shut disc bears the drop on its seat", name)
			g, _ := l.Conductance.At(0)
			require.Zero(t, g, name)
		}
	}
}

// Wherever the discs are, those at an end do not leave it faster than they came, and the others keep their rate.
func TestContactMakesNoEnergy(t *testing.T) {
	conform(t, all, func(t *rapid.T, v valve.Valve) {
		end := func(of string) valve.Disc {
			return valve.Disc{
				Y: v.Travel * rapid.SampledFrom([]float64{0, 1e-13, -1e-13, 1, 1 + 1e-13}).Draw(t, of+"end"),
				W: rapid.Float64Range(-20, 20).Draw(t, of+"rate"),
			}
		}
		s := alone(end(""))
		if len(laws(v)) == 2 {
			if s.Second = end("second "); rapid.Bool().Draw(t, "second within") {
				s.Second.Y = v.Travel * rapid.Float64Range(0.01, 0.99).Draw(t, "second opening")
			}
		}
		before, after := apart(v, s), apart(v, v.Motion.Touch(s, rapid.Float64Range(-1e6, 1e6).Draw(t, "dp")))
		for i, l := range laws(v) {
			b, a := before[i], after[i]
			require.LessOrEqual(t, math.Abs(a.W), math.Abs(b.W))
			ends := math.Min(math.Abs(b.Y), math.Abs(b.Y-l.Travel)) < 1e-9
			arrives := ends && ((b.W < 0 && b.Y < l.Travel/2) || (b.W > 0 && b.Y > l.Travel/2) || b.Y < 0 || b.Y > l.Travel)
			require.True(t, a.Fresh)
			if arrives || (ends && len(before) == 1) {
				require.True(t, a.Y == 0 || a.Y == l.Travel)
			}
			if !ends {
				require.Equal(t, b.Y, a.Y)
				require.Equal(t, b.W, a.W)
			}
			if a.Contact != valve.Free {
				require.Zero(t, a.W)
			}
		}
		if laws(v) == nil {
			require.LessOrEqual(t, after[0].Speed(), before[0].Speed())
		}
	})
}

func TestRunIsReproducible(t *testing.T) {
	conform(t, all, func(t *rapid.T, v valve.Valve) {
		s := anyState(t, v)
		drops := rapid.SliceOfN(rapid.Float64Range(-5e4, 5e4), 10, 10).Draw(t, "dp")
		go1 := func(s valve.State, drops []float64) valve.State {
			for _, dp := range drops {
				step := v.Motion.Advance(s, 1e-3, 0.3, dp)
				if s = step.State; step.Event < 0 {
					s = v.Motion.Touch(s, dp)
				}
			}
			return s
		}
		checkpoint := go1(s, drops[:5])
		copied := checkpoint
		require.Equal(t, go1(s, drops), go1(checkpoint, drops[5:]))
		require.Equal(t, copied, checkpoint)
	})
}

func TestSteadyStaysSteady(t *testing.T) {
	conform(t, all, func(t *rapid.T, v valve.Valve) {
		u := math.Pow(10, rapid.Float64Range(-2, 0.9).Draw(t, "lg v"))
		e := v.Motion.Steady(u)
		require.Positive(t, e.DP)
		for _, h := range []float64{1e-5, 1e-3} {
			step := v.Motion.Advance(e.State, h, u, e.DP)
			require.InDelta(t, 0, step.R, 1e-12*step.RV*(1+u))
			for i, at := range apart(v, e.State) {
				after := apart(v, step.State)[i]
				require.Equal(t, at.Contact, after.Contact)
				require.InDelta(t, at.Y, after.Y, 1e-13*v.Travel)
			}
		}
		// At a constant velocity the disc stays; at a constant pressure drop it may not, where the drop falls as the disc rises.
		s, dp := e.State, e.DP
		for range 300 {
			var step valve.Step
			for range 4 {
				step = v.Motion.Advance(s, 1e-3, u, dp)
				dp -= step.R / step.RP
			}
			s = step.State
		}
		for i, at := range apart(v, e.State) {
			require.InDelta(t, at.Y, apart(v, s)[i].Y, 1e-9*v.Travel)
		}

		lo, hi := v.Motion.Steady(u*(1-1e-6)), v.Motion.Steady(u*(1+1e-6))
		if lo.Held == e.Held && hi.Held == e.Held && lo.State.Contact == hi.State.Contact && math.Abs(hi.State.Y-lo.State.Y) < 0.01*v.Travel {
			require.InEpsilon(t, (hi.DP-lo.DP)/(2e-6*u), e.Slope, 1e-3)
		}
	})
}

func TestAdvanceDoesNotAllocate(t *testing.T) {
	for name, v := range everyValve(t) {
		e := v.Motion.Steady(0.8)
		shut, _ := v.Motion.Shut()
		n := testing.AllocsPerRun(100, func() {
			v.Motion.Advance(e.State, 1e-3, 0.5, e.DP*0.9)
			v.Motion.Advance(shut, 1e-3, 0.5, 1e5)
			v.Motion.Touch(shut, -1)
			v.Motion.Rest(shut)
			v.Motion.Steady(0.4)
			v.Motion.SubSteps(e.State, 1e-3)
		})
		require.Zero(t, n, name)
	}
}

func TestSubSteps(t *testing.T) {
	v, err := catalogue.Complete(valve.Spec{Type: "nozzle", Size: 0.25}, level)
	require.NoError(t, err)
	m, h := v.Motion, 1e-3
	require.Equal(t, 1, m.SubSteps(valve.State{Contact: valve.Seated}, h))
	require.Equal(t, 1, m.SubSteps(valve.State{Y: v.Travel, Contact: valve.Stopped}, h))
	require.Equal(t, 1, m.SubSteps(valve.State{Y: v.Travel / 2}, h))
	require.Equal(t, 2, m.SubSteps(valve.State{Y: v.Travel / 2, W: -0.1}, h))
	require.Equal(t, 10, m.SubSteps(valve.State{Y: 0.1 * v.Travel, W: -109.9 * v.Travel}, h))
	require.Equal(t, 32, m.SubSteps(valve.State{Y: 0, W: -100 * v.Travel}, h))
}

func BenchmarkAdvance(b *testing.B) {
	for _, kind := range []string{"swing", "axial spring", "ideal"} {
		v, err := catalogue.Complete(valve.Spec{Type: kind, Size: 0.25}, level)
		require.NoError(b, err)
		s := valve.State{Y: 0.4 * v.Travel, W: -0.5 * v.Travel, Force: -1}
		b.Run("family="+kind, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				v.Motion.Advance(s, 2e-4, -0.1, -200)
			}
		})
	}
}

// The event is the way to the end ahead: it is negative only beyond an end, and never small for a disc that rests or leaves.
func TestEvent(t *testing.T) {
	conform(t, hasDiscs, func(t *rapid.T, v valve.Valve) {
		s := anyState(t, v)
		step := v.Motion.Advance(s, 1e-4, 0, rapid.Float64Range(-1e5, 1e5).Draw(t, "dp"))
		least, past := 1.0, false
		for _, n := range apart(v, step.State) {
			beyond := n.Contact == valve.Free && (n.Y < 0 || n.Y > v.Travel)
			past = past || beyond
			switch {
			case n.Contact != valve.Free || (n.W == 0 && !beyond):
			case beyond:
				least = math.Min(least, math.Min(n.Y/v.Travel, 1-n.Y/v.Travel))
			case n.W < 0:
				least = math.Min(least, n.Y/v.Travel)
			case n.W > 0:
				least = math.Min(least, 1-n.Y/v.Travel)
			}
		}
		require.Equal(t, past, step.Event < 0)
		require.InDelta(t, least, step.Event, 1e-12)
	})
}
