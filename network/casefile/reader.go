package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/valve/choice"
	"seatwise/valve/offers"
)

// Source says where a value comes from.
type Source uint8

// The sources of a value.
const (
	Given     Source = iota // stands in the case file
	Default                 // put in because the file does not say
	Catalogue               // from a table of standard sizes, materials or valves
	Estimated               // worked out from other values
)

// String is the source in a word.
func (s Source) String() string { return [...]string{"given", "default", "catalogue", "estimated"}[s] }

// Origin says where the value of a path comes from.
type Origin struct {
	Path   string
	Text   string // the value as written, or with its unit
	Source Source
	Status string // how far the value can be trusted; empty when given
}

// reader gathers what comes out of one reading of a tree.
type reader struct {
	files      *files
	errs       Errors
	broken     map[string]bool         // paths of values that could not be read
	compared   string                  // section of the valves under comparison: candidates, or the offers of makers
	plain      map[string]string       // paths of candidates that are a valve of the section valves and nothing else, and the path of that valve
	valvesFrom string                  // where the section valves stands, in words
	offers     map[string]choice.Offer // what candidates cost, by name
	replies    []offers.Reply          // what makers say beside the data of their valves
	holes      bool                    // something that joins nodes could not be read: the graph is not to be judged
	atmosphere float64                 // Pa absolute
	cells      map[string][][]cell     // of tables that are not written row by row in the case, by path

	survey      *survey // nil: nobody wants to know what is asked
	origins     []Origin
	assumptions []string
	warnings    []string
}

// fail marks a path as unread.
func (r *reader) fail(path string) {
	if r.broken == nil {
		r.broken = map[string]bool{}
	}
	r.broken[path] = true
}

// failed marks a path as unread and says why.
func (r *reader) failed(path string, e *Error) {
	r.fail(path)
	r.errs = append(r.errs, e)
}

// unread tells whether a path, or something that it lies in, could not be read.
func (r *reader) unread(path string) bool {
	if len(r.broken) == 0 {
		return false
	}
	for i := len(path); i > 0; i = strings.LastIndexAny(path[:i], ".[") {
		if r.broken[path[:i]] {
			return true
		}
	}
	return false
}

// unreadBelow tells whether a path or something in it could not be read.
func (r *reader) unreadBelow(path string) bool {
	for broken := range r.broken {
		if rest, ok := strings.CutPrefix(broken, path); ok && (rest == "" || rest[0] == '.' || rest[0] == '[') {
			return true
		}
	}
	return r.unread(path)
}

func (r *reader) given(path, text string) {
	r.origins = append(r.origins, Origin{Path: path, Text: text, Source: Given})
}

// assume records a value that the file does not give, in words and in the list of origins.
func (r *reader) assume(path, text string, source Source, status, words string, args ...any) {
	if source == Default {
		r.survey.usual(path, text)
	}
	r.origins = append(r.origins, Origin{Path: path, Text: text, Source: source, Status: status})
	sentence := fmt.Sprintf(words, args...)
	if status != "" {
		sentence += " (" + status + ")"
	}
	r.assumptions = append(r.assumptions, sentence)
}

// findings turns what the network says about itself into errors and warnings.
func (r *reader) findings(root *node, prefix string, list []network.Finding) {
	for _, f := range list {
		path := prefix + f.Path
		if r.unread(path) {
			continue
		}
		text := path + ": " + f.Text
		if f.Warning {
			if f.Hint != "" {
				text += "; " + f.Hint
			}
			r.warnings = append(r.warnings, text)
			continue
		}
		r.errs = append(r.errs, r.place(root, path).fault(text, f.Hint))
	}
}

// cell is a value of a table with its unit, which the head of its column gives; without a node where the table has no such column.
type cell struct {
	*node
	unit string
}

// note keeps the cells of a table, in the order of its rows and of the wanted columns.
func (r *reader) note(path string, cells [][]cell) {
	if r.cells == nil {
		r.cells = map[string][][]cell{}
	}
	r.cells[path] = cells
}

// cell is the cell of a path like "pipes.main.profile[2][1]", in a table that has been noted; of a row, "pipes.main.profile[2]", the first.
func (r *reader) cell(path string) (c cell, row, ok bool) {
	table, rest, _ := strings.Cut(path, "[")
	rows := r.cells[table]
	var i, j int
	if n, _ := fmt.Sscanf(rest, "%d][%d]", &i, &j); n == 1 {
		row, j = true, 1
	}
	if i < 1 || i > len(rows) || j < 1 || j > len(rows[i-1]) {
		return cell{}, row, false
	}
	c = rows[i-1][j-1]
	return c, row, c.node != nil
}

// place is the node to point at for a path.
func (r *reader) place(root *node, path string) *node {
	if c, _, ok := r.cell(path); ok {
		return c.node
	}
	return root.place(path)
}

// written is the value at a path as it stands in the case or beside it, with its unit; "" where there is none.
func (r *reader) written(root *node, path string) string {
	if c, row, ok := r.cell(path); ok && !row {
		return strings.TrimSpace(c.text + " " + c.unit)
	}
	return root.written(path)
}
