package casefile

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"seatwise/network"
	"seatwise/network/quantity"
)

// column is one column of a table.
type column struct {
	name     string
	dim      quantity.Dimension
	optional bool
}

// table reads a table of any of the three forms: rows with units, columns and rows, or the name of a CSV file. Rows hold SI values in the
// order of the wanted columns; has tells which optional columns are there. Nothing is returned of a table with a fault.
func (s *section) table(key string, wanted []column) (rows [][]float64, has []bool) {
	p := s.take(key)
	s.r.survey.form(s.key(key), shape{kind: isTable, columns: wanted})
	if p == nil {
		return nil, nil
	}
	t := tabular{r: s.r, path: s.key(key), wanted: wanted, has: make([]bool, len(wanted)), errs: len(s.r.errs)}
	switch p.value.kind {
	case list:
		t.plain(p.value)
	case mapping:
		t.headed(p)
	default:
		t.file(p.value)
	}
	if len(s.r.errs) > t.errs {
		s.r.fail(t.path)
		return nil, nil
	}
	if len(t.rows) == 0 {
		s.r.failed(t.path, p.value.fault(t.path+" has no rows", "write rows of "+t.names()))
		return nil, nil
	}
	if t.cells != nil {
		s.r.note(t.path, t.cells)
	}
	return t.rows, t.has
}

// tabular is a table being read.
type tabular struct {
	r      *reader
	path   string
	wanted []column
	has    []bool
	rows   [][]float64
	cells  [][]cell // in the order of rows and of the wanted columns; nil where the case itself has the rows in that order
	errs   int      // number of errors before this table
	sheet  bool     // a CSV file
	commas bool     // decimals are written with a comma
}

func (t *tabular) names() string {
	var names []string
	for _, c := range t.wanted {
		if c.optional {
			names = append(names, "["+c.name+"]")
		} else {
			names = append(names, c.name)
		}
	}
	return strings.Join(names, ", ")
}

// plain reads rows in which every value has its unit.
func (t *tabular) plain(n *node) {
	least := 0
	for _, c := range t.wanted {
		if !c.optional {
			least++
		}
	}
	width := 0
	for i, row := range n.items {
		path := fmt.Sprintf("%s[%d]", t.path, i+1)
		if row.kind != list {
			t.r.failed(path, row.fault(fmt.Sprintf("%s is %s, a row is wanted", path, row.kind), "write [...] with "+t.names()))
			continue
		}
		if e := halves(row.items); e != nil {
			e.Msg = path + ": " + e.Msg
			t.r.failed(path, e)
			continue
		}
		if len(row.items) < least || len(row.items) > len(t.wanted) {
			t.r.failed(path, row.fault(fmt.Sprintf("%s has %s", path, values(len(row.items))), "a row is "+t.names()))
			continue
		}
		if width == 0 {
			width = len(row.items)
		}
		if len(row.items) != width {
			t.r.failed(path, row.fault(fmt.Sprintf("%s has %s, the first row has %d", path, values(len(row.items)), width), "give every row the same columns"))
			continue
		}
		si := make([]float64, len(t.wanted))
		for j, item := range row.items {
			if item.kind == empty {
				t.r.failed(path, row.fault(fmt.Sprintf("%s[%d] has no value", path, j+1), "write the value"))
				continue
			}
			si[j], _ = t.r.quantity(item, fmt.Sprintf("%s[%d]", path, j+1), t.wanted[j].dim)
			t.has[j] = true
		}
		t.rows = append(t.rows, si)
	}
}

// halves finds a number in a row of values with units that a comma has cut in two.
func halves(items []*node) *Error {
	for i := 0; i+1 < len(items); i++ {
		if e := comma(items[i], items[i+1]); e != nil && items[i+1].column == items[i].column+utf8.RuneCountInString(items[i].text)+1 {
			return e
		}
	}
	return nil
}

func values(n int) string {
	if n == 1 {
		return "1 value"
	}
	return fmt.Sprintf("%d values", n)
}

