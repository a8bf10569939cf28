package kernel

import "math"

// Weighting is unsteady wall friction by convolution. The shear of the wall lags behind the mean flow, and the loss per length is the steady
// one and, with nu the kinematic viscosity, m2/s, D the bore, m, A its area, m2, g, m/s2, t and u times, s,
//
//	h_u = 16 nu/(g D^2 A) integral from 0 to t of dQ/du W(t - u) du,   tau = 4 nu t/D^2
//
// W is the weighting function of the dimensionless time tau. Over a reach of the grid, dx = a dt and B = a/(g A), with the flow linear in time
// over a step, the loss is
//
//	K sum over j >= 0 of w_j (Q_(n-j) - Q_(n-j-1)),   K = 4 B dtau,   w_j = mean of W over [j dtau, (j+1) dtau]
//
// w_0 is exact, W's singularity included; the others are a sum of exponentials b_k e_k^j (see exponentials), so that a node remembers its past
// in a few numbers. The history starts with the state at which the line was given its friction, taken as steady.
type Weighting struct {
	rate   float64 // of tau, 4 nu/D^2, 1/s
	linear float64 // Poiseuille's loss of a reach in B dtau Q: 8 in laminar flow, 0 when the steady loss stays the line's own
	scale  float64 // A of W = A/sqrt(tau), tau -> 0
	slow   float64 // lowest exponent: W falls as exp(-slow tau)
	at     func(tau float64) float64
	area   func(from, to float64) float64 // integral of W; nil: W = 0
}

// At is W at the dimensionless time tau = 4 nu t/D^2 > 0.
func (w Weighting) At(tau float64) float64 {
	if w.at == nil {
		return 0
	}
	return w.at(tau)
}

// Poiseuille is the quasi-steady friction of laminar flow, which is linear: 32 nu/(g D^2 A) Q a length. nu is in m2/s, d in m.
func Poiseuille(nu, d float64) Weighting {
	return Weighting{rate: 4 * nu / (d * d), linear: 8}
}

// Zielke is the unsteady friction of laminar flow. nu is in m2/s, d in m. W is the sum of exp(-j^2 tau) over the zeros j of the Bessel
// function J2, and for small tau
//
//	W = sum over i = 1..6 of m_i tau^((i-2)/2),   m = 0.282095, -1.25, 1.057855, 0.9375, 0.396696, -0.351563
//
// (the irrational ones are 1/2, 15/8 and 45/64 over sqrt(pi)). Here the series serves below tau = 0.01 and ten exact zeros above: both are within
// 0.001 % of W there. The integral of W from 0 is 1/12.
//
// Source: W. Zielke, Frequency-dependent friction in transient pipe flow, J. Basic Eng. 90 (1968) 109-115, from memory; the zeros and the
// place of the change are calculated here.
func Zielke(nu, d float64) Weighting {
	return Weighting{rate: 4 * nu / (d * d), linear: 8, scale: zielkeSeries[0], slow: zielkeExponents[0], at: zielke, area: zielkeArea}
}

var (
	zielkeSeries    = [6]float64{1 / (2 * rootPi), -5.0 / 4, 15 / (8 * rootPi), 15.0 / 16, 45 / (64 * rootPi), -45.0 / 128}
	zielkeExponents = squaredZeros()
)

const (
	zielkeChange = 0.01
	rootPi       = math.SqrtPi
)

// squaredZeros are the squares of the first ten zeros of J2, by Newton's method from McMahon's expansion.
func squaredZeros() (n [10]float64) {
	for i := range n {
		b := (float64(i) + 1.75) * math.Pi
		x := b - 15/(8*b)
		for range 20 {
			j2 := math.Jn(2, x)
			x -= j2 / (math.J1(x) - 2*j2/x)
		}
		n[i] = x * x
	}
	return n
}

func zielke(tau float64) float64 {
	s := 0.0
	if tau >= zielkeChange {
		for _, n := range zielkeExponents {
			s += math.Exp(-n * tau)
		}
		return s
	}
	r := math.Sqrt(tau)
	x := 1 / r
	for _, m := range zielkeSeries {
		s += m * x
		x *= r
	}
	return s
}

func zielkeArea(from, to float64) float64 {
	if from < zielkeChange && to > zielkeChange {
		return zielkeArea(from, zielkeChange) + zielkeArea(zielkeChange, to)
	}
	s := 0.0
	if from >= zielkeChange {
		for _, n := range zielkeExponents {
			s += math.Exp(-n*from) * -math.Expm1(-n*(to-from)) / n
		}
		return s
	}
	for i, m := range zielkeSeries {
		e := float64(i+1) / 2
		s += m / e * (math.Pow(to, e) - math.Pow(from, e))
	}
	return s
}

