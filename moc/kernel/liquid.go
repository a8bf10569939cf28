package kernel

import "math"

// liquid advances the inner nodes: p[i] is the wave arriving from upstream at inner node i+1, m[i] the one from downstream.
//
// With s = P - M the flow of B Q + R/2 Q|Q| = s/2 is
//
//	Q = s/(B + sqrt(B^2 + R|s|)) = s/(2B) c(u),   u = R|s|/(4 B^2),   c = 2/(1 + sqrt(1 + 4u)) = 1 - u + 2u^2 - 5u^3 + 14u^4 - ...
//
// Four terms of the series are exact to 2e-15 below u = 1e-4, which is nearly always, and need neither root nor division.
func (l *Line) liquid(p, m []float64) {
	n := len(p)
	m = m[:n]
	mx, mn := l.max[1:][:n], l.min[1:][:n]
	half, k, r := 1/(2*l.B), l.R/(4*l.B*l.B), l.R
	for i, up := range p {
		down := m[i]
		h, s := up+down, up-down
		u := k * s
		if u < 0 { // not math.Abs, which goes through the integer registers
			u = -u
		}
		c := 1 - u*(1-u*(2-5*u))
		if u > 1e-4 {
			c = 2 / (1 + math.Sqrt(1+4*u))
		}
		q := s * half * c
		d := r * q * q
		if s < 0 {
			d = -d
		}
		p[i] = up - d
		m[i] = down + d
		if h > mx[i] {
			mx[i], l.maxAt[i+1] = h, l.steps
		}
		if h < mn[i] {
			mn[i], l.minAt[i+1] = h, l.steps
			if h < l.warn[i+1] {
				l.Low = true
			}
		}
	}
}
