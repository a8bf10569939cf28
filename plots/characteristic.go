package plots

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// ErrNoCurve is returned when no valve of a set has a reverse velocity to draw.
var ErrNoCurve = errors.New("plots: no reverse velocity to draw (give higher decelerations)")

// Curve is the characteristic of one valve. Decelerations increase.
type Curve struct {
	Valve  string
	Points []characteristic.Point
	Data   []valve.Datum          // behind the valve, for the note on generic data; nil: unknown
	Band   []characteristic.Range // at the points, for the spread of the data; nil: none is drawn
	Of     valve.Valve            // for the numbers without dimensions
	Own    *choice.Value          // the deceleration that this valve sees in the installation, m/s2, where each sees its own; nil: that of all
}

// Own is the installation's own deceleration, m/s2, for all curves that have none of theirs.
type Own struct {
	choice.Value
	Means string // its definition; "": not said
}

// seen is the deceleration of the installation for a curve, m/s2; 0: none.
func (c Curve) seen(own Own) float64 {
	v := own.Value
	if c.Own != nil {
		v = *c.Own
	}
	if !exists(v) || !(v.SI > 0) {
		return 0
	}
	return v.SI
}

// leastShown is the smallest reverse velocity on the logarithmic axis, as a fraction of the greatest.
const leastShown = 1e-3

// bench says why a run in the installation gives another reverse velocity than the curve.
const bench = "The curves are of a bench: constant deceleration from full-open at 1.05 times the full-open velocity. " +
	"In an installation the deceleration changes while the disc closes, and the reverse velocity differs."

// Characteristic draws reverse velocity against deceleration, both on logarithmic scales: the curves are near to powers, and what tells
// good valves apart is small. The installation's own deceleration is a dotted line, with the reverse velocity that each curve has there,
// between its points by a straight line on these scales. c may be nil. The error is [ErrNoCurve] or wraps [ErrSeries].
func Characteristic(c *choice.Case, curves []Curve, own Own, units quantity.System) (Figure, error) {
	b := newBook(&choice.Comparison{Case: c}, units)
	for i, v := range curves {
		b.style[v.Valve] = i
	}
	return b.characteristicOf(curves, own, b.named(c, curves))
}

// characteristicOf draws curves, each in the line of its valve.
func (b *book) characteristicOf(curves []Curve, own Own, title string) (Figure, error) {
	speed, speedSymbol := b.unit(quantity.Velocity)
	rate, rateSymbol := b.unit(quantity.Acceleration)
	lines, least, notes, err := curveLines(curves, speed, rate)
	if err != nil {
		return Figure{}, err
	}
	lo, hi := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, l := range lines {
		for _, q := range l {
			lo, hi = point{math.Min(lo.x, q.x), math.Min(lo.y, q.y)}, point{math.Max(hi.x, q.x), math.Max(hi.y, q.y)}
		}
	}
	if math.IsInf(lo.x, 1) {
		return Figure{}, ErrNoCurve
	}
	for _, c := range curves {
		b.generic = b.generic || generic(c.Data)
	}
	notes = append(notes, bench)
	p := &panel{}
	about := "Reverse velocity at seating against deceleration of the flow"
	at, marked, each := 0.0, exists(own.Value) && own.SI > 0, false
	for _, c := range curves {
		if a := rate.From(c.seen(own)); a > 0 {
			lo.x, hi.x = math.Min(lo.x, a), math.Max(hi.x, a)
			each = each || c.Own != nil
		}
	}
	switch {
	case marked:
		at = rate.From(own.SI)
		about += "; in the key and at the dots: at the installation's own"
	case each:
		about += "; in the key and at the dots: at what the valve sees in the installation"
	}
	if (marked || each) && own.Means != "" {
		notes = append(notes, "The deceleration of the installation: "+own.Means+".")
	} else if own.Reason != "" {
		notes = append(notes, "Not shown: the installation's own deceleration ("+own.Reason+").")
	}
	bound, limited := b.reverseLimit()
	if limited {
		lo.y, hi.y = math.Min(lo.y, bound.value), math.Max(hi.y, bound.value)
	}
	bands := bandLines(curves, least, speed, rate)
	for _, d := range bands {
		for _, q := range d {
			lo.y, hi.y = math.Min(lo.y, q.y), math.Max(hi.y, q.y)
		}
	}
	p.x, p.y = logarithmic("Deceleration ("+rateSymbol+")", lo.x, hi.x), logarithmic("Reverse velocity ("+speedSymbol+")", lo.y, hi.y)
	for i, d := range bands {
		p.shade(d, i)
	}
	if len(bands) > 0 {
		notes = append(notes, "Shaded, with a thin edge of the kind of its curve: reverse velocity when one of the generic data after the other differs by its spread.")
	}
	notes = append(notes, slamNote(speed))
	for i, class := range slamClasses {
		at := speed.From(class)
		if words := []string{"mild", "severe"}[i] + " slam above " + short(at, 2) + " " + speedSymbol; at > p.y.min && at < p.y.max && !(limited && math.Abs(at/bound.value-1) < 0.02) {
			p.horizontal(at, plain(classLine()))
			p.labels = append(p.labels, label{text: words, spots: slices.Concat(along(across(p.x, at), -1), along(across(p.x, at), 1))})
		}
	}

	if limited {
		p.horizontal(bound.value, limitLine())
		p.labels = append(p.labels, label{text: bound.text, spots: slices.Concat(along(across(p.x, bound.value), 1), along(across(p.x, bound.value), -1))})
	}
	if marked {
		p.vertical(at, limitLine())
		p.labels = append(p.labels, label{text: "installation " + short(at, 2) + " " + rateSymbol, spots: beside(p.y, at)})
	}
	var key []entry
	for i, l := range lines {
		e := entry{text: clean(curves[i].Valve), sty: candidateLine(b.style[curves[i].Valve])}
		if a := curves[i].seen(own); a > 0 {
			at := rate.From(a)
			y, ok := crossing(l, at)
			if v, seats := beyond(curves[i], a); !ok && seats {
				e.text += ", below " + twoFigures(speed.From(math.Max(v, least))) + " " + speedSymbol
			}
			if ok {
				words := twoFigures(y) + " " + speedSymbol
				e.text += ", " + words
				if !marked {
					e.text += " at " + short(at, 2) + " " + rateSymbol
				}
				if len(lines) <= perPanel {
					p.mark(point{at, y}, e.sty.Color, words)
				} else { // the figures stand in the key
					p.dots = append(p.dots, dot{point{at, y}, e.sty.Color})
				}
			}
		}
		key = append(key, e)
		p.lines = append(p.lines, line{l, e.sty})
	}
	return Figure{
		Name:    CharacteristicName,
		Caption: "Reverse velocity at seating against a constant deceleration of the flow, for each valve. " + bench,
		page:    page{title: title, about: about, key: key, body: grid{rows: [][]*panel{{p}}, inside: cm(9)}, notes: b.notes(notes...)},
	}, nil
}

