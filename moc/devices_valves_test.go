package moc

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/moc/device"
	"seatwise/network"
	"seatwise/network/quantity"
)

// valveLine is a frictionless level line of 500 m, 0.5 m bore and 1000 m/s from the reservoir "up" to the node "end": a wave takes 0.5 s.
func valveLine(level float64, levels []network.Level, devices ...network.Device) *network.Network {
	return &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: level, Levels: levels}, {Name: "down", Level: 0}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", 500, 0.5, 1000, 0)},
		Devices:    devices}
}

const (
	lineArea      = math.Pi / 16                        // m2
	lineImpedance = 1000 / (network.Gravity * lineArea) // s/m2
	testGamma     = 998.2 * network.Gravity             // Pa/m
	travel        = 0.5                                 // s, of a wave along valveLine
)

// liquid are settings without cavities, at a step.
func liquid(step float64) Settings { return Settings{Step: step, Liquid: true} }

// ran runs to the end and hands out the running network with the result.
func ran(t require.TestingT, n *network.Network, until float64, s Settings) (*Result, *run) {
	m, err := compile(Problem{Network: n, Until: until})
	require.NoError(t, err)
	st, err := m.steady(s.Liquid)
	require.NoError(t, err)
	st.freeze()
	g, err := m.grid(s, until)
	require.NoError(t, err)
	r := start(m, st, g, until, s)
	require.NoError(t, r.finish(context.Background()))
	return r.result(st), r
}

// A relief valve of great area holds its set pressure exactly while it flows. With F(t) the wave that leaves the gate, h = H - H0 = F(t) - F(t - 2L/a) and
// B (q0 - q) = F(t) + F(t - 2L/a) (general solution of the wave equation without friction), so with h held at hs
//
//	F(t) = hs + F(t - 2L/a),   q_relief = q0 - (F(t) + F(t - 2L/a))/B - q_gate
//
// Here a V0/g = 153 m and hs = 30 m: after the closure the valve passes 153 - 30, 153 - 90, 153 - 150 m over B in the first three periods, then shuts.
func TestReliefValveHoldsSetPressure(t *testing.T) {
	const h0, hs, v0, closure = 100.0, 30.0, 1.5, 0.2
	q0 := v0 * lineArea
	n := valveLine(h0, nil, &network.ReliefValve{Name: "relief", Node: "end", Set: (h0 + hs) * testGamma, Area: 10, Coefficient: 1})
	n.Throttles = []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: 0.5, Loss: h0 * 2 * network.Gravity / (v0 * v0),
		Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: closure, Fraction: 0}}}}
	r, run := ran(t, n, 2.9, liquid(0.001))
	gate := func(t float64) float64 { return math.Max(1-t/closure, 0) }
	// The head before the valve opens: gate and characteristic alone.
	free := func(t float64) float64 {
		k := gate(t) * q0 / math.Sqrt(h0)
		x := (-lineImpedance*k + math.Sqrt(lineImpedance*lineImpedance*k*k+4*(h0+lineImpedance*q0))) / 2 // root of H
		return x*x - h0
	}
	wave := func(t float64) float64 { // F
		f := 0.0
		for s := t; s > 0; s -= 2 * travel {
			if s < closure && free(s) < hs {
				return f + free(s)
			}
			f += hs
		}
		return f
	}
	out, last := 0.0, 0.0
	const fine = 1e-5
	for k := 0; float64(k)*fine < 2.9; k++ {
		s := float64(k) * fine
		flow := 0.0
		if !(s < closure && free(s) < hs) {
			flow = math.Max(q0-(wave(s)+wave(s-2*travel))/lineImpedance-gate(s)*q0*math.Sqrt((h0+hs)/h0), 0)
		}
		out += fine / 2 * (last + flow)
		last = flow
	}
	for k, h := range history(r, "end", h0) {
		s := r.Time[k]
		if s < closure && free(s) < hs-1e-3 {
			require.InDelta(t, free(s), h, 1e-6, "at %g s", s)
		} else if s > 0.11 {
			require.InDelta(t, hs, h, 4e-4, "at %g s", s) // the curve rises by 1.05 mm for each m3/s
		}
	}
	d := deviceOf[*device.ReliefValve](run, "relief")
	require.Len(t, d.Notes(), 1)
	require.InEpsilon(t, out, d.Out(), 1e-3)
	require.Less(t, r.Numerics.VolumeResidual, 1e-9)

	// In the fourth period the flow would turn: the valve shuts.
	_, run = ran(t, n, 3.5, liquid(0.001))
	require.Zero(t, deviceOf[*device.ReliefValve](run, "relief").Lift())
}

