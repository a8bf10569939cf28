package network_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

// probe is a device with a field of every form, between two nodes.
type probe struct {
	Name   string
	From   string  `key:"from" help:"node on one side"`
	To     string  `key:"to" help:"node on the other side"`
	Figure float64 `key:"figure" dim:"length" min:"1" max:"2" help:"a figure"`
	Word   string  `key:"word" words:"one|other" def:"one" help:"a word"`
	Yes    bool    `key:"yes" def:"no" help:"yes or no"`
	Rows   []row   `key:"rows" help:"a table"`
	hidden int
}

type row struct {
	X float64 `key:"x" dim:"length" help:"a figure"`
	Y float64 `key:"y" dim:"number" min:"0" help:"another"`
}

func (p *probe) Label() (section, name string) { return "probes", p.Name }
func (p *probe) Ends() (from, to string)       { return p.From, p.To }
func (p *probe) Check() []network.Finding {
	if p.hidden > 0 {
		return []network.Finding{{Path: "figure", Text: "hidden"}, {Text: "whole"}}
	}
	return nil
}

func probed() *probe {
	return &probe{Name: "probe", From: "header", To: "fork", Figure: 1.5, Word: "other", Rows: []row{{1, 2}, {3, 4}}}
}

// vessel is an air vessel with nothing wrong.
func vessel(name, node string) *network.AirVessel {
	return &network.AirVessel{Name: name, Node: node, Level: 110, Volume: 8, Gas: 4, Area: 4, Polytropic: 1.2, Bore: 0.4}
}

func TestFields(t *testing.T) {
	p := probed()
	var keys []string
	forms := map[string]network.Form{}
	by := map[string]network.Field{}
	for _, f := range network.Fields(p) {
		keys = append(keys, f.Key)
		forms[f.Key], by[f.Key] = f.Form, f
	}
	require.Equal(t, []string{"from", "to", "figure", "word", "yes", "rows"}, keys)
	require.Equal(t, map[string]network.Form{"from": network.NodeName, "to": network.NodeName, "figure": network.Figure, "word": network.Word,
		"yes": network.YesNo, "rows": network.Table}, forms)
	require.Equal(t, [][]float64{{1, 2}, {3, 4}}, by["rows"].Rows())
	by["from"].SetText("a")
	by["figure"].SetNumber(2)
	by["yes"].SetYes(true)
	by["rows"].SetRows([][]float64{{5, 6}})
	require.Equal(t, &probe{Name: "probe", From: "a", To: "fork", Figure: 2, Word: "other", Yes: true, Rows: []row{{5, 6}}}, p)
	require.True(t, by["yes"].Yes())
	for x, want := range map[float64]bool{0.9: false, 1: true, 2: true, 2.1: false, math.Inf(1): false, math.Inf(-1): false} {
		require.Equal(t, want, by["figure"].Holds(x), x)
	}
	require.False(t, by["figure"].Holds(math.NaN()))
	require.False(t, by["rows"].Columns[0].Holds(math.Inf(1)))
	require.True(t, by["rows"].Columns[0].Holds(-1e9))
}

// Every kind of device has its tags in order.
func TestKinds(t *testing.T) {
	sections := map[string]bool{}
	for _, kind := range network.Kinds {
		t.Run(kind.Section, func(t *testing.T) {
			require.False(t, sections[kind.Section])
			sections[kind.Section] = true
			require.Equal(t, strings.ToLower(kind.Section), kind.Section)
			require.NotEmpty(t, kind.Help)
			d := kind.New("thing")
			section, name := d.Label()
			require.Equal(t, kind.Section, section)
			require.Equal(t, "thing", name)

			keys := map[string]bool{}
			var nodes []string
			var check func(f network.Field)
			check = func(f network.Field) {
				require.NotEmpty(t, f.Key)
				require.NotEmpty(t, f.Help, f.Key)
				switch f.Form {
				case network.NodeName:
					nodes = append(nodes, f.Key)
					f.SetText("node-" + f.Key)
				case network.Figure:
					require.NotEmpty(t, f.Dim, f.Key)
					require.LessOrEqual(t, f.Min, f.Max, f.Key)
				case network.Table:
					require.NotEmpty(t, f.Columns, f.Key)
					for _, c := range f.Columns {
						require.Equal(t, network.Figure, c.Form, c.Key)
						check(c)
					}
				}
			}
			for _, f := range network.Fields(d) {
				require.False(t, keys[f.Key], "%s is there twice", f.Key)
				keys[f.Key] = true
				check(f)
			}
			from, to := d.Ends()
			if to == "" {
				require.Equal(t, []string{"at"}, nodes)
				require.Equal(t, "node-at", from)
			} else {
				require.Equal(t, []string{"from", "to"}, nodes)
				require.Equal(t, []string{"node-from", "node-to"}, []string{from, to})
			}
		})
	}
}

