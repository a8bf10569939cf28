package casefile

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode/utf8"
)

// A CSV file is a table as spreadsheets export it. Its first line holds the heads of the columns with their units, in brackets or not. Columns are
// divided by commas; or by semicolons, where the first line has one, and then decimals may be written with a comma. Lines without a value at the end of the file and
// columns without head and value at its right are left out; lines that begin with # are remarks. Nothing with two readings is read: a comma between
// digits where commas divide the columns, a point in a number where others of the file have a comma.

// file reads a CSV file.
func (t *tabular) file(n *node) {
	if n.kind != scalar {
		t.r.failed(t.path, n.fault(fmt.Sprintf("%s is %s, a table is wanted", t.path, n.kind), "write rows of "+t.names()))
		return
	}
	t.r.given(t.path, n.text)
	t.sheet = true
	raw, err := t.r.files.read(n.src.folder, n.text, tableEndings)
	if err != nil {
		t.r.failed(t.path, n.fault(t.path+": "+err.Error(), "a table is a list of rows of "+t.names()+", or a CSV file beside the case"))
		return
	}
	src, fault := newSource(path.Join(n.src.folder, n.text), "", raw)
	if fault != nil {
		if fault.Text == "\t" {
			fault.Hint = "divide the columns by commas, or by semicolons"
		}
		t.r.failed(t.path, fault)
		return
	}
	semicolons := strings.ContainsRune(unquoted(src.head()), ';')
	records, fault := records(src, semicolons)
	if fault != nil {
		t.r.failed(t.path, fault)
		return
	}
	if len(records) == 0 {
		t.r.failed(t.path, n.fault(fmt.Sprintf("%s: the file %s is empty", t.path, n.text), "its first line names the columns: "+t.names()))
		return
	}
	width := len(records[0])
	for width > 1 && records[0][width-1].text == "" {
		width--
	}
	place, units, ok := t.head(records[0][:width], records[0][0])
	if !ok {
		return
	}
	if semicolons {
		if fault := t.decimals(records[1:]); fault != nil {
			t.r.failed(t.path, fault)
			return
		}
	}
	for i, items := range records[1:] {
		path := fmt.Sprintf("%s, row %d", t.path, i+1)
		for len(items) > width && items[len(items)-1].text == "" {
			items = items[:len(items)-1]
		}
		if j := slices.IndexFunc(items[:min(len(items), width)], func(item *node) bool { return item.text == "" }); j >= 0 {
			t.r.failed(path, items[j].fault(fmt.Sprintf("%s[%d] has no value", path, j+1), "write the value, or take the row out"))
			continue
		}
		t.row(items[0], items, path, place, units)
	}
}

// head is the first line that is neither empty nor a remark.
func (s *source) head() string {
	for _, line := range s.lines {
		if remark := strings.HasPrefix(line, "#"); !remark && strings.TrimSpace(line) != "" { // as the reader of records has it
			return line
		}
	}
	return ""
}

// unquoted is a line without what stands in quotation marks.
func unquoted(line string) string {
	var b strings.Builder
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 0 {
			b.WriteString(part)
		}
	}
	return b.String()
}

// records are the lines of a CSV file, without those at its end that hold nothing.
func records(src *source, semicolons bool) ([][]*node, *Error) {
	in := csv.NewReader(strings.NewReader(src.text))
	in.FieldsPerRecord, in.TrimLeadingSpace, in.Comment = -1, true, '#'
	if semicolons {
		in.Comma = ';'
	}
	var all [][]*node
	for {
		record, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, csvFault(src, err)
		}
		items := make([]*node, len(record))
		for j, field := range record {
			line, column := in.FieldPos(j)
			before := src.lines[line-1]
			text := strings.TrimSpace(field)
			items[j] = &node{kind: scalar, text: text, shown: text, quoted: true, src: src, line: line,
				column: utf8.RuneCountInString(before[:min(column-1, len(before))]) + 1}
		}
		all = append(all, items)
	}
	for len(all) > 1 && !slices.ContainsFunc(all[len(all)-1], func(item *node) bool { return item.text != "" }) {
		all = all[:len(all)-1]
	}
	return all, nil
}

// decimals finds out whether decimals are written with a comma. A file with both has no single reading.
func (t *tabular) decimals(rows [][]*node) *Error {
	var comma, point *node
	for _, row := range rows {
		for _, item := range row {
			if comma == nil && strings.Contains(item.text, ",") {
				comma = item
			}
			if point == nil && strings.Contains(item.text, ".") {
				point = item
			}
		}
	}
	if comma != nil && point != nil {
		return comma.fault(fmt.Sprintf("%s: a comma here and a point in line %d: it cannot be told which marks the decimals", t.path, point.line), "write all decimals alike, and no mark of thousands")
	}
	t.commas = comma != nil
	return nil
}

// unequal is the hint for a row that has not as many values as the table has columns.
func (t *tabular) unequal(items []*node, columns int) string {
	for i := 0; i+1 < len(items) && len(items) > columns; i++ {
		a, b := items[i], items[i+1]
		if !digits(strings.TrimLeft(a.text, "+-\u2212")) || !digits(b.text) || a.line != b.line || b.column != a.column+utf8.RuneCountInString(a.text)+1 {
			continue
		}
		line := []rune(a.src.lines[a.line-1])
		if k := b.column - 2; k >= len(line) || line[k] != ',' {
			continue
		}
		hint := fmt.Sprintf("commas divide the values here: if %s,%s is one number, write %[1]s.%[2]s", a.text, b.text)
		if t.sheet {
			hint += ", or divide the columns by semicolons"
		}
		return hint
	}
	return "write decimals with a point; give every row the same columns"
}

// csvFault translates an error of the CSV reader.
func csvFault(src *source, err error) *Error {
	var e *csv.ParseError
	if !errors.As(err, &e) {
		return src.fault(1, 1, "", "this is not CSV: "+err.Error(), "")
	}
	line := min(max(e.Line, 1), len(src.lines))
	column := utf8.RuneCountInString(src.lines[line-1][:min(max(e.Column-1, 0), len(src.lines[line-1]))]) + 1
	return src.fault(line, column, "", "a quotation mark is out of place", "write plain numbers divided by commas")
}
