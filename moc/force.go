package moc

import (
	"math"

	"seatwise/moc/kernel"
	"seatwise/network"
	"seatwise/network/quantity"
)

// leg is a straight run of pipe between two ends x1 < x2 (bends, ends of the pipe), at the grid nodes next to them.
//
// What is meant by the force. The liquid pushes the pipe along the axis of the run in three places: with A p2 at the end x2, where it is turned aside or held
// up; with -A p1 at the end x1; and along the wall, which it drags with it, by the friction rho g A h. Its weight is part of none of them. The force of the
// liquid on the run, positive from x1 to x2, less what it is in steady flow, is their sum,
//
//	F = rho g A (H2 - H1 + h)
//
//	F    force, N                                h   friction head of the run, int R Q|Q| dx/dx0, m
//	rho  density, kg/m3                          R   resistance of a reach dx0, s2/m5, minor losses included
//	g    gravity, m/s2                           Q   flow, m3/s
//	A    bore area, m2                           p   pressure, rho g (H - z), Pa
//	H    head, m, H1 at x1 and H2 at x2          z   elevation, m
//
// The part rho g A (z1 - z2) of A (p2 - p1) is the weight of the liquid along the axis, the same at all times, and is left out with all else that holds in steady
// flow. The momentum of the liquid in the run changes by the same forces with the opposite sign,
//
//	rho d/dt int Q dx = A (p1 - p2) - rho g A h - rho g A (z2 - z1)      and so      F = -rho d/dt int Q dx:
//
// the force is the momentum that the liquid loses. In steady flow it is zero, friction or not, and so it is after the flow has come to rest; without h a line in
// which the flow has stopped would seem to be pushed for good. A wave front of velocity change dV gives F = rho a A dV while it is between x1
// and x2, l/a seconds, and so the impulse rho A l dV, with a the wave speed, m/s, and l = x2 - x1, m. On the grid the mean of F over a step is -rho d/dt of
// the trapezoidal sum of Q exactly, because the friction of the kernel is trapezoidal.
//
// The change of momentum flux rho (Q2^2 - Q1^2)/A is left out: across a front it is (V1 + V2)/a of F, below 1 % at 5 m/s and 1000 m/s, of the order
// of the terms that the equations of the pipe leave out too.
//
// What it is good for: the load that anchors and guides of the run must hold in total, where the pipe is stiff beside them, and the size of one candidate's load
// beside another's. What it is not: the load of each of several anchors; the response of pipe and supports, which for a front that comes at once and stays
// is up to twice the force (undamped oscillator of one degree of freedom under a step; textbook result, from memory); the push of the moving pipe on the liquid,
// and the strain that runs ahead in the wall (Poisson coupling), beyond what the restraint does to the wave speed. Friction is what the run
// takes, unsteady friction included. A cavity within the run is not looked at apart: the pressures at the ends still push as they do.
// Source: worked out here from the momentum balance.
type leg struct {
	line     *kernel.Line
	from, to int     // nodes
	stride   int     // reaches between the nodes at which friction is taken
	weight   float64 // rho g A, N/m
	rest     float64 // at the start, N: rounding
	pulse
}

// frictionNodes bounds the nodes of a pipe at which friction is taken at every step.
const frictionNodes = 512

// force is that on the pipe, N.
func (l *leg) force() float64 {
	h := l.line.Head(l.to) - l.line.Head(l.from)
	before := l.line.Loss(l.from)
	for i := l.from; i < l.to; {
		next := min(i+l.stride, l.to)
		after := l.line.Loss(next)
		h += float64(next-i) * (before + after) / 2
		i, before = next, after
	}
	return l.weight*h - l.rest
}

// pulse follows the peaks of a force and the impulse of the pulses that hold them. A pulse lasts until the force has changed its sign or fallen below
// a tenth of the pulse's own peak.
type pulse struct {
	max, min     float64 // N
	maxAt, minAt int     // steps
	maxImpulse   float64 // N s
	minImpulse   float64
	peak         float64 // of the present pulse so far, N
	impulse      float64
	highest      bool // the present pulse holds max
	lowest       bool
}

func (p *pulse) follow(f, dt float64, step int) {
	if f*p.peak < 0.1*p.peak*p.peak {
		p.peak, p.impulse, p.highest, p.lowest = 0, 0, false, false
	}
	if math.Abs(f) > math.Abs(p.peak) {
		p.peak = f
	}
	p.impulse += f * dt
	if f > p.max {
		p.max, p.maxAt, p.highest = f, step, true
	}
	if f < p.min {
		p.min, p.minAt, p.lowest = f, step, true
	}
	if p.highest {
		p.maxImpulse = p.impulse
	}
	if p.lowest {
		p.minImpulse = p.impulse
	}
}

// legs are the straight runs of the pipes that have bends, in the order of the network and then of the units, with what there is to say about bends the
// grid cannot tell apart.
func (r *run) legs() (legs []leg, traces []ForceTrace, warnings []quantity.Sentence) {
	for i := range r.m.pipes {
		c := &r.m.pipes[i]
		for _, ends := range network.Runs(c.length, c.bends) {
			from, to := EndNodes(ends, c.length, r.grid.reaches[i])
			if from == to {
				warnings = append(warnings, quantity.Say("%s: the straight run from %v to %v is shorter than a reach of %v; its force is not known", c.name,
					quantity.Of(ends[0], quantity.Length), quantity.Of(ends[1], quantity.Length), quantity.Of(c.length/float64(r.grid.reaches[i]), quantity.Length)))
				continue
			}
			l := leg{line: r.lines[i], from: from, to: to, stride: r.grid.reaches[i]/frictionNodes + 1, weight: r.m.gamma * c.area}
			l.rest = l.force()
			legs = append(legs, l)
			traces = append(traces, ForceTrace{Pipe: c.name, FromNode: r.m.nodes[c.from].name, ToNode: r.m.nodes[c.to].name, From: ends[0], To: ends[1], Area: c.area})
		}
	}
	return legs, traces, warnings
}

// EndNodes are the grid nodes nearest to the ends of a straight run, from and to in m, of a pipe of some length, m, and number of reaches; the node of chainage 0
// is 0. They are the same where the grid cannot tell the ends apart.
func EndNodes(run [2]float64, length float64, reaches int) (from, to int) {
	at := func(x float64) int { return int(math.Round(x / length * float64(reaches))) }
	return at(run[0]), at(run[1])
}

// tally completes the traces of the forces.
func (rec *recorder) tally(dt float64) []ForceTrace {
	for i, l := range rec.legs {
		t := &rec.forces[i]
		t.Max, t.Min, t.MaxTime, t.MinTime = l.max, l.min, float64(l.maxAt)*dt, float64(l.minAt)*dt
		t.MaxImpulse, t.MinImpulse = l.maxImpulse, l.minImpulse
	}
	return rec.forces
}
