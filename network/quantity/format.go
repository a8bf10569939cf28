package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Format writes an SI value of dimension d in the preferred unit of system s,
// rounded to four significant digits.
func Format(si float64, d Dimension, s System) string { return FormatIn(si, s.Unit(d)) }

// FormatIn writes an SI value in unit u, rounded to four significant digits.
// A value that is not finite is written as "no value".
func FormatIn(si float64, u Unit) string {
	v := u.From(si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "no value"
	}
	if u.Symbol == "" {
		return digits(v)
	}
	return digits(v) + " " + u.Symbol
}

// digits writes v with four significant digits, trailing zeros left out, and
// an exponent only below 0.0001 and from ten million up.
func digits(v float64) string {
	if v == 0 {
		return "0" // also for negative zero
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 3, 64), 64)
	if err != nil {
		rounded = v // the largest numbers round beyond the range
	}
	if a := math.Abs(rounded); a >= 1e-4 && a < 1e7 {
		return strconv.FormatFloat(rounded, 'f', -1, 64)
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(rounded, 'e', -1, 64), "e")
	n, _ := strconv.Atoi(exponent)
	return mantissa + "e" + strconv.Itoa(n)
}
