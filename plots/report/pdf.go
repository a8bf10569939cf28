package report

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"strings"
	"time"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"github.com/go-pdf/fpdf"

	"seatwise/plots"
)

// Lengths of a page, mm. The text is as wide as a figure and fits between the margins of A4 and, cut at the foot, of Letter.
const (
	pageWide, pageHigh   = 210.0, 297.0
	marginX, marginTop   = 22.0, 20.0
	textWide, textBottom = pageWide - 2*marginX, pageHigh - 20.0
	pointMM              = 25.4 / 72
)

const (
	sans = "sans"
	mono = "mono"
)

// sheet is a PDF being written: what goes down the page, and where.
type sheet struct {
	*fpdf.Fpdf
	family, style   string  // of the letters
	size            float64 // of the letters, points
	tables, figures int
}

// PDF writes a report as an A4 document with its typefaces inside. Day is that of the document, for its properties; the same report gives the same
// bytes. Errors are those of the figures and of the writer.
func PDF(w io.Writer, d *Document, day time.Time) error {
	s := newSheet(d, day)
	for i, part := range d.Sections {
		if part.NewPage && i > 0 {
			s.AddPage()
		}
		s.gap(4)
		s.keep(25)
		s.text(part.Heading, "B", 13)
		s.Line(marginX, s.GetY()+0.5, marginX+textWide, s.GetY()+0.5)
		s.gap(2.5)
		for _, b := range part.Blocks {
			if err := s.block(b); err != nil {
				return fmt.Errorf("report: %w", err)
			}
		}
	}
	if err := s.Output(w); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	return nil
}

// newSheet is a document with its typefaces and the head of its first page.
func newSheet(d *Document, day time.Time) *sheet {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(day)
	f.SetModificationDate(day)
	f.SetTitle(d.Title, true)
	f.SetCreator(d.Foot, true)
	f.AddUTF8FontFromBytes(sans, "", liberationsansregular.TTF)
	f.AddUTF8FontFromBytes(sans, "B", liberationsansbold.TTF)
	f.AddUTF8FontFromBytes(mono, "", liberationmonoregular.TTF)
	f.SetMargins(marginX, marginTop, marginX)
	f.SetAutoPageBreak(false, 0)
	f.AliasNbPages("")
	s := &sheet{Fpdf: f}
	f.SetHeaderFunc(func() { s.header(d) })
	f.AddPage()
	s.head(d)
	return s
}

// header is what stands on every page: title and marks above, program and page below.
func (s *sheet) header(d *Document) {
	s.grey()
	s.face("", 6.3)
	s.Text(marginX, pageHigh-10, s.cut(d.Foot, textWide-15))
	s.face("", 7.5)
	s.Text(marginX, 12, s.cut(d.Title, textWide*0.6))
	page := fmt.Sprintf("%d of {nb}", s.PageNo())
	s.Text(marginX+textWide-12, pageHigh-10, page)
	s.alarm()
	s.face("B", 7.5)
	mark := strings.Join(d.Marks, "; ")
	s.Text(marginX+textWide-s.GetStringWidth(mark), 12, mark)
	s.black()
	s.SetY(marginTop)
}

// head is the title block.
func (s *sheet) head(d *Document) {
	s.text(d.Title, "B", 17)
	if d.Subtitle != "" {
		s.text(d.Subtitle, "", 10)
	}
	s.gap(2)
	const across = 3
	wide, high := textWide/across, 9.0
	top := s.GetY()
	for i, b := range d.Boxes {
		x, y := marginX+float64(i%across)*wide, top+float64(i/across)*high
		s.Rect(x, y, wide, high, "D")
		s.grey()
		s.face("", 6.5)
		s.Text(x+1.5, y+3, b.Label)
		s.black()
		s.face("", 9)
		s.Text(x+1.5, y+7.3, s.cut(b.Value, wide-3))
	}
	s.SetY(top + high*float64((len(d.Boxes)+across-1)/across))
	s.gap(1)
}

func (s *sheet) block(b Block) error {
	switch b := b.(type) {
	case Subheading:
		s.gap(2)
		s.keep(15)
		s.text(string(b), "B", 10)
	case Paragraph:
		s.text(string(b), "", 9.5)
		s.gap(1)
	case Notice:
		s.alarm()
		s.text(string(b), "B", 10.5)
		s.black()
		s.gap(1)
	case List:
		for _, item := range b {
			s.hanging("•", item, 4, 9.5)
		}
		s.gap(1)
	case *Table:
		s.tables++
		s.caption(fmt.Sprintf("Table %d. %s", s.tables, b.Caption), 14)
		s.table(b)
		s.gap(3)
	case Picture:
		return s.picture(b)
	case Listing:
		s.listing(b)
	}
	return nil
}

