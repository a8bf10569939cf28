package valve

import (
	"fmt"
	"math"
)

// TestPoint is one result of a test of a valve at a constant deceleration of the flow.
type TestPoint struct {
	Deceleration    float64 // m/s2
	ReverseVelocity float64 // when it shut, m/s, positive backward; 0: it shut before the flow reversed
}

// Similar is the scale of a valve of the same geometry as the one tested. The motion of similar discs in the same liquid depends on
//
//	V_r/V_o = f(a D/V_o^2)
//
// alone: V_r the reverse velocity, a the deceleration, D the bore and V_o the full-open velocity, when mass goes as D^3 and the closing force on the
// seat as rho A V_o^2 (similarity of the equation of motion; the collapse of sizes of one geometry is reported by J. J. Koetzier,
// A. C. H. Kruisbrink, C. S. W. Lavooij, 1986, from memory). Size is D over that of the test, Velocity is V_o over that of the test.
type Similar struct {
	Size     float64
	Velocity float64
}

// ReverseCurve is the reverse velocity against the deceleration through test points. Between them it is monotone without overshoot (Table). Below the
// first it is proportional to the deceleration, which over-states: curves of discs begin later. Above the last it goes on by the steeper of the
// line from the origin and the line through the last two points.
type ReverseCurve struct {
	between     *Table
	first, last TestPoint
	beyond      float64 // slope above the last point, s
}

// NewReverseCurve scales test points to a similar valve. They come by rising deceleration, two or more, with a reverse velocity that does not fall.
func NewReverseCurve(points []TestPoint, s Similar) (*ReverseCurve, error) {
	if !(s.Size > 0 && s.Velocity > 0) || math.IsInf(s.Size, 0) || math.IsInf(s.Velocity, 0) {
		return nil, fmt.Errorf("%w: test points: scale %+v", ErrTable, s)
	}
	if len(points) < 2 {
		return nil, fmt.Errorf("%w: test points: two or more are needed", ErrTable)
	}
	a, v := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		switch {
		case !(p.Deceleration > 0) || math.IsInf(p.Deceleration, 0):
			return nil, fmt.Errorf("%w: test points, row %d: deceleration %g m/s2 must be above zero", ErrTable, i+1, p.Deceleration)
		case !(p.ReverseVelocity >= 0) || math.IsInf(p.ReverseVelocity, 0):
			return nil, fmt.Errorf("%w: test points, row %d: reverse velocity %g m/s: give it as a positive number, 0 where the valve shut in forward flow", ErrTable, i+1, p.ReverseVelocity)
		}
		a[i], v[i] = p.Deceleration*s.Velocity*s.Velocity/s.Size, p.ReverseVelocity*s.Velocity
		switch {
		case i > 0 && !(a[i] > a[i-1]):
			return nil, fmt.Errorf("%w: test points, row %d: deceleration %g m/s2 does not come after %g; sort the rows by deceleration and give each once",
				ErrTable, i+1, p.Deceleration, points[i-1].Deceleration)
		case i > 0 && v[i] < v[i-1]:
			return nil, fmt.Errorf("%w: test points, row %d: the reverse velocity falls from %g to %g m/s while the deceleration grows", ErrTable, i+1, points[i-1].ReverseVelocity, p.ReverseVelocity)
		}
	}
	between, err := NewTable(a, v)
	if err != nil {
		return nil, err
	}
	n := len(points) - 1
	return &ReverseCurve{
		between: between,
		first:   TestPoint{a[0], v[0]},
		last:    TestPoint{a[n], v[n]},
		beyond:  math.Max(v[n]/a[n], (v[n]-v[n-1])/(a[n]-a[n-1])),
	}, nil
}

// At is the reverse velocity, m/s, at the deceleration a, m/s2.
func (c *ReverseCurve) At(a float64) float64 {
	switch {
	case !(a > 0):
		return 0
	case a < c.first.Deceleration:
		return c.first.ReverseVelocity * a / c.first.Deceleration
	case a > c.last.Deceleration:
		return c.last.ReverseVelocity + c.beyond*(a-c.last.Deceleration)
	}
	v, _ := c.between.At(a)
	return v
}

// Range is the least and the greatest deceleration tested, scaled to this valve, m/s2.
func (c *ReverseCurve) Range() (least, most float64) {
	return c.first.Deceleration, c.last.Deceleration
}
