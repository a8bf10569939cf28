package casefile_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/valve"
	"seatwise/valve/choice"
)

const curveLine = "      curve: [[0 m3/h, 66 m], [215 m3/h, 62 m], [430 m3/h, 52 m], [600 m3/h, 39 m]]   # optional\n"

// The forms of a table say the same.
func TestTableForms(t *testing.T) {
	want := read(t, lift(t)).Scenarios[0].Network.Stations[0].Pump.Curve
	for name, form := range map[string]string{
		"columns":          "      curve: {columns: [flow m3/h, head m], rows: [[0, 66], [215, 62], [430, 52], [600, 39]]}\n",
		"other order":      "      curve: {columns: [head m, flow m3/h], rows: [[66, 0], [62, 215], [52, 430], [39, 600]]}\n",
		"no space":         "      curve: {columns: [flow m3/h, head m], rows: [[0,66],[215,62],[430,52],[600,39]]}\n",
		"block":            "      curve:\n        columns: [flow m3/h, head m]\n        rows:\n          - [0, 66]\n          - [215, 62]\n          - [430, 52]\n          - [600, 39]\n",
		"rows in lines":    "      curve:\n        - [0 m3/h, 66 m]\n        - [215 m3/h, 62 m]\n        - [430 m3/h, 52 m]\n        - [600 m3/h, 39 m]\n",
		"rows over lines":  "      curve: [\n        [0 m3/h, 66 m], [215 m3/h, 62 m],\n        [430 m3/h, 52 m], [600 m3/h, 39 m]]\n",
		"list of each row": "      curve:\n        -\n          - 0 m3/h\n          - 66 m\n        - [215 m3/h, 62 m]\n        - [430 m3/h, 52 m]\n        - [600 m3/h, 39 m]\n",
	} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, want, read(t, replaced(t, curveLine, form)).Scenarios[0].Network.Stations[0].Pump.Curve)
		})
	}
	with := read(t, replaced(t, curveLine, "      curve: [[0 m3/h, 66 m, 0 %], [430 m3/h, 52 m, 81 %]]\n")).Scenarios[0].Network.Stations[0].Pump.Curve
	require.Equal(t, 0.81, with[1].Efficiency)
}

const conduitLines = `    bore: 700 mm
    wall: 9.5 mm
    material: carbon steel
    roughness: 0.1 mm
    restraint: anchored throughout  # anchored throughout | anchored upstream | expansion joints
`

func TestPipeForms(t *testing.T) {
	pipe := func(lines string) network.Pipe {
		return read(t, replaced(t, conduitLines, lines)).Scenarios[0].Network.Pipes[0]
	}
	p := pipe("    bore: 700 mm\n    wave speed: 1000 m/s\n    friction factor: 0.02\n    minor loss: 1.5\n")
	require.Equal(t, []float64{0.7, 1000, 0, 0.02, 1.5}, []float64{p.Bore, p.WaveSpeed, p.Roughness, p.FrictionFactor, p.MinorLoss})

	p = pipe("    size: DN700 STD\n    material: steel\n")
	require.InDelta(t, 0.711-2*0.00953, p.Bore, 1e-12) // ASME B36.10M
	require.Equal(t, 0.045e-3, p.Roughness)

	p = pipe("    size: DN700 STD\n    wave speed: 1000 m/s\n    roughness: 0.2 mm\n")
	require.InDelta(t, 0.711-2*0.00953, p.Bore, 1e-12)
	require.Equal(t, 1000.0, p.WaveSpeed)

	// The softer the restraint the slower the wave; gas slows it much more. verification: thin wall a > b > c.
	held := pipe("    bore: 700 mm\n    wall: 9.5 mm\n    material: carbon steel\n    restraint: anchored throughout\n").WaveSpeed
	free := pipe("    bore: 700 mm\n    wall: 9.5 mm\n    material: carbon steel\n    restraint: expansion joints\n").WaveSpeed
	gassy := pipe("    bore: 700 mm\n    wall: 9.5 mm\n    material: carbon steel\n    gas content: 0.1 %\n").WaveSpeed
	require.Less(t, free, held)
	// 1/K = (1-phi)/K + phi/p: with 0.1 % at one atmosphere the gas alone makes K 101.3 MPa, so that a is below sqrt(101.3e6/998) = 318.6 m/s.
	require.Less(t, gassy, 319.0)
	require.Greater(t, gassy, 290.0)

	level := read(t, replaced(t, conduitLines, conduitLines+"    length: 600 m\n    elevation: 102 m\n",
		"    profile:                        # chainage, elevation\n      - [0 m, 102 m]\n      - [133 m, 108 m]\n      - [415 m, 118 m]\n      - [600 m, 140 m]\n", ""))
	require.Equal(t, []network.Point{{Elevation: 102}, {Chainage: 600, Elevation: 102}}, level.Scenarios[0].Network.Pipes[0].Profile)
}

