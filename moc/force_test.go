package moc

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
)

// slammedLine is a frictionless line of 1000 m from a reservoir to a gate that shuts at once before 0.1 s, bent at the given chainages, and its velocity, m/s.
func slammedLine(friction float64, bends ...float64) (*network.Network, float64) {
	const v0, h0, bore = 0.8, 200.0, 0.4
	line := flatPipe("line", "up", "end", 1000, bore, 1000, friction)
	line.Bends = bends
	return &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: h0}, {Name: "down"}},
		Pipes:      []network.Pipe{line},
		Throttles: []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: bore, Loss: h0 * 2 * network.Gravity / (v0 * v0),
			Schedule: []network.Opening{{Fraction: 1}, {Time: 0.095, Fraction: 1}, {Time: 0.095, Fraction: 0}}}}}, v0
}

// Closed form, derived: the front of a sudden stop pushes a straight run of length l with F = rho a A V towards the gate for l/a, from the time it enters,
// and so takes its momentum rho A l V. Back from the reservoir it turns the flow to -V, which pushes the same way; from the shut gate it comes with
// lowered pressure and pulls, twice again.
func TestForceOfSuddenStop(t *testing.T) {
	const length, a, shut = 1000.0, 1000.0, 0.1
	n, v := slammedLine(0, 0, 240, 300, 700)
	r := solve(t, n, 4.05, Settings{Step: 0.01})
	area, rho := math.Pi/4*0.4*0.4, testFluid().Density
	require.Len(t, r.Forces, 4)
	size := rho * a * area * v
	for k, ends := range [][2]float64{{0, 240}, {240, 300}, {300, 700}, {700, 1000}} {
		f := r.Forces[k]
		require.Equal(t, "line", f.Pipe)
		require.InDelta(t, ends[0], f.From, 1e-9)
		require.InDelta(t, ends[1], f.To, 1e-9)
		require.Len(t, f.Force, len(r.Time))
		l := ends[1] - ends[0]
		// The front is at the gate in the step that ends at 0.1 s: between x1 and x2, seen from the gate, with x2 in and x1 out.
		inside := func(at float64) float64 {
			since := at - shut
			if since < -1e-9 {
				return 0
			}
			path := math.Mod(since, 4*length/a) * a // from the gate to the reservoir and back, twice
			sign := 1.0
			if path > 2*length-1e-6 {
				path, sign = path-2*length, -1
			}
			if path > length-1e-6 { // on its way back
				path -= length
				if path > ends[0]-1e-6 && path < ends[1]-1e-6 {
					return sign * size
				}
				return 0
			}
			if path > length-ends[1]-1e-6 && path < length-ends[0]-1e-6 {
				return sign * size
			}
			return 0
		}
		for i, at := range r.Time {
			require.InDelta(t, inside(at), f.Force[i], 1e-9*size, "run %d at %g s", k, at)
		}
		require.InEpsilon(t, size, f.Max, 1e-9)
		require.InEpsilon(t, -size, f.Min, 1e-9)
		mass := rho * area * l
		pulse := mass * v
		if ends[0] == 0 { // the front turns at the reservoir without leaving the run
			pulse *= 2
		}
		require.InEpsilon(t, -pulse, f.MinImpulse, 1e-9)
		require.InEpsilon(t, pulse, f.MaxImpulse, 1e-9)
	}
}

