package network_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pump"
)

// sound is an installation with nothing wrong.
func sound() *network.Network {
	return &network.Network{
		Fluid:      fluid.Fluid{Name: "water", Density: 998.2, BulkModulus: 2.19e9, Viscosity: 1.002e-3, VapourPressure: 2339},
		Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "sump", Level: 101.5}, {Name: "tower", Level: 151.5}},
		Demands:    []network.Demand{{Node: "village", Flow: 0.01}},
		DeadEnds:   []string{"stub"},
		Stations: []network.Station{{
			Name: "lift", From: "sump", To: "header", Units: 3, Elevation: 102,
			Pump: pump.Spec{Flow: 0.12, Head: 52, Speed: 155, Efficiency: 0.8, Inertia: 2.2,
				Curve: []pump.Point{{Flow: 0, Head: 66}, {Flow: 0.06, Head: 62}, {Flow: 0.12, Head: 52}, {Flow: 0.17, Head: 39}}},
			Branch: &network.Branch{Length: 6, Bore: 0.25, WaveSpeed: 1250, Roughness: 5e-5},
			Column: network.Suction{Length: 2, Bore: 0.25, WaveSpeed: 1250},
		}},
		Pipes: []network.Pipe{
			pipe("main", "header", "fork"), pipe("rise", "fork", "tower"), pipe("side", "fork", "village"), pipe("spur", "village", "stub"),
		},
		Throttles: []network.Throttle{{Name: "gate", From: "header", To: "fork", Bore: 0.3, Elevation: 102, Loss: 0.2,
			Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 2, Fraction: 0}}}},
	}
}

func pipe(name, from, to string) network.Pipe {
	return network.Pipe{Name: name, From: from, To: to, Bore: 0.7, WaveSpeed: 1100, Roughness: 1e-4,
		Profile: []network.Point{{Chainage: 0, Elevation: 102}, {Chainage: 600, Elevation: 102}}}
}

func TestSoundInstallationHasNoFindings(t *testing.T) {
	require.Empty(t, sound().Validate())
}

// A node between valves without a pipe is no fault, as they need not be shut at a time, but it is worth knowing.
func TestTrappedNode(t *testing.T) {
	series := func(change func(n *network.Network)) []network.Finding {
		n := sound()
		feed := n.Stations[0]
		feed.Name, feed.To, feed.Branch = "feed", "between", nil
		n.Stations[0].From, n.Stations[0].Column = "between", network.Suction{}
		n.Stations = append([]network.Station{feed}, n.Stations...)
		change(n)
		return n.Validate()
	}
	require.Equal(t, []network.Finding{{Path: "stations.feed.to", Hint: "join the valves by the pipe that lies between them", Warning: true,
		Text: `node "between" lies between valves without a pipe: if all of them are shut at a time, its head is not known and the run fails`}}, series(func(*network.Network) {}))
	gate := network.Throttle{Name: "other", From: "between", To: "suction", Bore: 0.3, Elevation: 102, Loss: 1, Schedule: []network.Opening{{Fraction: 1}, {Time: 2, Fraction: 0.1}}}
	through := func(n *network.Network) {
		n.Throttles, n.Stations[1].From = append(n.Throttles, gate), "suction"
	}
	require.Len(t, series(through), 1, "an open valve joins two such nodes")
	gate.Schedule[1].Fraction = 0
	require.Len(t, series(through), 2, "one that shuts does not")
	for name, change := range map[string]func(n *network.Network){
		"pipe": func(n *network.Network) {
			n.Pipes, n.Stations[1].From = append(n.Pipes, pipe("link", "between", "suction")), "suction"
		},
		"column": func(n *network.Network) { n.Stations[1].Column = n.Stations[0].Column },
		"branch": func(n *network.Network) { n.Stations[0].Branch = n.Stations[1].Branch },
		"vessel": func(n *network.Network) { n.Devices = []network.Device{vessel("surge", "between")} },
		"orifice": func(n *network.Network) {
			n.Devices = []network.Device{&network.Orifice{Name: "plate", From: "between", To: "header", PipeBore: 0.3, Loss: 6}}
		},
	} {
		require.Empty(t, series(change), name)
	}
}

