package network

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Data that cannot be are refused, each with its own message.
func TestValveDataAreChecked(t *testing.T) {
	relief := ReliefValve{Set: 5e5, Area: 0.01, Coefficient: 0.62}
	air := AirValve{In: 0.01, Out: 0.005, CoefficientIn: 0.6, CoefficientOut: 0.6, Polytropic: 1, Temperature: 288}
	disc := RuptureDisc{Burst: 5e5, Area: 0.01, Coefficient: 0.62}
	outlet := Outlet{Flow: 0.1, Pressure: 1e5}
	orifice := Orifice{PipeBore: 0.3, Bore: 0.1}
	for _, d := range []Device{&relief, &air, &disc, &outlet, &orifice} {
		require.Empty(t, d.Check())
	}
	for _, c := range []struct {
		path, text string
		d          Device
	}{
		{"set pressure", "set pressure is 0 Pa", vary(relief, func(v *ReliefValve) { v.Set = 0 })},
		{"blow-down", "blow-down is 100 %", vary(relief, func(v *ReliefValve) { v.BlowDown = 1 })},
		{"opening time", "opening time is -1 s", vary(relief, func(v *ReliefValve) { v.Opening = -1 })},
		{"closing time", "closing time is NaN s", vary(relief, func(v *ReliefValve) { v.Closing = math.NaN() })},
		{"kv", "given twice", vary(relief, func(v *ReliefValve) { v.Kv = 10 })},
		{"area", "neither area nor", vary(relief, func(v *ReliefValve) { v.Area = 0 })},
		{"discharge coefficient", "discharge coefficient is 1.2", vary(relief, func(v *ReliefValve) { v.Coefficient = 1.2 })},
		{"discharge height", "not a finite number", vary(relief, func(v *ReliefValve) { v.Rise = math.Inf(1) })},
		{"burst pressure", "burst pressure is -5 Pa", vary(disc, func(v *RuptureDisc) { v.Burst = -5 })},
		{"area", "area is 0 m2", vary(disc, func(v *RuptureDisc) { v.Area = 0 })},
		{"elevation", "not a finite number", vary(disc, func(v *RuptureDisc) { v.Elevation = math.NaN() })},
		{"flow", "flow is 0 m3/s", vary(outlet, func(v *Outlet) { v.Flow = 0 })},
		{"pressure", "pressure is 0 Pa", vary(outlet, func(v *Outlet) { v.Pressure = 0 })},
		{"sustained pressure", "sustained pressure is -1 Pa", vary(outlet, func(v *Outlet) { v.Sustained = -1 })},
		{"bore", "not smaller than that of the pipe", vary(orifice, func(v *Orifice) { v.Bore = 0.3 })},
		{"bore", "up to a bore ratio of 0.75", vary(orifice, func(v *Orifice) { v.Bore = 0.27 })},
		{"bore", "from a bore ratio of 0.10", vary(orifice, func(v *Orifice) { v.Bore = 0.01 })},
		{"bore", "neither bore nor loss", vary(orifice, func(v *Orifice) { v.Bore = 0 })},
		{"loss", "given twice", vary(orifice, func(v *Orifice) { v.Loss = 3 })},
		{"inflow area", "inflow area is 0 m2", vary(air, func(v *AirValve) { v.In = 0 })},
		{"outflow area", "outflow area is -1 m2", vary(air, func(v *AirValve) { v.Out = -1 })},
		{"inflow coefficient", "inflow coefficient is 0", vary(air, func(v *AirValve) { v.CoefficientIn = 0 })},
		{"polytropic exponent", "polytropic exponent is 1.5", vary(air, func(v *AirValve) { v.Polytropic = 1.5 })},
		{"air temperature", "air temperature is 15 K", vary(air, func(v *AirValve) { v.Temperature = 15 })},
		{"second stage volume", "no second stage volume", vary(air, func(v *AirValve) { v.StageOut = 1e-4 })},
		{"second stage area", "no second stage area", vary(air, func(v *AirValve) { v.Stage = 0.01 })},
		{"second stage area", "not smaller than", vary(air, func(v *AirValve) { v.Stage, v.StageOut = 0.01, 0.005 })},
	} {
		found := c.d.Check()
		require.Len(t, found, 1, c.text)
		require.Equal(t, c.path, found[0].Path)
		require.Contains(t, found[0].Text, c.text)
	}
}

// vary is a changed copy.
func vary[D any](d D, change func(*D)) *D {
	change(&d)
	return &d
}
