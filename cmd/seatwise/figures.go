package main

import (
	"math"
	"strconv"
	"strings"

	"seatwise/network/quantity"
)

// scale shows the values of one row: one unit, one number of decimals.
type scale struct {
	unit   quantity.Unit
	places int
}

const mostPlaces = 6

// newScale chooses the unit by the system and the decimals so that the greatest of the values has three significant digits.
func newScale(d quantity.Dimension, system quantity.System, values ...float64) scale {
	greatest := 0.0
	for _, v := range values {
		greatest = math.Max(greatest, math.Abs(v))
	}
	s := scale{unit: system.Unit(d)}
	if d == quantity.Volume && system == quantity.SI && greatest < 0.1 {
		s.unit = litre
	}
	if top := math.Abs(s.unit.From(greatest)); top > 0 {
		s.places = min(max(2-exponent(top), 0), mostPlaces)
	}
	return s
}

// exponent is the power of ten of a number rounded to three digits.
func exponent(v float64) int {
	_, e, _ := strings.Cut(strconv.FormatFloat(v, 'e', 2, 64), "e")
	n, err := strconv.Atoi(e)
	if err != nil {
		return 0 // not finite
	}
	return n
}

var (
	litre      = unit("l", quantity.Volume)
	millimetre = unit("mm", quantity.Length)
)

func unit(symbol string, d quantity.Dimension) quantity.Unit {
	u, err := quantity.ParseUnit(symbol, d)
	if err != nil {
		panic("seatwise: a unit is not in the table of units")
	}
	return u
}

// apart adds decimals until two values that differ do not look alike: rounding is not to hide a verdict.
func (s scale) apart(a, b float64) scale {
	for a != b && s.places < mostPlaces && (s.text(a) == s.text(b) || zero(s.difference(a, b))) {
		s.places++
	}
	return s
}

// coarser has one significant digit less.
func (s scale) coarser() scale {
	s.places = max(s.places-1, 0)
	return s
}

// difference is the distance of two values, for units with an offset too.
func (s scale) difference(a, b float64) string {
	return strconv.FormatFloat(math.Abs(s.unit.From(a)-s.unit.From(b)), 'f', s.places, 64)
}

func zero(text string) bool {
	v, err := strconv.ParseFloat(text, 64)
	return err == nil && v == 0
}

// text is a value without its unit. A rounded negative zero is a zero.
func (s scale) text(si float64) string {
	text := strconv.FormatFloat(s.unit.From(si), 'f', s.places, 64)
	if text[0] == '-' && zero(text) {
		return text[1:]
	}
	return text
}

// name is the unit's symbol as it stands behind a number or in a label; "" for plain numbers.
func (s scale) name() string { return s.unit.Symbol }

// with is a value with its unit.
func (s scale) with(si float64) string {
	if s.name() == "" {
		return s.text(si)
	}
	return s.text(si) + " " + s.name()
}

// label is a label with the unit.
func (s scale) label(text string) string {
	if s.name() == "" {
		return text
	}
	return text + ", " + s.name()
}