func TestFindings(t *testing.T) {
	station := func(n *network.Network) *network.Station { return &n.Stations[0] }
	for _, c := range []struct {
		name   string
		change func(n *network.Network)
		want   network.Finding
	}{
		{"no units", func(n *network.Network) { station(n).Units = 0 },
			network.Finding{Path: "stations.lift.units", Text: "the station has 0 units", Hint: "give a whole number from 1 to 100"}},
		{"slope", func(n *network.Network) { station(n).Slope = 2 },
			network.Finding{Path: "stations.lift.slope", Text: "slope is 114.6 deg", Hint: "give -90 deg (downflow) to 90 deg (upflow)"}},
		{"branch length", func(n *network.Network) { station(n).Branch.Length = 0 },
			network.Finding{Path: "stations.lift.branch.length", Text: "length is 0 m", Hint: "give a value above zero"}},
		{"branch bore", func(n *network.Network) { station(n).Branch.Bore = -0.25 },
			network.Finding{Path: "stations.lift.branch.bore", Text: "bore is -0.25 m", Hint: "give a value above zero"}},
		{"column", func(n *network.Network) { station(n).Column.Length = -1 },
			network.Finding{Path: "stations.lift.pump.water length", Text: "water length is -1 m", Hint: "give zero or a value above it"}},
		{"tiny branch", func(n *network.Network) { station(n).Branch.Length = 1e-6 },
			network.Finding{Path: "stations.lift.branch.length", Text: "length is 1e-06 m", Hint: "give 0.05 m or more, or leave the branch out"}},
		{"tiny column", func(n *network.Network) { station(n).Column.Length = 0.049 },
			network.Finding{Path: "stations.lift.pump.water length", Text: "water length is 0.049 m", Hint: "give 0.05 m or more, or leave it out"}},
		{"tiny pipe", func(n *network.Network) { n.Pipes[0].Profile[1].Chainage = 0.09 },
			network.Finding{Path: "pipes.main.length", Text: "length is 0.09 m", Hint: "give 0.1 m or more, or join its ends to one node"}},
		{"least inertia", func(n *network.Network) { station(n).Pump.Inertia = 1e-12 },
			network.Finding{Path: "stations.lift.pump.inertia", Text: "inertia is 1e-12 kg·m2", Hint: "give 1e-9 to 1e9 kg·m2, or leave it out to have it estimated"}},
		{"curve beyond reason", func(n *network.Network) { station(n).Pump.Curve[3].Head = 600 },
			network.Finding{Path: "stations.lift.pump.curve[4][2]", Text: "head is 600 m", Hint: "give 0 to 520 m, 10 times the rated head at most"}},
		{"station and check valve of one name", func(n *network.Network) {
			n.CheckValves = []network.CheckValve{{Name: "Lift", From: "header", To: "fork"}}
		},
			network.Finding{Path: "check valves.Lift", Text: `"lift" is a station`, Hint: "names of stations and of check valves that stand alone are unique together, ignoring case"}},
		{"rated flow", func(n *network.Network) { station(n).Pump.Flow = 0 },
			network.Finding{Path: "stations.lift.pump.rated.flow", Text: "rated flow is 0 m3/s", Hint: "give a value above zero"}},
		{"efficiency", func(n *network.Network) { station(n).Pump.Efficiency = 1.2 },
			network.Finding{Path: "stations.lift.pump.rated.efficiency", Text: "rated efficiency is 120 %", Hint: "give more than 0 % and at most 100 %"}},
		{"one row", func(n *network.Network) { station(n).Pump.Curve = station(n).Pump.Curve[:1] },
			network.Finding{Path: "stations.lift.pump.curve", Text: "the curve has a single row", Hint: "give two rows or more, or leave the curve out"}},
		{"flows not increasing", func(n *network.Network) { station(n).Pump.Curve[2].Flow = 0.06 },
			network.Finding{Path: "stations.lift.pump.curve[3][1]", Text: "flow does not increase: 0.06 m3/s follows 0.06 m3/s", Hint: "sort the rows by flow and give each flow once"}},
		{"negative head", func(n *network.Network) { station(n).Pump.Curve[3].Head = -1 },
			network.Finding{Path: "stations.lift.pump.curve[4][2]", Text: "head is -1 m", Hint: "give zero or a value above it"}},
		{"pipe bore", func(n *network.Network) { n.Pipes[0].Bore = 0 },
			network.Finding{Path: "pipes.main.bore", Text: "bore is 0 m", Hint: "give a value above zero"}},
		{"roughness", func(n *network.Network) { n.Pipes[0].Roughness = 0.1 },
			network.Finding{Path: "pipes.main.roughness", Text: "roughness 0.1 m is more than a tenth of the bore", Hint: "roughness is a matter of a tenth of a millimetre"}},
		{"friction factor", func(n *network.Network) { n.Pipes[0].FrictionFactor = -0.02 },
			network.Finding{Path: "pipes.main.friction factor", Text: "friction factor is -0.02", Hint: "give zero or a value above it"}},
		{"wave speed", func(n *network.Network) { n.Pipes[0].WaveSpeed = 9000 },
			network.Finding{Path: "pipes.main.wave speed", Text: "wave speed is 9000 m/s", Hint: "give at most 5000 m/s"}},
		{"profile backwards", func(n *network.Network) {
			n.Pipes[0].Profile = []network.Point{{Elevation: 102}, {Chainage: 300, Elevation: 102}, {Chainage: 200, Elevation: 102}}
		},
			network.Finding{Path: "pipes.main.profile[3][1]", Text: "the profile goes backwards: chainage 200 m follows 300 m", Hint: "chainage is the distance along the pipe and must increase"}},
		{"profile start", func(n *network.Network) { n.Pipes[0].Profile[0].Chainage = 5 },
			network.Finding{Path: "pipes.main.profile[1][1]", Text: "the profile starts at chainage 5 m, not at 0 m", Hint: "chainage is the distance from the end named in from"}},
		{"profile short", func(n *network.Network) { n.Pipes[0].Profile = n.Pipes[0].Profile[:1] },
			network.Finding{Path: "pipes.main.profile", Text: "the profile has a single row", Hint: "give chainage and elevation of both ends at least"}},
		{"opening", func(n *network.Network) { n.Throttles[0].Schedule[1].Fraction = 1.5 },
			network.Finding{Path: "throttling valves.gate.opening[2][2]", Text: "opening is 150 %", Hint: "give 0 % to 100 %"}},
		{"opening time", func(n *network.Network) { n.Throttles[0].Schedule[1].Time = 0 },
			network.Finding{Path: "throttling valves.gate.opening[2][1]", Text: "time does not increase: 0 s follows 0 s", Hint: "sort the rows by time"}},
		{"not finite", func(n *network.Network) { n.Reservoirs[0].Level = math.NaN() },
			network.Finding{Path: "reservoirs.sump.level", Text: "level is not a finite number"}},
		{"levels", func(n *network.Network) {
			n.Reservoirs[0].Levels = []network.Level{{Time: 1, Head: 3}, {Time: 0, Head: 3}}
		},
			network.Finding{Path: "reservoirs.sump.level[2][1]", Text: "time goes backwards: 0 s follows 1 s", Hint: "sort the rows by time"}},
		{"atmosphere", func(n *network.Network) { n.Atmosphere = 0 },
			network.Finding{Path: "atmosphere", Text: "atmosphere is 0 Pa", Hint: "give a value above zero"}},

		{"misspelt node", func(n *network.Network) { n.Pipes[0].From = "haeder" },
			network.Finding{Path: "pipes.main.from", Text: `node "haeder" is named only here`, Hint: `did you mean "header"?`}},
		{"node named once", func(n *network.Network) { n.DeadEnds = nil },
			network.Finding{Path: "pipes.spur.to", Text: `node "stub" is named only here`, Hint: "join something to it, or list it under reservoirs, demands or dead ends"}},
		{"case of a node", func(n *network.Network) { n.Pipes[0].From = "Header" },
			network.Finding{Path: "pipes.main.from", Text: `nodes "header" and "Header" differ only by case`, Hint: "names are unique ignoring case"}},
		{"case of a pipe", func(n *network.Network) { n.Pipes[1].Name = "Main" },
			network.Finding{Path: "pipes.Main", Text: `pipes "main" and "Main" differ only by case`, Hint: "names are unique ignoring case"}},
		{"form of a name", func(n *network.Network) { n.Pipes[1].Name = "rise_1" },
			network.Finding{Path: "pipes.rise_1", Text: `"rise_1" is not a name`, Hint: "names are letters, digits and hyphens, not starting with a hyphen"}},
		{"unknown reservoir", func(n *network.Network) {
			n.Reservoirs = append(n.Reservoirs, network.Reservoir{Name: "lake", Level: 100})
		},
			network.Finding{Path: "reservoirs.lake", Text: `nothing is joined to node "lake"`, Hint: "nodes exist by being named in from or to"}},
		{"no dead end", func(n *network.Network) { n.DeadEnds = append(n.DeadEnds, "fork") },
			network.Finding{Path: "dead ends[2]", Text: `node "fork" is no dead end: it is named 4 times`, Hint: "take it from dead ends"}},
		{"both ends", func(n *network.Network) { n.Throttles[0].To = "header" },
			network.Finding{Path: "throttling valves.gate.to", Text: `both ends are at node "header"`, Hint: "name another node"}},
		{"no reservoir", func(n *network.Network) { n.Reservoirs = nil; n.DeadEnds = []string{"stub", "sump", "tower"} },
			network.Finding{Path: "reservoirs", Text: "no node has a fixed head", Hint: "give at least one reservoir with its level"}},
		{"disconnected", func(n *network.Network) {
			n.Pipes = append(n.Pipes, pipe("far", "lake", "sea"))
			n.Reservoirs = append(n.Reservoirs, network.Reservoir{Name: "lake", Level: 120}, network.Reservoir{Name: "sea", Level: 110})
		},
			network.Finding{Path: "pipes.far", Text: `"lake" and "sea" are not connected with "sump"`, Hint: "one case is one installation: join the parts or make two cases"}},
		{"lossless loop", func(n *network.Network) {
			n.Throttles[0].Loss = 0
			n.Throttles = append(n.Throttles, network.Throttle{Name: "twin", From: "fork", To: "header", Bore: 0.3, Elevation: 102})
		},
			network.Finding{Path: "throttling valves.twin.loss", Text: "a loop in which nothing takes any head leaves its flow undetermined", Hint: "give the loss of one valve in the loop"}},
		{"lossless between reservoirs", func(n *network.Network) {
			n.Throttles = append(n.Throttles, network.Throttle{Name: "a", From: "sump", To: "mid", Bore: 0.3, Elevation: 102},
				network.Throttle{Name: "b", From: "mid", To: "tower", Bore: 0.3, Elevation: 102})
		},
			network.Finding{Path: "throttling valves.b.loss", Text: "nothing between two fixed heads takes any head, so the flow has no bound", Hint: "give the loss of one valve on the way"}},
		{"nothing", func(n *network.Network) { *n = network.Network{Fluid: n.Fluid, Atmosphere: n.Atmosphere} },
			network.Finding{Path: "stations", Text: "there is nothing between the nodes", Hint: "give stations, pipes or check valves"}},

		{"rising curve", func(n *network.Network) { station(n).Pump.Curve[1].Head = 67 },
			network.Finding{Path: "stations.lift.pump", Text: "head rises along the curve between 0 and 0.06 m3/s: parallel units may hunt there", Warning: true}},
		{"steep", func(n *network.Network) {
			n.Pipes[0].Profile = []network.Point{{Elevation: 102}, {Chainage: 1, Elevation: 104}, {Chainage: 600, Elevation: 102}}
		},
			network.Finding{Path: "pipes.main.profile[2]", Text: "the pipe climbs 2 m over a length of 1 m", Hint: "chainage is the distance along the pipe, not on the map", Warning: true}},
		{"datum", func(n *network.Network) { n.Pipes[0].Profile[1].Elevation = 108 },
			network.Finding{Path: "pipes.rise.profile[1]", Text: "pipes meet at node fork at elevations 108 m and 102 m", Hint: "check the datum of both", Warning: true}},
		{"free discharge", func(n *network.Network) { n.Pipes[1].Profile[1].Elevation = 160 },
			network.Finding{Path: "pipes.rise.profile[2]", Text: "pipe rise ends 8.5 m above the level of tower", Hint: "a pipe that discharges above the level needs the head of its own end: set the level to it", Warning: true}},
		{"falling level", func(n *network.Network) {
			n.Reservoirs[1].Levels = []network.Level{{Time: 0, Head: 151.5}, {Time: 9, Head: 100}}
		},
			network.Finding{Path: "pipes.rise.profile[2]", Text: "pipe rise ends 2 m above the level of tower", Hint: "a pipe that discharges above the level needs the head of its own end: set the level to it", Warning: true}},
		{"boiling", func(n *network.Network) { n.Fluid.VapourPressure = 120e3 },
			network.Finding{Path: "fluid", Text: "the liquid boils in the open: its vapour pressure 120 kPa is not below the atmosphere", Hint: "check temperature and atmosphere", Warning: true}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := sound()
			c.change(n)
			require.Equal(t, []network.Finding{c.want}, n.Validate())
		})
	}
}

