package moc

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc/device"
	"seatwise/network"
	"seatwise/network/quantity"
)

// tunnel is a reservoir at 100 m, a tunnel (L = 5000 m, A = 10 m2, a = 1000 m/s, V0 = 3 m/s) and a surge tank at its end, where the flow is stopped at once:
// the installation of verification cases A6 and A7. The tunnel loses k V|V|, k in s2/m. The tank's levels are those of its data above the reservoir's.
func tunnel(k float64, tank network.SurgeTank) *network.Network {
	const h0, l, v0 = 100.0, 5000.0, 3.0
	bore := math.Sqrt(40 / math.Pi)
	tank.Name, tank.Node, tank.Bore = "tank", "end", bore
	tank.Overflow += h0
	tank.Bottom += h0
	for i := range tank.Areas {
		tank.Areas[i].Level += h0
	}
	return &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Level: h0}, {Name: "down", Level: 0}},
		Pipes:      []network.Pipe{flatPipe("tunnel", "up", "end", l, bore, 1000, 2*network.Gravity*k*bore/l)},
		Throttles: []network.Throttle{{Name: "gate", From: "end", To: "down", Bore: bore, Loss: (h0 - k*v0*v0) * 2 * network.Gravity / (v0 * v0),
			Schedule: []network.Opening{{Time: 0, Fraction: 1}, {Time: 0, Fraction: 0}}}},
		Devices: []network.Device{&tank}}
}

// surged runs to the end, without cavities, and hands out the running network with the result.
func surged(t *testing.T, n *network.Network, until float64, s Settings) (*Result, *run) {
	t.Helper()
	s.Liquid = true
	m, err := compile(Problem{Network: n, Until: until})
	require.NoError(t, err)
	st, err := m.steady(true)
	require.NoError(t, err)
	st.freeze()
	g, err := m.grid(s, until)
	require.NoError(t, err)
	r := start(m, st, g, until, s)
	require.NoError(t, r.finish(context.Background()))
	return r.result(st), r
}

func deviceOf[D device.Device](r *run, name string) D {
	for _, l := range r.m.links {
		if l.name == name {
			return l.dev.(D)
		}
	}
	panic("no such device")
}

// history is the head at a node above a datum.
func history(r *Result, node string, datum float64) []float64 {
	for _, n := range r.Nodes {
		if n.Name == node {
			h := make([]float64, len(n.Head))
			for k := range h {
				h[k] = n.Head[k] - datum
			}
			return h
		}
	}
	return nil
}

type turn struct{ time, value float64 }

// turns are the extremes between the passages through zero, the first at the start or after it.
func turns(time, x []float64) []turn {
	var out []turn
	best := turn{}
	for k := range x {
		if best.value != 0 && x[k]*best.value < 0 {
			out = append(out, best)
			best = turn{}
		}
		if math.Abs(x[k]) > math.Abs(best.value) {
			best = turn{time[k], x[k]}
		}
	}
	return out
}

// falls are the times at which x passes through zero downwards.
func falls(time, x []float64) []float64 {
	var out []float64
	for k := 1; k < len(x); k++ {
		if a, b := x[k-1], x[k]; a > 0 && b <= 0 {
			out = append(out, time[k-1]+(time[k]-time[k-1])*a/(a-b))
		}
	}
	return out
}

// A6: mass oscillation without friction: T = 2 pi sqrt(L As/(g At)) = 448.647 s, Zmax = V0 sqrt(L At/(g As)) = 21.4213 m. With the tunnel's elasticity the first
// mode is the lowest root of (a/(g At)) w As tan(w L/a) = 1 (as in A8).
func TestSurgeTankOscillation(t *testing.T) {
	r, _ := surged(t, tunnel(0, network.SurgeTank{Area: 100, Overflow: 50, Bottom: -50}), 1200, Settings{})
	z := history(r, "end", 100)
	down := falls(r.Time, z)
	require.Len(t, down, 3)
	t.Logf("period %.4f s and %.4f s, extremes %v", down[1]-down[0], down[2]-down[1], turns(r.Time, z))
	require.InEpsilon(t, 448.647, down[1]-down[0], 5e-3)
	require.InEpsilon(t, 448.647, down[2]-down[1], 5e-3)
	require.InEpsilon(t, firstMode(1000, 5000, 10, 100), down[2]-down[1], 1e-5)
	for i, e := range turns(r.Time, z) {
		want := 21.4213
		if i%2 == 1 {
			want = -want
		}
		require.InEpsilon(t, want, e.value, 5e-3)
	}
}

