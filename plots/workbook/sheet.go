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
}

// Name is that of the sheet as it stands.
func (s *Sheet) Name() string { return s.name }

// Next is the row that the next call of Row writes.
func (s *Sheet) Next() int { return s.next - 1 }

// Width sets the width of a column, in letters.
func (s *Sheet) Width(column int, letters float64) {
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
	style := s.book.style(c.look())
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

// Paragraph writes a text over the width of the columns that the sheet was made with, as high as it needs.
func (s *Sheet) Paragraph(text string, st Style) {
	cell := Text(text).In(st)
	if cell.text == "" {
		return
	}
	cell.wrapped = true
	row := s.Row(cell)
	letters := 0.0
	for _, w := range s.widths {
		letters += w
	}
	if len(s.widths) > 1 {
		from, err := excelize.CoordinatesToCellName(1, row+1)
		s.book.keep(err)
		to, err := excelize.CoordinatesToCellName(len(s.widths), row+1)
		s.book.keep(err)
		s.book.keep(s.book.file.MergeCell(s.name, from, to))
		s.book.keep(s.book.file.SetCellStyle(s.name, from, to, s.book.style(cell.look())))
	}
	s.height(row, cell.text, letters, st)
}

// height makes a row as high as a text that is wrapped to so many letters.
func (s *Sheet) height(row int, text string, letters float64, st Style) {
	size := looks[st].points()
	perLine := math.Max(1, 1.05*letters*points/size)
	lines, used := 1, 0.0
	for _, word := range strings.Fields(text) {
		n := float64(utf8.RuneCountInString(word))
		if used > 0 && used+1+n > perLine {
			lines, used = lines+1, 0
		}
		used += n + 1
	}
	s.book.keep(s.book.file.SetRowHeight(s.name, row+1, math.Min(409, 1.35*size*float64(lines)+2)))
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
