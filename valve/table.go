package valve

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"
)

// ErrTable is the class of errors in a table of points.
var ErrTable = errors.New("valve: unusable table")

// Table is a function through given points, free of overshoot (F. N. Fritsch, J. Butland, "A method for constructing local
// monotone piecewise cubic interpolants", SIAM J. Sci. Stat. Comput., 1984) and constant outside them.
type Table struct {
	curve        interp.FritschButland
	first, last  float64
	start, final float64
}

// NewTable fits a table to at least two points with strictly increasing x.
func NewTable(x, f []float64) (*Table, error) {
	if len(x) != len(f) || len(x) < 2 {
		return nil, fmt.Errorf("%w: needs two points or more, and as many values as positions", ErrTable)
	}
	for i := range x {
		if math.IsNaN(x[i]-x[i]) || math.IsNaN(f[i]-f[i]) {
			return nil, fmt.Errorf("%w: row %d is not finite", ErrTable, i+1)
		}
		if i > 0 && !(x[i] > x[i-1]) {
			return nil, fmt.Errorf("%w: row %d: %g does not come after %g; sort the rows by rising opening", ErrTable, i+1, x[i], x[i-1])
		}
	}
	n := len(x) - 1
	t := &Table{first: x[0], last: x[n], start: f[0], final: f[n]}
	if err := t.curve.Fit(x, f); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrTable, err)
	}
	return t, nil
}

// At returns the interpolated value, and the nearest end value with zero slope outside the points.
func (t *Table) At(y float64) (f, df float64) {
	switch {
	case y <= t.first:
		return t.start, t.slopeAtEnd(y == t.first, y)
	case y >= t.last:
		return t.final, t.slopeAtEnd(y == t.last, y)
	}
	return t.curve.Predict(y), t.curve.PredictDerivative(y)
}

func (t *Table) slopeAtEnd(on bool, y float64) float64 {
	if on {
		return t.curve.PredictDerivative(y)
	}
	return 0
}