// A value that somebody wrote is shown as written, in their unit.
func TestFindingsAsWritten(t *testing.T) {
	n := sound()
	n.Pipes[0].Bore, n.Stations[0].Pump.Curve[2].Flow = -0.0254, 0.06
	written := map[string]string{"pipes.main.bore": "-1 in", "stations.lift.pump.curve[3][1]": "216 m3/h", "stations.lift.pump.curve[2][1]": "0.06 m3/s"}
	require.Equal(t, []network.Finding{
		{Path: "stations.lift.pump.curve[3][1]", Text: "flow does not increase: 216 m3/h follows 0.06 m3/s", Hint: "sort the rows by flow and give each flow once"},
		{Path: "pipes.main.bore", Text: "bore is -1 in", Hint: "give a value above zero"},
	}, n.ValidateItems(func(path string) string { return written[path] }))
}

// The lengths at the bounds are accepted, and so is no water column at all.
func TestLeastLengths(t *testing.T) {
	n := sound()
	n.Stations[0].Branch.Length, n.Stations[0].Column.Length, n.Pipes[0].Profile[1].Chainage = 0.05, 0.05, 0.1
	require.Empty(t, n.Validate())
	n.Stations[0].Column.Length = 0
	require.Empty(t, n.Validate())
}

func TestLoneCheckValve(t *testing.T) {
	n := sound()
	n.CheckValves = []network.CheckValve{{Name: "guard", From: "header", To: "fork", Elevation: 102, Slope: -2}}
	require.Equal(t, []network.Finding{{Path: "check valves.guard.slope", Text: "slope is -114.6 deg", Hint: "give -90 deg (downflow) to 90 deg (upflow)"}}, n.Validate())
}