// The mean force over a step is the momentum that the liquid of the run has lost in it, -rho d/dt of the trapezoidal sum of Q, with friction too, to
// rounding: the identity that the comment of leg claims. At a node of the pipe's end friction is linearised by a step, so the runs are inner ones.
func TestForceIsLossOfMomentum(test *testing.T) {
	rapid.Check(test, func(t *rapid.T) {
		n, v := slammedLine(rapid.SampledFrom([]float64{0, 0.02, 0.2}).Draw(t, "friction"), 100, 350, 800)
		closed := 0.1 + rapid.Float64Range(0, 2).Draw(t, "closure")
		n.Throttles[0].Schedule = []network.Opening{{Fraction: 1}, {Time: 0.1, Fraction: 1}, {Time: closed, Fraction: rapid.Float64Range(0, 0.5).Draw(t, "left")}}
		r := started(test, Problem{Network: n, Until: 5}, Settings{Liquid: true, Step: 0.01})
		rho, area := r.m.net.Fluid.Density, r.m.pipes[0].area
		momentum := func(l *leg) float64 {
			sum := (l.line.Flow(l.from) + l.line.Flow(l.to)) / 2
			for i := l.from + 1; i < l.to; i++ {
				sum += l.line.Flow(i)
			}
			return rho * 1000 * r.grid.dt * sum
		}
		require.Len(t, r.rec.legs, 4)
		most := 0.0
		for range 300 {
			var before, start [4]float64
			for k := range r.rec.legs {
				before[k], start[k] = momentum(&r.rec.legs[k]), r.rec.legs[k].force()
			}
			require.NoError(t, r.advance())
			for k := 1; k < 3; k++ {
				l := &r.rec.legs[k]
				mean := (start[k] + l.force()) / 2
				require.InDelta(t, (before[k]-momentum(l))/r.grid.dt, mean, 1e-8*rho*area*1000*v)
				most = math.Max(most, math.Abs(mean))
			}
		}
		require.Greater(t, most, 1e-3*rho*area*1000*v, "there was a force")
	})
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// In steady flow with friction there is no force, and none is left when the flow has come to rest, though the heads of the ends are then others.
func TestNoForceAtRest(t *testing.T) {
	n, v := slammedLine(0.05, 0, 500)
	n.Throttles[0].Schedule = []network.Opening{{Fraction: 1}, {Time: 20, Fraction: 1}, {Time: 40, Fraction: 0}}
	for _, l := range started(t, Problem{Network: n, Until: 1}, Settings{Step: 0.05}).rec.legs {
		require.InDelta(t, 0, l.rest, 1e-9*l.weight*100, "friction is not what is taken off")
	}
	r := solve(t, n, 2000, Settings{Step: 0.05})
	size := testFluid().Density * math.Pi / 4 * 0.4 * 0.4 * 1000 * v
	for _, f := range r.Forces {
		for i, x := range f.Force {
			if r.Time[i] < 20 {
				require.InDelta(t, 0, x, 1e-9*size)
			}
		}
		require.Greater(t, f.Max, 0.01*size)
		period := f.Force[len(f.Force)-80:] // the waves go on, the mean does not
		require.InDelta(t, 0, mean(period), 1e-5*size)
	}
	drop := r.Steady.Pipes[0].Flow
	require.InEpsilon(t, v*math.Pi/4*0.4*0.4, drop, 0.2, "friction counts beside the gate")
	head := testFluid().Density * network.Gravity * (math.Pi / 4 * 0.4 * 0.4) * (200 - r.Nodes[1].Head[0])
	require.Greater(t, math.Abs(head), 5e-3*size, "without the friction term this force would stay")
}

// Friction taken at some of the nodes only, in a pipe of many, differs from friction taken at all by what a front between two of them hides: at most
// half the friction between them before the stop, twice that when the flow turns.
func TestForceOfManyNodes(t *testing.T) {
	hidden := 0.0
	forces := func(stride int) []float64 {
		n, _ := slammedLine(0.05, 0)
		r := started(t, Problem{Network: n, Until: 5}, Settings{Liquid: true, Step: 1.0 / 4000})
		l := &r.rec.legs[0]
		require.Equal(t, 8, l.stride)
		q := l.line.Flow(0)
		hidden = l.weight * l.line.R * q * q * 8
		l.stride = stride
		var f []float64
		for range 6000 {
			require.NoError(t, r.advance())
			f = append(f, l.force())
		}
		return f
	}
	all, some := forces(1), forces(8)
	require.Less(t, hidden, 1e-4*slices.Max(all))
	require.InDeltaSlice(t, all, some, hidden)
}

// Peaks and impulses are those of the history, whatever the kernel, and start anew from a checkpoint: gas cavities form on the way.
func TestPeaksOfForce(t *testing.T) {
	n, _ := slammedLine(0.02, 250, 600)
	n.Reservoirs[0].Level = 40
	n.Throttles[0].Loss /= 5
	n.Throttles[0].Schedule = []network.Opening{{Fraction: 1}, {Time: 3, Fraction: 1}, {Time: 3, Fraction: 0}}
	r, err := Solve(context.Background(), Problem{Network: n, Until: 10}, Settings{Step: 0.01})
	require.NoError(t, err)
	require.Positive(t, r.Numerics.CavityFrom)
	for _, f := range r.Forces {
		require.Len(t, f.Force, len(r.Time))
		var p pulse
		for i, x := range f.Force {
			p.follow(x, r.Numerics.Step, i)
		}
		top, bottom := 0.0, 0.0
		for _, x := range f.Force {
			top, bottom = math.Max(top, x), math.Min(bottom, x)
		}
		require.Equal(t, []float64{top, bottom}, []float64{f.Max, f.Min})
		require.Equal(t, []float64{p.maxImpulse, p.minImpulse}, []float64{f.MaxImpulse, f.MinImpulse})
		require.Equal(t, f.Max, f.Force[int(math.Round(f.MaxTime/r.Numerics.Step))])
		require.Equal(t, f.Min, f.Force[int(math.Round(f.MinTime/r.Numerics.Step))])
	}
}

// A pulse ends below a tenth of its peak or with its sign.
func TestPulse(t *testing.T) {
	var p pulse
	for i, f := range []float64{0, 1, 5, 10, 3, 0.5, 0, -2, -1, 0.5, 9, 0.1, -3, 1e-9, -1e-9, 8} {
		p.follow(f, 0.5, i)
	}
	require.Equal(t, 10.0, p.max)
	require.Equal(t, 3, p.maxAt)
	require.Equal(t, 9.5, p.maxImpulse)
	require.Equal(t, -3.0, p.min)
	require.Equal(t, 12, p.minAt)
	require.Equal(t, -1.5, p.minImpulse)
}

// Marks beside the pipe are left out, and one too close to another for the grid is told.
func TestMarks(t *testing.T) {
	n, _ := slammedLine(0.02, math.NaN(), -5, 500, 501, 2000, 500)
	r := solve(t, n, 0.2, Settings{Step: 0.01})
	require.Len(t, r.Forces, 2)
	require.Equal(t, []float64{0, 500, 501, 1000}, []float64{r.Forces[0].From, r.Forces[0].To, r.Forces[1].From, r.Forces[1].To})
	require.Len(t, r.Warnings, 1)
	require.Contains(t, r.Warnings[0].String(), "from 500 m to 501 m")
	n.Pipes[0].Bends = nil
	require.Empty(t, solve(t, n, 0.2, Settings{Step: 0.01}).Forces)
}
