package moc

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/network/pipe"
)

// someCreep is invented.
var someCreep = []network.CreepElement{{Compliance: 1.5e-10, Time: 0.05}, {Compliance: 1.5e-10, Time: 0.5}, {Compliance: 2e-10, Time: 5}}

// plasticStation is the station of the built-in example with branches and a narrow main of plastic, which parts at a summit when all units trip.
func plasticStation(t testing.TB, creep ...network.CreepElement) *network.Network {
	n := liftStation(t, 2)
	m, ok := pipe.Lookup("HDPE")
	require.True(t, ok)
	wall := func(bore float64) (a float64, c network.Creep) {
		return pipe.WaveSpeed(n.Fluid, bore, bore/9, m, pipe.AnchoredThroughout, pipe.GasContent{}),
			network.Creep{Elements: creep, Stretch: pipe.Stretch(bore, bore/9, m, pipe.AnchoredThroughout)}
	}
	main, branch := &n.Pipes[0], n.Stations[0].Branch
	main.Bore = 0.45
	main.Profile = []network.Point{{Elevation: 102}, {Chainage: 300, Elevation: 143}, {Chainage: 600, Elevation: 140}}
	main.WaveSpeed, main.Creep = wall(main.Bore)
	branch.WaveSpeed, branch.Creep = wall(branch.Bore)
	n.Stations[0].Column.WaveSpeed = branch.WaveSpeed
	return n
}

// Whatever the friction, and with cavities beside it, a station on creeping pipes keeps its books, gives the same bytes twice, slams at first as an
// elastic one and swings less afterwards.
func TestCreepInAStation(t *testing.T) {
	for _, f := range Frictions() {
		run := func(units int, form Cavities, creep ...network.CreepElement) *Result {
			p := tripOne(t, plasticStation(t, creep...), "swing", 12)
			p.Events[0].Units = units
			r, err := Solve(context.Background(), p, Settings{Friction: f, Cavities: form})
			require.NoError(t, err)
			require.Less(t, r.Numerics.VolumeResidual, volumeBound)
			return r
		}
		elastic, crept := run(1, GasCavity), run(1, GasCavity, someCreep...)
		require.NotEmpty(t, crept.Units[0].Seatings)
		slam := crept.Units[0].Seatings[0]
		require.InEpsilon(t, elastic.Units[0].Seatings[0].Rise, slam.Rise, 0.15)
		require.InEpsilon(t, -crept.Units[0].PipeWaveSpeed*slam.Velocity/network.Gravity, slam.Rise, 0.02, "Joukowsky by the modulus for sudden load")
		require.Less(t, late(crept), 0.5*late(elastic))
		require.Equal(t, crept, run(1, GasCavity, someCreep...))

		for _, form := range CavityForms() {
			parted := run(3, form, someCreep...)
			require.Positive(t, parted.Numerics.CavityFrom, "all units trip: cavities")
			require.Contains(t, parted.Numerics.Kernel, "cavities")
		}
	}
}

// late is how far the head at the valve of the tripped unit swings in the last fifth of a run, m.
func late(r *Result) float64 {
	b := bounds(r.Units[0].HeadDown[len(r.Time)*4/5:])
	return b[1] - b[0]
}

// Steady flow stays steady: the wall has come to rest under it.
func TestCreepKeepsSteadyFlow(t *testing.T) {
	for _, f := range Frictions() {
		p := tripOne(t, plasticStation(t, someCreep...), "axial spring", 20)
		p.Events = nil
		r := started(t, p, Settings{Friction: f})
		before := append([]float64(nil), r.heads...)
		for range int(20 / r.grid.dt) {
			require.NoError(t, r.advance())
		}
		require.InDeltaSlice(t, before, r.heads, 1e-7, f)
	}
}

// A run that goes back to its checkpoint does the same again to the last bit, and allocates nothing on the way, with every friction and past the change to
// cavities.
func TestCreepFromCheckpoint(t *testing.T) {
	for i, f := range append(Frictions(), QuasiSteady, Weighted) {
		p := tripOne(t, plasticStation(t, someCreep...), "swing", 20)
		p.Events[0].Units = 3
		r := started(t, p, Settings{Friction: f, Cavities: CavityForms()[i/len(Frictions())]})
		step := func() {
			if r.low() {
				r.cavitate()
			}
			require.NoError(t, r.advance())
			r.rec.record(r)
		}
		for float64(r.step)*r.grid.dt < 4 {
			step()
		}
		require.GreaterOrEqual(t, r.cavityAt, 0.0)
		r.keep()
		ahead := func() []float64 {
			for range 700 {
				step()
			}
			return append([]float64{storage(r.lines)}, r.heads...)
		}
		first := ahead()
		r.restore()
		require.Equal(t, first, ahead())
		require.Zero(t, testing.AllocsPerRun(300, func() {
			r.keep()
			if err := r.advance(); err != nil {
				t.Fatal(err)
			}
			r.rec.record(r)
		}))
	}
}