func TestNearest(t *testing.T) {
	names := []string{"header", "tower", "sump", "water length"}
	for _, c := range []struct{ name, want string }{
		{"haeder", "header"}, {"Header", "header"}, {"towre", "tower"}, {"smup", "sump"}, {"water_length", "water length"},
		{"reservoir", ""}, {"", ""}, {"x", ""},
	} {
		require.Equal(t, c.want, network.Nearest(c.name, names), c.name)
	}
}

// Whatever the figures, the judgement ends without a panic and every number out of range is found.
func TestAnyFiguresAreJudged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e308}))
		n := sound()
		bore := figure.Draw(t, "bore")
		n.Pipes[0].Bore = bore
		n.Pipes[1].WaveSpeed = figure.Draw(t, "wave speed")
		n.Pipes[2].Profile[1].Chainage = figure.Draw(t, "chainage")
		n.Stations[0].Pump.Head = figure.Draw(t, "head")
		n.Stations[0].Pump.Curve[1].Flow = figure.Draw(t, "flow")
		n.Stations[0].Units = rapid.Int().Draw(t, "units")
		n.Throttles[0].Loss = figure.Draw(t, "loss")
		nodes := rapid.SampledFrom([]string{"sump", "header", "fork", "tower", "village", "stub", "", "??"})
		n.Pipes[3].From, n.Pipes[3].To = nodes.Draw(t, "from"), nodes.Draw(t, "to")
		found := false
		for _, f := range n.Validate() {
			require.NotEmpty(t, f.Path)
			require.NotEmpty(t, f.Text)
			found = found || f.Path == "pipes.main.bore"
		}
		require.Equal(t, !(bore > 0) || math.IsInf(bore, 1), found)
	})
}