// firstMode is the period, s, of the first mode of a line with wave speed a, m/s, length l, m, and area, m2, between a reservoir and a store that takes c m3 per
// metre of head: the lowest root of (a/(g A)) w c tan(w l/a) = 1.
func firstMode(a, l, area, c float64) float64 {
	lo, hi := 0.0, math.Pi/2*a/l*(1-1e-12)
	for range 200 {
		if w := (lo + hi) / 2; a/(network.Gravity*area)*w*c*math.Tan(w*l/a) < 1 {
			lo = w
		} else {
			hi = w
		}
	}
	return 2 * math.Pi / lo
}

// A7: the same with a tunnel loss k V|V|, k = 0.5 s2/m: extremes from the closed form (first) and a Runge-Kutta integration of the rigid column.
func TestSurgeTankFriction(t *testing.T) {
	r, _ := surged(t, tunnel(0.5, network.SurgeTank{Area: 100, Overflow: 50, Bottom: -50}), 950, Settings{})
	z := history(r, "end", 100)
	require.InDelta(t, -4.5, z[0], 1e-6)
	got := turns(r.Time, z)[1:] // the steady level is below the reservoir's
	t.Log(got)
	for i, want := range []turn{{123.05, 18.5324}, {348.37, -14.9038}, {573.36, 12.4666}, {798.17, -10.7158}} {
		require.InEpsilon(t, want.value, got[i].value, 5e-3)
		require.InEpsilon(t, want.time, got[i].time, 5e-3)
	}
}

