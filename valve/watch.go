package valve

import "math"

// Watch takes the deceleration of the flow while a run goes on. It begins when the velocity has fallen below
//
//	v_b = min(Begin, 0.98 times the greatest velocity since the valve opened)
//
// and ends when it is zero. With From above zero the deceleration is the mean slope from that velocity, which then is Begin:
//
//	a = (v_b - v)/T,   T the time since v_b
//
// and Through goes on with that slope through zero velocity, until the valve shuts: with the full-open velocity as Begin, at which a disc leaves its
// stop, it is the mean slope over the closing. What it will be in the end depends on when the valve shuts, and that on what it is: the velocity of
// the curve and the one that has been reached meet. Where neither is asked for, it is the tangent: the slope of the straight line
// through v(t) by least squares, over an age s = t_now - t up to T and with the weight exp(-4 s/Window). With tau = Window/4, E_k = (1/tau) ∫ (s/tau)^k exp(-s/tau) ds and J_k the same integral of v:
//
//	a = (E_0 J_1 - E_1 J_0)/(E_0 E_2 - E_1^2)/tau
//
// For a constant deceleration all are exact. For a parabola v(t) the weighted line has the slope of the line through the last Window with equal
// weights: with mean age 2 tau, E(s) = tau, the slopes of t^2 are -4 tau and -Window. The weights need no more memory than J_0, J_1 and T,
// and v is linear over a step, so that the integrals are exact. Derived for this program.
type Watch struct {
	Begin   float64 // m/s, > 0
	Window  float64 // s, > 0 for the tangent
	From    float64 // m/s; 0: the tangent
	Through bool    // the mean slope from Begin on until the valve shuts
}

// Memory is what a watch carries from one step to the next; a plain value, zero at the start.
type Memory struct {
	V    float64 // bore velocity at the end of the last step, m/s
	From float64 // v_b, m/s
	T    float64 // time since v_b, s
	J0   float64 // m/s
	J1   float64 // m/s
	A    float64 // deceleration taken when the flow reversed, or through that so far, m/s2; 0 before
	Back float64 // length of liquid that has flowed back since, m
	Lift float64 // greatest velocity since the valve opened over the full-open velocity, at most 1; see Measured
}

// slack is the share of the velocity by which it must have fallen for the fall to count: the noise of a steady flow does not.
const slack = 0.02

// begin is the velocity below which a fall counts that comes from v, m/s.
func (w Watch) begin(v float64) float64 { return math.Min(w.Begin, (1-slack)*v) }

// Steady is the memory of a flow that has always been v, m/s.
func (w Watch) Steady(v float64) Memory { return Memory{V: v, From: w.begin(v)} }

// Next is the memory after a step of h seconds that ends with the velocity v, m/s, linear over the step.
func (w Watch) Next(m Memory, h, v float64) Memory {
	switch {
	case m.V <= 0 && v <= 0: // reverse flow goes on
		m.Back -= h * (m.V + v) / 2
		return w.past(m, h, v)
	case m.V <= 0:
		return w.Steady(v)
	case v > 0:
		return w.fall(m, h, v)
	}
	forward := h * m.V / (m.V - v)
	m = w.fall(m, forward, 0)
	m.A = w.Deceleration(m)
	m.Back = -v * (h - forward) / 2
	return w.past(m, h-forward, v)
}

// past goes on in reverse flow for h seconds, to the velocity v.
func (w Watch) past(m Memory, h, v float64) Memory {
	m.V = v
	if w.Through && m.T > 0 {
		m.T += h
		m.A = (m.From - v) / m.T
	}
	return m
}

// chorded tells that the deceleration is a mean slope.
func (w Watch) chorded() bool { return w.From > 0 || w.Through }

// fall carries a forward flow on.
func (w Watch) fall(m Memory, h, v float64) Memory {
	m.From = math.Max(m.From, w.begin(v))
	if v >= m.From {
		return Memory{V: v, From: m.From}
	}
	before := m.V
	if before > m.From {
		h *= (m.From - v) / (before - v)
		before, m.T, m.J0, m.J1 = m.From, 0, 0, 0
	}
	m.V = v
	m.T += h
	if w.chorded() || !(h > 0) {
		return m
	}
	y := h / (w.Window / 4)
	e := math.Exp(-y)
	k0, k1, k2 := moments(y, e)
	slope := (before - v) / y
	m.J0, m.J1 = e*m.J0+v*k0+slope*k1, e*(m.J1+y*m.J0)+v*k1+slope*k2
	return m
}

// moments are E_0, E_1 and E_2 over an age up to x tau; e is exp(-x).
func moments(x, e float64) (e0, e1, e2 float64) {
	return 1 - e, 1 - e*(1+x), 2 - e*(2+x*(2+x))
}

// Deceleration is that taken at the reversal or, in forward flow, the one so far, m/s2; 0 before the fall.
func (w Watch) Deceleration(m Memory) float64 {
	if m.V <= 0 && m.A > 0 || m.T == 0 {
		return m.A
	}
	chord := (m.From - math.Max(0, m.V)) / m.T
	tau := w.Window / 4
	// Of a fall shorter than a tenth of tau the line and its chord are the same but for rounding.
	if w.chorded() || m.T < 0.1*tau {
		return chord
	}
	x := m.T / tau
	e0, e1, e2 := moments(x, math.Exp(-x))
	return math.Max(0, (e0*m.J1-e1*m.J0)/(e0*e2-e1*e1)/tau)
}
