package verify

import (
	"context"
	"math"
)

// Layer is the part of the program that a check exercises.
type Layer string

const (
	Formula Layer = "formula"
	Disc    Layer = "disc"
	Solver  Layer = "solver"
	System  Layer = "system"
)

// Check is one quantity against its known value. Expected, Got and an absolute Deviation and Tolerance are in Unit.
type Check struct {
	ID        string  `json:"id"`
	Layer     Layer   `json:"layer"`
	Source    string  `json:"source"` // author, title, year, or how the value was derived
	Quantity  string  `json:"quantity"`
	Unit      string  `json:"unit"`
	Expected  float64 `json:"expected"`
	Got       float64 `json:"got"`
	Deviation float64 `json:"deviation"`
	Tolerance float64 `json:"tolerance"`
	Relative  bool    `json:"relative"` // Deviation and Tolerance are fractions of Expected
	Pass      bool    `json:"pass"`
	Gate      bool    `json:"gate"` // false: a comparison, reported only
	Peak      string  `json:"-"`    // of a greatest head that a laboratory reports: its series in the figure of them
}

// Case is a group of checks that share one installation or formula and one source.
type Case struct {
	ID     string
	Layer  Layer
	Source string
	Checks func(context.Context) ([]Check, error)
}

// within is a gate on the absolute deviation.
func within(quantity, unit string, expected, got, tolerance float64) Check {
	d := got - expected
	return Check{Quantity: quantity, Unit: unit, Expected: expected, Got: got, Deviation: d, Tolerance: tolerance, Pass: math.Abs(d) <= tolerance, Gate: true}
}

// ratio is a gate on the relative deviation.
func ratio(quantity, unit string, expected, got, tolerance float64) Check {
	d := got/expected - 1
	return Check{Quantity: quantity, Unit: unit, Expected: expected, Got: got, Deviation: d, Tolerance: tolerance, Relative: true, Pass: math.Abs(d) <= tolerance, Gate: true}
}

// peak is a comparison with a greatest head that a laboratory reports.
func peak(series string, c Check) Check {
	c.Peak = series
	return compared(c)
}

// compared turns a gate into a comparison.
func compared(c Check) Check {
	c.Gate = false
	return c
}