// A throttled tank: with K = k + kt, kt the throttle's loss per tunnel velocity squared, and u = V^2, the rigid column gives up to the first turn
//
//	du/dz + b K u = -b z,  b = 2 g As/(L At),  u(-k V0^2) = V0^2
//
// in closed form (derived): u = C exp(-b K z) - z/K + 1/(b K^2). The first upsurge is its zero; with kt = 0 it is that of A7. On the way down the
// outflow loss takes over, so that the first downsurge with another value follows from the same equation from rest at the top.
func TestSurgeTankThrottle(t *testing.T) {
	const k, in, out, v0 = 0.5, 20.0, 60.0, 3.0
	r, _ := surged(t, tunnel(k, network.SurgeTank{Area: 100, Overflow: 50, Bottom: -50, LossIn: in, LossOut: out}), 500, Settings{})
	b := 2 * network.Gravity * 100 / (5000 * 10)
	// turning gives the end of a swing in the direction of rising y, from y0 with velocity squared u0.
	turning := func(kk, y0, u0 float64) float64 {
		c := (u0 + y0/kk - 1/(b*kk*kk)) * math.Exp(b*kk*y0)
		u := func(y float64) float64 { return c*math.Exp(-b*kk*y) - y/kk + 1/(b*kk*kk) }
		lo, hi := 0.0, 60.0
		require.Positive(t, u(lo))
		for range 100 {
			if mid := (lo + hi) / 2; u(mid) > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	require.InDelta(t, 18.5324, turning(k, -k*v0*v0, v0*v0), 1e-4) // A7
	up := turning(k+in/(2*network.Gravity), -k*v0*v0, v0*v0)
	down := -turning(k+out/(2*network.Gravity), -up, 0)
	// The head at the node has the throttle's loss on it; it is the level where the flow turns.
	level := levels(t, tunnel(k, network.SurgeTank{Area: 100, Overflow: 50, Bottom: -50, LossIn: in, LossOut: out}), 500)
	got := turns(r.Time, level)[1:]
	t.Log(up, down, got)
	require.InEpsilon(t, up, got[0].value, 5e-3)
	require.InEpsilon(t, down, got[1].value, 5e-3)
	// At the stop the flow V goes on through the throttle and its loss is the head of the wave: in V^2/(2 g) = a (V0 - V)/g.
	v := (math.Sqrt(1000*1000+2*in*1000*v0) - 1000) / in
	require.InDelta(t, in*v*v/(2*network.Gravity), history(r, "end", 100)[1]-level[1], 1e-3)
}

// levels is the level of the tank of a tunnel over time, above the reservoir's.
func levels(t *testing.T, n *network.Network, until float64) []float64 {
	r := started(t, Problem{Network: n, Until: until}, Settings{Liquid: true})
	tank := deviceOf[*device.SurgeTank](r, "tank")
	z := []float64{tank.Level() - 100}
	for r.step < int(math.Ceil(until/r.grid.dt)) {
		require.NoError(t, r.advance())
		z = append(z, tank.Level()-100)
	}
	return z
}

// A tank that widens as A = 80 + 4 z between -10 and 20 m, constant below; the energy of the column is that of the raised liquid (derived):
// L At V0^2/(2 g) = integral of A z dz, to each side the same.
func TestSurgeTankTapers(t *testing.T) {
	n := tunnel(0, network.SurgeTank{Areas: []network.LevelArea{{Level: -10, Area: 40}, {Level: 20, Area: 160}}, Overflow: 50, Bottom: -50})
	r, _ := surged(t, n, 450, Settings{})
	energy := 5000 * 10 * 9 / (2 * network.Gravity)
	// Upwards 40 z^2 + 4/3 z^3 to 20 m, then 80 z^2; downwards 40 y^2 - 4/3 y^3 to 10 m, then 20 y^2.
	up := math.Sqrt(400 + (energy-40*400-4.0/3*8000)/80)
	down := -math.Sqrt(100 + (energy-40*100+4.0/3*1000)/20)
	got := turns(r.Time, history(r, "end", 100))
	t.Log(up, down, got)
	require.InEpsilon(t, up, got[0].value, 5e-3)
	require.InEpsilon(t, down, got[1].value, 5e-3)
}

// Spilling holds the head at the crest zc above the reservoir: the column, at V1^2 = V0^2 - g As zc^2/(L At) when it gets there, slows down at the rate g zc/L
// and spills At V1^2 L/(2 g zc); then the level swings between zc and -zc (derived, rigid column). Running empty on the way down is the same thing upside down,
// with air taken in and driven out again, so that the energy stays: the next upsurge is the first one again.
func TestSurgeTankSpillsAndRunsEmpty(t *testing.T) {
	const limit = 15.0
	v1 := 9 - network.Gravity*100*limit*limit/(5000*10)
	want := 10 * v1 * 5000 / (2 * network.Gravity * limit)

	r, run := surged(t, tunnel(0, network.SurgeTank{Area: 100, Overflow: limit, Bottom: -50}), 900, Settings{})
	tank := deviceOf[*device.SurgeTank](run, "tank")
	t.Log(want, tank.Spilled(), turns(r.Time, history(r, "end", 100)), tank.Notes())
	require.InEpsilon(t, want, tank.Spilled(), 5e-3)
	z := history(r, "end", 100)
	for _, e := range turns(r.Time, z) {
		require.InEpsilon(t, limit, math.Abs(e.value), 5e-3)
	}
	require.Len(t, tank.Notes(), 1)
	require.Contains(t, tank.Notes()[0].String(), "spills from")

	r, run = surged(t, tunnel(0, network.SurgeTank{Area: 100, Overflow: 50, Bottom: -limit}), 800, Settings{})
	tank = deviceOf[*device.SurgeTank](run, "tank")
	got := turns(r.Time, history(r, "end", 100))
	t.Log(got, tank.Notes())
	require.InEpsilon(t, 21.4213, got[0].value, 5e-3)
	require.InDelta(t, -limit, got[1].value, 1e-9)
	require.InEpsilon(t, 21.4213, got[2].value, 5e-3)
	require.Len(t, tank.Notes(), 1)
	var at, air float64
	_, err := fmt.Sscanf(tank.Notes()[0].String(), "runs empty at %g s and lets %g m3", &at, &air)
	require.NoError(t, err)
	require.InEpsilon(t, want, air, 5e-3)
}

// cushion is a reservoir and a frictionless line of 1500 m and 0.4 m bore that ends at an air vessel of 4 m3 of gas under 45 m absolute, as in A8; at the start the
// reservoir's level rises by the given jump, m.
func cushion(a, exponent, jump float64) (n *network.Network, h float64) {
	f := testFluid()
	h = 45 - 101325/(f.Density*network.Gravity)
	return &network.Network{Fluid: f, Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Levels: []network.Level{{Time: 0, Head: h}, {Time: 0, Head: h + jump}}}},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", 1500, 0.4, a, 0)},
		Devices:    []network.Device{&network.AirVessel{Name: "vessel", Node: "end", Volume: 8, Gas: 4, Polytropic: exponent, Bore: 0.4}}}, h
}

