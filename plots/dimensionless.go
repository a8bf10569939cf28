package plots

import (
	"math"

	"seatwise/network/quantity"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// Collapsed draws the curves without dimensions, V_r/V_o against a D/V_o^2 on logarithmic scales, with bore D and full-open velocity V_o of each valve: sizes of one
// geometry have one curve. The installation's own deceleration is a dot on each, as each valve has its own number for it. Valves without a full-open velocity are
// left out and named. c may be nil. The error is [ErrNoCurve] or wraps [ErrSeries].
func Collapsed(c *choice.Case, curves []Curve, own Own, units quantity.System) (Figure, error) {
	b := newBook(&choice.Comparison{Case: c}, units)
	speed, _ := b.unit(quantity.Velocity)
	rate, _ := b.unit(quantity.Acceleration)
	if _, _, _, err := curveLines(curves, speed, rate); err != nil {
		return Figure{}, err
	}
	p := &panel{}
	lo, hi := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	var key []entry
	var notes []string
	lines := make([][]point, len(curves))
	greatest := 0.0
	for _, k := range curves {
		for _, q := range k.Points {
			if _, ratio, ok := q.Numbers(k.Of); ok && q.Outcome == characteristic.Seats {
				greatest = math.Max(greatest, ratio)
			}
		}
	}
	for i, k := range curves {
		b.generic = b.generic || generic(k.Data)
		for _, q := range k.Points {
			number, ratio, ok := q.Numbers(k.Of)
			if !ok || q.Outcome != characteristic.Seats || ratio <= leastShown*greatest {
				continue
			}
			lines[i] = append(lines[i], point{number, ratio})
			lo, hi = point{math.Min(lo.x, number), math.Min(lo.y, ratio)}, point{math.Max(hi.x, number), math.Max(hi.y, ratio)}
		}
		if k.Of.FullOpenVelocity <= 0 {
			notes = append(notes, "Not shown: "+k.Valve+", which has no full-open velocity.")
		}
	}
	if math.IsInf(lo.x, 1) || hi.x/lo.x > 1e12 {
		return Figure{}, ErrNoCurve
	}
	p.x, p.y = logarithmic("Deceleration number a D / Vo² (-)", lo.x, hi.x), logarithmic("Reverse velocity ratio Vr / Vo (-)", lo.y, hi.y)
	marked := false
	for i, l := range lines {
		sty := candidateLine(i)
		if k := curves[i]; len(l) > 0 {
			key = append(key, entry{text: clean(k.Valve) + ", Vo " + twoFigures(speed.From(k.Of.FullOpenVelocity)) + " " + symbol(b, quantity.Velocity), sty: sty})
			p.lines = append(p.lines, line{l, sty})
			if a := k.seen(own); a > 0 {
				number, _, _ := characteristic.Point{Deceleration: a}.Numbers(k.Of)
				if y, ok := crossing(l, number); ok {
					p.dots = append(p.dots, dot{point{number, y}, sty.Color})
					marked = true
				}
			}
		}
	}
	about := "Reverse velocity at seating against deceleration, without dimensions"
	if marked {
		about += "; dots: at the installation's own deceleration"
		if own.Means != "" {
			notes = append(notes, "The deceleration of the installation: "+own.Means+".")
		}
	}
	notes = append(notes, "a deceleration, D bore, Vr reverse velocity at seating, Vo full-open velocity. Sizes of one geometry have one curve.")
	return Figure{
		Name:    "characteristic-dimensionless",
		Caption: "Reverse velocity over full-open velocity against the deceleration number, for each valve. " + bench,
		page:    page{title: b.named(c, curves), about: about, key: key, body: grid{rows: [][]*panel{{p}}, inside: cm(9)}, notes: b.notes(append(notes, bench)...)},
	}, nil
}

func symbol(b *book, d quantity.Dimension) string {
	_, s := b.unit(d)
	return s
}
