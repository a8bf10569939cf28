package verify

import (
	"context"
	"fmt"
	"math"
	"math/cmplx"

	"seatwise/network"
)

func creeping() []Case {
	const wave = "closed form, derived: kappa^2 = (w/a)^2 (1 + sum of C_k/(1 + i w tau_k)), C_k = rho a^2 (c1 D/e) J_k"
	return []Case{
		{"K1", System, "closed form, derived: volume A L rho g (h/K + (c1 D/e) times the convolution of J with dh/dt) of a line of steady draught, under a head that rises slowly", creptVolume},
		{"K2", System, wave + ", H(L)/H(0) = 1/cos(kappa L); line and creep of D. Covas and others, The dynamic effect of pipe-wall viscoelasticity in hydraulic transients, " +
			"J. Hydraul. Res. 42, 2004, and 43, 2005 (from memory)", swayed},
		{"K3", System, wave + ", first mode exp(s t), kappa L = pi/2, i w = s", creepingMode},
		{"K4", System, "limits: no creep, an elastic wall; creep much faster than the wave, an elastic wall of 1/E = J_0 + J, a^2 = a_0^2/(1 + C)", creepLimits},
	}
}

// shell is a plastic wall and its creep.
type shell struct {
	young   float64 // for sudden load, Pa
	stretch float64 // c1 D/e
	creep   []network.CreepElement
}

// plastic is a pipe of the rig with such a wall. The result is its wave speed, m/s.
func (r *rig) plastic(from, to string, length, bore float64, w shell) float64 {
	f := r.network.Fluid
	a := 1 / math.Sqrt(f.Density*(1/f.BulkModulus+w.stretch/w.young))
	r.pipe(from, to, length, bore, a, frictionless)
	r.network.Pipes[len(r.network.Pipes)-1].Creep = network.Creep{Elements: w.creep, Stretch: w.stretch}
	return a
}

// creptVolume lets the head at one end of a line rise by 40 m in about 2 s: in thirty whole periods 4 L/a, after which the waves of the rise are spent.
func creptVolume(ctx context.Context) ([]Check, error) {
	const length, bore, from, to, begin, drawn = 5.0, 0.16, 20.0, 60.0, 1.0, 1e-3
	w := shell{1.2e9, 9.5, []network.CreepElement{{Compliance: 2e-10, Time: 0.3}, {Compliance: 3e-10, Time: 6}}}
	r := newRig(40, 10)
	r.meter("tank", "in", bore)
	over := 30 * 4 * length / r.plastic("in", "end", length, bore, w)
	r.falling("tank", network.Level{Time: begin, Head: from}, network.Level{Time: begin + over, Head: to})
	r.network.Demands = []network.Demand{{Node: "end", Flow: drawn}} // for the steady flow's sake
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	f := r.network.Fluid
	taken, last := 0.0, 0.0
	times := []float64{4, 10, 40}
	var checks []Check
	for i, v := range t.velocity() {
		q := v*area(bore) - drawn
		taken += t.Numerics.Step * (last + q) / 2
		if last = q; len(times) == 0 || t.Time[i] < times[0]-t.Numerics.Step/2 {
			continue
		}
		since := t.Time[i] - begin
		strain := 1/f.BulkModulus + w.stretch/w.young
		for _, e := range w.creep {
			strain += w.stretch * e.Compliance * (1 - e.Time/over*math.Exp(-since/e.Time)*(math.Exp(over/e.Time)-1))
		}
		want := area(bore) * length * f.Density * r.network.G() * (to - from) * strain
		checks = append(checks, ratio(fmt.Sprintf("volume that the line has taken in %.3g s after the rise begins", since), "m3", want, taken, 1e-3))
		times = times[1:]
	}
	return checks, nil
}

// swayed lets the head at one end go up and down for ever and compares the other, which is shut.
func swayed(ctx context.Context) ([]Check, error) {
	const length, bore, thickness, head = 277.0, 0.0506, 0.0063, 45.0
	w := shell{stretch: 1.064 * bore / thickness, creep: []network.CreepElement{
		{Compliance: 1.057e-10, Time: 0.05}, {Compliance: 1.054e-10, Time: 0.5}, {Compliance: 0.9051e-10, Time: 1.5}, {Compliance: 0.2617e-10, Time: 5}, {Compliance: 0.7456e-10, Time: 10}}}
	var checks []Check
	for _, c := range []struct {
		words string
		steps int // in a swing
	}{{"4 times", 640}, {"1.25 times", 200}, {"a third of", 54}} {
		const n, until = 40, 160.0
		r := newRig(until, n)
		w.young = w.stretch / (1/(r.network.Fluid.Density*395*395) - 1/r.network.Fluid.BulkModulus)
		a := math.Sqrt(1 / (r.network.Fluid.Density * (1/r.network.Fluid.BulkModulus + w.stretch/w.young)))
		dt := length / a / n
		omega := 2 * math.Pi / (float64(c.steps) * dt)
		var levels []network.Level
		for k := 0; float64(k)*dt < until+dt; k++ {
			levels = append(levels, network.Level{Time: float64(k) * dt, Head: head + math.Sin(omega*float64(k)*dt)})
		}
		r.falling("tank", levels...)
		r.plastic("tank", "end", length, bore, w)
		t, err := r.run(ctx)
		if err != nil {
			return nil, err
		}
		h := t.head("end")
		got := complex(0, 0)
		for k := len(h) - c.steps; k < len(h); k++ {
			got += cmplx.Rect(2/float64(c.steps)*(h[k]-head), -omega*t.Time[k]) * 1i
		}
		sum := complex(1, 0)
		for _, e := range w.creep {
			sum += complex(r.network.Fluid.Density*a*a*w.stretch*e.Compliance, 0) / complex(1, omega*e.Time)
		}
		want := 1 / cmplx.Cos(complex(omega*length/a, 0)*cmplx.Sqrt(sum))
		at := " at the shut end, a swing in " + c.words + " 4 L/a"
		checks = append(checks, ratio("height of the swings over that of the source"+at, "1", cmplx.Abs(want), cmplx.Abs(got), 5e-3),
			within("phase over that of the source"+at, "rad", cmplx.Phase(want), cmplx.Phase(got), 5e-3))
	}
	return checks, nil
}