func TestNodesAndThrottlingValves(t *testing.T) {
	c := read(t, replaced(t, "pipes:\n", `demands:
  village: {flow: 36 m3/h}
dead ends: [stub]
throttling valves:
  gate: {from: header, to: fork, bore: 500 mm, elevation: 102 m, loss: 0.2, opening: [[0 s, 100 %], [2 s, 0 %]]}
  old: {from: header, to: fork, bore: 500 mm, elevation: 102 m, loss: 0.4}
pipes:
  side: {from: fork, to: village, bore: 200 mm, wave speed: 1000 m/s, roughness: 0.1 mm, length: 300 m, elevation: 102 m}
  spur: {from: village, to: stub, bore: 200 mm, wave speed: 1000 m/s, roughness: 0.1 mm, length: 30 m, elevation: 102 m}
`))
	n := c.Scenarios[0].Network
	require.Equal(t, []network.Demand{{Node: "village", Flow: 0.01}}, n.Demands)
	require.Equal(t, []string{"stub"}, n.DeadEnds)
	require.Equal(t, []network.Throttle{
		{Name: "gate", From: "header", To: "fork", Bore: 0.5, Elevation: 102, Loss: 0.2, Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 2, Fraction: 0}}},
		{Name: "old", From: "header", To: "fork", Bore: 0.5, Elevation: 102, Loss: 0.4},
	}, n.Throttles)
}

// One opening for all times, and a valve without loss.
func TestConstantOpening(t *testing.T) {
	c := read(t, replaced(t, "pipes:\n  rising-main:\n    from: header\n", `throttling valves:
  gate: {from: header, to: mid, bore: 500 mm, elevation: 102 m, loss: 0.2, opening: 50 %}
  open: {from: mid, to: end, bore: 500 mm, elevation: 102 m, loss: 0}
pipes:
  rising-main:
    from: end
`))
	require.Equal(t, []network.Throttle{
		{Name: "gate", From: "header", To: "mid", Bore: 0.5, Elevation: 102, Loss: 0.2, Schedule: []network.Opening{{Time: 0, Fraction: 0.5}}},
		{Name: "open", From: "mid", To: "end", Bore: 0.5, Elevation: 102},
	}, c.Scenarios[0].Network.Throttles)
}

// The ways to say what a throttling valve lets pass.
func TestCapacities(t *testing.T) {
	c := read(t, replaced(t, "pipes:\n", `throttling valves:
  a: {from: header, to: fork, bore: 500 mm, elevation: 102 m, kv: 9000, inherent characteristic: equal percentage}
  b: {from: header, to: fork, bore: 500 mm, elevation: 102 m, kv table: {columns: [opening %, kv], rows: [[0, 0], [40, 900], [100, 9000]]}}
  c: {from: header, to: fork, bore: 500 mm, elevation: 102 m, loss table: [[40 %, 30], [100 %, 0.3]], opening: 40 %}
pipes:
`))
	at := network.Throttle{From: "header", To: "fork", Bore: 0.5, Elevation: 102}
	a, b, d := at, at, at
	a.Name, a.Kv, a.Inherent = "a", 9000, network.EqualPercentage
	b.Name, b.KvTable = "b", []network.Capacity{{}, {Opening: 0.4, Value: 900}, {Opening: 1, Value: 9000}}
	d.Name, d.LossTable, d.Schedule = "c", []network.Capacity{{Opening: 0.4, Value: 30}, {Opening: 1, Value: 0.3}}, []network.Opening{{Fraction: 0.4}}
	require.Equal(t, []network.Throttle{a, b, d}, c.Scenarios[0].Network.Throttles)
}

