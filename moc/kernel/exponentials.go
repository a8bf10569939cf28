package kernel

import "math"

// terms is the number of exponentials by which a node remembers its flow: a cache line of them.
const terms = 8

// longest is the number of steps over which the exponentials follow a weighting function that has not decayed before.
const longest = 1e5

// exponentials are b_k > 0 and 0 <= e_k < 1 such that the mean of W over [j step, (j+1) step] is nearly the sum of b_k e_k^j for all steps j >= 1 up to
// the decay of W to a thousandth of its A/sqrt(tau), or to longest; first >= 0 is what is missing at j = 0, where W is singular. The largest relative
// error is below 0.8 %, and below 0.2 % over fewer than 1e4 steps: a test holds both. Beyond the longest the sum falls short of W.
//
// The start is the integral over exponents of which W is made, by the trapezoidal rule in their logarithm; then Levenberg's and Marquardt's
// method on the logarithms of b and of the exponents, so that b stays positive, and with it the loss of energy of every term.
func exponentials(w Weighting, step float64) (e, b [terms]float64, first float64) {
	zero := w.area(0, step) / step
	far := math.Min(math.Max(math.Min(7/w.slow, longest*step), 4*step), 600/w.slow)
	if far < 2*step { // nothing is remembered from one step to the next
		return e, b, zero
	}
	f := newFit(w, step, far)
	f.run()
	sum := 0.0
	for k := range b {
		e[k], b[k] = math.Exp(-step*math.Exp(f.x[k])), math.Exp(f.x[terms+k])
		sum += b[k]
	}
	return e, b, math.Max(zero-sum, 0)
}

const samples = 8 * terms

// fit is a least-squares problem in x, the logarithms of the exponents and of the weights b; tau and w are the sampled times and means of W.
type fit struct {
	tau, w [samples]float64
	x      [2 * terms]float64
	a      [2 * terms][2 * terms]float64 // normal matrix
	g      [2 * terms]float64            // gradient
}

func newFit(w Weighting, step, far float64) *fit {
	f := &fit{}
	for i := range f.tau {
		t := step * math.Pow(far/step, float64(i)/(samples-1))
		f.tau[i], f.w[i] = t, w.area(t, t+step)/step
	}
	lo := math.Log(math.Max(w.slow/10, 0.3/far))
	h := (math.Log(2/step+w.slow) - lo) / (terms - 1)
	for k := range terms {
		s := math.Exp(lo + h*float64(k))
		n := w.slow + s
		f.x[k] = math.Log(n)
		f.x[terms+k] = math.Log(w.scale / math.Sqrt(math.Pi) * h * math.Sqrt(s) * -math.Expm1(-n*step) / (n * step))
	}
	return f
}

// misfit is half the sum of the squared relative errors at x.
func (f *fit) misfit(x *[2 * terms]float64) float64 {
	s := 0.0
	for i, t := range f.tau {
		r := -1.0
		for k := range terms {
			r += math.Exp(x[terms+k]-t*math.Exp(x[k])) / f.w[i]
		}
		s += r * r / 2
	}
	return s
}

// linearise fills normal matrix and gradient at x.
func (f *fit) linearise() {
	f.a, f.g = [2 * terms][2 * terms]float64{}, [2 * terms]float64{}
	var j [2 * terms]float64
	for i, t := range f.tau {
		r := -1.0
		for k := range terms {
			n := math.Exp(f.x[k])
			y := math.Exp(f.x[terms+k]-t*n) / f.w[i]
			j[k], j[terms+k] = -t*n*y, y
			r += y
		}
		for p := range j {
			f.g[p] += j[p] * r
			for q := range p + 1 {
				f.a[p][q] += j[p] * j[q]
			}
		}
	}
}

func (f *fit) run() {
	damp, was := 1e-2, f.misfit(&f.x)
	for range 80 {
		f.linearise()
		for {
			d := f.solve(damp)
			x := f.x
			for p := range x {
				x[p] -= math.Max(-1, math.Min(1, d[p]))
			}
			if now := f.misfit(&x); now < was {
				small := now > 0.999*was
				f.x, was = x, now
				damp /= 5
				if small {
					return
				}
				break
			}
			if damp *= 4; damp > 1e6 {
				return
			}
		}
	}
}

// solve is the step by Cholesky's factors of the damped normal matrix.
func (f *fit) solve(damp float64) (d [2 * terms]float64) {
	l := f.a
	for p := range l {
		l[p][p] += damp * (l[p][p] + 1e-12)
		for q := range p + 1 {
			s := l[p][q]
			for r := range q {
				s -= l[p][r] * l[q][r]
			}
			if q < p {
				l[p][q] = s / l[q][q]
			} else {
				l[p][p] = math.Sqrt(math.Max(s, 1e-30))
			}
		}
	}
	for p := range d {
		s := f.g[p]
		for q := range p {
			s -= l[p][q] * d[q]
		}
		d[p] = s / l[p][p]
	}
	for p := len(d) - 1; p >= 0; p-- {
		s := d[p]
		for q := p + 1; q < len(d); q++ {
			s -= l[q][p] * d[q]
		}
		d[p] = s / l[p][p]
	}
	return d
}