// beyond is the reverse velocity, m/s, at the first point from a deceleration on, if the valve seats there.
func beyond(c Curve, deceleration float64) (float64, bool) {
	for _, q := range c.Points {
		if q.Deceleration >= deceleration {
			return q.ReverseVelocity, q.Outcome == characteristic.Seats
		}
	}
	return 0, false
}

// curveLines are the points with a reverse velocity above the least that the axis shows, m/s, and notes on the others.
func curveLines(curves []Curve, speed, rate quantity.Unit) (lines [][]point, least float64, notes []string, err error) {
	greatest := 0.0
	for _, c := range curves {
		last := 0.0
		for _, q := range c.Points {
			if !finite(q.Deceleration) || !finite(q.ReverseVelocity) || q.Deceleration <= last {
				return nil, 0, nil, fmt.Errorf("%w: characteristic of %s: not finite, or the deceleration goes back at %g m/s2", ErrSeries, c.Valve, q.Deceleration)
			}
			last = q.Deceleration
			greatest = math.Max(greatest, q.ReverseVelocity)
		}
	}
	least = leastShown * greatest
	var small []string
	for _, c := range curves {
		var l []point
		forward, open := 0.0, 0
		for _, q := range c.Points {
			switch {
			case q.Outcome != characteristic.Seats:
				open++
			case q.ReverseVelocity <= least:
				forward = q.Deceleration
			default:
				l = append(l, point{rate.From(q.Deceleration), speed.From(q.ReverseVelocity)})
			}
		}
		if forward > 0 {
			small = append(small, c.Valve+" up to "+short(rate.From(forward), 2)+"\u00a0"+exponents.Replace(rate.Symbol))
		}
		if open > 0 {
			notes = append(notes, fmt.Sprintf("Not shown: %s, %d of %d decelerations, at which it does not seat.", c.Valve, open, len(c.Points)))
		}
		lines = append(lines, l)
	}
	if len(small) > 0 {
		notes = append(notes, "Not shown, because it seats in forward flow or below "+twoFigures(speed.From(least))+" "+speed.Symbol+": "+
			strings.Join(small, ", ")+".")
	}
	return lines, least, notes, nil
}

// crossing is the height of a line at x, straight on logarithmic scales; false outside of the line.
func crossing(l []point, x float64) (float64, bool) {
	for i := 1; i < len(l); i++ {
		if a, b := l[i-1], l[i]; a.x <= x && x <= b.x {
			f := math.Log(x/a.x) / math.Log(b.x/a.x)
			return a.y * math.Pow(b.y/a.y, f), true
		}
	}
	return 0, false
}

// beside are the spots on the right and left of an upright line, from the top down.
func beside(y axis, x float64) []spot {
	var s []spot
	for _, side := range []float64{1, -1} {
		for f := 0.97; f > 0; f -= 0.04 {
			s = append(s, spot{point{x, y.value(f)}, side, 0, 4})
		}
	}
	return s
}

// named is the title of a figure of curves: that of the case, or without one what the valves are, with their bore where it is that of all.
func (b *book) named(c *choice.Case, curves []Curve) string {
	if c != nil {
		return b.title(-1)
	}
	bore := curves[0].Of.Bore
	for _, v := range curves {
		if v.Of.Bore != bore {
			bore = 0
		}
	}
	symbol := "mm"
	if b.units == quantity.US {
		symbol = "in"
	}
	u, err := quantity.ParseUnit(symbol, quantity.Length)
	if bore == 0 || err != nil {
		return "Check valves"
	}
	return "Check valves, bore " + quantity.FormatIn(bore, u)
}