// The lift follows the stroke times: full from the first step above the set pressure on after To, shut Tc after the pressure fell below the closing pressure.
func TestReliefValveStrokes(t *testing.T) {
	const h0 = 100.0
	n := valveLine(0, []network.Level{{Head: h0}, {Time: 0, Head: h0 + 20}, {Time: 1, Head: h0 + 20}, {Time: 1, Head: h0 - 20}},
		&network.ReliefValve{Name: "relief", Node: "end", Set: (h0 + 5) * testGamma, BlowDown: 0.08, Opening: 0.4, Closing: 0.8, Area: 1e-5, Coefficient: 0.62})
	for _, c := range []struct{ until, lift float64 }{{0.45, 0}, {0.7, 0.5}, {1.4, 1}, {1.9, 0.5}, {2.4, 0}} {
		_, run := ran(t, n, c.until, liquid(0.001))
		require.InDelta(t, c.lift, deviceOf[*device.ReliefValve](run, "relief").Lift(), 4e-3, "at %g s", c.until)
	}
}

// A wave of height dh meets an orifice that steady flow leaves at head H0. The characteristic brings C = H0 + B q0 + 2 dh, and
//
//	k q^2 + B q - (C - z) = 0
//
// gives flow and head; for a small wave the reflection is (Z - B)/(Z + B) with Z = 2 (H0 - z)/q0, so that Z = B reflects nothing.
func TestOrificeReflects(t *testing.T) {
	const h0 = 40.0
	for _, c := range []struct {
		name string
		dh   float64
		q0   float64
	}{{"large wave", 15, 0.04}, {"fall", -15, 0.04}, {"small wave", 1e-3, 0.04}, {"matched", 1e-3, 2 * h0 / lineImpedance}} {
		step := []network.Level{{Head: h0}, {Time: 0, Head: h0 + c.dh}}
		plate := 2 * network.Gravity * lineArea * lineArea * h0 / (c.q0 * c.q0)
		for _, d := range []network.Device{
			&network.Outlet{Name: "d", Node: "end", Flow: c.q0 / 2, Pressure: h0 / 4 * testGamma},
			&network.Orifice{Name: "d", From: "end", To: "down", PipeBore: 0.5, Loss: plate},
			&network.Orifice{Name: "d", From: "down", To: "end", PipeBore: 0.5, Loss: plate},
		} {
			r, _ := ran(t, valveLine(h0, step, d), 1.2, liquid(0.01))
			require.InDelta(t, c.q0, r.Steady.Pipes[0].Flow, 1e-9)
			k := h0 / (c.q0 * c.q0)
			q := (-lineImpedance + math.Sqrt(lineImpedance*lineImpedance+4*k*(h0+lineImpedance*c.q0+2*c.dh))) / (2 * k)
			h := headAt(r, "end", 1)
			require.InDelta(t, k*q*q, h, 1e-7)
			if math.Abs(c.dh) < 0.01 {
				z := 2 * h0 / c.q0
				require.InDelta(t, (z-lineImpedance)/(z+lineImpedance), (h-h0)/c.dh-1, 1e-4)
			}
		}
	}
}

