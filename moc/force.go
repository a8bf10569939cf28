package moc

import (
	"fmt"
	"math"
	"slices"

	"seatwise/moc/kernel"
)

// leg is a straight run of pipe between two marks (bends, anchors, ends of the pipe), at the grid nodes next to them.
//
// The liquid pushes on the bend at x2 with A p2, on the one at x1 with -A p1, and drags the wall along by friction. With the momentum of the
// liquid between them,
//
//	rho d/dt int Q dx = A (p1 - p2) - friction - weight along the axis,
//
// the force of the liquid on this run of pipe along its axis, positive from x1 to x2, less what it is in steady flow (the weight alone), is
//
//	F = rho g A (H2 - H1 + h) = -rho d/dt int Q dx,   h = int R Q|Q| dx/dx0
//
// with p = rho g (H - z), Pa, A the bore area, m2, H the head, m, h the friction head of the run, m, R the resistance of a reach dx0. Without h a line in
// which the flow has stopped would seem to be pushed for good. A wave front of velocity change dV gives F = rho a A dV while it is between x1 and x2,
// l/a seconds, and so the impulse rho A l dV, the momentum lost. On the grid the mean of F over a step is -rho d/dt of the trapezoidal sum of
// Q exactly, because the friction of the kernel is trapezoidal.
//
// The change of momentum flux rho (Q2^2 - Q1^2)/A is left out: across a front it is (V1 + V2)/a of F, below 1 % at 5 m/s and 1000 m/s, of the order
// of the terms that the equations of the pipe leave out too. Assumptions: the pipe does not move, friction is quasi-steady, and no large cavity
// parts the liquid of the run. Source: worked out
// here from the momentum balance.
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

// legs are the straight runs of the pipes that have marks, in the order of the network, with what there is to say about marks the grid cannot tell
// apart.
func (r *run) legs() (legs []leg, traces []ForceTrace, warnings []string) {
	for i, p := range r.m.net.Pipes { // the first pipes of the model are those of the network
		if len(p.Bends) == 0 {
			continue
		}
		c, n := &r.m.pipes[i], r.grid.reaches[i]
		marks := []float64{0, c.length}
		for _, x := range p.Bends {
			if x > 0 && x < c.length {
				marks = append(marks, x)
			}
		}
		slices.Sort(marks)
		marks = slices.Compact(marks)
		reach := c.length / float64(n)
		for k, x := range marks[1:] {
			from, to := int(math.Round(marks[k]/reach)), int(math.Round(x/reach))
			if from == to {
				warnings = append(warnings, fmt.Sprintf("%s: the straight run from %.4g m to %.4g m is shorter than a reach of %.3g m; its force is not known", p.Name, marks[k], x, reach))
				continue
			}
			l := leg{line: r.lines[i], from: from, to: to, stride: n/frictionNodes + 1, weight: r.m.gamma * c.area}
			l.rest = l.force()
			legs = append(legs, l)
			traces = append(traces, ForceTrace{Pipe: p.Name, From: float64(from) * reach, To: float64(to) * reach})
		}
	}
	return legs, traces, warnings
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
