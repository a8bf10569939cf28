package workbook

import (
	"github.com/xuri/excelize/v2"
)

// Line is one line of a chart, from cells.
type Line struct {
	Name   Range // the cell that names it in the key
	X, Y   Range
	Colour string // six hexadecimal digits
	Dash   int    // lines that differ in it differ in black and white too; 0 is a full line
	Thin   bool
}

// dashes are cycled through. Dots are kept for limits.
var dashes = []excelize.LineDashType{excelize.LineDashSolid, excelize.LineDashDash, excelize.LineDashSashDot, excelize.LineDashSysDash, excelize.LineDashLgDash, excelize.LineDashLgDashDotDot, excelize.LineDashLgDashDot}

// Dotted is the dash of a limit.
const Dotted = -1

// Axis is the scale of a chart in one direction.
type Axis struct {
	Label    string   // with the unit
	From, To *float64 // nil: by the program that draws
}

// Chart is drawn by the reader's program from the cells that its lines name.
type Chart struct {
	Title string
	X, Y  Axis
	Lines []Line
	// Places are the decimals of the numbers on bars.
	Places int
}

// Size of a chart on the sheet, pixels of a screen: a page of its own in print.
const (
	chartWidth, chartHeight = 960, 540
	rowPixels               = 18 // as the library reckons
)

// ChartRows is how many rows a chart covers.
const ChartRows = chartHeight/rowPixels + 2

// Chart puts lines over a common axis at a row, which begins a page, and leaves the rows below it free that it covers. A sheet with charts is printed
// in its own size.
func (s *Sheet) Chart(row, column int, c Chart) {
	s.place(row, column, s.book.chart(c, excelize.Scatter, c.Lines))
}

// Bars puts bars beside each other at a row, a bar for each cell of the line, whose X names them; limits are lines across.
func (s *Sheet) Bars(row, column int, c Chart, limits ...Line) {
	bars := s.book.chart(c, excelize.Col, c.Lines)
	gap := uint(80)
	bars.GapWidth = &gap
	if len(limits) == 0 {
		s.place(row, column, bars)
		return
	}
	across := s.book.chart(Chart{X: c.X, Y: c.Y}, excelize.Line, limits)
	s.place(row, column, bars, across)
}

// Layers puts bars at a row, one for each cell that the lines have in common as X, with the values of the lines on top of each other.
func (s *Sheet) Layers(row, column int, c Chart) {
	bars := s.book.chart(c, excelize.ColStacked, c.Lines)
	gap, all := uint(80), 100
	bars.GapWidth, bars.Overlap = &gap, &all
	s.place(row, column, bars)
}

func (s *Sheet) place(row, column int, c *excelize.Chart, more ...*excelize.Chart) {
	at, err := excelize.CoordinatesToCellName(column+1, row+1)
	s.book.keep(err)
	s.book.keep(s.book.file.AddChart(s.name, at, c, more...))
	s.next = max(s.next, row+1+ChartRows)
	s.charts = true
	for r := row; r < row+ChartRows; r++ { // or the rows are as high as a program likes, and the next page begins within the chart
		s.high[r] = max(s.high[r], rowPoints)
	}
	if row > 0 {
		s.book.keep(s.book.file.InsertPageBreak(s.name, at))
	}
}

func (b *Book) chart(c Chart, kind excelize.ChartType, lines []Line) *excelize.Chart {
	out := &excelize.Chart{
		Type:         kind,
		Title:        excelize.ChartTitle{Paragraph: words(c.Title, 11)},
		Legend:       excelize.ChartLegend{Position: "bottom"},
		VaryColors:   new(bool),
		Dimension:    excelize.ChartDimension{Width: chartWidth, Height: chartHeight},
		XAxis:        axis(c.X),
		YAxis:        axis(c.Y),
		ShowBlanksAs: "gap",
		Format:       excelize.GraphicOptions{AltText: clean(c.Title)},
	}
	out.XAxis.MajorGridLines = kind == excelize.Scatter
	out.YAxis.MajorGridLines = true
	for _, l := range lines {
		width := 1.5
		if l.Thin {
			width = 0.9
		}
		ser := excelize.ChartSeries{Name: l.Name.reference(), Categories: l.X.reference(), Values: l.Y.reference(), Fill: solid(l.Colour)}
		switch kind {
		case excelize.Col:
			ser.DataLabelPosition = excelize.ChartDataLabelsPositionOutsideEnd
		case excelize.ColStacked:
		default:
			ser.Marker, ser.Line = excelize.ChartMarker{Symbol: "none"}, excelize.LineOptions{Type: excelize.LineSolid, Width: width, Dash: dash(l.Dash)}
		}
		out.Series = append(out.Series, ser)
	}
	if kind == excelize.Col {
		out.PlotArea.ShowVal = true
		out.PlotArea.NumFmt = excelize.ChartNumFmt{CustomNumFmt: format(c.Places)}
	}
	return out
}

func axis(a Axis) excelize.ChartAxis {
	return excelize.ChartAxis{
		Title:             excelize.ChartTitle{Paragraph: words(a.Label, 10)},
		Minimum:           a.From,
		Maximum:           a.To,
		NumFmt:            excelize.ChartNumFmt{CustomNumFmt: "General"},
		Font:              excelize.Font{Family: typeface, Size: 9, Color: ink},
		TickLabelPosition: excelize.ChartTickLabelLow,
	}
}

const ink = "333333"

func words(text string, size float64) []excelize.RichTextRun {
	if text = clean(text); text == "" {
		return nil
	}
	return []excelize.RichTextRun{{Text: text, Font: &excelize.Font{Family: typeface, Size: size, Color: ink}}}
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}

func dash(n int) excelize.LineDashType {
	if n < 0 {
		return excelize.LineDashSysDot
	}
	return dashes[n%len(dashes)]
}