// An outlet in steady flow: fully open, throttling, shut, and above the gradient line; the head takes the sustained value where it throttles.
func TestOutletSteady(t *testing.T) {
	for _, c := range []struct {
		name                   string
		elevation, hold, level float64
		flow, head             float64
	}{
		{"open", 5, 0, 40, 0.1 * math.Sqrt(35.0/20), 40},
		{"open above the sustained pressure", 5, 20, 40, 0.1 * math.Sqrt(35.0/20), 40},
		{"shut below the sustained pressure", 5, 36, 40, 0, 40},
		{"above the gradient line", 45, 0, 40, 0, 40},
	} {
		n := valveLine(c.level, nil, &network.Outlet{Name: "d", Node: "end", Elevation: c.elevation, Flow: 0.1, Pressure: 20 * testGamma, Sustained: c.hold * testGamma})
		n.Pipes[0].MinorLoss = 1e-4
		r, run := ran(t, n, 0.2, Settings{Liquid: true})
		require.InDelta(t, c.flow, r.Steady.Pipes[0].Flow, 1e-8, c.name) // the pipe's loss takes 2 um
		require.InDelta(t, c.head, headAt(r, "end", 0.1), 1e-5, c.name)
		require.Equal(t, c.flow == 0, len(deviceOf[*device.Outlet](run, "d").Notes()) == 1, c.name)
	}
	// With losses on the way the outlet throttles: 10 m over a loss coefficient of 500 leave q = A sqrt(2 g 10/500).
	n := valveLine(40, nil, &network.Outlet{Name: "d", Node: "end", Flow: 1, Pressure: 20 * testGamma, Sustained: 30 * testGamma})
	n.Pipes[0].MinorLoss = 500
	r, _ := ran(t, n, 5, Settings{Liquid: true})
	q := r.Steady.Pipes[0].Flow
	held := 30 + q*(1e-4*30/math.Sqrt(30.0/20)+1e-3) // the curve rises by a ten-thousandth of 30 m over the whole flow, and 1 mm for each m3/s
	require.InEpsilon(t, lineArea*math.Sqrt(2*network.Gravity*(40-held)/500), q, 1e-9)
	require.InDelta(t, 30, held, 5e-4)
	require.InDelta(t, held, headAt(r, "end", 5), 1e-6)
}

// A disc in the middle of a line at rest bursts when a ramp of 10 m/s has risen to its burst head, inside a step, and then lets out, until the first
// reflection,
//
//	H = H1 - B q/2,   q = C A sqrt(2 g (H - z))
//
// with H1 the head that the wave would have had: the rarefaction in each pipe is a dV/g with dV = q/(2 A).
func TestRuptureDisc(t *testing.T) {
	const h0, burst, rate = 30.0, 42.03, 10.0
	n := valveLine(0, []network.Level{{Head: h0}, {Time: 10, Head: h0 + 10*rate}},
		&network.RuptureDisc{Name: "disc", Node: "end", Elevation: 2, Burst: (burst - 2) * testGamma, Area: 0.02, Coefficient: 0.62, Rise: 1})
	n.Pipes = append(n.Pipes, flatPipe("rest", "end", "far", 3000, 0.5, 1000, 0))
	for _, step := range []float64{0.02, 0.0125} {
		r, run := ran(t, n, 2.4, liquid(step))
		d := deviceOf[*device.RuptureDisc](run, "disc")
		at := travel + (burst-h0)/rate
		require.InDelta(t, at, d.Burst(), 1e-7)
		checked := 0
		for k, h := range history(r, "end", 0) {
			s := r.Time[k]
			h1 := h0 + rate*math.Max(s-travel, 0)
			if s > at+1e-9 { // h1 - h = B q/2 with q^2 = c (h - z)
				c := 0.62 * 0.02 * 0.62 * 0.02 * 2 * network.Gravity
				b := lineImpedance / 2
				q := (-b*c + math.Sqrt(b*b*c*c+4*c*(h1-3))) / 2
				require.InDelta(t, h1-b*q, h, 1e-6, "at %g s", s)
				require.InDelta(t, 1000*(q/2/lineArea)/network.Gravity, h1-h, 1e-6)
				checked++
			} else {
				require.InDelta(t, h1, h, 1e-9)
			}
		}
		require.Greater(t, checked, 20)
		require.Less(t, r.Numerics.VolumeResidual, 1e-9)
	}
}