// creepingMode stops the flow at once and waits until the higher modes have died away.
func creepingMode(ctx context.Context) ([]Check, error) {
	const length, bore, head, quiet, until = 100.0, 0.1, 60.0, 15.0, 25.0
	w := shell{1.2e9, 9.5, []network.CreepElement{{Compliance: 1.5e-10, Time: 0.05}}}
	r := newRig(until, 100)
	r.reservoir("up", head)
	a := r.plastic("up", "end", length, bore, w)
	r.reservoir("down", 0)
	r.gate("end", "down", bore, 0.5, head, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	decay, turning, err := ringing(t.head("end")[int(quiet/t.Numerics.Step):], t.Numerics.Step)
	if err != nil {
		return nil, err
	}
	e := w.creep[0]
	c := complex(r.network.Fluid.Density*a*a*w.stretch*e.Compliance, 0)
	w0 := math.Pi / 2 * a / length
	f := func(s complex128) complex128 { return s*s*(1+c/(1+s*complex(e.Time, 0))) + complex(w0*w0, 0) }
	s := complex(-0.1, w0)
	for range 30 {
		d := s * 1e-6
		s -= f(s) * d / (f(s+d) - f(s))
	}
	return []Check{
		ratio("decay of the first mode", "1/s", -real(s), decay, 5e-3),
		ratio("frequency of the first mode", "rad/s", imag(s), turning, 5e-4),
	}, nil
}

// creepLimits shuts a gate smoothly in about a period 4 L/a of the wave.
func creepLimits(ctx context.Context) ([]Check, error) {
	const length, bore, head, v, over, until = 100.0, 0.1, 60.0, 0.5, 1.2, 6.0
	shut := func(young float64, creep ...network.CreepElement) (trace, []float64, error) {
		r := newRig(until, 200)
		r.reservoir("up", head)
		r.plastic("up", "end", length, bore, shell{young, 9.5, creep})
		r.reservoir("down", 0)
		var closing []network.Opening
		for k := range 101 {
			x := float64(k) / 100
			closing = append(closing, network.Opening{Time: x * over, Fraction: (1 + math.Cos(math.Pi*x)) / 2})
		}
		r.gate("end", "down", bore, v, head, closing...)
		t, err := r.run(ctx)
		if err != nil {
			return t, nil, err
		}
		return t, t.head("end"), nil
	}
	const young, j = 1.2e9, 2e-10
	_, elastic, err := shut(young)
	if err != nil {
		return nil, err
	}
	_, none, err := shut(young, network.CreepElement{Compliance: 1e-30, Time: 0.1}, network.CreepElement{Compliance: 1e-30, Time: 1})
	if err != nil {
		return nil, err
	}
	fast, crept, err := shut(young, network.CreepElement{Compliance: j, Time: 1e-4})
	if err != nil {
		return nil, err
	}
	soft, slow, err := shut(1 / (1/young + j))
	if err != nil {
		return nil, err
	}
	most, rise, apart := 0.0, 0.0, 0.0
	for i := range elastic {
		most = math.Max(most, math.Abs(none[i]-elastic[i]))
	}
	for i, t := range fast.Time[:len(fast.Time)-2] {
		h := soft.linear(slow, t)
		rise = math.Max(rise, h-head)
		apart = math.Max(apart, math.Abs(crept[i]-h))
	}
	return []Check{
		within("greatest difference of the head at the gate from that of an elastic wall, compliance 1e-30 1/Pa", "m", 0, most, 1e-9),
		within("the same, retardation time 0.1 ms, from that of the softer elastic wall, over its highest rise", "1", 0, apart/rise, 0.01),
	}, nil
}

// linear is the value of a history between steps.
func (t trace) linear(series []float64, time float64) float64 {
	x := time / t.Numerics.Step
	i := min(int(x), len(series)-2)
	return series[i] + (x-float64(i))*(series[i+1]-series[i])
}
