package screen

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pump"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// plant is a station that lifts water through a main to a tower, without friction but for the valve.
type plant struct {
	units, trip                 int
	inertia                     float64 // kg m2
	branch, bore                float64 // m
	main, mainBore, speed, lift float64 // m, m, m/s, m
}

func (p plant) problem(t require.TestingT) (moc.Problem, *moc.Steady) {
	water, err := fluid.Water(288.15, 101325)
	require.NoError(t, err)
	n := &network.Network{Fluid: water, Atmosphere: 101325, Reservoirs: []network.Reservoir{{Name: "sump", Level: 100}, {Name: "tower", Level: 100 + p.lift}}}
	n.Stations = []network.Station{{
		Name: "lift", From: "sump", To: "header", Units: p.units, Elevation: 90,
		Pump:   pump.Spec{Flow: 0.12, Head: p.lift + 2, Speed: 155, Efficiency: 0.8, Inertia: p.inertia},
		Branch: &network.Branch{Length: p.branch, Bore: p.bore, WaveSpeed: 1200, FrictionFactor: 1e-9},
	}}
	n.Pipes = []network.Pipe{{Name: "main", From: "header", To: "tower", Bore: p.mainBore, WaveSpeed: p.speed, FrictionFactor: 1e-9, Profile: []network.Point{{Chainage: 0, Elevation: 60}, {Chainage: p.main, Elevation: 60}}}}
	v, err := catalogue.Complete(valve.Spec{Name: "held open", Type: "ideal", Size: p.bore}, catalogue.Setting{Density: water.Density, Gravity: n.G()})
	require.NoError(t, err)
	problem := moc.Problem{Network: n, Valves: []valve.Valve{v}, Events: []network.Event{{Kind: network.Trip, Target: "lift", Units: p.trip, Time: 0.3}}}
	st, err := moc.SteadyState(problem)
	require.NoError(t, err)
	return problem, st
}

// A rotor without inertia windmills with the flow and lifts nothing as the flow turns. What is left is the header against the level before the pump.
const noInertia = 1e-6

func TestHeaderHeldByAWideMain(t *testing.T) {
	// A main so wide that it is a reservoir: a = g dH/L. A branch of 10 m against 40 m: 39.2 m/s2 by hand.
	p, st := plant{units: 1, trip: 1, inertia: noInertia, branch: 10, bore: 0.25, main: 1000, mainBore: 20, speed: 1200, lift: 40}.problem(t)
	all, err := Estimate(p, st)
	require.NoError(t, err)
	require.InEpsilon(t, network.Gravity*40/10, all[0].Tangent, 5e-3)
	require.InEpsilon(t, 10, all[0].Column, 1e-12)
	require.InEpsilon(t, all[0].Held, all[0].Tangent, 5e-3)
}

func TestHeaderFallsByTheImpedanceOfTheMain(t *testing.T) {
	// A main from which no wave comes back: H_header = H_0 - B Q_0 as the flow is zero.
	p, st := plant{units: 1, trip: 1, inertia: noInertia, branch: 10, bore: 0.25, main: 20000, mainBore: 1, speed: 1000, lift: 40}.problem(t)
	all, err := Estimate(p, st)
	require.NoError(t, err)
	r := all[0]
	require.False(t, r.Returned())
	b := 1000 / (network.Gravity * area(1))
	header := r.Before - b*st.Units[0].Flow
	require.InEpsilon(t, r.Before-header, r.Before-r.Header, 0.01) // the elasticity of the branch gives a little
	require.InEpsilon(t, network.Gravity*(header-100)/10, r.Tangent, 0.01)
}

func TestMainAsARigidColumn(t *testing.T) {
	// A short main whose waves come and go many times while the rotor runs down: one column of branch and main against the tower, two units in it.
	p, st := plant{units: 2, trip: 2, inertia: 5, branch: 40, bore: 0.25, main: 60, mainBore: 0.35, speed: 1400, lift: 20}.problem(t)
	all, err := Estimate(p, st)
	require.NoError(t, err)
	r := all[0]
	require.True(t, r.Returned())
	column := 40 + 2*60*area(0.25)/area(0.35)
	require.InEpsilon(t, network.Gravity*(120-r.Pump)/column, r.Main.Rigid, 1e-9)
	require.InEpsilon(t, r.Main.Rigid, r.Tangent, 0.05)
}

// A heavy rotor keeps lifting: the flow falls later and less steeply. Whatever the installation, the estimate is a number, the tangent no more than the
// bound, and the time after the trip.
func TestEstimateProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := rapid.IntRange(1, 4).Draw(t, "units")
		p := plant{
			units: units, trip: rapid.IntRange(1, units).Draw(t, "trip"),
			inertia: math.Pow(10, rapid.Float64Range(-5, 0.5).Draw(t, "log inertia")),
			branch:  rapid.Float64Range(0.5, 60).Draw(t, "branch"), bore: rapid.Float64Range(0.15, 0.4).Draw(t, "bore"),
			main: math.Pow(10, rapid.Float64Range(0.7, 3).Draw(t, "log main")), mainBore: rapid.Float64Range(0.3, 1.2).Draw(t, "main bore"),
			speed: rapid.Float64Range(300, 1400).Draw(t, "wave speed"), lift: rapid.Float64Range(5, 120).Draw(t, "lift"),
		}
		problem, st := p.problem(t)
		all, err := Estimate(problem, st)
		if err != nil {
			require.Contains(t, err.Error(), "the flow does not turn back")
			return
		}
		require.Len(t, all, 1)
		r := all[0]
		for _, x := range []float64{r.Time, r.Bound, r.Header, r.Pump, r.SpeedRatio, r.Held, r.Main.Rigid, r.Tangent} {
			require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%+v", r)
		}
		require.Positive(t, r.Time)
		require.Positive(t, r.Tangent)
		require.GreaterOrEqual(t, r.Bound, r.Tangent)
	})
}
