package main

import "seatwise/network/quantity"

// partUnit is the unit in which a part of a valve is measured.
func partUnit(d quantity.Dimension, system quantity.System) quantity.Unit {
	us := system == quantity.US
	switch {
	case d == quantity.Length && us:
		return unit("in", d)
	case d == quantity.Length:
		return millimetre
	case d == quantity.Force && us:
		return unit("lbf", d)
	case d == quantity.Force:
		return unit("N", d)
	}
	return system.Unit(d)
}

var millimetre = unit("mm", quantity.Length)

func unit(symbol string, d quantity.Dimension) quantity.Unit {
	u, err := quantity.ParseUnit(symbol, d)
	if err != nil {
		panic("seatwise: a unit is not in the table of units")
	}
	return u
}
