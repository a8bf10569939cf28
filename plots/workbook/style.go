package workbook

import "github.com/xuri/excelize/v2"

// Style is how prominent a cell is.
type Style uint8

// The styles of cells.
const (
	Plain   Style = iota
	Title         // of a book
	Heading       // of a part of a sheet
	Head          // of the columns of a table
	Strong
	Alarm // a limit that is broken; the words say so as well
	Faint // beside the matter
	Listing
)

const (
	typeface = "Arial"
	points   = 10.0
)

// face is the look of a style.
type face struct {
	size   float64 // points; 0: usual
	bold   bool
	italic bool
	colour string
	fill   string
	under  bool // a line below
	family string
}

var looks = map[Style]face{
	Plain:   {},
	Title:   {size: 16, bold: true},
	Heading: {size: 12, bold: true},
	Head:    {bold: true, fill: "E8EEF4", under: true},
	Strong:  {bold: true},
	Alarm:   {bold: true, colour: "B00020"},
	Faint:   {colour: "666666"},
	Listing: {family: "Courier New", size: 9},
}

func (f face) points() float64 {
	if f.size == 0 {
		return points
	}
	return f.size
}

// look is a style with what a cell adds to it.
type look struct {
	style   Style
	format  string
	wrapped bool
	across  bool
	apart   bool
}

// style is the number of a look in the file.
func (b *Book) style(l look) int {
	if id, ok := b.styles[l]; ok {
		return id
	}
	f := looks[l.style]
	family := f.family
	if family == "" {
		family = typeface
	}
	st := &excelize.Style{
		Font:      &excelize.Font{Bold: f.bold, Italic: f.italic, Family: family, Size: f.points(), Color: f.colour},
		Alignment: &excelize.Alignment{Vertical: "top", WrapText: l.wrapped || l.style == Head},
	}
	switch {
	case l.across:
		st.Alignment.Horizontal = "right"
	case l.apart:
		st.Alignment.Horizontal, st.Alignment.Indent = "left", 1
	}
	if f.fill != "" {
		st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{f.fill}}
	}
	if f.under {
		st.Border = []excelize.Border{{Type: "bottom", Color: "666666", Style: 1}}
	}
	switch l.format {
	case "":
	case asText:
		st.NumFmt = 49 // "@"
	default:
		st.CustomNumFmt = &l.format
	}
	id, err := b.file.NewStyle(st)
	b.keep(err)
	b.styles[l] = id
	return id
}
