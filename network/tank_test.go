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
		{surge(func(d *SurgeTank) { d.Area = 0 }), "plan area", "the tank has neither plan area nor area table"},
		{surge(func(d *SurgeTank) { d.Overflow = 10 }), "overflow level", "the overflow level is not above the bottom level"},
		{surge(func(d *SurgeTank) { d.Bore = 9 }), "connection bore", "the connection has a larger area than the tank"},
		{surge(func(d *SurgeTank) { d.Areas = []LevelArea{{10, 40}, {20, 60}} }), "plan area", "the plan area is given twice, by a value and by a table"},
		{table(LevelArea{10, 40}, LevelArea{20, 40}, LevelArea{20, 80}), "", ""},
		{table(LevelArea{20, 40}, LevelArea{10, 80}), "area table[2][1]", "level goes down: 10 m follows 20 m"},
		{table(LevelArea{10, 40}, LevelArea{20, 0.5}), "connection bore", "the connection has a larger area than the tank"},
		{oneWay(func(*OneWayTank) {}), "", ""},
		{oneWay(func(d *OneWayTank) { d.Level = 10 }), "level", "the tank is empty at the start: its level is not above the bottom level"},
		{oneWay(func(d *OneWayTank) { d.Bore = 2 }), "connection bore", "the connection has a larger area than the tank"},
		{vessel(func(*AirVessel) {}), "", ""},
		{vessel(func(d *AirVessel) { d.Area = 0 }), "", ""},
		{vessel(func(d *AirVessel) { d.Gas = 8 }), "gas volume", "the gas fills the whole vessel"},
		{vessel(func(d *AirVessel) { d.Least = 4 }), "least liquid", "the vessel holds no more liquid in steady flow than is to be kept"},
		{vessel(func(d *AirVessel) { d.Bore = 3 }), "connection bore", "the connection has a larger area than the vessel"},
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
