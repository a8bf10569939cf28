package valve

import "math"

// laminar is the default velocity, m/s, below which the loss law is linear.
const laminar = 1e-3

// phi is x sqrt(x^2 + l^2), the smooth form of x |x|, with its derivative, which is at least l.
func phi(x, l float64) (f, df float64) {
	root := math.Sqrt(x*x + l*l)
	return x * root, (2*x*x + l*l) / root
}

// phiInverse solves phi(x) = q and returns dx/dq too.
func phiInverse(q, l float64) (x, dx float64) {
	x = math.Sqrt2 * q / math.Sqrt(l*l+math.Hypot(l*l, 2*q))
	_, slope := phi(x, l)
	return x, 1 / slope
}