// A level against time, in each form of a table; a single row is a constant level.
func TestLevels(t *testing.T) {
	for _, form := range []string{
		"[[0 s, 101.5 m], [1 min, 99 m], [1 min, 100 m]]",
		"{columns: [level m, time min], rows: [[101.5, 0], [99, 1], [100, 1]]}",
		"levels.csv",
	} {
		d, err := casefile.Read("case.yaml", []byte(replaced(t, "level: 101.5 m", "level: "+form)), beside("levels.csv", "time s, level m\n0, 101.5\n60, 99\n60, 100\n"))
		require.NoError(t, err)
		n := must(t, d).Scenarios[0].Network
		require.Equal(t, network.Reservoir{Name: "sump", Levels: []network.Level{{Time: 0, Head: 101.5}, {Time: 60, Head: 99}, {Time: 60, Head: 100}}}, n.Reservoirs[0])
		require.Equal(t, []float64{101.5, 100.25, 99, 100}, []float64{n.Reservoirs[0].Head(0), n.Reservoirs[0].Head(30), n.Reservoirs[0].Head(60), n.Reservoirs[0].Head(61)})
	}
	c := read(t, replaced(t, "level: 101.5 m", "level: [[3 s, 100 m]]", "limits:\n", "scenarios:\n  falling: {set: {reservoirs.tower.level: [[0 s, 151.5 m], [5 s, 148 m]]}}\nlimits:\n"))
	require.Equal(t, network.Reservoir{Name: "sump", Level: 100}, c.Scenarios[0].Network.Reservoirs[0])
	require.Equal(t, []network.Level{{Time: 0, Head: 151.5}, {Time: 5, Head: 148}}, c.Scenarios[1].Network.Reservoirs[1].Levels)

	// A pipe that the level falls below is worth a warning.
	c = read(t, replaced(t, "level: 151.5 m", "level: [[0 s, 151.5 m], [5 s, 139 m]]"))
	require.Len(t, c.Warnings, 1)
	require.Contains(t, c.Warnings[0], "pipe rising-main ends 1 m above the level of tower")
}

const lone = `check valves:
  foot: {from: header, to: mid, elevation: 102 m, slope: 30 deg, valve: guard}
  line: {from: mid, to: end, elevation: 102 m, valve: candidate}
  third: {from: header, to: end, elevation: 102 m}
valves:
  guard: {type: nozzle, size: DN300}
pipes:
  rising-main:
    from: end
`

func TestCheckValvesThatStandAlone(t *testing.T) {
	c := read(t, replaced(t, "pipes:\n  rising-main:\n    from: header\n", lone))
	n := c.Scenarios[0].Network
	require.Len(t, n.CheckValves, 3)
	require.InEpsilon(t, math.Pi/6, n.CheckValves[0].Slope, 1e-12)
	n.CheckValves[0].Slope = 0
	require.Equal(t, []network.CheckValve{
		{Name: "foot", From: "header", To: "mid", Elevation: 102, CheckValve: "guard"},
		{Name: "line", From: "mid", To: "end", Elevation: 102},
		{Name: "third", From: "header", To: "end", Elevation: 102},
	}, n.CheckValves)
	require.Contains(t, c.Assumptions, "check valves.line: the check valve stands in a level pipe (common practice)")
	require.Contains(t, c.Assumptions, "valves.guard: what is not given is the catalogue's for nozzle of 300 mm (common practice, ±40 %)")

	// The candidate may stand alone while the station's valve is a named one.
	text := replaced(t, "pipes:\n  rising-main:\n    from: header\n", lone, "    units: 3\n", "    units: 3\n    check valve: guard\n")
	require.Equal(t, "guard", read(t, text).Scenarios[0].Network.Stations[0].CheckValve)
	require.Contains(t, complaint(strings.NewReplacer("valve: candidate", "valve: guard", "elevation: 102 m}", "elevation: 102 m, valve: guard}").Replace(text)),
		"no check valve of the installation is a candidate")
}

