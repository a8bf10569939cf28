package network

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is impossible in a tank or vessel is found at its own path, and nothing else is; bounds of single figures are in the tags.
func TestTanksCheck(t *testing.T) {
	surge := func(change func(*SurgeTank)) Device {
		d := &SurgeTank{Name: "t", Area: 50, Overflow: 30, Bottom: 10, Bore: 1, LossIn: 1}
		change(d)
		return d
	}
	table := func(rows ...LevelArea) Device { return surge(func(d *SurgeTank) { d.Area, d.Areas = 0, rows }) }
	oneWay := func(change func(*OneWayTank)) Device {
		d := &OneWayTank{Name: "t", Level: 20, Bottom: 10, Area: 3, Bore: 0.3, LossOut: 2.5}
		change(d)
		return d
	}
	vessel := func(change func(*AirVessel)) Device {
		d := &AirVessel{Name: "t", Level: 20, Volume: 8, Gas: 4, Area: 2, Polytropic: 1.2, Bore: 0.3}
		change(d)
		return d
	}
	for _, c := range []struct {
		d          Device
		path, text string // none when path is ""
	}{
		{surge(func(*SurgeTank) {}), "", ""},
		{surge(func(d *SurgeTank) { d.Bore = math.Sqrt(200 / math.Pi) }), "", ""}, // a standpipe as wide as its connection
		{surge(func(d *SurgeTank) { d.Area = 0 }), "plan area", "plan area is 0 m2"},
		{surge(func(d *SurgeTank) { d.Overflow = 10 }), "overflow level", "overflow level of 10 m is not above the bottom level of 10 m"},
		{surge(func(d *SurgeTank) { d.Bore = 9 }), "connection bore", "the connection of 63.62 m2 is wider than the tank of 50 m2"},
		{surge(func(d *SurgeTank) { d.Areas = []LevelArea{{10, 40}, {20, 60}} }), "plan area", "the plan area is given twice, by a value and by a table"},
		{table(LevelArea{10, 40}, LevelArea{20, 40}, LevelArea{20, 80}), "", ""},
		{table(LevelArea{20, 40}, LevelArea{10, 80}), "area table[2][1]", "level goes down: 10 m follows 20 m"},
		{table(LevelArea{10, 40}, LevelArea{20, 0.5}), "connection bore", "the connection of 0.7854 m2 is wider than the tank of 0.5 m2"},
		{oneWay(func(*OneWayTank) {}), "", ""},
		{oneWay(func(d *OneWayTank) { d.Level = 10 }), "level", "the tank is empty at the start: its level of 10 m is not above the bottom level of 10 m"},
		{oneWay(func(d *OneWayTank) { d.Bore = 2 }), "connection bore", "the connection of 3.142 m2 is wider than the tank of 3 m2"},
		{vessel(func(*AirVessel) {}), "", ""},
		{vessel(func(d *AirVessel) { d.Area = 0 }), "", ""},
		{vessel(func(d *AirVessel) { d.Gas = 8 }), "gas volume", "the gas fills the whole vessel"},
		{vessel(func(d *AirVessel) { d.Least = 4 }), "least liquid", "the vessel holds 4 m3 of liquid in steady flow, no more than the 4 m3 to be kept"},
		{vessel(func(d *AirVessel) { d.Bore = 3 }), "connection bore", "the connection of 7.069 m2 is wider than the vessel of 2 m2"},
	} {
		f := c.d.Check()
		if c.path == "" {
			require.Empty(t, f)
			continue
		}
		require.Len(t, f, 1, c.text)
		require.Equal(t, []string{c.path, c.text}, []string{f[0].Path, f[0].Text})
		require.False(t, f[0].Warning)
	}
}
