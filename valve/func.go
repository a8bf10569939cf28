package valve

import "math"

// Func is a function of the position y of the disc with its derivative. It is finite for every finite y, also outside the travel,
// and allocates nothing.
type Func interface {
	At(y float64) (f, df float64)
}

// Constant has the same value everywhere.
type Constant float64

// At returns the constant.
func (c Constant) At(float64) (f, df float64) { return float64(c), 0 }

// Sine is Amplitude sin(y + Phase): the moment of a weight on a lever.
type Sine struct {
	Amplitude float64
	Phase     float64 // rad
}

// At returns the sine and its derivative.
func (s Sine) At(y float64) (f, df float64) {
	sin, cos := math.Sincos(y + s.Phase)
	return s.Amplitude * sin, s.Amplitude * cos
}

// Polynomial holds coefficients, constant term first.
type Polynomial []float64

// At evaluates the polynomial by Horner's rule.
func (p Polynomial) At(y float64) (f, df float64) {
	for i := len(p) - 1; i >= 0; i-- {
		df = df*y + f
		f = f*y + p[i]
	}
	return f, df
}

// Through is Outer at the value of Inner.
type Through struct {
	Outer, Inner Func
}

// At returns the value and its derivative in y.
func (t Through) At(y float64) (f, df float64) {
	u, du := t.Inner.At(y)
	f, df = t.Outer.At(u)
	return f, df * du
}
