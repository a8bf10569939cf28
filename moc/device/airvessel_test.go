package device

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

func TestAirVesselDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := &network.AirVessel{Level: 5, Volume: 8, Gas: rapid.Float64Range(0.5, 7.5).Draw(t, "gas"), Polytropic: rapid.Float64Range(1, 1.4).Draw(t, "n"),
			Area: rapid.SampledFrom([]float64{0, 3}).Draw(t, "area"), Bore: 0.4, LossIn: 4, LossOut: 1}
		require.Empty(t, data.Check())
		d := NewAirVessel(data, 9810, network.Gravity, 101325)
		d.Start(0, 40, 0)
		d.now.v *= rapid.Float64Range(0.01, 20).Draw(t, "swing")
		d.now.q = rapid.Float64Range(-3, 3).Draw(t, "q0")
		derivatives(t, d, 0.05, flowing(t), rapid.Float64Range(-5, 80).Draw(t, "ha"), 0, 1e-6, 1e-5)
	})
}

// Gas law and level by hand: 2 m3 pushed into a vessel of 8 m3, half gas, of 2 m2; then the gas law's continuation, which must go on rising.
func TestAirVesselHead(t *testing.T) {
	d := NewAirVessel(&network.AirVessel{Level: 5, Volume: 8, Gas: 4, Polytropic: 1.3, Area: 2, Bore: 0.4, LossIn: 3}, 9810, network.Gravity, 101325)
	d.Start(0, 40, 0)
	p0 := 35*9810 + 101325.0
	head := func(q float64) float64 { return -d.Try(0, 1, q, 0, 0).R }
	v := 4 / (math.Pi / 4 * 0.16)
	require.InEpsilon(t, 6+(p0*math.Pow(2, 1.3)-101325)/9810+3*v*v/(2*network.Gravity), head(4), 1e-12)
	last := head(7.9)
	for q := 7.95; q < 12; q += 0.001 {
		require.Greater(t, head(q), last)
		last = head(q)
	}
}

func TestAirVesselNotes(t *testing.T) {
	d := NewAirVessel(&network.AirVessel{Level: 5, Volume: 8, Gas: 4, Least: 1, Polytropic: 1.2, Area: 2, Bore: 0.4}, 9810, network.Gravity, 101325)
	d.Start(0, 40, 0)
	step := func(q float64) {
		d.Try(0, 1, q, 0, 0)
		d.Accept(0, 1, q, 0, 0)
	}
	step(-4) // 2 m3 out
	require.Empty(t, d.Notes())
	d.Save()
	step(2.4) // 0.8 m3 out
	require.Empty(t, d.Notes())
	step(-3.2)
	require.Equal(t, []string{"has no more than 0.8 m3 of liquid at 1 s, less than the 1 m3 to be kept"}, read(d.Notes()))
	step(-3.2)
	require.Equal(t, []string{"runs empty at 1 s and lets up to 2.4 m3 of gas into the line, which is computed as if full: do not rely on what follows"}, read(d.Notes()))
	z, zv := d.level(d.Gas())
	require.Equal(t, []float64{3, 0}, []float64{z, zv}) // the floor
	least, most := d.Range()
	require.InDelta(t, 4, least, 1e-12)
	require.InDelta(t, 10.4, most, 1e-12)
	d.Restore()
	require.Empty(t, d.Notes())
	require.InDelta(t, 6, d.Gas(), 1e-12)
}
