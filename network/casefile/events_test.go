package casefile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve/choice"
)

// equipped puts two air vessels, a throttling valve and every kind of event into the built-in example.
func equipped(t testing.TB) string {
	return replaced(t,
		"    units: 3\n", "    units: 3\n    running: 2\n",
		"    from: header\n    to: tower\n", "    from: line\n    to: tower\n",
		"pipes:\n", `throttling valves: {gate: {from: header, to: line, bore: 0.5 m, elevation: 102 m, loss: 2}}
air vessels:
  surge: {at: header, level: 104 m, volume: 8000 l, gas volume: 4 m3, connection bore: 300 mm}
  after: {at: line, level: 103 m, volume: 2 m3, gas volume: 1 m3, connection bore: 200 mm, outflow loss: 0.7, plan area: 2 m2}
pipes:
`, "  - {trip: lift, units: 1, at: 1 s}\n", `  - {trip: lift, at: 4 s}
  - {start: lift, over: 5 s, at: 2 s}
  - {stroke: gate, to: 30 %, over: 10 s, at: 1 s}
  - {fail: lift, units: 1, at: 0 s}
  - {fail: lift, opening: 25 %, at: 3 s}
`)
}

func TestEquipped(t *testing.T) {
	c := read(t, equipped(t))
	s := c.Scenarios[0]
	require.Equal(t, []network.Event{
		{Kind: network.Fail, Target: "lift", Units: 1, To: 1},
		{Kind: network.Stroke, Target: "gate", Time: 1, Over: 10, To: 0.3},
		{Kind: network.Start, Target: "lift", Units: 1, Time: 2, Over: 5},
		{Kind: network.Fail, Target: "lift", Units: 2, Time: 3, To: 0.25},
		{Kind: network.Trip, Target: "lift", Units: 3, Time: 4},
	}, s.Events)
	require.Equal(t, 1, s.Network.Stations[0].Stopped)
	surge := &network.AirVessel{Name: "surge", Node: "header", Level: 104, Volume: 8, Gas: 4, Polytropic: 1.2, Bore: 0.3, LossIn: 1, LossOut: 0.5}
	after := &network.AirVessel{Name: "after", Node: "line", Level: 103, Volume: 2, Gas: 1, Area: 2, Polytropic: 1.2, Bore: 0.2, LossIn: 1, LossOut: 0.7}
	require.Equal(t, []network.Device{surge, after}, s.Network.Devices)
	for _, words := range []string{
		"air vessels.surge: polytropic exponent 1.2, default; 1 isothermal to 1.4 adiabatic; 1.2 is common practice",
		"air vessels.surge: plan area 0 m2, default; horizontal area of the vessel; 0: the level is taken as constant",
		"air vessels.after: inflow loss 1, default; loss coefficient of flow into the vessel",
		"events[1]: all 3 units of lift trip",
		"events[4]: the check valve stays fully open",
		"events[5]: all 2 check valves of lift fail",
	} {
		require.Contains(t, c.Assumptions, words)
	}
	require.NotContains(t, strings.Join(c.Assumptions, "\n"), "run at the start")
	require.Contains(t, read(t, lift(t)).Assumptions, "stations.lift: all 3 units run at the start")
}

// Events that say no number of units act on those that a scenario has.
func TestUnitsOfScenario(t *testing.T) {
	c := read(t, replaced(t, "units: 1, at: 1 s}\n", "at: 1 s}\nscenarios:\n  more: {set: {stations.lift.units: 5}}\n  fewer: {set: {stations.lift.running: 2}}\n"))
	var units []int
	for _, s := range c.Scenarios {
		units = append(units, s.Events[0].Units)
	}
	require.Equal(t, []int{3, 5, 2}, units)
	require.Contains(t, c.Assumptions, "scenarios.more: events[1]: all 5 units of lift trip")
}

func TestSetDevice(t *testing.T) {
	d, err := document(t, equipped(t)).With("air vessels.surge.volume", "9 m3")
	require.NoError(t, err)
	volume := func(s choice.Scenario) float64 { return s.Network.Devices[0].(*network.AirVessel).Volume }
	require.Equal(t, 9.0, volume(must(t, d).Scenarios[0]))
	d, err = d.With("scenarios", "{small: {set: {air vessels.surge.volume: 5 m3}}}")
	require.NoError(t, err)
	require.Equal(t, []float64{9, 5}, []float64{volume(must(t, d).Scenarios[0]), volume(must(t, d).Scenarios[1])})
}

func TestTooManyEvents(t *testing.T) {
	message := complaint(replaced(t, "  - {trip: lift, units: 1, at: 1 s}\n", strings.Repeat("  - {trip: lift, units: 9, at: 1 s}\n", 1001)))
	require.Contains(t, message, "case.yaml:1045:5: more than 1000 events")
}