func TestDeviceFindings(t *testing.T) {
	one := func(path, text, hint string) []network.Finding {
		return []network.Finding{{Path: path, Text: text, Hint: hint}}
	}
	for _, c := range []struct {
		name    string
		devices []network.Device
		want    []network.Finding
	}{
		{"right", []network.Device{vessel("surge", "header"), vessel("other", "fork"), probed()}, nil},
		{"at the end of a dead end", []network.Device{vessel("surge", "stub")}, one("dead ends[1]", `node "stub" is no dead end: it is named 2 times`, "take it from dead ends")},
		{"below its bound", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: 0.5, Word: "one", hidden: 1}},
			one("probes.probe.figure", "figure is 0.5", "give 1 or more, in SI units")},
		{"above its bound", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: 2.5, Word: "one"}},
			one("probes.probe.figure", "figure is 2.5", "give 2 or less, in SI units")},
		{"not a number", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: math.NaN(), Word: "one"}},
			one("probes.probe.figure", "figure is not a finite number", "")},
		{"no word", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: 1, Word: "ones"}},
			one("probes.probe.word", `there is no "ones"`, "one of: one, other")},
		{"in a table", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: 1, Word: "one", Rows: []row{{1, 2}, {-3, -4}}}},
			one("probes.probe.rows[2][2]", "y is -4", "give 0 or more, in SI units")},
		{"its own rules", []network.Device{&probe{Name: "probe", From: "header", To: "fork", Figure: 1, Word: "one", hidden: 1}},
			[]network.Finding{{Path: "probes.probe.figure", Text: "hidden"}, {Path: "probes.probe", Text: "whole"}}},
		{"no name", []network.Device{vessel("a b", "header")},
			one("air vessels.a b", `"a b" is not a name`, "names are letters, digits and hyphens, not starting with a hyphen")},
		{"name of a pipe", []network.Device{vessel("Main", "header")},
			one("air vessels.Main", "the name is taken by pipes.main", "names of devices and of what stands between nodes are unique together, ignoring case")},
		{"name of a device", []network.Device{vessel("surge", "header"), vessel("Surge", "fork")},
			one("air vessels.Surge", "the name is taken by air vessels.surge", "names of devices and of what stands between nodes are unique together, ignoring case")},
		{"the same name", []network.Device{vessel("surge", "header"), vessel("surge", "fork")},
			one("air vessels.surge", "the name is taken by air vessels.surge", "names of devices and of what stands between nodes are unique together, ignoring case")},
		{"the same name between nodes", []network.Device{probed(), probed()},
			one("probes.probe", "the name is taken by probes.probe", "names of devices and of what stands between nodes are unique together, ignoring case")},
		{"unknown node", []network.Device{vessel("surge", "haeder")}, one("air vessels.surge.at", `node "haeder" is named only here`, `did you mean "header"?`)},
		{"unknown node of two", []network.Device{&probe{Name: "probe", From: "header", To: "frok", Figure: 1, Word: "one"}},
			one("probes.probe.to", `node "frok" is named only here`, `did you mean "fork"?`)},
		{"nothing but devices", []network.Device{vessel("surge", "island"), vessel("other", "island")},
			one("air vessels.surge.at", `nothing but devices is at node "island"`, "let a pipe, station or valve end there")},
		{"from a node to itself", []network.Device{&probe{Name: "probe", From: "fork", To: "fork", Figure: 1, Word: "one"}},
			one("probes.probe.to", `both ends are at node "fork"`, "name another node")},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := sound()
			n.Devices = c.devices
			require.Equal(t, c.want, n.Validate())
		})
	}
}

// A node may be named once by a pipe and once by a device.
func TestDeviceAtTheEndOfAPipe(t *testing.T) {
	n := sound()
	n.DeadEnds = nil
	require.NotEmpty(t, n.Validate())
	n.Devices = []network.Device{vessel("surge", "stub")}
	require.Empty(t, n.Validate())
}

// A device between two nodes joins them, and takes head: it ends a loop of lossless valves.
func TestDeviceBetweenNodes(t *testing.T) {
	n := sound()
	n.Throttles[0].Loss = 0
	n.Devices = []network.Device{probed()} // beside the throttling valve
	require.Empty(t, n.Validate())
	n.Throttles = append(n.Throttles, network.Throttle{Name: "other", From: "fork", To: "header", Bore: 0.3, Elevation: 102})
	require.Equal(t, []network.Finding{{Path: "throttling valves.other.loss", Text: "a loop in which nothing takes any head leaves its flow undetermined",
		Hint: "give the loss of one valve in the loop"}}, n.Validate())

	n = sound()
	n.Pipes = append(n.Pipes, pipe("far", "beyond", "stub"))
	n.DeadEnds = nil
	n.Devices = []network.Device{&probe{Name: "probe", From: "tower", To: "beyond", Figure: 1, Word: "one"}}
	require.Empty(t, n.Validate())
}