// Two reservoirs, a check valve and a level that falls: no station is needed.
func TestCaseWithoutStation(t *testing.T) {
	text := `format: 1
fluid: {liquid: water}
reservoirs:
  upper: {level: [[0 s, 20 m], [2 s, 5 m]]}
  lower: {level: 10 m}
check valves:
  guard: {from: a, to: b, elevation: 0 m}
pipes:
  before: {from: upper, to: a, bore: 300 mm, wave speed: 1000 m/s, roughness: 0.1 mm, length: 200 m, elevation: 0 m}
  behind: {from: b, to: lower, bore: 300 mm, wave speed: 1000 m/s, roughness: 0.1 mm, length: 200 m, elevation: 0 m}
candidates:
  plain-swing: {type: swing, size: DN300}
`
	c := read(t, text)
	require.Equal(t, []string{"reservoirs.upper.level: the level changes, but there is no event: valves are compared in the steady flow at the start, and what the change does is not judged"}, c.Warnings)
	n := c.Scenarios[0].Network
	require.Empty(t, n.Stations)
	require.Equal(t, []network.CheckValve{{Name: "guard", From: "a", To: "b"}}, n.CheckValves)
	require.Contains(t, complaint(strings.Replace(text, "check valves:\n  guard: {from: a, to: b, elevation: 0 m}\n", "", 1)), "stations is missing")
}

// A size in inches is the size in millimetres by another name.
func TestNominalSizesInInches(t *testing.T) {
	pipe := func(size string) network.Pipe {
		return read(t, replaced(t, conduitLines, "    size: "+size+"\n    material: steel\n")).Scenarios[0].Network.Pipes[0]
	}
	for _, size := range []string{"28 in STD", "28in STD", "NPS 28 STD", "nps 28 std"} {
		require.Equal(t, pipe("DN700 STD"), pipe(size), size)
	}
	c := read(t, replaced(t, "{type: swing, size: DN250}", "{type: swing, size: NPS 10}", "{type: axial spring, size: DN250}", "{type: axial spring, size: 10 in}"))
	require.Equal(t, []float64{0.25, 0.254}, []float64{c.Candidates[0].Size, c.Candidates[1].Size})
}

func TestPump(t *testing.T) {
	ratchet := func(lines string) *choice.Case {
		return read(t, replaced(t, "      inertia: 2.2 kg·m2 ", lines+"      inertia: 2.2 kg·m2 "))
	}
	c := ratchet("")
	require.False(t, c.Scenarios[0].Network.Stations[0].Pump.Ratchet)
	require.Contains(t, c.Assumptions, "stations.lift.pump: no ratchet, the rotor can turn backwards (common practice)")
	for word, want := range map[string]bool{"yes": true, "no": false} {
		c = ratchet("      ratchet: " + word + "\n")
		require.Equal(t, want, c.Scenarios[0].Network.Stations[0].Pump.Ratchet)
		require.NotContains(t, strings.Join(c.Assumptions, "\n"), "ratchet")
	}

	// Once per station, whatever the number of scenarios; N sqrt(Q)/H^(3/4) = 1480 sqrt(430/3600)/52^0.75 = 26.4.
	quadrants := func(c *choice.Case) (all []string) {
		for _, a := range c.Assumptions {
			if strings.Contains(a, "four-quadrant") {
				all = append(all, a)
			}
		}
		return all
	}
	c = read(t, replaced(t, "limits:\n", "scenarios:\n  all: {events: [{trip: lift, units: 3, at: 1 s}]}\nlimits:\n"))
	require.Len(t, quadrants(c), 1)
	require.Regexp(t, `^stations\.lift\.pump: four-quadrant data SI 25, nearest to its specific speed of 26\.4; values from memory of the table`, quadrants(c)[0])
	c = read(t, replaced(t, "      inertia: 2.2 kg·m2 ", "      specific speed: 120\n      inertia: 2.2 kg·m2 "))
	require.Regexp(t, `four-quadrant data SI 147, nearest to its specific speed of 120; `, quadrants(c)[0])
}

