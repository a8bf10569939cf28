package casefile_test

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"math"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network"
	"seatwise/network/casefile"
	"seatwise/network/pump"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// read is the case of a text that has nothing wrong.
func read(t testing.TB, text string) *choice.Case {
	t.Helper()
	d, err := casefile.Read("lift-station.yaml", []byte(text), nil)
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	return c
}

// replaced is the built-in example with some passages replaced, each of which must be there.
func replaced(t testing.TB, pairs ...string) string {
	t.Helper()
	text := lift(t)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, text, pairs[i])
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// near takes off the last bits, which depend on the way a unit is worked out.
func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	require.InEpsilon(t, want, got, 1e-14, what)
}

// The built-in example, value by value as it is printed.
func TestLiftStation(t *testing.T) {
	c := read(t, lift(t))
	require.Equal(t, "lift-station", c.Name)
	require.Equal(t, "Ostermere lift station", c.Title)
	require.Equal(t, "Three duty units lift raw water to a tower; one trips while two hold the header.", c.Note)
	require.False(t, c.Example)
	require.Equal(t, 11.0, c.Until)
	require.Empty(t, c.Warnings)
	require.Empty(t, c.Valves)
	require.Equal(t, []valve.Spec{
		{Name: "plain-swing", Type: "swing", Size: 0.25, Set: map[string]float64{}, Tables: map[string]valve.Points{}},
		{Name: "spring-disc", Type: "axial spring", Size: 0.25, Set: map[string]float64{}, Tables: map[string]valve.Points{}},
	}, c.Candidates)

	require.Len(t, c.Scenarios, 1)
	s := c.Scenarios[0]
	require.Equal(t, "base", s.Name)
	require.Equal(t, []network.Event{{Kind: network.Trip, Target: "lift", Units: 1, Time: 1}}, s.Events)

	n := s.Network
	require.Equal(t, "water", n.Fluid.Name)
	require.Equal(t, 288.15, n.Fluid.Temperature)
	// Water at 15 °C: density 999.10 kg/m3, vapour pressure 1.7058 kPa (IAPWS-IF97; steam tables, from memory).
	require.InDelta(t, 999.10, n.Fluid.Density, 0.02)
	require.InDelta(t, 1705.8, n.Fluid.VapourPressure, 0.5)
	require.Equal(t, 101300.0, n.Atmosphere)
	require.Equal(t, network.Gravity, n.G())
	require.Equal(t, []network.Reservoir{{Name: "sump", Level: 101.5}, {Name: "tower", Level: 151.5}}, n.Reservoirs)
	require.Empty(t, n.Demands)
	require.Empty(t, n.DeadEnds)
	require.Empty(t, n.Throttles)

	require.Len(t, n.Stations, 1)
	st := n.Stations[0]
	require.Equal(t, []any{"lift", "sump", "header", 3, 102.0, "", 0.0}, []any{st.Name, st.From, st.To, st.Units, st.Elevation, st.CheckValve, st.Slope})
	near(t, 430.0/3600, st.Pump.Flow, "rated flow")
	require.Equal(t, 52.0, st.Pump.Head)
	near(t, 1480*math.Pi/30, st.Pump.Speed, "speed")
	near(t, 0.81, st.Pump.Efficiency, "efficiency")
	require.Equal(t, 2.2, st.Pump.Inertia)
	require.Zero(t, st.Pump.SpecificSpeed)
	want := []pump.Point{{Flow: 0, Head: 66}, {Flow: 215.0 / 3600, Head: 62}, {Flow: 430.0 / 3600, Head: 52}, {Flow: 600.0 / 3600, Head: 39}}
	require.Len(t, st.Pump.Curve, len(want))
	for i, p := range st.Pump.Curve {
		require.InDelta(t, want[i].Flow, p.Flow, 1e-16)
		require.Equal(t, want[i].Head, p.Head)
		require.Zero(t, p.Efficiency)
	}
	require.Equal(t, 6.0, st.Branch.Length)
	require.Equal(t, 0.25, st.Branch.Bore)
	require.Zero(t, st.Branch.MinorLoss)
	require.Positive(t, st.Branch.Roughness)
	require.Equal(t, network.Suction{Length: 2, Bore: st.Branch.Bore, WaveSpeed: st.Branch.WaveSpeed}, st.Column)
	// a = sqrt(K/rho)/sqrt(1 + (K/E)(D/e) c1), c1 = 1 - mu^2, E 207 GPa, mu 0.30 (package pipe).
	speed := func(bore, wall float64) float64 {
		K, rho := n.Fluid.BulkModulus, n.Fluid.Density
		return math.Sqrt(K / rho / (1 + K/207e9*bore/wall*0.91))
	}
	require.InEpsilon(t, speed(0.25, 6.3e-3), st.Branch.WaveSpeed, 1e-9)

	require.Len(t, n.Pipes, 1)
	p := n.Pipes[0]
	require.Equal(t, []any{"rising-main", "header", "tower"}, []any{p.Name, p.From, p.To})
	require.Equal(t, 0.7, p.Bore)
	near(t, 1e-4, p.Roughness, "roughness")
	require.Zero(t, p.FrictionFactor)
	require.Zero(t, p.MinorLoss)
	require.InEpsilon(t, speed(0.7, 9.5e-3), p.WaveSpeed, 1e-9)
	require.Equal(t, []network.Point{{Chainage: 0, Elevation: 102}, {Chainage: 133, Elevation: 108}, {Chainage: 415, Elevation: 118}, {Chainage: 600, Elevation: 140}}, p.Profile)

	l := c.Limits
	require.Equal(t, 8e5, *l.DesignPressure)
	near(t, 0.1, *l.SurgeAllowance, "surge allowance")
	require.Equal(t, -0.5e5, *l.MinimumPressure)
	require.Equal(t, 0.3, *l.ReverseVelocity)
	require.Nil(t, l.PumpReverseSpeed)
	require.Nil(t, l.ReverseVolume)
	require.Nil(t, l.HeadLoss)

	sum := sha256.Sum256([]byte(lift(t)))
	require.Equal(t, hex.EncodeToString(sum[:]), c.InputSHA256)
}

