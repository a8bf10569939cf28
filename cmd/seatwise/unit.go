package main

import "seatwise/network/quantity"

var millimetre = unit("mm", quantity.Length)

func unit(symbol string, d quantity.Dimension) quantity.Unit {
	u, err := quantity.ParseUnit(symbol, d)
	if err != nil {
		panic("seatwise: a unit is not in the table of units")
	}
	return u
}