func TestLiquids(t *testing.T) {
	brine := func(viscosity string) *network.Network {
		return read(t, replaced(t, "fluid: {liquid: water, temperature: 15 °C}",
			"fluid: {liquid: brine, density: 1200 kg/m3, bulk modulus: 2.9 GPa, viscosity: "+viscosity+", vapour pressure: 1.5 kPa}")).Scenarios[0].Network
	}
	n := brine("2.4 mPa·s")
	require.Equal(t, "brine", n.Fluid.Name)
	require.Equal(t, []float64{1200, 2.9e9, 1500}, []float64{n.Fluid.Density, n.Fluid.BulkModulus, n.Fluid.VapourPressure})
	require.InEpsilon(t, 2.4e-3, n.Fluid.Viscosity, 1e-12)
	require.InEpsilon(t, 2.4e-3, brine("2 mm2/s").Fluid.Viscosity, 1e-12) // dynamic = kinematic × density

	c := read(t, replaced(t, "fluid: {liquid: water, temperature: 15 °C}", "fluid: {liquid: water}", "atmosphere: 101.3 kPa\n", ""))
	require.Equal(t, 101325.0, c.Scenarios[0].Network.Atmosphere)
	require.Equal(t, 293.15, c.Scenarios[0].Network.Fluid.Temperature)
	require.Contains(t, c.Assumptions, "atmosphere 101.325 kPa (ISO 2533, Standard atmosphere, 1975)")
	require.Contains(t, c.Assumptions, "water at 20 °C (common practice)")

	// Water that boils in the open is taken under a pressure at which it does not. 150 °C: 4.761 bar abs, 916.8 kg/m3 (steam tables, from memory).
	hot := read(t, replaced(t, "temperature: 15 °C", "temperature: 150 °C"))
	require.InDelta(t, 917, hot.Scenarios[0].Network.Fluid.Density, 1)
	require.Equal(t, []string{"fluid: the liquid boils in the open: its vapour pressure 476.1 kPa is not below the atmosphere; check temperature and atmosphere"}, hot.Warnings)
}

func TestValveData(t *testing.T) {
	c := read(t, replaced(t, "{type: swing, size: DN250}", `{type: swing, size: DN250, moving mass: 12 kg, travel: 60 deg, damper: 3 N·m·s2/rad2, damper span: 20 %,
    loss when open: 0.7, price: 1.2, loss table: [[10 %, 60], [50 %, 4], [100 %, 0.7]]}`))
	v := c.Candidates[0]
	require.InEpsilon(t, math.Pi/3, v.Set["travel"], 1e-15)
	delete(v.Set, "travel")
	require.Equal(t, map[string]float64{"moving mass": 12, "damper": 3, "damper span": 0.2, "loss when open": 0.7, "price": 1.2}, v.Set)
	require.Equal(t, map[string]valve.Points{"loss table": {Opening: []float64{0.1, 0.5, 1}, Value: []float64{60, 4, 0.7}}}, v.Tables)

	c = read(t, replaced(t, "candidates:\n", "candidates:\n  bound: {type: ideal, size: DN250, closes at: 0.1 m/s}\n"))
	require.Equal(t, map[string]float64{"closes at": 0.1}, c.Candidates[0].Set)
}

// A plain swing disc in vertical downflow does not close.
func TestValveThatCannotWork(t *testing.T) {
	message := complaint(replaced(t, "    units: 3\n", "    units: 3\n    slope: -90 deg\n"))
	require.Contains(t, message, "case.yaml:42:3: candidates.plain-swing: ")
	require.Contains(t, message, "the disc does not close by itself")
	require.NotContains(t, message, "spring-disc:")
}

func TestNamedCheckValves(t *testing.T) {
	c := read(t, replaced(t, "stations:\n", `valves:
  guard: {type: nozzle, size: DN300}
stations:
  base-load:
    from: sump
    to: header
    check valve: guard
    elevation: 102 m
    slope: 30 deg
    pump:
      rated: {flow: 800 m3/h, head: 52 m, speed: 1480 rpm, efficiency: 84 %}
      water length: 3 m
`))
	require.Equal(t, valve.Spec{Name: "guard", Type: "nozzle", Size: 0.3, Set: map[string]float64{}, Tables: map[string]valve.Points{}}, c.Valves["guard"])
	n := c.Scenarios[0].Network
	s := n.Stations[0]
	require.Equal(t, "guard", s.CheckValve)
	require.Equal(t, 1, s.Units)
	require.InEpsilon(t, math.Pi/6, s.Slope, 1e-12)
	require.Nil(t, s.Branch)
	// Without a branch the water column has the size of the check valve and the wave speed of the pipe that follows.
	require.Equal(t, network.Suction{Length: 3, Bore: 0.3, WaveSpeed: n.Pipes[0].WaveSpeed}, s.Column)
	all := strings.Join(c.Assumptions, "\n")
	require.Contains(t, all, "stations.base-load: one unit")
	require.Contains(t, all, "the size of the check valve and the wave speed of pipe rising-main")
	require.Contains(t, all, "stations.base-load.pump: inertia of pump and motor ")
}

