package moc

import "math"

// solveSmall solves A x = b for a dense n by n matrix, row by row in a, by Gaussian elimination with scaled partial pivoting, in place:
// b becomes x, a is destroyed. It reports false for a singular matrix. It is here, and not gonum's, because it must not allocate.
func solveSmall(a, b []float64, n int) bool {
	for r := range n {
		big := 0.0
		for _, v := range a[r*n : r*n+n] {
			big = math.Max(big, math.Abs(v))
		}
		if !(big > 0) {
			return false
		}
		inv := 1 / big
		for c := range n {
			a[r*n+c] *= inv
		}
		b[r] *= inv
	}
	for k := range n {
		p, big := k, math.Abs(a[k*n+k])
		for r := k + 1; r < n; r++ {
			if v := math.Abs(a[r*n+k]); v > big {
				p, big = r, v
			}
		}
		if !(big > 0) {
			return false
		}
		if p != k {
			for c := k; c < n; c++ {
				a[k*n+c], a[p*n+c] = a[p*n+c], a[k*n+c]
			}
			b[k], b[p] = b[p], b[k]
		}
		for r := k + 1; r < n; r++ {
			f := a[r*n+k] / a[k*n+k]
			if f == 0 {
				continue
			}
			for c := k + 1; c < n; c++ {
				a[r*n+c] -= f * a[k*n+c]
			}
			b[r] -= f * b[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for c := k + 1; c < n; c++ {
			b[k] -= a[k*n+c] * b[c]
		}
		b[k] /= a[k*n+k]
	}
	return true
}
