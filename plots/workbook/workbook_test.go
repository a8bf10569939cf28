package workbook

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

func sample() *Book {
	b := New(About{Title: "2 & 3 lifts", Mark: "example", Program: "seatwise test", Date: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)})
	s := b.Sheet("Summary", 20, 12, 12)
	s.Row(Text("Summary").In(Title))
	s.Paragraph(strings.Repeat("A sentence of some length. ", 10), Plain)
	s.Gap()
	s.Freeze(1, 1)
	d := b.Sheet("Data", 12, 12)
	x := d.Put(0, 0, Text("time, s").In(Head))
	y := d.Put(0, 1, Text("swing").In(Head))
	xs, ys := d.Column(1, 0, 3, []float64{0, 1, 2}), d.Column(1, 1, 2, []float64{5.2, 11.4, 4.9})
	s.Chart(s.Next(), 0, Chart{Title: "Pressure", X: Axis{Label: "Time (s)"}, Y: Axis{Label: "Gauge pressure (bar)"}, Lines: []Line{{Name: y, X: xs, Y: ys, Colour: "0072B2"}}})
	s.Bars(s.Next(), 0, Chart{Title: "Peak", Lines: []Line{{Name: y, X: xs, Y: ys, Colour: "0072B2"}}}, Line{Name: x, X: xs, Y: ys, Colour: "333333", Dash: Dotted})
	return b
}

func written(t require.TestingT, b *Book) []byte {
	var buf bytes.Buffer
	require.NoError(t, b.Write(&buf))
	return buf.Bytes()
}

func opened(t require.TestingT, raw []byte) *excelize.File {
	f, err := excelize.OpenReader(bytes.NewReader(raw))
	require.NoError(t, err)
	return f
}

func TestSameBytes(t *testing.T) {
	require.Equal(t, written(t, sample()), written(t, sample()))
	f := opened(t, written(t, sample()))
	p, err := f.GetDocProps()
	require.NoError(t, err)
	require.Equal(t, "2026-11-25T00:00:00Z", p.Created)
	require.Equal(t, "2026-11-25T00:00:00Z", p.Modified)
	require.Equal(t, "2 & 3 lifts", p.Title)
}

// TestTextsStayTexts guards against texts of a case file that a spreadsheet would read as a formula.
func TestTextsStayTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(
			rapid.SampledFrom([]string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "=HYPERLINK(\"http://x\")", " =1", "1e5", "007", "TRUE", "_x000a_", "_x000a_x000b_", "_x005F_x0041_", "2026-11-25", "<b>&amp;", "'=1"}),
			rapid.String()).Draw(t, "text")
		b := New(About{Title: text, Mark: text})
		s := b.Sheet(text, 10, 10)
		s.Row(Text(text), Text(text).In(Head), Number(1, 0))
		s.Paragraph(text, Strong)
		f := opened(t, written(t, b))
		for _, at := range []string{"A1", "B1"} {
			formula, err := f.GetCellFormula(s.Name(), at)
			require.NoError(t, err)
			require.Empty(t, formula)
			kind, err := f.GetCellType(s.Name(), at)
			require.NoError(t, err)
			got, err := f.GetCellValue(s.Name(), at)
			require.NoError(t, err)
			require.Equal(t, clean(text), got)
			if got != "" {
				require.Equal(t, excelize.CellTypeSharedString, kind)
			}
			if strings.ContainsAny(got[:min(1, len(got))], leading) {
				id, err := f.GetCellStyle(s.Name(), at)
				require.NoError(t, err)
				st, err := f.GetStyle(id)
				require.NoError(t, err)
				require.Equal(t, 49, st.NumFmt, "it would become a formula when edited")
			}
		}
	})
}

func TestNumbersStayExact(t *testing.T) {
	b := New(About{})
	s := b.Sheet("n")
	values := []float64{0.638123456789, 1e-9, -0.5, 1e12, math.Copysign(0, -1), math.Pi, 5e-324, math.MaxFloat64}
	s.Column(0, 0, 2, values)
	s.Row(Number(math.NaN(), 1))
	f := opened(t, written(t, b))
	for i, v := range values {
		at, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		got, err := f.GetCellValue("n", at, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		require.InDelta(t, v, number(t, got), 1e-15*math.Abs(v), at)
		require.NotContains(t, got, "-0.0")
	}
	got, err := f.GetCellValue("n", "A9")
	require.NoError(t, err)
	require.Equal(t, "no value", got)
	shown, err := f.GetCellValue("n", "A1")
	require.NoError(t, err)
	require.Equal(t, "0.64", shown)
}

func TestSheetNames(t *testing.T) {
	b := New(About{})
	for _, name := range []string{"Histories", "histories", "a/b:c*[d]?", "'quoted'", strings.Repeat("long ", 20), strings.Repeat("long ", 20), "", "\x00"} {
		b.Sheet(name)
	}
	seen := map[string]bool{}
	for _, name := range opened(t, written(t, b)).GetSheetList() {
		require.LessOrEqual(t, len([]rune(name)), 31)
		require.NotContains(t, name, "'")
		require.False(t, seen[strings.ToLower(name)])
		seen[strings.ToLower(name)] = true
	}
	require.Len(t, seen, 8)
}

func TestPageSetUp(t *testing.T) {
	f := opened(t, written(t, sample()))
	l, err := f.GetPageLayout("Summary")
	require.NoError(t, err)
	require.Equal(t, 9, *l.Size)
	require.Equal(t, "landscape", *l.Orientation)
	require.Equal(t, 1, *l.FitToWidth)
	require.Equal(t, 0, *l.FitToHeight)
	h, err := f.GetHeaderFooter("Summary")
	require.NoError(t, err)
	require.Equal(t, "&L 2 && 3 lifts&Cexample&RSummary", h.OddHeader)
	require.Contains(t, h.OddFooter, "Page &P of &N")
	require.Equal(t, "'Summary'!$1:$1", f.GetDefinedName()[0].RefersTo)
}

func TestTooManyRows(t *testing.T) {
	b := New(About{})
	b.Sheet("n").Put(mostRows, 0, Number(1, 0))
	require.ErrorIs(t, b.Write(&bytes.Buffer{}), ErrSheet)
}

func number(t *testing.T, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