// VardyBrown is the unsteady friction of turbulent flow in a smooth pipe at the Reynolds number re of the flow at the start, which is kept:
//
//	W = A exp(-B tau)/sqrt(tau),   A = 1/(2 sqrt(pi)),   B = re^kappa/12.86,   kappa = log10(15.29/re^0.0567)
//
// for re from 2000 to 1e8. nu is in m2/s, d in m.
//
// Source: A. E. Vardy, J. M. B. Brown, Transient turbulent friction in smooth pipe flows, J. Sound Vib. 259 (2003) 1011-1036, from memory.
func VardyBrown(nu, d, re float64) Weighting {
	return damped(nu, d, 1/(2*math.Sqrt(math.Pi)), smoothDecay(re))
}

func smoothDecay(re float64) float64 {
	return math.Pow(re, math.Log10(15.29/math.Pow(re, 0.0567))) / 12.86
}

// VardyBrownRough is the unsteady friction of fully rough turbulent flow; rough is the roughness over the bore, from 1e-6 to 1e-2:
//
//	W = A exp(-B tau)/sqrt(tau),   A = 0.0103 re^0.5 rough^0.39,   B = 0.352 re rough^0.41
//
// Source: A. E. Vardy, J. M. B. Brown, Transient turbulent friction in fully rough pipe flows, J. Sound Vib. 270 (2004) 233-257, from memory.
func VardyBrownRough(nu, d, re, rough float64) Weighting {
	return damped(nu, d, 0.0103*math.Sqrt(re)*math.Pow(rough, 0.39), 0.352*re*math.Pow(rough, 0.41))
}

// damped is W = a exp(-b tau)/sqrt(tau), of which the integral from 0 is a sqrt(pi/b) erf(sqrt(b tau)).
func damped(nu, d, a, b float64) Weighting {
	return Weighting{rate: 4 * nu / (d * d), scale: a, slow: b,
		at: func(tau float64) float64 { return a * math.Exp(-b*tau) / math.Sqrt(tau) },
		area: func(from, to float64) float64 {
			x, y := math.Sqrt(b*from), math.Sqrt(b*to)
			if x < 0.5 {
				return a * math.Sqrt(math.Pi/b) * (math.Erf(y) - math.Erf(x))
			}
			return a * math.Sqrt(math.Pi/b) * (math.Erfc(x) - math.Erfc(y))
		}}
}

// Acceleration is unsteady wall friction by the instantaneous acceleration, with the coefficient k:
//
//	h_u = k/(g A) (dQ/dt + a sign(Q) |dQ/dx|)
//
// By continuity a |dQ/dx| = |dH/dt|/B, so that over a reach
//
//	d_u = k B (Q' - Q) + k sign(Q') |H' - H|
//
// which a node knows from itself alone; sign(0) is any value from -1 to 1. A wave that quickens the flow travels at a/(1 + k), one that slows it
// at a. The ends of a line take the first term only: the term left out is of order dt. Some authors' k is twice this one.
//
// Source: A. Bergant, A. R. Simpson, J. Vitkovsky, Developments in unsteady pipe flow friction modelling, J. Hydraul. Res. 39 (2001) 249-257,
// from memory; the form in H' - H is worked out here.
type Acceleration float64

// AccelerationAt is the acceleration coefficient k = sqrt(C)/2 from the shear decay coefficient C at a Reynolds number: LaminarDecay below 2000,
// ShearDecay above.
func AccelerationAt(re float64) Acceleration {
	c := LaminarDecay
	if re >= 2000 {
		c = ShearDecay(re)
	}
	return Acceleration(math.Sqrt(c) / 2)
}

// LaminarDecay is the shear decay coefficient of laminar flow.
const LaminarDecay = 0.00476

// ShearDecay is the shear decay coefficient of turbulent flow in a smooth pipe, 7.41/re^log10(14.3/re^0.05).
//
// Source: A. E. Vardy, J. M. B. Brown, On turbulent, unsteady, smooth-pipe friction, 7th Int. Conf. on Pressure Surges, 1996, from memory.
func ShearDecay(re float64) float64 {
	return 7.41 / math.Pow(re, math.Log10(14.3/math.Pow(re, 0.05)))
}
