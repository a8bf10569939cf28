//go:build !purego

package kernel

import "golang.org/x/sys/cpu"

func fastest() form {
	if cpu.X86.HasAVX2 && cpu.X86.HasFMA {
		return form{"AVX2", (*Line).vector}
	}
	return scalar
}

// vector is scalar four nodes at a time.
func (l *Line) vector(p, m []float64) {
	if len(p) == 0 {
		return
	}
	var c coefficients
	c.set(l)
	if advance(&p[0], &m[0], &l.max[1], &l.min[1], &l.maxAt[1], &l.minAt[1], &l.warn[1], len(p), l.steps, &c) {
		l.Low = true
	}
}

// coefficients are those of the series in |s|, d = s |s| (k0 - |s| (k1 - |s| (k2 - ...))), and the largest |s| at which it serves, m.
type coefficients struct {
	k    [5]float64
	most float64
}

// set fills them in place: a copy would wait for its unfinished stores.
func (c *coefficients) set(l *Line) {
	k := l.R / (4 * l.B * l.B)
	k2 := k * k
	c.k[0] = e0 * k
	c.k[1] = e1 * k2
	c.k[2] = e2 * (k2 * k)
	c.k[3] = e3 * (k2 * k2)
	c.k[4] = e4 * (k2 * k2 * k)
	c.most = series * 4 * l.B * l.B / l.R
}

// advance steps n > 0 inner nodes and tells whether a new lowest head fell below the warning.
//
//go:noescape
func advance(p, m, max, min *float64, maxAt, minAt *int32, warn *float64, n int, step int32, c *coefficients) bool
