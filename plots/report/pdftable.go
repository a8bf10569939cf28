package report

import (
	"strings"
	"unicode/utf8"
)

const (
	cellSize = 8.0 // points
	cellPad  = 1.2 // mm on each side
)

// table prints the head, on every page that the table reaches, and the rows; a row stays on one page.
func (s *sheet) table(t *Table) {
	widths := s.widths(t)
	head := Row{Cells: cells(t.Head...)}
	s.row(t, head, widths, "B")
	for _, r := range t.Rows {
		if s.GetY()+s.height(r, widths, "") > textBottom {
			s.AddPage()
			s.black()
			s.row(t, head, widths, "B")
		}
		s.row(t, r, widths, "")
	}
}

// widths are those of the columns, mm: what they need, or where that is more than the page has, each its longest word and a share of the rest by what it needs.
func (s *sheet) widths(t *Table) []float64 {
	if t.Shares != nil {
		out := make([]float64, len(t.Shares))
		for k, x := range t.Shares {
			out[k] = x * textWide
		}
		return out
	}
	need, least := make([]float64, len(t.Head)), make([]float64, len(t.Head))
	see := func(k int, text, style string) {
		s.face(style, cellSize)
		need[k] = max(need[k], s.GetStringWidth(plainText(text))+2*cellPad+0.5)
		for _, w := range words(text) {
			least[k] = max(least[k], min(s.GetStringWidth(plainText(w)), textWide/4)+2*cellPad+0.5)
		}
	}
	for k, h := range t.Head {
		see(k, h, "B")
	}
	for _, r := range t.Rows {
		for k, c := range r.Cells {
			if k < len(need) {
				see(k, c.Text, "B")
			}
		}
	}
	total, floor := 0.0, 0.0
	for k := range need {
		total, floor = total+need[k], floor+least[k]
	}
	out := make([]float64, len(need))
	for k := range need {
		switch {
		case total <= textWide:
			out[k] = need[k] + (textWide-total)/float64(len(need))
		case floor >= textWide:
			out[k] = least[k] * textWide / floor
		default:
			out[k] = least[k] + (need[k]-least[k])*(textWide-floor)/(total-floor)
		}
	}
	return out
}

// height is that of a row, mm.
func (s *sheet) height(r Row, widths []float64, style string) float64 {
	lines := 1
	s.face(style, cellSize)
	for k, c := range r.Cells {
		if k < len(widths) {
			s.cellFace(style, c)
			lines = max(lines, len(s.wrap(c.Text, s.room(r, widths, k))))
		}
	}
	return float64(lines)*s.leading() + 1.4
}

// cellFace sets the face of a cell: an alarm stands out in bold.
func (s *sheet) cellFace(style string, c Cell) {
	if c.Alarm {
		style = "B"
	}
	s.face(style, cellSize)
}

// room is the width for the text of a cell, mm.
func (s *sheet) room(r Row, widths []float64, k int) float64 {
	w := widths[k] - 2*cellPad
	if k == 0 && r.Detail {
		w -= detailIndent
	}
	return w
}

const detailIndent = 3.0 // mm

func (s *sheet) row(t *Table, r Row, widths []float64, style string) {
	high, top, x := s.height(r, widths, style), s.GetY(), marginX
	for k, c := range r.Cells {
		if k >= len(widths) {
			break
		}
		s.cellFace(style, c)
		if c.Alarm {
			s.alarm()
		}
		for i, l := range s.wrap(c.Text, s.room(r, widths, k)) {
			at := x + widths[k] - cellPad - s.GetStringWidth(l)
			if k == 0 || t.Words {
				at = x + widths[k] - cellPad - s.room(r, widths, k)
			}
			s.Text(at, top+0.7+float64(i)*s.leading()+s.size*pointMM, l)
		}
		s.black()
		x += widths[k]
	}
	if style == "B" {
		s.SetDrawColor(0x55, 0x55, 0x55)
	} else {
		s.SetDrawColor(0xcc, 0xcc, 0xcc)
	}
	s.Line(marginX, top+high, marginX+textWide, top+high)
	s.SetDrawColor(0x55, 0x55, 0x55)
	s.SetY(top + high)
}

// wrap breaks a text into lines of a width, mm, between words, and within a word that is longer than a line; at least one line.
func (s *sheet) wrap(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range words(plainText(text)) {
		joined := word
		if line != "" {
			joined = line + " " + word
		}
		if s.GetStringWidth(joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; line != "" && s.GetStringWidth(line) > width; {
			n := max(s.fitting(line, width), utf8.RuneLen([]rune(line)[0]))
			lines, line = append(lines, line[:n]), line[n:]
		}
	}
	return append(lines, line)
}

// words are the parts of a text between which a line may end: a no-break space is part of a word.
func words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' })
}

// fitting is how many bytes of a word go into a width: at least one letter.
func (s *sheet) fitting(word string, width float64) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && s.GetStringWidth(word[:end]) > width {
			break
		}
		n = end
	}
	return n
}

// cut is the beginning of a text that fits a width.
func (s *sheet) cut(text string, width float64) string {
	text = plainText(text)
	if s.GetStringWidth(text) <= width {
		return text
	}
	return text[:s.fitting(text, width-2)] + "…"
}

// plainText is a text in what the typeface can hold: characters beyond the basic plane become a box.
func plainText(text string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF || r == '\uFFFD' {
			return '□'
		}
		return r
	}, text)
}
