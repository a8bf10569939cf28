package choice

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// A disc that floats, one that may snap open and a pump beyond its data are told, each once per station, in the reader's units.
func TestSteadyWarnings(t *testing.T) {
	curve := []pump.Point{{Head: 60}, {Flow: 600. / 3600, Head: 39}}
	p := moc.Problem{Network: &network.Network{
		Stations:    []network.Station{{Name: "lift", Units: 2, Pump: pump.Spec{Curve: curve}}, {Name: "boost", Units: 1}},
		CheckValves: []network.CheckValve{{Name: "line-valve"}}},
		Valves: []valve.Valve{{Name: "swing"}, {Name: "spring"}, {Name: "nozzle"}}}
	floats := moc.SteadyUnit{Station: "lift", Unit: 1, Flow: 741. / 3600, Velocity: 1.97, Opening: 0.8704, FullOpenVelocity: 2.3164, CurveEnd: 600. / 3600}
	twin := floats
	twin.Unit = 2
	st := &moc.Steady{Units: []moc.SteadyUnit{floats, twin,
		{Station: "boost", Unit: 1, Held: true, Snaps: true, Opening: 1, Flow: 0.2, CurveEnd: 0.1},
		{Station: "line-valve", Unit: 1, Velocity: 1.9999, Opening: 0.999, FullOpenVelocity: 2}}}
	require.Equal(t, []string{
		"lift: the flow (1.97 m/s) does not hold the disc of swing fully open (2.32 m/s needed): it floats at 87 % of its travel and will wear",
		"each pump of lift runs at 741 m3/h, beyond the end of its curve at 600 m3/h: head, power and torque there are those of generic four-quadrant data",
		"boost: the disc of spring has two resting positions at this flow; the one reached from closed is used, and it may snap open",
		"the pump of boost runs at 720 m3/h, beyond what its rated point speaks for, 360 m3/h: head, power and torque there are those of generic four-quadrant data",
		"line-valve: the flow (1.9999 m/s) does not hold the disc of nozzle fully open (2.0000 m/s needed): it floats at 100 % of its travel and will wear",
	}, SteadyWarnings(p, st, Settings{}))
	require.Contains(t, SteadyWarnings(p, st, Settings{Units: quantity.US})[0], "6.46 ft/s")
	st.Units = st.Units[2:3]
	st.Units[0].Snaps, st.Units[0].CurveEnd = false, 0.2
	require.Empty(t, SteadyWarnings(p, st, Settings{}))
}

// The warnings of a run name the candidate that they are of; the pumps left running are told when they leave their curve after the event only.
func TestWarningsOfARun(t *testing.T) {
	heavy := set(spec("heavy", "swing"), map[string]float64{"full-open velocity": 3})
	c := quick(t, heavy, spec("spring", "axial spring"))
	c.Scenarios[0].Network.Stations[0].Pump.Curve[3].Flow = 445. / 3600
	c.Scenarios[0].Network.Stations[0].Pump.Curve[3].Head = 51
	r := compare(t, c)
	all := strings.Join(r.Warnings, "\n")
	require.Contains(t, all, "heavy: lift: the flow (2.")
	require.NotContains(t, all, "spring: lift: the flow")
	require.Equal(t, 1, strings.Count(all, "does not hold the disc"))
	require.Contains(t, all, "the pump of lift ends the run at ")
}

// The liquid that separates on the pump side is told once per station, with the worst of its units; a bubble is no separation.
func TestSeparationOnThePumpSide(t *testing.T) {
	c := liftStation(t)
	n := c.Scenarios[0].Network
	columns := []moc.ColumnTrace{{Station: "lift", Unit: 1, Cavity: 5e-5, Highest: 100}, {Station: "lift", Unit: 2, Cavity: 1e-6, Highest: 130}}
	w := separation(n, columns, Settings{})
	require.Len(t, w, 1)
	require.Contains(t, w[0], "lift: the liquid on the pump side of the check valve separates when the disc stops it: a cavity of up to 0.05 l, and up to 12.7 bar when it closes")
	columns[0].Cavity, columns[1].Cavity = 1e-8, 1e-8
	require.Empty(t, separation(n, columns, Settings{}))
	require.Empty(t, separation(n, nil, Settings{}))
}
