package moc

import (
	"math"

	"seatwise/moc/kernel"
)

// Friction is how the wall of the pipes resists unsteady flow.
type Friction uint8

const (
	QuasiSteady Friction = iota // as in steady flow at the same velocity
	Weighted                    // with the memory of past accelerations: Zielke where the steady flow is laminar, Vardy and Brown where it is turbulent
	Accelerated                 // with the instantaneous acceleration, by the shear-decay coefficient
)

var frictionWords = [...]string{"quasi-steady", "weighted", "accelerated"}

// String is the word for the form in a case file.
func (f Friction) String() string { return frictionWords[f] }

// Frictions are all forms, in order.
func Frictions() []Friction { return []Friction{QuasiSteady, Weighted, Accelerated} }

// laminarReynolds is the Reynolds number up to which a steady flow is taken as laminar. A pipe at rest is taken at 1 m/s, as for its Darcy factor.
const laminarReynolds = 2000

// unsteady is the unsteady friction of a pipe with the steady flow q, m3/s; nil for none. The column that stands for the liquid in pump and suction has no wall.
func (c *conduit) unsteady(f Friction, q, nu float64) kernel.Friction {
	if f == QuasiSteady || c.column {
		return nil
	}
	v := math.Max(math.Abs(q)/c.area, c.trickle(nu))
	if math.Abs(q) < 1e-6*c.area {
		v = 1
	}
	re := v * c.bore / nu
	if f == Accelerated {
		return kernel.AccelerationAt(re)
	}
	if re < laminarReynolds {
		return kernel.Zielke(nu, c.bore)
	}
	return kernel.VardyBrown(nu, c.bore, re)
}