// drained is a pipe with an air valve at its upper end and an orifice before the reservoir "down" at the other, whose level falls from 11 m to low at once and is
// back at high at the time back, and k its loss, s2/m5: without friction in the pipe the flow settles where the orifice takes the head difference.
func drained(v network.AirValve, low, back, high float64) (n *network.Network, k float64) {
	v.Name, v.Node, v.Elevation = "air", "top", 10
	v.CoefficientIn, v.CoefficientOut, v.Temperature = 0.6, 0.6, 288.15
	if v.Polytropic == 0 {
		v.Polytropic = 1
	}
	const loss = 2000.0
	n = &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "down", Levels: []network.Level{{Head: 11}, {Time: 0, Head: low}, {Time: back, Head: low}, {Time: back + 0.5, Head: high}}}},
		Pipes:      []network.Pipe{flatPipe("riser", "top", "foot", 100, 0.5, 1000, 0)},
		Devices:    []network.Device{&v, &network.Orifice{Name: "plate", From: "foot", To: "down", PipeBore: 0.5, Loss: loss}}}
	return n, loss / (2 * network.Gravity * lineArea * lineArea)
}

// airFlow is R T m'/p, m3/s of air at the pocket's pressure p, out of it, through the effective area ca: the formulas of the air-valve literature for k = 1.4,
// with exponents and constants as printed there (from memory).
func airFlow(p, ca float64) float64 {
	const atm, rt = 101325.0, 287.05 * 288.15
	up, down := math.Max(p, atm), math.Min(p, atm)
	s := down / up
	g := 0.68473 * up / math.Sqrt(rt)
	if s > 0.5283 {
		g = up / math.Sqrt(rt) * math.Sqrt(7*(math.Pow(s, 1/0.7)-math.Pow(s, 1.2/0.7)))
	}
	return math.Copysign(g*ca*rt/p, p-atm)
}

// settledFlow solves  k q|q| = level - z - (p - patm)/(rho g)  and  q = airFlow(p)  for the liquid's flow q towards the valve, by bisection on p.
func settledFlow(level, k, ca float64) (q, p float64) {
	lo, hi := 1e3, 1e6
	for range 200 {
		p = (lo + hi) / 2
		q = airFlow(p, ca)
		if k*q*math.Abs(q) < level-10-(p-101325)/testGamma {
			lo = p
		} else {
			hi = p
		}
	}
	return q, p
}

// A riser that drains through an orifice at its foot while air comes in at the top: once the flow has settled, the pocket grows as R T m'/p, with the
// pressure at which air and liquid leave together. From a wide valve, p nearly atmospheric, to a choked one.
func TestAirValveDrains(t *testing.T) {
	for _, c := range []struct{ area, low float64 }{{0.02, 0}, {1e-3, 2}, {2e-4, 5}, {1e-4, 0}, {2e-5, 1.5}} {
		n, k := drained(network.AirValve{In: c.area, Out: c.area}, c.low, 1e6, 11)
		n.Reservoirs[0].Levels = n.Reservoirs[0].Levels[:2]
		q, p := settledFlow(c.low, k, 0.6*c.area)
		volume := func(until float64) (float64, *Result, *device.AirValve) {
			r, run := ran(t, n, until, liquid(0.001))
			d := deviceOf[*device.AirValve](run, "air")
			return d.Volume(), r, d
		}
		v1, _, _ := volume(60)
		v2, r, d := volume(80)
		require.InEpsilon(t, -q, (v2-v1)/20, 1e-4, "area %g m2: %.4g bar", c.area, p/1e5)
		require.InEpsilon(t, p, d.Pressure(), 1e-4)
		require.Less(t, r.Numerics.VolumeResidual, 1e-9)
		require.Len(t, d.Notes(), 2)
	}
}

// A wide valve at the top of a frictionless riser of length L: the column falls freely, dq/dt = -g A dH/L, and the pocket after the time t is g A dH t^2/(2 L).
func TestAirValveFreeFall(t *testing.T) {
	n, _ := drained(network.AirValve{In: 0.5, Out: 0.5}, 4, 1e6, 11)
	n.Reservoirs[0].Levels = n.Reservoirs[0].Levels[:2]
	n.Devices[1].(*network.Orifice).Loss = 1e-9
	const until = 4.0
	r, run := ran(t, n, until, liquid(0.0005))
	// The fall of the level takes L/a to reach the valve and comes in steps of 2L/a; before the first air 1 m of head is spent.
	want := network.Gravity * lineArea * 6 * until * until / (2 * 100)
	require.InEpsilon(t, want, deviceOf[*device.AirValve](run, "air").Volume(), 0.01)
	require.Less(t, r.Numerics.VolumeResidual, 1e-9)
}

