package workbook

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// page sets a sheet up for print: A4 across, as wide as the page, as many pages high as it needs.
func (s *Sheet) page() {
	f, keep := s.book.file, s.book.keep
	paper, across, one, any := 9, "landscape", 1, 0
	keep(f.SetPageLayout(s.name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &across, FitToWidth: &one, FitToHeight: &any}))
	yes, no, row := true, false, rowPoints
	keep(f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &yes, CustomHeight: &yes, DefaultRowHeight: &row}))
	side, end := 0.5, 0.75 // inch
	keep(f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &end, Bottom: &end}))
	keep(f.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &no}))
	head := "&L" + printed(s.book.about.Title, 80)
	if m := s.book.about.Mark; m != "" {
		head += "&C" + printed(m, 60)
	}
	head += "&R" + printed(s.name, longestName)
	foot := "&L" + printed(s.book.about.Program, 80) + "&RPage &P of &N"
	keep(f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddHeader: head, OddFooter: foot}))
}

// printed is a text for the head or foot of a page, where an ampersand begins a command and a digit after one would be a size of type.
func printed(text string, most int) string {
	r := []rune(strings.Join(strings.Fields(clean(text)), " "))
	if len(r) > most {
		r = append(r[:most-1], '…')
	}
	text = strings.ReplaceAll(string(r), "&", "&&")
	if text != "" && text[0] >= '0' && text[0] <= '9' {
		text = " " + text
	}
	return text
}

// close sets what is known at the end only: the heights of rows, what is printed on every page, and that charts are printed in their own size.
func (s *Sheet) close() {
	f, keep := s.book.file, s.book.keep
	for _, row := range slices.Sorted(maps.Keys(s.high)) {
		if h := s.high[row]; h > rowPoints || s.charts {
			keep(f.SetRowHeight(s.name, row+1, h))
		}
	}
	if s.charts {
		no := false
		keep(f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &no}))
	}
	if s.frozen > 0 {
		rows := fmt.Sprintf("'%s'!$1:$%d", s.name, s.frozen)
		keep(f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: s.name, RefersTo: rows}))
	}
}

// rowPoints is the height of a row with one line.
const rowPoints = 15.0
