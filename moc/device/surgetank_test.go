package device

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

// drawTank is a surge tank of two or three rows with floor and crest anywhere about them.
func drawTank(t *rapid.T) *network.SurgeTank {
	area := rapid.Float64Range(0.5, 200)
	d := &network.SurgeTank{Bore: 0.6, Bottom: rapid.Float64Range(-5, 4).Draw(t, "floor"), Overflow: rapid.Float64Range(5, 30).Draw(t, "crest"),
		LossIn: rapid.Float64Range(0.1, 50).Draw(t, "in"), LossOut: rapid.Float64Range(0.1, 50).Draw(t, "out")}
	level := rapid.Float64Range(-10, 10).Draw(t, "level")
	for range rapid.IntRange(1, 4).Draw(t, "rows") {
		d.Areas = append(d.Areas, network.LevelArea{Level: level, Area: area.Draw(t, "area")})
		level += rapid.SampledFrom([]float64{0, 0.5, 7}).Draw(t, "rise") // 0: a step
	}
	require.Empty(t, d.Check())
	return d
}

// Level and volume are each other's inverse, and the volume is the integral of the table's area, here by the midpoint rule.
func TestBasin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawTank(t)
		b := newBasin(d.Bottom, d.Overflow, d.Rows())
		z := rapid.Float64Range(d.Bottom, d.Overflow).Draw(t, "z")
		back, slope := b.level(b.volume(z))
		require.InDelta(t, z, back, 1e-9)
		sum, parts := 0.0, 4000
		dz := (z - d.Bottom) / float64(parts)
		for i := range parts {
			sum += tableArea(d.Areas, d.Bottom+(float64(i)+0.5)*dz) * dz
		}
		require.InDelta(t, sum, b.volume(z), 1e-3*sum+400*dz) // a step inside a part
		if z > d.Bottom+1e-6 && z < d.Overflow-1e-6 {
			require.Positive(t, slope)
		}
		low, zero := b.level(-1)
		high, none := b.level(b.full + 1)
		require.Equal(t, []float64{d.Bottom, 0, d.Overflow, 0}, []float64{low, zero, high, none})
	})
}

func tableArea(rows []network.LevelArea, z float64) float64 {
	if z <= rows[0].Level {
		return rows[0].Area
	}
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; z <= b.Level {
			return a.Area + (b.Area-a.Area)*(z-a.Level)/(b.Level-a.Level)
		}
	}
	return rows[len(rows)-1].Area
}

// flowing draws a flow away from zero, where the second derivative of the loss jumps.
func flowing(t *rapid.T) float64 {
	return rapid.Float64Range(1e-3, 3).Draw(t, "q") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "way")
}

func TestSurgeTankDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewSurgeTank(drawTank(t), network.Gravity)
		d.Start(0, rapid.Float64Range(-10, 40).Draw(t, "h0"), 0)
		d.now.q = rapid.Float64Range(-5, 5).Draw(t, "q0")
		derivatives(t, d, 0.05, flowing(t), rapid.Float64Range(-10, 40).Draw(t, "ha"), 0, 1e-6, 1e-5)
	})
}

// What goes in is in the tank or over the crest, at any step, and a return to a checkpoint gives the same steps again.
func TestSurgeTankVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := drawTank(t)
		d := NewSurgeTank(data, network.Gravity)
		d.Start(0, rapid.Float64Range(-5, 30).Draw(t, "h0"), 0)
		v0, in, last := d.now.v, 0.0, 0.0
		flows := rapid.SliceOfN(rapid.Float64Range(-300, 300), 1, 30).Draw(t, "flows")
		d.Save()
		run := func() tank {
			in, last = 0, 0
			for i, q := range flows {
				d.Try(float64(i), 1, 7, 0, 0) // a trial leaves no trace
				d.Try(float64(i), 1, q, 0, 0)
				d.Accept(float64(i), 1, q, 0, 0)
				in += (last + q) / 2
				last = q
				require.InDelta(t, v0+in, d.now.v+d.now.spilled, 1e-9)
				require.LessOrEqual(t, d.now.v, d.basin.full)
				require.True(t, d.Level() >= data.Bottom && d.Level() <= data.Overflow)
			}
			return d.now
		}
		end, notes := run(), d.Notes()
		d.Restore()
		require.Equal(t, v0, d.now.v)
		require.Equal(t, end.v, run().v)
		require.Equal(t, notes, d.Notes())
		require.Equal(t, end.spilled > 0, !math.IsNaN(end.spills))
	})
}

func TestSettled(t *testing.T) {
	s := NewSurgeTank(&network.SurgeTank{Area: 50, Bottom: 10, Overflow: 30, Bore: 1}, network.Gravity)
	require.NoError(t, s.Settled(10, 0))
	require.NoError(t, s.Settled(30, 0))
	require.ErrorContains(t, s.Settled(30.01, 0), "spills all the time")
	require.ErrorContains(t, s.Settled(9.99, 0), "is empty")
	o := NewOneWayTank(&network.OneWayTank{Level: 20, Bottom: 10, Area: 3, Bore: 0.3}, network.Gravity)
	require.NoError(t, o.Settled(20, 0))
	require.ErrorContains(t, o.Settled(19.9, 0), "feeds the line all the time")
	v := NewAirVessel(&network.AirVessel{Level: 20, Volume: 8, Gas: 4, Polytropic: 1.2, Bore: 0.3}, 9810, network.Gravity, 101325)
	require.NoError(t, v.Settled(9.7, 0))
	require.ErrorContains(t, v.Settled(9.6, 0), "bar abs")
	require.Error(t, v.Settled(math.NaN(), 0))
}

func TestNoAllocationOfTanks(t *testing.T) {
	s := NewSurgeTank(&network.SurgeTank{Area: 50, Bottom: 10, Overflow: 30, Bore: 1}, network.Gravity)
	o := NewOneWayTank(&network.OneWayTank{Level: 20, Bottom: 10, Area: 3, Bore: 0.3}, network.Gravity)
	v := NewAirVessel(&network.AirVessel{Level: 20, Volume: 8, Gas: 4, Polytropic: 1.2, Bore: 0.3}, 9810, network.Gravity, 101325)
	for _, d := range []Device{s, o, v} {
		d.Start(0, 25, 0)
		require.Zero(t, testing.AllocsPerRun(100, func() {
			d.Try(0, 0.01, -0.1, 15, 0)
			d.Accept(0, 0.01, -0.1, 15, 0)
			d.Save()
			d.Restore()
		}))
	}
}
