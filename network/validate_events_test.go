package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

// eventful is sound with a standing unit and a check valve that stands alone.
func eventful() *network.Network {
	n := sound()
	n.Stations[0].Stopped = 1
	n.CheckValves = []network.CheckValve{{Name: "guard", From: "header", To: "fork", Elevation: 102}}
	n.Throttles[0].Schedule = nil
	return n
}

func trip(units int, at float64) network.Event {
	return network.Event{Kind: network.Trip, Target: "lift", Units: units, Time: at}
}

func start(units int, at float64) network.Event {
	return network.Event{Kind: network.Start, Target: "lift", Units: units, Time: at, Over: 5}
}

func stroke(to, at float64) network.Event {
	return network.Event{Kind: network.Stroke, Target: "gate", To: to, Over: 10, Time: at}
}

func fails(target string, units int) network.Event {
	return network.Event{Kind: network.Fail, Target: target, Units: units, To: 1}
}

func TestEventFindings(t *testing.T) {
	one := func(path, text, hint string) []network.Finding {
		return []network.Finding{{Path: path, Text: text, Hint: hint}}
	}
	for _, c := range []struct {
		name   string
		events []network.Event
		want   []network.Finding
	}{
		{"right", []network.Event{trip(1, 1), start(1, 2), trip(2, 3), stroke(0, 4), stroke(1, 20), fails("lift", 3), fails("guard", 1)}, nil},
		{"in any order", []network.Event{trip(2, 3), start(1, 2), trip(1, 1)}, nil},
		{"too many", []network.Event{trip(3, 1)}, one("[1].units", "3 units are to trip, but of station lift 2 run then", "")},
		{"too many in all", []network.Event{trip(1, 1), trip(2, 2)}, one("[2].units", "2 units are to trip, but of station lift 1 runs then", "")},
		{"said once", []network.Event{trip(3, 1), trip(2, 2)}, one("[1].units", "3 units are to trip, but of station lift 2 run then", "")},
		{"started too late", []network.Event{trip(3, 1), start(1, 2)}, one("[1].units", "3 units are to trip, but of station lift 2 run then", "")},
		{"none runs", []network.Event{trip(2, 1), trip(1, 2)}, one("[2].trip", "none of the 3 units of station lift runs then", "")},
		{"no units", []network.Event{trip(0, 1)}, one("[1].units", "the event is for 0 units", "give a whole number from 1")},
		{"fewer than none", []network.Event{fails("guard", -1)}, one("[1].units", "the event is for -1 units", "give a whole number from 1")},
		{"more started than stand", []network.Event{start(2, 1)}, one("[1].units", "2 units are to start, but of station lift 1 stands then", "")},
		{"what has tripped does not start", []network.Event{trip(2, 1), start(2, 2)}, one("[2].units", "2 units are to start, but of station lift 1 stands then", "")},
		{"more fail than there are", []network.Event{fails("lift", 4)}, one("[1].units", "4 check valves are to fail, but of station lift 3 work then", "")},
		{"fails twice", []network.Event{fails("guard", 1), fails("guard", 1)}, one("[2].fail", "check valve guard has failed before", "let it fail once")},
		{"two of one", []network.Event{fails("guard", 2)}, one("[1].units", "check valve guard stands alone, the event is for 2 units", "leave units out")},
		{"unknown", []network.Event{{Target: "lfit", Units: 1}}, one("[1].trip", `there is no station "lfit"`, `did you mean "lift"?`)},
		{"far off", []network.Event{{Target: "booster", Units: 1}}, one("[1].trip", `there is no station "booster"`, "stations: lift")},
		{"a valve is no station", []network.Event{{Target: "gate", Units: 1}}, one("[1].trip", `there is no station "gate"`, "it is a throttling valve: write stroke: gate")},
		{"a check valve does not stroke", []network.Event{{Kind: network.Stroke, Target: "guard", Over: 1}},
			one("[1].stroke", `there is no throttling valve "guard"`, "it is a check valve that stands alone: write fail: guard")},
		{"no such check valve", []network.Event{fails("foot-valve", 1)}, one("[1].fail", `there is no station or check valve "foot-valve"`, "stations or check valves: lift, guard")},
		{"before the start", []network.Event{trip(1, -1)}, one("[1].at", "the event is at -1 s", "times count from the start of the run")},
		{"never", []network.Event{trip(1, math.Inf(1))}, one("[1].at", "the event is at +Inf s", "times count from the start of the run")},
		{"in no time", []network.Event{{Kind: network.Start, Target: "lift", Units: 1}}, one("[1].over", "duration is 0 s", "give a value above zero")},
		{"wider than open", []network.Event{stroke(1.2, 1)}, one("[1].to", "opening is 120 %", "give 0 % to 100 %")},
		{"no opening", []network.Event{{Kind: network.Fail, Target: "guard", Units: 1, To: math.NaN()}}, one("[1].opening", "opening is NaN %", "give 0 % to 100 %")},
		{"moved twice at once", []network.Event{stroke(0, 1), stroke(1, 1)}, one("[2].at", "valve gate is moved by event 1 at that time", "let one movement follow the other")},
		{"no such kind", []network.Event{{Kind: 77, Target: "lift", Units: 1}}, one("[1]", "unknown event", "")},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, eventful().ValidateEvents(c.events))
		})
	}
}

