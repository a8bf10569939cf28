package quantity

import (
	"fmt"
	"math"
	"strconv"
)

// Amount is a quantity in a [Sentence].
type Amount struct {
	SI        float64
	Dimension Dimension
	decimals  bool // two decimals in place of four significant digits
}

// Of is an amount that is written with four significant digits.
func Of(si float64, d Dimension) Amount { return Amount{SI: si, Dimension: d} }

// Level is an elevation, a level or a head, m, written with two decimals: levels are far from zero, and their differences count.
func Level(si float64) Amount { return Amount{si, Length, true} }

// In is the amount with its unit in a system.
func (a Amount) In(s System) string {
	u := s.Unit(a.Dimension)
	if v := u.From(a.SI); a.decimals && !math.IsNaN(v) && !math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', 2, 64) + " " + u.Symbol
	}
	return FormatIn(a.SI, u)
}

// Sentence is a text with quantities in it, which reads in either system of units. It is for what is found out where nobody knows the reader's.
type Sentence struct {
	format string
	args   []any
}

// Say makes a sentence by the rules of fmt.Sprintf, except that an [Amount] or a Sentence among the arguments, at a %v, is written in the reader's
// units.
func Say(format string, args ...any) Sentence { return Sentence{format, args} }

// In is the sentence in the units of a system.
func (t Sentence) In(s System) string {
	args := make([]any, len(t.args))
	for i, a := range t.args {
		if q, ok := a.(interface{ In(System) string }); ok {
			a = q.In(s)
		}
		args[i] = a
	}
	return fmt.Sprintf(t.format, args...)
}

// String is the sentence in SI.
func (t Sentence) String() string { return t.In(SI) }

// Reword is an error in the units of a system, if it has an In method as a [Sentence] has; it wraps the error. Others come back as they are.
func Reword(err error, s System) error {
	if q, ok := err.(interface{ In(System) string }); ok {
		return &reworded{q.In(s), err}
	}
	return err
}

type reworded struct {
	text string
	err  error
}

func (r *reworded) Error() string { return r.text }
func (r *reworded) Unwrap() error { return r.err }