// The liquid comes back, drives the air out at a settled flow, and is stopped when the last air has left. With C = H + Z q the wave that arrives, the head jumps by
//
//	dH = Z q = a dV/g
//
// at that instant. With a second stage the flow settles anew before, and the slam is the smaller.
func TestAirValveSlam(t *testing.T) {
	for _, c := range []struct{ out, stage, area, last float64 }{{2e-3, 0, 0, 2e-3}, {2e-3, 0.4, 1e-4, 1e-4}} {
		n, k := drained(network.AirValve{In: 0.02, Out: c.out, Stage: c.stage, StageOut: c.area}, 6, 20, 18)
		r, run := ran(t, n, 120, liquid(0.001))
		d := deviceOf[*device.AirValve](run, "air")
		require.Zero(t, d.Volume())
		q, p := settledFlow(18, k, 0.6*c.last)
		slam, at := d.Slam()
		require.InEpsilon(t, q, slam, 1e-5, "at %g s", at)
		before := 10 + (p-101325)/testGamma
		heads := history(r, "top", 0)
		peak := 0.0
		for i, h := range heads {
			if r.Time[i] >= at && r.Time[i] < at+0.1 {
				peak = math.Max(peak, h)
			}
		}
		require.InEpsilon(t, lineImpedance*q, peak-before, 1e-4)
		require.Less(t, r.Numerics.VolumeResidual, 1e-9)
		require.Len(t, d.Notes(), 2)
	}
}

// Halving the step: the pocket's largest volume converges.
func TestAirValveConverges(t *testing.T) {
	n, _ := drained(network.AirValve{In: 2e-3, Out: 1e-3, Polytropic: 1.2}, 6, 3, 14)
	var v []float64
	for h := range 4 {
		_, run := ran(t, n, 4, Settings{Step: 0.004, Halvings: h, Liquid: true})
		v = append(v, deviceOf[*device.AirValve](run, "air").Volume())
	}
	first, second := math.Abs(v[1]-v[0]), math.Abs(v[3]-v[2])
	require.Less(t, second, 0.35*first+1e-9*v[3])
	require.Less(t, second, 2e-3*v[3])
}