func TestWarnings(t *testing.T) {
	c := read(t, replaced(t, "[215 m3/h, 62 m]", "[215 m3/h, 68 m]"))
	require.Equal(t, []string{"stations.lift.pump: head rises along the curve between 0 and 0.05972 m3/s: parallel units may hunt there"}, c.Warnings)
}

func TestEventsAndRun(t *testing.T) {
	c := read(t, replaced(t, "  - {trip: lift, units: 1, at: 1 s}", "  - {trip: lift, at: 500 ms}", "run: {until: 11 s}", "# run: {until: 11 s}"))
	require.Equal(t, []network.Event{{Target: "lift", Units: 3, Time: 0.5}}, c.Scenarios[0].Events)
	require.Zero(t, c.Until)
	require.Contains(t, c.Assumptions, "events[1]: all 3 units of lift trip")

	c = read(t, replaced(t, "events:\n  - {trip: lift, units: 1, at: 1 s}\n", ""))
	require.Empty(t, c.Scenarios[0].Events)
}

// A valve known by its tests, in each form of a table; a disc may carry tests to be fitted to.
func TestPoints(t *testing.T) {
	want := []valve.TestPoint{{Deceleration: 2}, {Deceleration: 5, ReverseVelocity: 0.25}}
	for _, form := range []string{
		"[[2 m/s2, 0 m/s], [5 m/s2, 25 cm/s]]",
		"{columns: [reverse velocity m/s, deceleration m/s2], rows: [[0, 2], [0.25, 5]]}",
		"tests.csv",
	} {
		text := replaced(t, "{type: swing, size: DN250}", "{type: measured, size: DN250, kv: 2000 m3/h, full-open velocity: 2 m/s, test points: "+form+"}",
			"{type: axial spring, size: DN250}", "{type: axial spring, size: DN250, cracking pressure: 30 mbar, test points: [[5 m/s2, 0.1 m/s], [5 m/s2, 0.12 m/s]]}")
		d, err := casefile.Read("case.yaml", []byte(text), beside("tests.csv", "deceleration m/s2, reverse velocity cm/s\n2, 0\n5, 25\n"))
		require.NoError(t, err)
		c := must(t, d)
		require.Equal(t, want, c.Candidates[0].Tests)
		require.InEpsilon(t, 2000./3600, c.Candidates[0].Set["kv"], 1e-12)
		require.Len(t, c.Candidates[1].Tests, 2)
		require.InEpsilon(t, 3000, c.Candidates[1].Set["cracking pressure"], 1e-12)
		require.Contains(t, strings.Join(c.Assumptions, "\n"), "the deceleration is the slope of the velocity at zero, by least squares over about the last 0.05 s")
		require.NotContains(t, strings.Join(c.Assumptions, "\n"), "candidates.plain-swing: what is not given")
	}
}

// What cavities hold is gas unless the case says vapour; a word that is none of them is told with the nearest.
func TestCavities(t *testing.T) {
	line := "run: {until: 11 s}"
	c := read(t, lift(t))
	require.Equal(t, "gas", c.Cavities.String())
	require.Contains(t, strings.Join(c.Assumptions, "\n"), "cavities form that hold a little free gas")
	for _, form := range choice.CavityForms() {
		c = read(t, replaced(t, line, "run: {until: 11 s, cavities: "+form.String()+"}"))
		require.Equal(t, form, c.Cavities)
		require.NotContains(t, strings.Join(c.Assumptions, "\n"), "cavities form")
	}
	d, err := casefile.Read("case.yaml", []byte(replaced(t, line, "run: {until: 11 s, cavities: vapor}")), nil)
	require.NoError(t, err)
	_, err = d.Case()
	require.ErrorContains(t, err, `there is no "vapor"`)
	require.ErrorContains(t, err, `did you mean "vapour"?`)
}