// A8 for isothermal and adiabatic gas and at two small amplitudes: the first mode with c = Vg/(n H*), at the volume and head about which it swings.
func TestAirVesselExponent(t *testing.T) {
	require.InDelta(t, 59.909, firstMode(1000, 1500, math.Pi*0.04, 4/(1.2*45)), 1e-3) // as published with A8
	for _, exponent := range []float64{1, 1.2, 1.4} {
		for _, jump := range []float64{0.02, 0.2} {
			n, h := cushion(1000, exponent, jump)
			r, _ := surged(t, n, 400, Settings{Step: 0.05})
			down := falls(r.Time, history(r, "end", h+jump))
			require.GreaterOrEqual(t, len(down), 4)
			period := (down[len(down)-1] - down[0]) / float64(len(down)-1)
			gas := 4 * math.Pow(45/(45+jump), 1/exponent)
			want := firstMode(1000, 1500, math.Pi*0.04, gas/(exponent*(45+jump)))
			t.Logf("n %g, jump %g m: %.4f s, first mode %.4f s", exponent, jump, period, want)
			require.InEpsilon(t, want, period, 3e-3)
		}
	}
}

// A large swing: the rigid column and the polytropic gas give, by the energy of the column (derived),
//
//	L/(2 g A) Q^2 = integral from V to V0 of (h0 + jump - h(V)) dV,   h(V) = 45 m (V0/V)^n - patm/(rho g)
//
// the least gas volume where it is zero again, and the half period as the integral of dV/Q. The wave speed is high, to come near the rigid column.
func TestAirVesselLargeSwing(t *testing.T) {
	const exponent, jump, v0 = 1.2, 20.0, 4.0
	area := math.Pi * 0.04
	work := func(v float64) float64 { // of the head over the gas pressure, m4
		return (45+jump)*(v0-v) - 45*v0/(exponent-1)*(math.Pow(v0/v, exponent-1)-1)
	}
	lo, hi := 1.0, 3.9
	require.Negative(t, work(lo))
	require.Positive(t, work(hi))
	for range 100 {
		if mid := (lo + hi) / 2; work(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	least := hi
	half, parts := 0.0, 20000
	for i := range parts { // V = mean + half span * cos x takes the singularity off both ends
		x := math.Pi * (float64(i) + 0.5) / float64(parts)
		v := (v0+least)/2 + (v0-least)/2*math.Cos(x)
		half += (v0 - least) / 2 * math.Sin(x) / math.Sqrt(2*network.Gravity*area/1500*work(v)) * math.Pi / float64(parts)
	}
	n, h := cushion(4000, exponent, jump)
	r, run := surged(t, n, 4.2*half, Settings{Step: 0.01})
	got, most := deviceOf[*device.AirVessel](run, "vessel").Range()
	t.Logf("least gas %.5f m3, closed form %.5f; period %.4f s", got, least, 2*half)
	require.InEpsilon(t, least, got, 3e-3)
	require.InEpsilon(t, v0, most, 3e-3)
	top := turns(r.Time, history(r, "end", h+jump))
	down := falls(r.Time, history(r, "end", h+jump))
	require.Len(t, down, 2)
	t.Logf("period %.4f s, extremes %v", down[1]-down[0], top)
	require.InEpsilon(t, 2*half, down[1]-down[0], 3e-3)
	require.InEpsilon(t, 45*math.Pow(v0/least, exponent)-45-jump, top[1].value, 3e-3)
}

// A one-way tank at a dead end. The upstream level falls by dH at the start; a frictionless line would bring the dead end from H0 down to H0 - 2 dH at L/a, there to
// stay until 3 L/a. The tank feeds s, m3/s, against the wave: H = C + Z s, C = H0 - 2 dH, Z = a/(g A), and H = z - k s^2 with dz/dt = -s/At, so that
//
//	k s0^2 + Z s0 = z0 - C                            at t0 = L/a
//	2 k (s0 - s) + Z ln(s0/s) = (t - t0)/At           until 3 L/a
//
// (derived; the line is elastic and Courant's number 1). When the level upstream is restored the head comes back and the tank takes nothing in.
func TestOneWayTank(t *testing.T) {
	const l, a, bore, h0, fall, z0, area, kc = 1000.0, 1000.0, 0.5, 60.0, 30.0, 40.0, 0.05, 2.5
	z := a / (network.Gravity * math.Pi / 4 * bore * bore)
	at := math.Pi / 4 * 0.2 * 0.2
	k := kc / (2 * network.Gravity * at * at)
	n := &network.Network{Fluid: testFluid(), Atmosphere: 101325,
		Reservoirs: []network.Reservoir{{Name: "up", Levels: []network.Level{{Time: 0, Head: h0}, {Time: 0, Head: h0 - fall}, {Time: 2.5, Head: h0 - fall}, {Time: 2.5, Head: h0 + fall}}}},
		DeadEnds:   []string{"end"},
		Pipes:      []network.Pipe{flatPipe("line", "up", "end", l, bore, a, 0)},
		Devices:    []network.Device{&network.OneWayTank{Name: "tank", Node: "end", Level: z0, Bottom: 30, Area: area, Bore: 0.2, LossOut: kc}}}
	r, run := surged(t, n, 10, Settings{Step: 0.005})
	tank := deviceOf[*device.OneWayTank](run, "tank")
	h := history(r, "end", 0)
	c := h0 - 2*fall
	s0 := (math.Sqrt(z*z+4*k*(z0-c)) - z) / (2 * k)
	for _, x := range []float64{1.01, 1.5, 2, 2.99} {
		s := (h[int(math.Round(x/r.Numerics.Step))] - c) / z
		require.Positive(t, s)
		// The wave sets out within the first step: half a step late.
		require.InEpsilon(t, (x-1-r.Numerics.Step/2)/area, 2*k*(s0-s)+z*math.Log(s0/s), 1e-3, "at %g s", x)
		t.Logf("t %.2f s: s %.6f m3/s (s0 %.6f), time from s %.5f s", x, s, s0, 1+area*(2*k*(s0-s)+z*math.Log(s0/s)))
	}
	require.InDelta(t, area*(z0-tank.Level()), tank.Fed(), 1e-12)
	require.Greater(t, h[len(h)-1], z0)
	require.Equal(t, fmt.Sprintf("[feeds the line from 1.005 s on, %.4g m3 in all]", tank.Fed()), fmt.Sprint(tank.Notes()))
	_, before := surged(t, n, 9, Settings{Step: 0.005})
	require.InDelta(t, deviceOf[*device.OneWayTank](before, "tank").Fed(), tank.Fed(), 1e-9, "nothing comes or goes in the last second")
}

// All units of a station trip and the summit of its main is fed by a tank or cushioned by a vessel; gas cavities form elsewhere, so that the run goes back to a
// checkpoint. What the device gave does not depend on the step.
func TestTanksAfterCheckpoint(t *testing.T) {
	for _, d := range []network.Device{
		&network.OneWayTank{Name: "tank", Node: "summit", Level: 146, Bottom: 142, Area: 4, Bore: 0.3, LossOut: 2.5},
		&network.SurgeTank{Name: "tank", Node: "summit", Area: 4, Overflow: 158, Bottom: 142, Bore: 0.3, LossIn: 1, LossOut: 1},
		&network.AirVessel{Name: "tank", Node: "summit", Level: 142, Volume: 6, Gas: 2, Area: 4, Polytropic: 1.2, Bore: 0.2, LossIn: 2, LossOut: 1},
	} {
		n := liftStation(t, 2)
		main := n.Pipes[0]
		up, down := main, main
		up.Name, up.To, up.Profile = "rising", "summit", []network.Point{{Elevation: 102}, {Chainage: 133, Elevation: 118}, {Chainage: 300, Elevation: 146}, {Chainage: 600, Elevation: 140}}
		down.Name, down.From, down.Profile = "falling", "summit", []network.Point{{Elevation: 140}, {Chainage: 300, Elevation: 149}, {Chainage: 1500, Elevation: 140}}
		n.Pipes = []network.Pipe{up, down}
		n.Devices = []network.Device{d}
		var gave []float64
		for halvings := range 2 {
			p := tripOne(t, n, "nozzle", 10)
			p.Events[0].Units = 3
			r := started(t, p, Settings{Halvings: halvings})
			var given func() float64
			switch d := deviceOf[device.Device](r, "tank").(type) {
			case *device.OneWayTank:
				given = d.Fed
			case *device.SurgeTank:
				full := d.Level()
				given = func() float64 { return 4 * (full - d.Level()) }
			case *device.AirVessel:
				given = func() float64 { return d.Gas() - 2 }
			}
			require.NoError(t, r.finish(context.Background()))
			require.Positive(t, r.cavityAt, "%T", d)
			gave = append(gave, given())
			t.Logf("%T: step %.5f s, cavities from %.3f s, gave %.5f, %v", d, r.grid.dt, r.cavityAt, gave[halvings], deviceOf[device.Device](r, "tank").(interface{ Notes() []quantity.Sentence }).Notes())
		}
		require.Greater(t, gave[1], 0.1)
		require.InEpsilon(t, gave[1], gave[0], 0.01, "%T", d)
	}
}