// Whatever a level does and however the valves are made, a run ends, and volume is kept.
func TestValvesNeverFail(t *testing.T) {
	air, opened, burst := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := valveLine(0, nil)
		const vapour = -9.0
		deep := rapid.SampledFrom([]float64{-15, -8}).Draw(t, "lowest") // below vapour pressure: without cavities
		levels := []network.Level{{Head: 40}}
		for k, at := 0, 0.0; k < 6; k++ {
			at += rapid.SampledFrom([]float64{0, 0.03, 0.2, 0.7}).Draw(t, "wait")
			levels = append(levels, network.Level{Time: at, Head: rapid.Float64Range(deep, 120).Draw(t, "level")})
		}
		n.Reservoirs[0].Levels = levels
		n.Pipes[0].FrictionFactor = rapid.SampledFrom([]float64{1e-4, 0.02}).Draw(t, "friction")
		n.Pipes = append(n.Pipes, flatPipe("rest", "end", "far", 200, 0.4, 1000, 0.02))
		relief := &network.ReliefValve{Name: "relief", Node: "far", Set: 50 * testGamma, BlowDown: rapid.SampledFrom([]float64{0, 0.1}).Draw(t, "blow-down"),
			Opening: rapid.SampledFrom([]float64{0, 0.02, 1}).Draw(t, "opening"), Closing: rapid.SampledFrom([]float64{0, 0.05, 2}).Draw(t, "closing"),
			Coefficient: 0.62, Area: rapid.SampledFrom([]float64{1e-4, 0.01, 1}).Draw(t, "area"), Rise: rapid.SampledFrom([]float64{0, 3, 60}).Draw(t, "rise")}
		second := vary(*relief, func(v *network.ReliefValve) {
			v.Name, v.Set = "second", rapid.SampledFrom([]float64{50, 55}).Draw(t, "second set")*testGamma
		})
		valve := &network.AirValve{Name: "air", Node: "end", Elevation: rapid.Float64Range(0, 30).Draw(t, "elevation"), Temperature: 288.15, CoefficientIn: 0.6, CoefficientOut: 0.6,
			In: rapid.SampledFrom([]float64{1e-5, 1e-3, 0.1}).Draw(t, "in"), Out: rapid.SampledFrom([]float64{0, 1e-5, 1e-3, 0.1}).Draw(t, "out"),
			Polytropic: rapid.SampledFrom([]float64{1, 1.2, 1.4}).Draw(t, "n")}
		if valve.Out > 1e-4 && rapid.Bool().Draw(t, "two stages") {
			valve.Stage, valve.StageOut = rapid.SampledFrom([]float64{1e-4, 0.01}).Draw(t, "stage"), 1e-5
		}
		disc := &network.RuptureDisc{Name: "disc", Node: rapid.SampledFrom([]string{"far", "end"}).Draw(t, "at"), Burst: 80 * testGamma, Area: 0.01, Coefficient: 0.62}
		outlet := &network.Outlet{Name: "outlet", Node: rapid.SampledFrom([]string{"far", "end"}).Draw(t, "outlet at"), Flow: 0.01, Pressure: 3e5,
			Sustained: rapid.SampledFrom([]float64{0, 2e5}).Draw(t, "sustained")}
		n.Devices = []network.Device{relief, valve, disc, outlet, second}
		for _, d := range n.Devices {
			require.Empty(t, d.Check())
		}
		r, run := ran(t, n, 4, Settings{Step: 0.005, Liquid: deep < vapour, Cavities: rapid.SampledFrom(CavityForms()).Draw(t, "cavities")})
		require.Less(t, r.Numerics.VolumeResidual, 1e-9)
		notes := func(d interface{ Notes() []quantity.Sentence }) int { return min(len(d.Notes()), 1) }
		air += notes(deviceOf[*device.AirValve](run, "air"))
		opened += notes(deviceOf[*device.ReliefValve](run, "relief"))
		burst += notes(deviceOf[*device.RuptureDisc](run, "disc"))
		require.GreaterOrEqual(t, deviceOf[*device.AirValve](run, "air").Volume(), 0.0)
	})
	if !testing.Short() { // which draws too few to be sure of each
		require.Positive(t, air)
		require.Positive(t, opened)
		require.Positive(t, burst)
	}
}

// vary is a changed copy.
func vary[D any](d D, change func(*D)) *D {
	change(&d)
	return &d
}

// The steady state of a line with an outlet, wherever on its curve it lies: with the loss K of the pipe, the flow and head found are on the curve, and one of
// the three cases of its definition holds.
func TestOutletSteadyAnywhere(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		level, z := rapid.Float64Range(-5, 100).Draw(t, "level"), rapid.Float64Range(-20, 50).Draw(t, "elevation")
		hold := rapid.SampledFrom([]float64{0, 1, 20, 60}).Draw(t, "sustained")
		flow := rapid.SampledFrom([]float64{1e-4, 0.01, 1, 10}).Draw(t, "flow")
		n := valveLine(level, nil, &network.Outlet{Name: "d", Node: "end", Elevation: z, Flow: flow, Pressure: 20 * testGamma, Sustained: hold * testGamma})
		n.Pipes[0].MinorLoss = rapid.SampledFrom([]float64{0.01, 5, 1000}).Draw(t, "loss")
		r, _ := ran(t, n, 0.05, liquid(0.005))
		q, h := r.Steady.Pipes[0].Flow, headAt(r, "end", 0)
		full := flow * math.Sqrt(math.Max(h-z, 0)/20)
		switch {
		case h < z+hold:
			seen["shut"] = true
			require.InDelta(t, 0, q, 1e-8*(1+flow))
		case hold > 0 && q < full*(1-1e-6):
			seen["throttles"] = true
			require.InDelta(t, z+hold, h, 1e-4*hold+1e-3*flow)
		default:
			seen["open"] = true
			require.InDelta(t, full, q, 1e-6*(1e-3+flow)) // smoothed below a millionth of the flow
		}
	})
	if !testing.Short() { // which draws too few to be sure of every case
		require.Len(t, seen, 3)
	}
}