// The error of a smooth wave on a creeping wall falls with the square of the time step: against the fourfold one, the heads at the gate at a half step differ by
// a quarter of what they do at the whole step.
func TestCreepOrder(t *testing.T) {
	head := func(halvings int) []float64 {
		n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
			Reservoirs: []network.Reservoir{{Name: "up", Level: 60}, {Name: "down", Level: 0}},
			Pipes:      []network.Pipe{flatPipe("line", "up", "end", 100, 0.1, 400, 0)},
			Throttles:  []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.1, Loss: 2000}}}
		n.Pipes[0].Creep = network.Creep{Elements: someCreep, Stretch: 9}
		for k := range 201 { // bends of the schedule fall on steps
			x := float64(k) / 200
			n.Throttles[0].Schedule = append(n.Throttles[0].Schedule, network.Opening{Time: x, Fraction: 1 - x*x*x*(10-15*x+6*x*x)})
		}
		r, err := Solve(context.Background(), Problem{Network: n, Until: 3}, Settings{ReachesInLongest: 100, Halvings: halvings})
		require.NoError(t, err)
		for _, x := range r.Nodes {
			if x.Name == "end" {
				return x.Head
			}
		}
		return nil
	}
	off := func(a, b []float64, stride int) (worst float64) {
		for i := range a {
			worst = math.Max(worst, math.Abs(a[i]-b[i*stride]))
		}
		return worst
	}
	h0, h1, h2, h3 := head(0), head(1), head(2), head(3)
	e0, e1, e2 := off(h0, h1, 2), off(h1, h2, 2), off(h2, h3, 2)
	t.Logf("changes on halving: %.3g, %.3g, %.3g m", e0, e1, e2)
	require.InDelta(t, 4, e0/e1, 0.6)
	require.InDelta(t, 4, e1/e2, 0.6)
}

// Any creep in any network that can be given ends in finite heads and balanced books, and rings no higher than an elastic wall.
func TestAnyCreep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := randomNetwork(t, true, 0.02)
		for i := range n.Pipes {
			c := &n.Pipes[i].Creep
			c.Stretch = math.Pow(10, rapid.Float64Range(-1, 2).Draw(t, "log stretch"))
			for k := range rapid.IntRange(0, 3).Draw(t, "elements") {
				c.Elements = append(c.Elements, network.CreepElement{Compliance: math.Pow(10, rapid.Float64Range(-13, -8).Draw(t, "log J")),
					Time: math.Pow(10, rapid.Float64Range(-4, 2).Draw(t, "log tau")+float64(k)*1e-3)})
			}
		}
		r, err := Solve(context.Background(), Problem{Network: n, Until: 1}, Settings{Step: propertyStep, Liquid: true})
		require.NoError(t, err)
		for _, x := range r.Nodes {
			for _, h := range x.Head {
				require.False(t, math.IsNaN(h) || math.IsInf(h, 0))
			}
		}
	})
}

// Creep faster than two time steps is named; the rest is not.
func TestFastCreep(t *testing.T) {
	slow := network.CreepElement{Compliance: 2e-10, Time: 1}
	p := tripOne(t, plasticStation(t, network.CreepElement{Compliance: 1e-10, Time: 3e-4}, slow), "swing", 2)
	plan, err := Plan(p, Settings{})
	require.NoError(t, err)
	var where []string
	for _, f := range plan.FastCreep {
		require.Equal(t, 3e-4, f.Time)
		where = append(where, f.Pipe)
	}
	require.Equal(t, []string{"rising-main", "lift/1/branch", "lift/2/branch", "lift/3/branch"}, where)
	p = tripOne(t, plasticStation(t, slow), "swing", 2)
	plan, err = Plan(p, Settings{})
	require.NoError(t, err)
	require.Empty(t, plan.FastCreep, fmt.Sprint(plan.Step))
}
