// Package quantity reads what an engineer writes, "430 m3/h", into SI with a
// dimension, and writes it back.
//
// A text is a number followed by a unit. The reader knows which dimension is
// wanted, and the unit's spelling is looked up among the units of that
// dimension only, so that K may be a temperature in one place and a
// difference in another. A unit is the linear relation
//
//	SI = (v + offset) num / den
//
//	v       value in the unit
//	offset  in the unit; only for temperatures (273.15 for °C, 459.67 for °F)
//	num/den size of the unit in SI. Decimal units have num = 1 or den = 1, so
//	        that 6.3 mm and 0.0063 m give the same float64
//
// Every factor is exact by definition, or follows from exact ones: the inch
// (0.0254 m), the pound (0.45359237 kg), the US gallon (231 in3), the standard
// atmosphere (101325 Pa) and standard gravity (9.80665 m/s2), which makes the
// forces in kgf and lbf; turns and degrees bring in π. Columns of water are conventional, 1000 kg/m3 under
// standard gravity. The horsepower is the mechanical one, 550 lbf·ft/s. The
// same factors are listed in NIST Special Publication 811, "Guide for the Use
// of the International System of Units" (A. Thompson, B. N. Taylor, 2008),
// appendix B (cited from memory).
//
// Conventions:
//
//   - A pressure is gauge unless it says "abs" or "a" ("bar abs", "psia"); an
//     absolute pressure is absolute even without the word and is never gauge;
//     a pressure difference and a modulus are neither. Values are not shifted
//     by the atmosphere: that belongs to the case.
//   - A frequency of rotation in Hz or 1/min becomes rad/s where a rotational
//     speed is wanted, and stays 1/s where a frequency is.
//   - As a temperature, °C and °F carry their offset; as a temperature
//     difference they do not: "10 °C" and "10 K" are the same difference.
//   - Plain numbers are taken only as a number or a fraction. Zero needs its
//     unit as well.
//   - The case of letters matters (MPa, mPa); a slip is refused with a hint.
//   - Numbers are decimal with a point. Everything with two readings (1,480 or
//     007) is refused.
package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Quantity is a value in SI together with what the user wrote.
type Quantity struct {
	SI       float64   // value in the SI unit of Dim, always finite
	Dim      Dimension // the dimension that was asked for
	Text     string    // as written
	Absolute bool      // the pressure is absolute (Pressure and AbsolutePressure only)
}

// Parse reads a number with a unit of the wanted dimension. An error is always
// an *Error that points into text.
func Parse(text string, want Dimension) (Quantity, error) {
	if at := gd2At(text); at >= 0 {
		return Quantity{}, gd2Error(text, at)
	}
	n, err := scanNumber(text, want)
	if err != nil {
		return Quantity{}, err
	}
	u, err := unitAt(text, n.end, want)
	if err != nil {
		return Quantity{}, err
	}
	return u.quantity(text, n)
}

// Parse reads a bare number that is counted in unit u, as in a table whose
// header carries the unit. An error is always an *Error.
func (u Unit) Parse(text string) (Quantity, error) {
	n, err := scanNumber(text, Number)
	if err != nil {
		return Quantity{}, err
	}
	if n.end < len(text) {
		return Quantity{}, &Error{Text: text, Offset: n.end,
			Msg:  fmt.Sprintf("%s follows the number", Quote(text[n.end:])),
			Hint: "write the number alone, its unit is " + u.name()}
	}
	return u.quantity(text, n)
}

// quantity converts the number n and refuses what no installation can have.
func (u Unit) quantity(text string, n number) (Quantity, error) {
	refuse := func(msg, hint string) (Quantity, error) {
		return Quantity{}, &Error{Text: text, Offset: n.start, Msg: msg, Hint: hint}
	}
	si := u.To(n.value)
	switch {
	case math.IsInf(si, 0):
		return refuse("the number is too large", "the largest is about 1e308 in SI units")
	case si == 0 && n.value != 0 && u.offset == 0:
		return refuse("the number is too small", "write 0")
	case si < 0 && u.Absolute:
		return refuse("an absolute pressure is never negative", "write a gauge pressure, or check the sign")
	case si < 0 && u.Dim == Temperature:
		return refuse("the temperature is below absolute zero", "write it like "+u.Dim.Example())
	}
	return Quantity{SI: si, Dim: u.Dim, Text: strings.TrimFunc(text, isSpace), Absolute: u.Absolute}, nil
}
