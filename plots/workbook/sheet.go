package workbook

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// Bounds of the format.
const (
	mostRows    = excelize.TotalRows
	mostColumns = excelize.MaxColumns
)

// Sheet is one sheet of a book. Rows and columns are counted from 0 in all calls.
type Sheet struct {
	book   *Book
	name   string
	widths []float64
	next   int // row that is written next, from 1
	frozen int // rows that stay in sight and on every page
	charts bool
	high   map[int]float64 // height that a row needs for its wrapped texts, points
}

// Name is that of the sheet as it stands.
func (s *Sheet) Name() string { return s.name }

// Next is the row that the next call of Row writes.
func (s *Sheet) Next() int { return s.next - 1 }

// usualWidth is that of a column whose width nobody set, letters.
const usualWidth = 9

// Width sets the width of a column, in letters, for what is written into it from now on.
func (s *Sheet) Width(column int, letters float64) {
	for len(s.widths) <= column {
		s.widths = append(s.widths, usualWidth)
	}
	s.widths[column] = letters
	name, err := excelize.ColumnNumberToName(column + 1)
	s.book.keep(err)
	if err == nil {
		s.book.keep(s.book.file.SetColWidth(s.name, name, name, letters))
	}
}

// Row writes cells beside each other, below all rows before, and returns the row.
func (s *Sheet) Row(cells ...Cell) int {
	row := s.Next()
	for i, c := range cells {
		s.Put(row, i, c)
	}
	s.next = row + 2
	return row
}

// Gap leaves a row free.
func (s *Sheet) Gap() { s.next++ }

// Put writes one cell, for tables that stand beside each other, and returns where it stands. An empty one leaves no trace.
func (s *Sheet) Put(row, column int, c Cell) Range {
	at := Range{s.name, column, row, row}
	if c != (Cell{}) && s.book.err == nil {
		s.put(row, column, c)
	}
	return at
}

func (s *Sheet) put(row, column int, c Cell) {
	if row >= mostRows || column >= mostColumns {
		s.book.keep(fmt.Errorf("%w: row %d, column %d of %s", ErrSheet, row+1, column+1, s.name))
		return
	}
	at, err := excelize.CoordinatesToCellName(column+1, row+1)
	s.book.keep(err)
	style := s.book.style(c.look(column))
	if c.wrapped || c.style == Head {
		letters := float64(usualWidth)
		if column < len(s.widths) {
			letters = s.widths[column]
		}
		s.high[row] = max(s.high[row], needed(c.text, letters, c.style))
	}
	s.book.keep(s.book.file.SetCellStyle(s.name, at, at, style))
	switch {
	case c.number:
		s.book.keep(s.book.file.SetCellFloat(s.name, at, c.value, -1, 64))
	case c.text != "":
		s.book.keep(s.book.file.SetCellStr(s.name, at, stored(c.text)))
	}
	s.next = max(s.next, row+2)
}

// Column writes numbers below each other from a row on and returns where they stand.
func (s *Sheet) Column(row, column, places int, values []float64) Range {
	for i, v := range values {
		s.Put(row+i, column, Number(v, places))
	}
	return Range{s.name, column, row, row + len(values) - 1}
}

// Paragraph writes a text over the width of all columns whose widths are set, as high as it needs.
func (s *Sheet) Paragraph(text string, st Style) {
	cell := Text(text).In(st)
	if cell.text == "" {
		return
	}
	cell.wrapped = true
	letters := 0.0
	for _, w := range s.widths {
		letters += w
	}
	row := s.Row(cell)
	s.high[row] = needed(cell.text, letters, st)
	if len(s.widths) > 1 {
		from, err := excelize.CoordinatesToCellName(1, row+1)
		s.book.keep(err)
		to, err := excelize.CoordinatesToCellName(len(s.widths), row+1)
		s.book.keep(err)
		s.book.keep(s.book.file.MergeCell(s.name, from, to))
		s.book.keep(s.book.file.SetCellStyle(s.name, from, to, s.book.style(cell.look(0))))
	}
}

// needed is the height, points, of a text that is wrapped to so many letters, of which a line of running text holds a few more. Programs
// that open a book do not all reckon it.
func needed(text string, letters float64, st Style) float64 {
	const running, pitch, highest = 1.12, 1.3, 409
	f := looks[st]
	perLine := math.Max(1, running*letters*points/f.points())
	if f.bold {
		perLine *= 0.93
	}
	lines := 0
	for part := range strings.SplitSeq(text, "\n") {
		lines++
		used := 0.0
		for _, word := range strings.Fields(part) {
			n := float64(utf8.RuneCountInString(word))
			if used > 0 && used+1+n > perLine {
				lines, used = lines+1, 0
			}
			lines += int((n - 1) / perLine)
			used += n + 1
		}
	}
	return math.Min(highest, pitch*f.points()*float64(lines)+1.5)
}

// Freeze keeps rows at the head and columns at the left in sight, and repeats them on every page.
func (s *Sheet) Freeze(rows, columns int) {
	at, err := excelize.CoordinatesToCellName(columns+1, rows+1)
	s.book.keep(err)
	pane := "bottomRight"
	switch {
	case rows == 0:
		pane = "topRight"
	case columns == 0:
		pane = "bottomLeft"
	}
	s.book.keep(s.book.file.SetPanes(s.name, &excelize.Panes{Freeze: true, XSplit: columns, YSplit: rows, TopLeftCell: at, ActivePane: pane}))
	s.frozen = rows
}

// Range is a part of a column.
type Range struct {
	sheet            string
	column, from, to int
}

// To is from the beginning of one part of a column to the end of another.
func (r Range) To(last Range) Range {
	r.to = last.to
	return r
}

// Beside are the same rows, so many columns to the right.
func (r Range) Beside(columns int) Range {
	r.column += columns
	return r
}

// reference names the cells as a chart wants them; "" where there are none.
func (r Range) reference() string {
	name, err := excelize.ColumnNumberToName(r.column + 1)
	if err != nil || r.sheet == "" || r.to < r.from {
		return ""
	}
	if r.from == r.to {
		return fmt.Sprintf("'%s'!$%s$%d", r.sheet, name, r.from+1)
	}
	return fmt.Sprintf("'%s'!$%s$%d:$%s$%d", r.sheet, name, r.from+1, name, r.to+1)
}