func TestLiftStationAssumptions(t *testing.T) {
	all := strings.Join(read(t, lift(t)).Assumptions, "\n")
	for _, words := range []string{
		"water at 15 °C and 101.3 kPa abs: density 999.1 kg/m3",
		"stations.lift: the check valves stand in a level pipe (common practice)",
		"stations.lift.branch: anchored throughout (common practice)",
		"stations.lift.branch: wave speed 1251 m/s in carbon steel, Young's modulus 207 GPa",
		"stations.lift.branch: roughness of carbon steel",
		"stations.lift.branch: no minor losses",
		"pipes.rising-main: wave speed 1126 m/s in carbon steel",
		"pipes.rising-main: no minor losses",
		"stations.lift: water column of pump and suction with bore 250 mm, wave speed 1251 m/s, those of the branch; its length counts on this bore: a suction of another bore counts with its length times the ratio of areas",
		"stations.lift.pump: four-quadrant data SI 25, nearest to its specific speed of 26.4; values from memory of the table",
		"candidates.plain-swing: what is not given is the catalogue's for swing of 250 mm (common practice, ±40 %)",
	} {
		require.Contains(t, all, words)
	}
	require.NotContains(t, all, "pipes.rising-main: roughness")
	require.NotContains(t, all, "inertia")
}

func TestOrigins(t *testing.T) {
	d, err := casefile.Read("lift-station.yaml", []byte(lift(t)), nil)
	require.NoError(t, err)
	origins := map[string]casefile.Origin{}
	for _, o := range d.Origins() {
		require.NotContains(t, origins, o.Path, "twice")
		origins[o.Path] = o
	}
	for path, want := range map[string]casefile.Origin{
		"pipes.rising-main.bore":          {Text: "700 mm", Source: casefile.Given},
		"pipes.rising-main.profile[2][1]": {Text: "133 m", Source: casefile.Given},
		"stations.lift.elevation":         {Text: "102.0 m", Source: casefile.Given},
		"events[1].units":                 {Text: "1", Source: casefile.Given},
		"stations.lift.slope":             {Text: "0 deg", Source: casefile.Default, Status: "common practice"},
		"pipes.rising-main.minor loss":    {Text: "0", Source: casefile.Default},
	} {
		want.Path = path
		require.Equal(t, want, origins[path])
	}
	require.Equal(t, casefile.Estimated, origins["pipes.rising-main.wave speed"].Source)
	require.Equal(t, casefile.Catalogue, origins["candidates.plain-swing.moving mass"].Source)
	require.Equal(t, []string{"given", "default", "catalogue", "estimated"},
		[]string{casefile.Given.String(), casefile.Default.String(), casefile.Catalogue.String(), casefile.Estimated.String()})
}

// Every example reads without a complaint or a warning.
func TestExamples(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 5)
	for _, name := range names {
		raw, err := examples.Files.ReadFile(name)
		require.NoError(t, err)
		d, err := casefile.Read(name, raw, examples.Files.ReadFile)
		require.NoError(t, err)
		c, err := d.Case()
		require.NoError(t, err)
		require.Empty(t, c.Warnings, name)
		require.Equal(t, strings.TrimSuffix(path.Base(name), ".yaml"), c.Name)
		require.GreaterOrEqual(t, len(c.Candidates), 2, name)
		for _, v := range c.Candidates {
			if v.Type == "measured" { // has no generic data; its tests belong to the example
				continue
			}
			require.Empty(t, v.Set, "%s: an example is decided by its installation, not by the data of its valves", name)
		}
	}
}