const captionRoom = 12.0 // mm, of a figure's caption

// picture is a figure at its size at print, or smaller where a page is not high enough.
func (s *sheet) picture(p Picture) error {
	s.figures++
	raw, wider, err := raster(p.Figure, s.figures)
	if err != nil {
		return err
	}
	width, height := p.Figure.Size()
	width, height = 1000*width*wider, 1000*height
	name, options := fmt.Sprint("figure", s.figures), fpdf.ImageOptions{ImageType: "PNG"}
	if most := textBottom - marginTop - captionRoom; height > most { // the whole of it on one page
		width, height = width*most/height, most
	}
	s.RegisterImageOptionsReader(name, options, bytes.NewReader(raw))
	s.keep(height + captionRoom)
	s.ImageOptions(name, marginX+(textWide-width)/2, s.GetY(), width, height, false, options, 0, "")
	s.SetY(s.GetY() + height + 1)
	s.caption(fmt.Sprintf("Figure %d. %s", s.figures, p.Caption), 0)
	s.gap(3)
	return s.Error()
}

// raster is a figure as PNG with so many white columns at its right, and how much wider that makes it. The library orders images by their width, and
// those of one width as it happens: figures of different widths give the same bytes in every run.
func raster(f plots.Figure, columns int) (raw []byte, wider float64, err error) {
	var buf bytes.Buffer
	if err := f.PNG(&buf); err != nil {
		return nil, 0, err
	}
	drawn, err := png.Decode(&buf)
	if err != nil {
		return nil, 0, err
	}
	box := drawn.Bounds()
	padded := image.NewRGBA(image.Rect(0, 0, box.Dx()+columns, box.Dy()))
	draw.Draw(padded, padded.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(padded, image.Rect(0, 0, box.Dx(), box.Dy()), drawn, box.Min, draw.Over)
	buf.Reset()
	err = png.Encode(&buf, padded)
	return buf.Bytes(), float64(box.Dx()+columns) / float64(box.Dx()), err
}

func (s *sheet) caption(text string, after float64) {
	s.keep(8 + after)
	s.grey()
	s.text(text, "", 8)
	s.black()
	s.gap(0.7)
}

// listing is a file in a typeface of one width, line by line.
func (s *sheet) listing(l Listing) {
	s.gap(2)
	s.keep(15)
	s.text(l.Name, "B", 10)
	s.gap(1)
	s.letter(mono, "", 7.5)
	for _, line := range strings.Split(strings.TrimRight(l.Text, "\n"), "\n") {
		line = plainText(strings.TrimRight(line, "\r"))
		for s.GetStringWidth(line) > textWide {
			n := s.fitting(line, textWide)
			s.line(marginX, line[:n])
			line = "    " + line[n:]
		}
		s.line(marginX, line)
	}
}

// text is a paragraph over the whole width.
func (s *sheet) text(text, style string, size float64) {
	s.face(style, size)
	for _, l := range s.wrap(text, textWide) {
		s.line(marginX, l)
	}
}

// hanging is a paragraph behind a mark.
func (s *sheet) hanging(mark, text string, indent, size float64) {
	s.face("", size)
	for i, l := range s.wrap(text, textWide-indent) {
		s.keep(s.leading())
		if i == 0 {
			s.Text(marginX+1, s.base(), mark)
		}
		s.line(marginX+indent, l)
	}
	s.gap(0.6)
}

// line is one line of text; the next comes below it.
func (s *sheet) line(x float64, text string) {
	s.keep(s.leading())
	s.Text(x, s.base(), text)
	s.SetY(s.GetY() + s.leading())
}

func (s *sheet) leading() float64 { return s.size * 1.3 * pointMM }

// base is where the letters of a line stand.
func (s *sheet) base() float64 { return s.GetY() + s.size*pointMM }

func (s *sheet) gap(mm float64) { s.SetY(s.GetY() + mm) }

// keep begins a page where fewer than so many millimetres are left.
func (s *sheet) keep(mm float64) {
	if s.GetY()+mm > textBottom && s.GetY() > marginTop {
		family, style, size := s.family, s.style, s.size
		r, g, b := s.GetTextColor()
		s.AddPage()
		s.SetTextColor(r, g, b)
		s.letter(family, style, size)
	}
}

func (s *sheet) face(style string, size float64) { s.letter(sans, style, size) }

// letter sets typeface, style and size.
func (s *sheet) letter(family, style string, size float64) {
	s.SetFont(family, style, size)
	s.family, s.style, s.size = family, style, size
}

func (s *sheet) black() { s.SetTextColor(0x22, 0x22, 0x22) }
func (s *sheet) grey()  { s.SetTextColor(0x55, 0x55, 0x55) }
func (s *sheet) alarm() { s.SetTextColor(0x8a, 0x1c, 0x2b) }
