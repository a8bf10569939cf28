package casefile_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/valve/choice"
)

func document(t testing.TB, text string) *casefile.Document {
	t.Helper()
	d, err := casefile.Read("case.yaml", []byte(text), nil)
	require.NoError(t, err)
	return d
}

func TestWith(t *testing.T) {
	base := document(t, lift(t))
	for _, c := range []struct {
		path, value string
		get         func(c *choice.Case) any
		want        any
	}{
		{"pipes.rising-main.bore", "600 mm", func(c *choice.Case) any { return c.Scenarios[0].Network.Pipes[0].Bore }, 0.6},
		{"pipes.rising-main.minor loss", "2", func(c *choice.Case) any { return c.Scenarios[0].Network.Pipes[0].MinorLoss }, 2.0},
		{"pipes.rising-main.profile[2][1]", "140 m", func(c *choice.Case) any { return c.Scenarios[0].Network.Pipes[0].Profile[1].Chainage }, 140.0},
		{"pipes.rising-main.profile[2]", "[150 m, 110 m]", func(c *choice.Case) any { return c.Scenarios[0].Network.Pipes[0].Profile[1] }, network.Point{Chainage: 150, Elevation: 110}},
		{"pipes.rising-main.profile", "[[0 m, 102 m], [700 m, 140 m]]", func(c *choice.Case) any { return len(c.Scenarios[0].Network.Pipes[0].Profile) }, 2},
		{"stations.lift.pump.water length", "0 m", func(c *choice.Case) any { return c.Scenarios[0].Network.Stations[0].Column.Length }, 0.0},
		{"stations.lift.pump.rated.head", "54 m", func(c *choice.Case) any { return c.Scenarios[0].Network.Stations[0].Pump.Head }, 54.0},
		{"events[1].units", "3", func(c *choice.Case) any { return c.Scenarios[0].Events[0].Units }, 3},
		{"limits.head loss", "0.5 m", func(c *choice.Case) any { return *c.Limits.HeadLoss }, 0.5},
		{"report.project", "P1", func(c *choice.Case) any { return c.Title }, "Ostermere lift station"},
		{"title", `"a: b"`, func(c *choice.Case) any { return c.Title }, "a: b"},
		{"candidates.third", "{type: nozzle, size: DN200}", func(c *choice.Case) any { return c.Candidates[2].Size }, 0.2},
		{"candidates.plain-swing.moving mass", "9 kg", func(c *choice.Case) any { return c.Candidates[0].Set["moving mass"] }, 9.0},
	} {
		t.Run(c.path, func(t *testing.T) {
			d, err := base.With(c.path, c.value)
			require.NoError(t, err)
			got, err := d.Case()
			require.NoError(t, err)
			require.Equal(t, c.want, c.get(got))
			require.Contains(t, got.Assumptions, c.path+" set to "+c.value+", not as in the case file")
			old, err := base.Case()
			require.NoError(t, err)
			require.NotEqual(t, old.InputSHA256, got.InputSHA256)
		})
	}
	// The document itself has not changed.
	same(t, must(t, document(t, lift(t))), must(t, base))
}

func must(t testing.TB, d *casefile.Document) *choice.Case {
	t.Helper()
	c, err := d.Case()
	require.NoError(t, err)
	return c
}

func TestWithTwice(t *testing.T) {
	d, err := document(t, lift(t)).With("stations.lift.units", "2")
	require.NoError(t, err)
	d, err = d.With("stations.lift.units", "4")
	require.NoError(t, err)
	require.Equal(t, 4, must(t, d).Scenarios[0].Network.Stations[0].Units)
}

