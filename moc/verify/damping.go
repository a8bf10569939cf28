package verify

import (
	"context"
	"fmt"
	"math"
	"math/cmplx"

	"seatwise/moc"
	"seatwise/moc/kernel"
	"seatwise/network"
)

func damping() []Case {
	const line = "; line and oil of E. L. Holmboe, W. T. Rouleau, The effect of viscous shear on transients in liquid lines, J. Basic Eng. 89, 1967 (from memory)"
	return []Case{
		{"A12a", Solver, "closed form, derived: telegraph equation, first mode exp(-R t/2), R = 32 nu/D^2" + line, telegraph},
		{"A12b", System, "closed form, derived: first mode exp(s t) of laminar flow between cylinders of liquid, s^2 + w^2 (1 - 2 I1(x)/(x I0(x))) = 0, x = (D/2) sqrt(s/nu)" + line, viscous},
	}
}

const (
	oilLength    = 36.09    // m
	oilBore      = 0.0254   // m
	oilWaveSpeed = 1324.0   // m/s
	oilViscosity = 3.967e-5 // m2/s
	oilDensity   = 878.0    // kg/m3
	oilVelocity  = 0.128    // m/s
	oilFrequency = math.Pi / 2 * oilWaveSpeed / oilLength
)

// telegraph lets the first mode of a line of the kernel go from rest, shut on the right and with the head 0 on the left. Friction is
// Poiseuille's at every instant, which no setting of a run has: there the quasi-steady loss is quadratic.
func telegraph(context.Context) ([]Check, error) {
	const n, periods, gate = 100, 10, 5e-3
	l := kernel.NewLine(n, oilWaveSpeed/(network.Gravity*area(oilBore)), 0, oilLength/oilWaveSpeed/n, make([]float64, n+1), 0)
	h := make([]float64, n+1)
	for i := range h {
		h[i] = math.Sin(math.Pi / 2 * float64(i) / n)
	}
	l.Set(h, 0)
	l.Unsteady(kernel.Poiseuille(oilViscosity, oilBore))
	end := []float64{l.Right.H}
	for range 4 * n * periods {
		left, right := l.ArriveLeft(), l.ArriveRight()
		zl, zr := math.Abs(l.Left.Q), math.Abs(l.Right.Q)
		q := -left / l.Impedance(l.Left.Q)
		l.Interior()
		l.SetLeft(0, q, zl)
		l.SetRight(right, 0, zr)
		end = append(end, l.Right.H)
	}
	decay, turning, err := ringing(end, l.Dt)
	if err != nil {
		return nil, err
	}
	half := 16 * oilViscosity / (oilBore * oilBore)
	return []Check{
		ratio("decay of the first mode", "1/s", 0.98382, decay, gate),
		ratio("frequency of the first mode", "rad/s", math.Sqrt(oilFrequency*oilFrequency-half*half), turning, 5e-4),
		ratio("amplitude a period 4L/a later, mean of nine", "1", 0.89828, math.Pow(end[4*n*periods]/end[4*n], 1.0/(periods-1)), gate),
	}, nil
}

// viscous stops the flow of oil at once, with the friction of laminar flow that remembers, and waits until the higher modes have died away.
func viscous(ctx context.Context) ([]Check, error) {
	const head, quiet, until = 100.0, 3.0, 5.0
	r := newRig(until, 80)
	r.settings.Friction = moc.Weighted
	r.network.Fluid = liquid(oilDensity, 1.5e9)
	r.network.Fluid.Viscosity = oilViscosity * oilDensity
	r.reservoir("up", head)
	r.pipe("up", "end", oilLength, oilBore, oilWaveSpeed, 0) // the Darcy factor of the steady flow
	lost := 32 * oilViscosity * oilLength * oilVelocity / (r.network.G() * oilBore * oilBore)
	r.reservoir("down", 0)
	r.gate("end", "down", oilBore, oilVelocity, head-lost, slammed()...)
	t, err := r.run(ctx)
	if err != nil {
		return nil, err
	}
	h := t.head("end")
	decay, turning, err := ringing(h[int(quiet/t.Numerics.Step):], t.Numerics.Step)
	if err != nil {
		return nil, err
	}
	s := mode()
	return []Check{
		ratio("head lost in steady flow, Poiseuille", "m", lost, head-h[0], 1e-6),
		ratio("decay of the first mode", "1/s", -real(s), decay, 5e-3),
		ratio("frequency of the first mode", "rad/s", imag(s), turning, 5e-4),
	}, nil
}

// ringing is the decay, 1/s, and the angular frequency, rad/s, of a history by its second to last extremes, each the top of a parabola.
func ringing(h []float64, dt float64) (decay, turning float64, err error) {
	var time, value []float64
	for k := 1; k+1 < len(h); k++ {
		if (h[k]-h[k-1])*(h[k+1]-h[k]) < 0 {
			slope, bend := (h[k+1]-h[k-1])/2, h[k+1]-2*h[k]+h[k-1]
			time = append(time, (float64(k)-slope/bend)*dt)
			value = append(value, h[k]-slope*slope/(2*bend))
		}
	}
	if len(time) < 6 {
		return 0, 0, fmt.Errorf("the head does not ring")
	}
	i, j := 1, len(time)-2
	swing := func(k int) float64 { return math.Abs(value[k] - value[k+1]) }
	span := time[j] - time[i]
	return math.Log(swing(i)/swing(j)) / span, math.Pi * float64(j-i) / span, nil
}

// mode is the root s of s^2 + w^2 (1 - 2 I1(x)/(x I0(x))) = 0 next to w, by Newton's method with a difference quotient.
func mode() complex128 {
	f := func(s complex128) complex128 {
		x := oilBore / 2 * cmplx.Sqrt(s/oilViscosity)
		return s*s + oilFrequency*oilFrequency*(1-2*bessel(x)/x)
	}
	s := complex(-1, oilFrequency)
	for range 30 {
		d := s * 1e-6
		s -= f(s) * d / (f(s+d) - f(s))
	}
	return s
}

// bessel is I1(x)/I0(x) by their power series, for |x| below 25.
func bessel(x complex128) complex128 {
	i0, i1, a, b := complex(1, 0), complex(1, 0), complex(1, 0), complex(1, 0)
	for k := 1; k < 150; k++ {
		c := complex(float64(k), 0)
		a *= x * x / 4 / (c * c)
		b *= x * x / 4 / (c * (c + 1))
		i0, i1 = i0+a, i1+b
	}
	return i1 * x / 2 / i0
}
