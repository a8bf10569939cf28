package plots

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// pattern is how an area is filled, so that it can be told from others in print without colour: a ground and hatching of some slopes.
type pattern struct {
	ground color.NRGBA
	hatch  color.NRGBA
	slopes []float64 // rise over run of each family of lines
}

func solid(c color.NRGBA) pattern { return pattern{ground: c} }

// hatched is lines of a colour on a tint of it.
func hatched(c color.NRGBA, slopes ...float64) pattern {
	return pattern{ground: tint(c, 0.3), hatch: c, slopes: slopes}
}

// tint mixes a colour with white paper; opaque, because figures have no transparency.
func tint(c color.NRGBA, share float64) color.NRGBA {
	mix := func(x uint8) uint8 { return uint8(255 - share*float64(255-x)) }
	return color.NRGBA{mix(c.R), mix(c.G), mix(c.B), 0xff}
}

// draw fills a rectangle and puts an edge around it; one without width is left out.
func (p pattern) draw(c draw.Canvas, r vg.Rectangle) {
	if r.Max.X-r.Min.X <= 0 {
		return
	}
	corners := []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
	c.FillPolygon(p.ground, corners)
	clipped := c
	clipped.Rectangle = r
	const pitch = vg.Length(4)
	h := r.Max.Y - r.Min.Y
	for _, slope := range p.slopes {
		run := h / vg.Length(max(slope, -slope))
		for x := r.Min.X - run; x < r.Max.X; x += pitch {
			from, to := vg.Point{X: x, Y: r.Min.Y}, vg.Point{X: x + run, Y: r.Max.Y}
			if slope < 0 {
				from.Y, to.Y = to.Y, from.Y
			}
			c.StrokeLines(draw.LineStyle{Color: p.hatch, Width: 0.9}, clipped.ClipLinesXY([]vg.Point{from, to})...)
		}
	}
	c.StrokeLines(draw.LineStyle{Color: ink, Width: gridWidth}, append(corners, corners[0]))
}
