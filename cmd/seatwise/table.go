package main

import (
	"strings"
)

// table is rows with a label on the left and columns aligned right. Columns that do not fit the width go below, under the label and the
// last column once more; on a narrow terminal one column comes after the other as a list.
type table struct {
	corner string   // head of the labels
	head   []string // of the columns
	last   string   // head of a column that stays at the right; "": none
	rows   []row
}

// try is how far labels and cells may be wrapped to fit.
type try struct {
	label int // least columns of labels that have to be wrapped
	cell  int // most columns of a cell
}

// tries are taken in order until all columns fit.
var tries = []try{{24, roomy}, {24, 16}, {20, leastCell}}

// row is one line of a table.
type row struct {
	label string
	cells []cell // as many as the head
	last  string
}

// cell is a text and whether it is an alarm.
type cell struct {
	text  string
	alarm bool
}

func plain(texts ...string) []cell {
	cells := make([]cell, len(texts))
	for i, t := range texts {
		cells[i].text = t
	}
	return cells
}

func (t *table) add(label string, cells []cell, last string) {
	t.rows = append(t.rows, row{label, cells, last})
}

const (
	gap       = "  "
	roomy     = 1 << 20 // no bound on the width of a cell
	leastCell = 11      // to which cells are wrapped when a table is too wide
)

// print lays the table out to the width of the screen.
func (t *table) print(s *screen) {
	if len(t.rows) == 0 || len(t.head) == 0 {
		return
	}
	if s.narrow() {
		t.list(s)
		return
	}
	var l layout
	for _, w := range tries {
		if l = t.layout(s, w); l.width() <= s.width {
			break
		}
	}
	for from := 0; from < len(t.head); {
		n := l.fitting(from)
		if from > 0 {
			s.line("")
		}
		l.print(s, from, from+n)
		from += n
	}
}

// layout is a table with the widths of its columns.
type layout struct {
	*table
	screen, bound int
	label, last   int
	widths        []int
}

func (t *table) layout(s *screen, w try) layout {
	l := layout{table: t, screen: s.width, bound: w.cell, widths: make([]int, len(t.head))}
	left := s.width
	for i, h := range t.head {
		l.widths[i] = widest(wrap(h, l.bound))
		for _, r := range t.rows {
			l.widths[i] = max(l.widths[i], widest(wrap(r.cells[i].text, l.bound)))
		}
		left -= len(gap) + l.widths[i]
	}
	if t.last != "" {
		l.last = columns(t.last)
		for _, r := range t.rows {
			l.last = max(l.last, columns(r.last))
		}
		left -= len(gap) + l.last
	}
	for _, text := range append([]string{t.corner}, labels(t.rows)...) {
		l.label = max(l.label, widest(wrapLabel(text, max(left, w.label))))
	}
	return l
}

// width is that of the whole table with all its columns side by side.
func (l layout) width() int {
	n := l.label
	for _, w := range l.widths {
		n += len(gap) + w
	}
	if l.last > 0 {
		n += len(gap) + l.last
	}
	return n
}

// fitting is how many columns from one on fit beside label and last column; at least one.
func (l layout) fitting(from int) int {
	room := l.screen - l.label
	if l.last > 0 {
		room -= len(gap) + l.last
	}
	n := 0
	for _, w := range l.widths[from:] {
		if room -= len(gap) + w; room < 0 && n > 0 {
			break
		}
		n++
	}
	return n
}

func (l layout) print(s *screen, from, to int) {
	l.row(s, row{l.corner, plain(l.head...), l.table.last}, from, to, s.strong)
	for _, r := range l.rows {
		l.row(s, r, from, to, nil)
	}
}

// row prints one row, on as many lines as its longest part needs.
func (l layout) row(s *screen, r row, from, to int, style func(string) string) {
	label := wrapLabel(r.label, l.label)
	height := len(label)
	var cells [][]string
	for _, c := range r.cells[from:to] {
		lines := wrap(c.text, l.bound)
		cells = append(cells, lines)
		height = max(height, len(lines))
	}
	for i := range height {
		var b strings.Builder
		put := func(text string, alarm bool) {
			switch {
			case style != nil:
				text = style(text)
			case alarm:
				text = s.alarm(text)
			}
			b.WriteString(text)
		}
		put(padRight(at(label, i), l.label), false)
		for k, lines := range cells {
			b.WriteString(gap)
			put(padLeft(at(lines, i), l.widths[from+k]), r.cells[from+k].alarm)
		}
		if l.last > 0 {
			last := ""
			if i == 0 {
				last = r.last
			}
			b.WriteString(gap)
			put(padLeft(last, l.last), false)
		}
		s.line("%s", strings.TrimRight(b.String(), " "))
	}
}

// list prints one column after the other.
func (t *table) list(s *screen) {
	for i, h := range t.head {
		if i > 0 {
			s.line("")
		}
		for _, l := range wrap(h, s.width) {
			s.line("%s", s.strong(l))
		}
		for _, r := range t.rows {
			c := r.cells[i]
			if c.text == "" {
				continue
			}
			text := strings.TrimSpace(strings.TrimSpace(r.label)+" "+r.last) + ": " + c.text
			for _, l := range wrap(text, s.width-2) {
				if c.alarm {
					l = s.alarm(l)
				}
				s.line("  %s", l)
			}
		}
	}
}

// wrapLabel wraps a label, keeping its indent on every line.
func wrapLabel(text string, width int) []string {
	indent := text[:len(text)-len(strings.TrimLeft(text, " "))]
	lines := wrap(text, width-len(indent))
	for i := range lines {
		lines[i] = indent + lines[i]
	}
	return lines
}

func labels(rows []row) []string {
	var out []string
	for _, r := range rows {
		out = append(out, r.label)
	}
	return out
}

func widest(lines []string) int {
	n := 0
	for _, l := range lines {
		n = max(n, columns(l))
	}
	return n
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}
