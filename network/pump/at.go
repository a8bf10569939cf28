package pump

import "math"

// At returns the head h, m, and the shaft torque t, N m, at flow q, m3/s, and
// speed w, rad/s, in any quadrant, with their derivatives: hq, hw by q and w, tq,
// tw likewise. All are finite for finite arguments and zero at q = w = 0.
// Derivatives on a kink are those of one side. It does not allocate.
func (p *Pump) At(q, w float64) (h, hq, hw, t, tq, tw float64) {
	v, alpha := q*p.perFlow, w*p.perSpeed
	x := math.Pi + math.Atan2(v, alpha)
	c := p.table.at(x)

	var hv, ha, tv, ta float64
	switch {
	case alpha > 0 && v < 0:
		h, hv, ha, t, tv, ta = p.back.apply(c, x).expand(v, alpha)
	case alpha > 0 && v > p.end*alpha:
		h, hv, ha, t, tv, ta = p.beyond.apply(c, x).expand(v, alpha)
	case alpha > 0:
		h, hv, ha, t, tv, ta = p.onCurve(c, v, alpha)
	default:
		h, hv, ha, t, tv, ta = c.expand(v, alpha)
	}
	H, T := p.Spec.Head, p.RatedTorque
	return H * h, H * hv * p.perFlow, H * ha * p.perSpeed,
		T * t, T * tv * p.perFlow, T * ta * p.perSpeed
}

// Head returns the head h, m, at flow q, m3/s, and speed w, rad/s, and its
// derivatives by q and w; see At.
func (p *Pump) Head(q, w float64) (h, hq, hw float64) {
	h, hq, hw, _, _, _ = p.At(q, w)
	return h, hq, hw
}

// Torque returns the shaft torque t, N m, at flow q, m3/s, and speed w, rad/s,
// and its derivatives by q and w; see At. It is positive where the shaft drives
// the liquid forwards.
func (p *Pump) Torque(q, w float64) (t, tq, tw float64) {
	_, _, _, t, tq, tw = p.At(q, w)
	return t, tq, tw
}

// onCurve applies the affinity laws to the curve and the torque ratio:
// h = alpha^2 C(s), beta = r(s) R^2 WB(x), s = v/alpha.
func (p *Pump) onCurve(c coefficients, v, alpha float64) (h, hv, ha, t, tv, ta float64) {
	s := v / alpha
	C, dC := p.head.at(s)
	h = alpha * alpha * C
	hv = alpha * dC
	ha = alpha*2*C - v*dC

	_, _, _, b, bv, ba := c.expand(v, alpha)
	r, dr := p.ratio.at(s)
	g := alpha * (1 + s*s) * c.wb * dr // R^2 WB dr/ds ds/dv
	return h, hv, ha, r * b, r*bv + g, r*ba - g*s
}

// coefficients are WH and WB at one angle with their slopes by x.
type coefficients struct{ wh, dwh, wb, dwb float64 }

// expand returns h = R^2 WH and beta = R^2 WB, R^2 = alpha^2 + v^2, with their
// derivatives by v and alpha. As R^2 dx/dv = alpha and R^2 dx/dalpha = -v, nothing
// is divided and the origin is regular.
func (c coefficients) expand(v, alpha float64) (h, hv, ha, b, bv, ba float64) {
	R2 := alpha*alpha + v*v
	return R2 * c.wh, 2*v*c.wh + alpha*c.dwh, 2*alpha*c.wh - v*c.dwh,
		R2 * c.wb, 2*v*c.wb + alpha*c.dwb, 2*alpha*c.wb - v*c.dwb
}

// joint is a correction of head and of torque.
type joint struct{ head, torque ramp }

// apply corrects c at the angle x.
func (j *joint) apply(c coefficients, x float64) coefficients {
	wh, dwh := j.head.apply(c.wh, c.dwh, x)
	wb, dwb := j.torque.apply(c.wb, c.dwb, x)
	return coefficients{wh, dwh, wb, dwb}
}

// ramp turns W into f W + o with f = f0 + df (x-x0) and o = o0 + do (x-x0).
type ramp struct{ x0, f0, df, o0, do float64 }

// apply returns the corrected value and its slope by x.
func (r *ramp) apply(w, dw, x float64) (float64, float64) {
	u := x - r.x0
	f := r.f0 + r.df*u
	return f*w + r.o0 + r.do*u, f*dw + r.df*w + r.do
}

// plain is the joint that changes nothing.
var plain = joint{ramp{f0: 1}, ramp{f0: 1}}
