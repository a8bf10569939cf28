package device

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

func drawOneWay(t *rapid.T) *OneWayTank {
	d := &network.OneWayTank{Level: 20, Bottom: rapid.Float64Range(10, 19.9).Draw(t, "floor"), Area: rapid.Float64Range(0.2, 50).Draw(t, "area"), Bore: 0.4,
		LossOut: rapid.SampledFrom([]float64{0, 0.01, 2.5, 100}).Draw(t, "loss")}
	require.Empty(t, d.Check())
	o := NewOneWayTank(d, network.Gravity)
	o.Start(0, 30, 0)
	o.now.v *= rapid.Float64Range(-0.1, 1).Draw(t, "left")
	o.now.q = -rapid.SampledFrom([]float64{0, 0.05, 1}).Draw(t, "q0")
	return o
}

func TestOneWayTankDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		derivatives(t, drawOneWay(t), 0.05, flowing(t), rapid.Float64Range(0, 30).Draw(t, "ha"), 0, 1e-6, 1e-5)
	})
}

// At the end of a pipe with arriving wave C and impedance Z, ha = C - Z q: Newton's method from anywhere finds the one solution, in which the tank either is shut
// under a head no lower than its level, or feeds.
func TestOneWayTankAlwaysSolves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawOneWay(t)
		c, z, h := rapid.Float64Range(-50, 60).Draw(t, "C"), math.Exp(rapid.Float64Range(-2, 8).Draw(t, "log Z")), rapid.Float64Range(1e-4, 0.5).Draw(t, "h")
		q, ha := rapid.Float64Range(-5, 5).Draw(t, "q"), rapid.Float64Range(-50, 60).Draw(t, "ha")
		solved := false
		for range 60 {
			e := d.Try(0, h, q, ha, 0)
			step := -(e.R + e.RA*(c-z*q-ha)) / (e.RQ - e.RA*z)
			q += step
			ha = c - z*q
			if math.Abs(step)*math.Max(z, 1) < 1e-10 && math.Abs(d.Try(0, h, q, ha, 0).R) < 1e-9 {
				solved = true
				break
			}
		}
		require.True(t, solved, "q %g, ha %g", q, ha)
		d.Try(0, h, q, ha, 0)
		d.Accept(0, h, q, ha, 0)
		require.LessOrEqual(t, q, 1e-12)
		if q > -1e-9 {
			require.GreaterOrEqual(t, ha, d.Level()-1e-6)
		} else {
			require.InDelta(t, d.Level()-d.out*q*q, ha, 1e-6)
		}
	})
}

func TestOneWayTankNotes(t *testing.T) {
	d := NewOneWayTank(&network.OneWayTank{Level: 20, Bottom: 19, Area: 2, Bore: 0.4}, network.Gravity)
	d.Start(0, 30, 0)
	require.Empty(t, d.Notes())
	d.Save()
	for k := range 4 { // 0.5 m3 and then 1 m3 in each step
		d.Try(float64(k), 1, -1, 0, 0)
		d.Accept(float64(k), 1, -1, 0, 0)
	}
	require.Equal(t, 19.0, d.Level())
	require.Equal(t, []string{"feeds the line from 1 s on, 3.5 m3 in all",
		"runs empty at 3 s and lets 1.5 m3 of air into the line, which is computed as if full: do not rely on what follows"}, read(d.Notes()))
	d.Restore()
	require.Empty(t, d.Notes())
	require.Zero(t, d.Fed())
	d.Try(0, 1, -1, 0, 0)
	d.Accept(0, 1, -1, 0, 0)
	require.Equal(t, 0.5, d.Fed())
}