func TestWithMessages(t *testing.T) {
	for _, c := range []struct{ path, value, want string }{
		{"pipes.rising.bore", "600 mm", "set pipes.rising.bore: there is no pipes.rising\n    hint: there are: rising-main"},
		{"pipes.rising-mian.bore", "600 mm", "set pipes.rising-mian.bore: there is no pipes.rising-mian\n    hint: did you mean \"rising-main\"?"},
		{"pipes.rising-main.profile[9]", "[1 m, 2 m]", "set pipes.rising-main.profile[9]: pipes.rising-main.profile has no row 9\n    hint: it has 4, counted from 1"},
		{"pipes.rising-main.bore[1]", "1 m", "set pipes.rising-main.bore[1]: pipes.rising-main.bore has no row 1\n    hint: it is a text"},
		{"pipes.rising-main.bore.x", "1 m", "set pipes.rising-main.bore.x: pipes.rising-main.bore is a text and has no key \"x\""},
		{"pipes..bore", "1 m", "set pipes..bore: \"pipes..bore\" is no path: a key is empty\n    hint: a path is like \"pipes.rising-main.bore\" or \"events[1].units\""},
		{"events[0].units", "1", "set events[0].units: \"events[0].units\" is no path: [ wants the number of a row from 1 and ]\n    hint: a path is like \"pipes.rising-main.bore\" or \"events[1].units\""},
		{"check valves.foot.elevation", "3 m", "set check valves.foot.elevation: there is no check valves.foot"},
		{"title", "", "set title: no value is given\n    hint: write path=value"},
		{"title", "[1", "set title: the [ is not closed\n      | title=[1\n      |       ^\n    hint: write the ] that belongs to it; a text with brackets goes in quotation marks"},
		{"title", "a\tb", "set title: a tab\n      | title=a b\n      |        ^\n    hint: write spaces: YAML takes tabs in different ways"},
		{"pipes.rising-main.bore", "600", "set pipes.rising-main.bore: pipes.rising-main.bore: \"600\" has no unit, a length is wanted\n      | pipes.rising-main.bore=600\n      |                        ^^^\n    hint: write 600 mm or 600 m"},
		{"pipes.rising-main.bore", "600 bar", "set pipes.rising-main.bore: pipes.rising-main.bore: \"600 bar\" is a pressure, a length is wanted\n      | pipes.rising-main.bore=600 bar\n      |                        ^^^^^^^\n    hint: e.g. 52 m"},
		{"pipes.rising-main.bor", "600 mm", "set pipes.rising-main.bor: unknown key \"bor\" in pipes.rising-main\n      | pipes.rising-main.bor=600 mm\n      |                   ^^^\n    hint: did you mean \"bore\"?"},
		{"limits.design presure", "9 bar", "set limits.design presure: unknown key \"design presure\" in limits\n      | limits.design presure=9 bar\n      |        ^^^^^^^^^^^^^^\n    hint: did you mean \"design pressure\"?"},
		{"limit.design pressure", "9 bar", "set limit.design pressure: unknown key \"limit\"\n      | limit.design pressure=9 bar\n      | ^^^^^\n    hint: did you mean \"limits\"?"},
		{"stations. lift .pump. µ", "9 bar", "set stations. lift .pump. µ: unknown key \"µ\" in stations.lift.pump\n      | stations. lift .pump. µ=9 bar\n      |                       ^\n    hint: keys here: rated, curve, inertia, specific speed, water length, ratchet"},
		{"pipes.rising-main", "{from: header,\n to: tower,\n bore: 3, wall: 9 mm, material: steel, length: 600 m, elevation: 102 m}", "set pipes.rising-main: pipes.rising-main.bore: \"3\" has no unit, a length is wanted\n      |  bore: 3, wall: 9 mm, material: steel, length: 600 m, elevation: 102 m}\n      |        ^\n    hint: write 3 mm or 3 m"},
		{"pipes.rising-main", "{from: header, to: tower, size: DN700 STD, material: steel}", "set pipes.rising-main: pipes.rising-main: profile is missing\n      | pipes.rising-main={from: header, to: tower, size: DN700 STD, material: steel}\n      |       ^^^^^^^^^^^\n    hint: write profile: [[0 m, 102 m], [600 m, 140 m]], or length and elevation of a level pipe"},
		{"stations.lift.units", "0", "set stations.lift.units: stations.lift.units: the station has 0 units\n      | stations.lift.units=0\n      |                     ^\n    hint: give a whole number from 1 to 100"},
	} {
		d, err := document(t, lift(t)).With(c.path, c.value)
		if err == nil {
			_, err = d.Case()
		}
		require.EqualError(t, err, c.want)
	}
}

func TestScenarios(t *testing.T) {
	c := read(t, replaced(t, "limits:\n", `scenarios:
  all-trip: {events: [{trip: lift, units: 3, at: 2 s}]}
  low-tower:
    set:
      reservoirs.tower.level: 148 m
      pipes.rising-main.profile[4][2]: 139 m
  old-pipe:
    events: [{trip: lift, units: 2, at: 1 s}]
    set: {pipes.rising-main.roughness: 1 mm, pipes.rising-main.minor loss: 3}
limits:
`))
	require.Len(t, c.Scenarios, 4)
	base, all, low, old := c.Scenarios[0], c.Scenarios[1], c.Scenarios[2], c.Scenarios[3]
	require.Equal(t, []string{"base", "all-trip", "low-tower", "old-pipe"}, []string{base.Name, all.Name, low.Name, old.Name})

	require.Equal(t, []network.Event{{Target: "lift", Units: 3, Time: 2}}, all.Events)
	require.Equal(t, base.Network, all.Network)
	require.NotSame(t, base.Network, all.Network)

	require.Equal(t, base.Events, low.Events)
	require.Equal(t, 148.0, low.Network.Reservoirs[1].Level)
	require.Equal(t, 139.0, low.Network.Pipes[0].Profile[3].Elevation)
	require.Equal(t, 151.5, base.Network.Reservoirs[1].Level)
	require.Equal(t, 140.0, base.Network.Pipes[0].Profile[3].Elevation)

	require.Equal(t, 1e-3, old.Network.Pipes[0].Roughness)
	require.Equal(t, 3.0, old.Network.Pipes[0].MinorLoss)
	require.Equal(t, 1e-4, base.Network.Pipes[0].Roughness)

	// What a scenario adds to the assumptions and warnings carries its name.
	c = read(t, replaced(t, "limits:\n", "scenarios:\n  thin: {set: {pipes.rising-main.wall: 8 mm}}\nlimits:\n"))
	require.Regexp(t, `^scenarios\.thin: pipes\.rising-main: wave speed \d+ m/s in carbon steel`, c.Assumptions[len(c.Assumptions)-1])
}

func TestTitleBlock(t *testing.T) {
	d := document(t, replaced(t, "limits:\n", "report: {project: Ostermere, document: D-1, revision: B, date: 2026-11-25, prepared: ab, checked: cd}\nlimits:\n"))
	require.Equal(t, casefile.TitleBlock{Project: "Ostermere", Document: "D-1", Revision: "B", Date: "2026-11-25", Prepared: "ab", Checked: "cd"}, d.TitleBlock())
	require.Zero(t, document(t, lift(t)).TitleBlock())
}

func TestErrorsAreValues(t *testing.T) {
	d := document(t, replaced(t, "bore: 700 mm", "bore: 700", "roughness: 0.1 mm", "roughnes: 0.1 mm"))
	_, err := d.Case()
	var all casefile.Errors
	require.ErrorAs(t, err, &all)
	require.Len(t, all, 2)
	e := all[0]
	require.Equal(t, []any{"case.yaml", 29, 11, "700"}, []any{e.File, e.Line, e.Column, e.Text})
	var one *casefile.Error
	require.ErrorAs(t, err, &one)
	require.Same(t, e, one)
}