func TestStartWithoutStandingUnits(t *testing.T) {
	require.Equal(t, []network.Finding{{Path: "[1].start", Text: "none of the 3 units of station lift stands then",
		Hint: "give the station running, the number of units that run at the start"}}, sound().ValidateEvents([]network.Event{start(1, 1)}))
}

func TestStrokeOverSchedule(t *testing.T) {
	require.Equal(t, []network.Finding{{Path: "[1].stroke", Text: "it takes the place of the rows of the opening of gate from 1 s on", Warning: true}},
		sound().ValidateEvents([]network.Event{stroke(0, 1)}))
	require.Empty(t, sound().ValidateEvents([]network.Event{stroke(0, 2)}))
}

func TestUnitsRunning(t *testing.T) {
	for stopped, want := range map[int]string{-1: "4 units run at the start, the station has 3", 0: "", 3: "", 4: "-1 units run at the start, the station has 3"} {
		n := sound()
		n.Stations[0].Stopped = stopped
		if want == "" {
			require.Empty(t, n.Validate())
			continue
		}
		require.Equal(t, []network.Finding{{Path: "stations.lift.running", Text: want, Hint: "give a whole number from 0 to 3"}}, n.Validate())
	}
}

// An event that names no units acts on all that there are; the order of the list means nothing.
func TestAvailable(t *testing.T) {
	all := network.Event{Kind: network.Trip, Target: "lift", Time: 3}
	require.Equal(t, []int{2, 2, 1, 0}, eventful().Available([]network.Event{all, trip(1, 1), start(1, 2), trip(1, 4)}))
	rapid.Check(t, func(t *rapid.T) {
		n := eventful()
		n.Stations[0].Units = rapid.IntRange(1, 6).Draw(t, "units")
		n.Stations[0].Stopped = rapid.IntRange(0, n.Stations[0].Units).Draw(t, "stopped")
		run, stand := n.Stations[0].Units-n.Stations[0].Stopped, n.Stations[0].Stopped
		var events []network.Event
		var want []int
		for i := range rapid.IntRange(0, 8).Draw(t, "events") { // one after the other, by counting
			units := rapid.IntRange(1, 4).Draw(t, "n")
			if rapid.Bool().Draw(t, "trips") {
				events, want = append(events, trip(units, float64(i))), append(want, run)
				run = max(run-units, 0)
			} else {
				events, want = append(events, start(units, float64(i))), append(want, stand)
				run, stand = run+min(stand, units), max(stand-units, 0)
			}
		}
		places := make([]int, len(events))
		for i := range places {
			places[i] = i
		}
		mixed, expected := make([]network.Event, len(events)), make([]int, len(events))
		if len(places) > 0 {
			for to, from := range rapid.Permutation(places).Draw(t, "order") {
				mixed[to], expected[to] = events[from], want[from]
			}
		}
		require.Equal(t, expected, n.Available(mixed))
	})
}
