package plots

import (
	"math"

	"gonum.org/v1/plot/vg/draw"

	"seatwise/network/quantity"
)

// slamClasses are reverse velocities at seating, m/s, between which slam is called none, mild and severe (common practice, from memory: read in M. Ballun,
// Journal AWWA, 2007, 0.5 and 1 ft/s).
var slamClasses = []float64{0.15, 0.3}

// slamNote says what the classes are, in the unit of the figure.
func slamNote(speed quantity.Unit) string {
	mild, severe := short(speed.From(slamClasses[0]), 2), short(speed.From(slamClasses[1]), 2)
	return "Slam by common practice: none below " + mild + " " + speed.Symbol + ", mild up to " + severe + " " + speed.Symbol + ", severe above."
}

// classLine is lighter than a limit.
func classLine() draw.LineStyle { return draw.LineStyle{Color: mist, Width: gridWidth} }

// bandLines are closed areas between the least and the greatest reverse velocity of each curve with a band; one per curve, or nil when none has one.
func bandLines(curves []Curve, least float64, speed, rate quantity.Unit) [][]point {
	var out [][]point
	some := false
	for _, c := range curves {
		var low, high []point
		for i, q := range c.Points {
			// From the first point on at which the curve is shown; the area ends where the valve may never seat.
			if c.Band == nil || c.Band[i].Open || c.Band[i].High <= least {
				continue
			}
			x := rate.From(q.Deceleration)
			low = append(low, point{x, speed.From(math.Max(c.Band[i].Low, least))})
			high = append(high, point{x, speed.From(c.Band[i].High)})
		}
		for i := len(low) - 1; i >= 0; i-- {
			high = append(high, low[i])
		}
		some = some || len(high) > 0
		out = append(out, high)
	}
	if !some {
		return nil
	}
	return out
}

// shade draws a band: a tint for the eye in colour, and edges with the dashes of the curve for print in black and white.
func (p *panel) shade(closed []point, i int) {
	if len(closed) < 4 {
		return
	}
	sty := candidateLine(i)
	edge := sty
	edge.Width = gridWidth
	tint := palette[i%len(palette)]
	tint.A = 0x28
	p.fills = append(p.fills, fill{closed, tint})
	half := len(closed) / 2
	p.lines = append(p.lines, line{closed[:half], edge}, line{closed[half:], edge})
}
