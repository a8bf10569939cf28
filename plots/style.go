package plots

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes at print, points.
const (
	titleSize = vg.Length(11)
	labelSize = vg.Length(10)
	smallSize = vg.Length(9)

	dataWidth    = vg.Length(1.3)
	profileWidth = vg.Length(1.6)
	steadyWidth  = vg.Length(1.0)
	limitWidth   = vg.Length(0.9)
	axisWidth    = vg.Length(0.8)
	gridWidth    = vg.Length(0.5)
	tickLength   = vg.Length(4)

	lift = vg.Length(0.9) // puts the middle of figures, not of the type's body, on a height
)

var (
	ink    = color.NRGBA{0x33, 0x33, 0x33, 0xff}
	faint  = color.NRGBA{0x66, 0x66, 0x66, 0xff}
	mist   = color.NRGBA{0x80, 0x80, 0x80, 0xff}
	hair   = color.NRGBA{0xe4, 0xe4, 0xe4, 0xff}
	paper  = color.NRGBA{0xff, 0xff, 0xff, 0xff}
	ground = color.NRGBA{0xec, 0xe7, 0xdf, 0xff}
	soil   = color.NRGBA{0x6b, 0x5b, 0x45, 0xff}
)

// palette and dashes are cycled through with different lengths, so that 63 candidates differ. Plain dots are kept for limits.
var (
	palette = []color.NRGBA{
		{0x00, 0x72, 0xb2, 0xff}, // blue
		{0xd5, 0x5e, 0x00, 0xff}, // vermilion
		{0x00, 0x9e, 0x73, 0xff}, // bluish green
		{0xcc, 0x79, 0xa7, 0xff}, // purple
		{0xe6, 0x9f, 0x00, 0xff}, // orange
		{0x56, 0xb4, 0xe9, 0xff}, // sky
		{0x00, 0x00, 0x00, 0xff}, // black
		{0x88, 0x22, 0x55, 0xff}, // wine
		{0x99, 0x99, 0x33, 0xff}, // olive
	}
	dashes = [][]vg.Length{
		nil,
		{7, 2.5},
		{7, 2, 1.5, 2},
		{3.5, 1.8},
		{14, 3},
		{7, 2, 1.5, 2, 1.5, 2},
		{11, 2, 3, 2},
	}
	dotted = []vg.Length{1.2, 1.8}
)

// candidateLine is the line of the i-th candidate, the same in every figure. Dashes and badges alone tell 35 apart, with colours it is more.
func candidateLine(i int) stroke {
	return stroke{draw.LineStyle{Color: palette[i%len(palette)], Width: dataWidth, Dashes: dashes[i%len(dashes)]}, badges[i/len(dashes)%len(badges)]}
}

// Colour is that of the i-th candidate in every figure, as six hexadecimal digits of red, green and blue.
func Colour(i int) string {
	c := palette[i%len(palette)]
	return fmt.Sprintf("%02X%02X%02X", c.R, c.G, c.B)
}

func limitLine() stroke { return plain(draw.LineStyle{Color: ink, Width: limitWidth, Dashes: dotted}) }

// handler carries the one typeface. It is read only after initialisation.
var handler = text.Plain{Fonts: font.NewCache(liberation.Collection())}

func textStyle(size vg.Length, c color.Color) draw.TextStyle {
	return draw.TextStyle{
		Color:   c,
		Font:    font.Font{Typeface: "Liberation", Variant: "Sans", Size: size},
		XAlign:  draw.XLeft,
		YAlign:  draw.YBottom,
		Handler: handler,
	}
}

// clean makes a text fit for one line of a figure: no control characters, no broken UTF-8, single spaces.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) && r != noBreak {
			return ' '
		}
		if unicode.IsControl(r) || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
	return strings.Join(words(s), " ")
}

// noBreak is a space at which a line does not break.
const noBreak = '\u00a0'

func words(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' })
}

// shorten takes letters out of the middle until the text is no wider than width.
func shorten(s string, sty draw.TextStyle, width vg.Length) string {
	if sty.Width(s) <= width {
		return s
	}
	r := []rune(s)
	for n := len(r) - 1; n > 1; n-- {
		head := (n + 1) / 2
		if t := string(r[:head]) + "…" + string(r[len(r)-(n-head):]); sty.Width(t) <= width {
			return t
		}
	}
	return "…"
}

// wrap breaks a text into lines no wider than width; a single word that is wider is shortened.
func wrap(s string, sty draw.TextStyle, width vg.Length) []string {
	var lines []string
	for _, w := range words(s) {
		if n := len(lines); n > 0 && sty.Width(lines[n-1]+" "+w) <= width {
			lines[n-1] += " " + w
			continue
		}
		lines = append(lines, shorten(w, sty, width))
	}
	return lines
}

// finite tells whether a number can be drawn: no NaN, no infinity and nothing beyond all that is physical, which could overflow in another
// unit.
func finite(x float64) bool { return math.Abs(x) < 1e30 }