// headed reads {columns: [...], rows: [...]}.
func (t *tabular) headed(p *pair) {
	s := t.r.section(p, t.path)
	s.need("columns", "["+t.names()+"] with units")
	s.need("rows", "[[...], [...]]")
	heads := s.items("columns", "columns: [flow m3/h, head m]")
	rows := s.items("rows", "rows: [[0, 66], [215, 62]]")
	s.done()
	if len(t.r.errs) > t.errs {
		return
	}
	var names []*node
	for _, h := range heads {
		if h.kind != scalar {
			t.r.failed(t.path, h.fault(fmt.Sprintf("%s.columns: the head of a column is %s", t.path, h.kind), "write a name with its unit"))
			return
		}
		names = append(names, h)
	}
	place, units, ok := t.head(names, p.key)
	if !ok {
		return
	}
	for i, row := range rows {
		path := fmt.Sprintf("%s.rows[%d]", t.path, i+1)
		if row.kind != list {
			t.r.failed(path, row.fault(fmt.Sprintf("%s is %s, a row is wanted", path, row.kind), "write [...]"))
			continue
		}
		t.row(row, row.items, path, place, units)
	}
}

// head finds out which wanted column each column is, and its unit.
func (t *tabular) head(heads []*node, at *node) (place []int, units []quantity.Unit, ok bool) {
	ok = true
	for _, h := range heads {
		k, unit := t.column(h.text)
		if k < 0 {
			t.r.failed(t.path, h.fault(fmt.Sprintf("%s: unknown column %s", t.path, quantity.Quote(h.text)), t.columnHint(h.text)))
			ok = false
			continue
		}
		if t.has[k] {
			t.r.failed(t.path, h.fault(fmt.Sprintf("%s: column %s is there twice", t.path, t.wanted[k].name), "take one out"))
			ok = false
			continue
		}
		u, err := quantity.ParseUnit(unit, t.wanted[k].dim)
		if err != nil && unit == "" {
			name := t.wanted[k].name
			t.r.failed(t.path, h.fault(fmt.Sprintf("%s: column %s has no unit", t.path, name), "write it like "+name+" "+quantity.SI.Unit(t.wanted[k].dim).Symbol))
			ok = false
			continue
		}
		if err != nil {
			t.r.failed(t.path, unreadable(h, t.path+", column "+t.wanted[k].name, err))
			ok = false
			continue
		}
		t.has[k] = true
		place, units = append(place, k), append(units, u)
	}
	for k, c := range t.wanted {
		if !c.optional && !t.has[k] && ok {
			t.r.failed(t.path, at.fault(fmt.Sprintf("%s: column %s is missing", t.path, c.name), "columns: "+t.names()))
			return nil, nil, false
		}
	}
	return place, units, ok
}

// column is the wanted column that a head names, and the rest of the head.
func (t *tabular) column(head string) (int, string) {
	head = strings.TrimSpace(head)
	for k, c := range t.wanted {
		if rest, ok := strings.CutPrefix(head, c.name); ok && (rest == "" || strings.ContainsRune(" [(", rune(rest[0]))) {
			return k, bare(strings.TrimSpace(rest))
		}
	}
	return -1, ""
}

// bare is a unit without the brackets around it.
func bare(unit string) string {
	for _, pair := range []string{"[]", "()"} {
		if n := len(unit); n > 1 && unit[0] == pair[0] && unit[n-1] == pair[1] && !strings.ContainsRune(unit[1:n-1], rune(pair[0])) {
			return strings.TrimSpace(unit[1 : n-1])
		}
	}
	return unit
}

func (t *tabular) columnHint(head string) string {
	var names []string
	for _, c := range t.wanted {
		names = append(names, c.name)
	}
	name, unit, _ := strings.Cut(strings.TrimSpace(head), " ")
	if near := network.Nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q?", strings.TrimSpace(near+" "+unit))
	}
	return "columns: " + t.names()
}

// row reads plain numbers counted in the units of their columns.
func (t *tabular) row(at *node, items []*node, path string, place []int, units []quantity.Unit) {
	if len(items) != len(place) {
		t.r.failed(path, at.fault(fmt.Sprintf("%s has %s, the table has %d columns", path, values(len(items)), len(place)), t.unequal(items, len(place))))
		return
	}
	si, cells := make([]float64, len(t.wanted)), make([]cell, len(t.wanted))
	for j, item := range items {
		cells[place[j]] = cell{item, units[j].Symbol}
		text, ok := t.r.scalar(item, fmt.Sprintf("%s[%d]", path, j+1), "a number")
		if !ok {
			continue
		}
		if t.commas {
			text = strings.Replace(text, ",", ".", 1)
		}
		q, err := units[j].Parse(text)
		if err != nil {
			t.r.failed(path, unreadable(item, fmt.Sprintf("%s[%d]", path, j+1), err))
			continue
		}
		si[place[j]] = q.SI
		if q.Absolute && t.wanted[place[j]].dim == quantity.Pressure {
			si[place[j]] -= t.r.atmosphere
		}
	}
	t.rows, t.cells = append(t.rows, si), append(t.cells, cells)
}
