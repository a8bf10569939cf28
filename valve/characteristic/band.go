package characteristic

import (
	"math"

	"seatwise/valve"
)

// Range is how far the reverse velocity at one deceleration may lie either way for the data of the valve, m/s.
type Range struct {
	Low, High float64
	Open      bool // some variation does not seat: High is only what the others reach
}

// Band varies one datum after the other, the others held, by its spread either way (valve.Datum.Spread, of generic data), and returns the least
// and greatest reverse velocity at each point of the curve, which is among them. Data that are known as given are not varied: a valve of given
// data has no width. Errors of several data at once add up to more, opposite ones to less; the steady model's own error is not in it.
//
// remake is the valve with one datum set, by key; a variation of which it makes no valve is left out and counted.
func Band(v valve.Valve, curve []Point, s Settings, remake func(key string, value float64) (valve.Valve, error)) (band []Range, tried, left int) {
	band = make([]Range, len(curve))
	for i, p := range curve {
		band[i] = Range{Low: math.Inf(1)}
		band[i].take(p)
	}
	for _, d := range v.Data {
		if !(d.Spread > 0) || d.Value == 0 || d.Key == "price" || d.Key == "restitution" { // neither has a part in the first seating
			continue
		}
		// A factor and its inverse where the spread could take the value to zero or below.
		low := 1 - d.Spread
		if low < 0.1 {
			low = 1 / (1 + d.Spread)
		}
		for _, f := range []float64{low, 1 + d.Spread} {
			tried++
			other, err := remake(d.Key, f*d.Value)
			if err != nil {
				left++
				continue
			}
			for i, p := range curve {
				band[i].take(At(other, p.Deceleration, s))
			}
		}
	}
	return band, tried, left
}

func (r *Range) take(p Point) {
	if p.Outcome != Seats {
		r.Open = true
		return
	}
	r.Low, r.High = math.Min(r.Low, p.ReverseVelocity), math.Max(r.High, p.ReverseVelocity)
}
