package plots

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"html"
	"image"
	"image/png"
	"io"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// DPI is the resolution of PNG figures, dots per inch.
const DPI = 200

// Figure is one figure, ready to be drawn any number of times and by several goroutines at once.
type Figure struct {
	Name    string // of its files, without an ending
	Caption string // for a report
	page    page
}

// Size is the size at print, m.
func (f Figure) Size() (width, height float64) {
	const inch = 0.0254
	return pageWidth.Dots(1) * inch, f.page.height().Dots(1) * inch
}

// PNG writes the figure as a PNG of [DPI] that states its resolution. Errors are those of the writer.
func (f Figure) PNG(w io.Writer) error {
	var buf bytes.Buffer
	if err := png.Encode(&buf, f.raster(DPI)); err != nil {
		return fmt.Errorf("plots: %s.png: %w", f.Name, err)
	}
	raw := buf.Bytes()
	const head = 8 + 25 // signature and IHDR chunk, after which pHYs may stand
	for _, part := range [][]byte{raw[:head], resolution(DPI), raw[head:]} {
		if _, err := w.Write(part); err != nil {
			return fmt.Errorf("plots: %s.png: %w", f.Name, err)
		}
	}
	return nil
}

func (f Figure) raster(dpi int) image.Image {
	c := vgimg.NewWith(vgimg.UseWH(pageWidth, f.page.height()), vgimg.UseDPI(dpi))
	f.page.draw(draw.New(c))
	return c.Image()
}

// resolution is a pHYs chunk: pixels per metre in both directions (Portable Network Graphics specification, 3rd ed., 11.3.4.3).
func resolution(dpi float64) []byte {
	perMetre := uint32(math.Round(dpi / 0.0254))
	b := binary.BigEndian.AppendUint32(nil, 9)
	b = append(b, "pHYs"...)
	b = binary.BigEndian.AppendUint32(b, perMetre)
	b = binary.BigEndian.AppendUint32(b, perMetre)
	b = append(b, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// fonts are tried in this order; the first four have the same widths.
const fonts = "'Liberation Sans', Arial, Helvetica, Arimo, sans-serif"

// SVG writes the figure as an SVG document. The typeface is named, not embedded. Errors are those of the writer.
func (f Figure) SVG(w io.Writer) error {
	c := vgsvg.NewWith(vgsvg.UseWH(pageWidth, f.page.height()), vgsvg.EmbedFonts(false))
	f.page.draw(draw.New(c))
	var buf bytes.Buffer
	if _, err := c.WriteTo(&buf); err != nil {
		return fmt.Errorf("plots: %s.svg: %w", f.Name, err)
	}
	doc := bytes.ReplaceAll(buf.Bytes(), []byte("font-family:Liberation Sans;font-variant:normal;font-weight:normal;font-style:normal;"),
		[]byte("font-family:"+fonts+";"))
	const root = `xmlns:xlink="http://www.w3.org/1999/xlink">`
	title := html.EscapeString(clean(f.page.title + ": " + f.page.about))
	doc = bytes.Replace(doc, []byte(root), []byte(root[:len(root)-1]+` stroke-linejoin="round" role="img"><title>`+title+"</title>"), 1)
	if _, err := w.Write(doc); err != nil {
		return fmt.Errorf("plots: %s.svg: %w", f.Name, err)
	}
	return nil
}

// cm is a length at print.
func cm(x float64) vg.Length { return vg.Length(x) * vg.Centimeter }
