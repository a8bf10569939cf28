package export

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// column is a column of numbers.
type column struct {
	head   string
	values []float64
}

// historyDigits are the significant digits of a history's values.
const historyDigits = 7

// History writes an outcome's series. Of every bin, s, it writes the first and the last time step and those with the extremes of the velocity and of the
// pressure downstream; a bin of 0 writes every step that the run
// holds. Errors are those of the writer or wrap [ErrSeries].
func History(w io.Writer, o *choice.Outcome, bin float64) error {
	cols := []column{{"time s", o.Time}}
	var extremes [][]float64
	for _, s := range o.History {
		cols = append(cols, column{headed(s.Label, s.Dimension), s.Values})
		if slices.Contains(followed, s.Key) {
			extremes = append(extremes, s.Values)
		}
	}
	return series(w, cols, bin, extremes, "history of "+o.Candidate)
}

// series writes columns of which the first is the time, reduced by bins.
func series(w io.Writer, cols []column, bin float64, extremes [][]float64, what string) error {
	if err := same(cols); err != nil {
		return fmt.Errorf("%w: %s: %w", ErrSeries, what, err)
	}
	t := newTable(w)
	t.heads(cols)
	time := cols[0].values
	places := decimals(time)
	for _, i := range Kept(time, bin, extremes) {
		t.fixed(time[i], places)
		for _, c := range cols[1:] {
			t.rounded(c.values[i], historyDigits)
		}
		t.end()
	}
	return t.close(what)
}

// Forces writes the axial forces of the liquid on the straight runs of an outcome, N, positive towards the end of the pipe, to a millionth of the greatest.
// Rows are those of [History], with the extremes of every run. Errors are those of the writer or wrap [ErrSeries].
func Forces(w io.Writer, o *choice.Outcome, bin float64) error {
	cols := []column{{"time s", o.Time}}
	var extremes [][]float64
	unit := 0.0
	if _, most := o.Hardest(); most.Force > 0 && finite(most.Force) {
		unit = math.Pow(10, math.Ceil(math.Log10(most.Force))-historyDigits)
	}
	for i := range o.Runs {
		r := &o.Runs[i]
		force := slices.Clone(r.Force)
		for k, x := range force {
			if unit > 0 { // what is less is rounding
				force[k] = unit * math.Round(x/unit)
			}
		}
		cols = append(cols, column{headed(fmt.Sprintf("%s from %s to %s", r.Pipe, metres(r.From), metres(r.To)), quantity.Force), force})
		extremes = append(extremes, force)
	}
	return series(w, cols, bin, extremes, "forces of "+o.Candidate)
}

// metres is a length as it stands in a heading.
func metres(x float64) string { return quantity.Format(x, quantity.Length, quantity.SI) }

// Envelope writes an outcome's route, one row per grid node. Errors are those of the writer or wrap [ErrSeries].
func Envelope(w io.Writer, o *choice.Outcome) error {
	t := newTable(w)
	t.text("pipe")
	for i, p := range o.Route {
		cavity := p.Cavity
		if cavity == nil { // no cavity anywhere on this pipe
			cavity = make([]float64, len(p.Chainage))
		}
		cols := []column{
			{"chainage m", p.Chainage}, {"elevation m", p.Elevation}, {"steady head m", p.Steady},
			{"lowest head m", p.Lowest}, {"highest head m", p.Highest}, {"largest cavity m3", cavity},
		}
		if err := same(cols); err != nil {
			return fmt.Errorf("%w: envelope of %s, pipe %s: %w", ErrSeries, o.Candidate, p.Pipe, err)
		}
		if i == 0 {
			t.heads(cols)
		}
		for k := range p.Chainage {
			t.text(p.Pipe)
			for _, c := range cols {
				t.number(c.values[k])
			}
			t.end()
		}
	}
	return t.close("envelope of " + o.Candidate)
}

func same(cols []column) error {
	for _, c := range cols {
		if len(c.values) != len(cols[0].values) {
			return fmt.Errorf("%d values of %s, %d of %s", len(c.values), c.head, len(cols[0].values), cols[0].head)
		}
	}
	return nil
}

// headed is a label with the SI unit of its dimension.
func headed(label string, d quantity.Dimension) string {
	return strings.TrimSpace(label + " " + siUnit(d))
}

// siUnit is the unit of size 1 of a dimension.
func siUnit(d quantity.Dimension) string {
	for _, u := range quantity.Units(d) {
		if u.To(0) == 0 && u.To(1) == 1 {
			return u.Symbol
		}
	}
	return ""
}

// table writes comma-separated rows (RFC 4180, with a line feed at the end of a row). The first error of the writer is kept.
type table struct {
	w     *bufio.Writer
	row   []byte
	cells int
}

func newTable(w io.Writer) *table { return &table{w: bufio.NewWriterSize(w, 1<<16)} }

func (t *table) cell() {
	if t.cells > 0 {
		t.row = append(t.row, ',')
	}
	t.cells++
}

// number adds a number, or an empty cell when it is not finite.
func (t *table) number(v float64) {
	t.cell()
	if finite(v) {
		t.row = appendNumber(t.row, v)
	}
}

// rounded adds a number of so many significant digits.
func (t *table) rounded(v float64, digits int) {
	if finite(v) {
		v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64) // of a text that is a number
	}
	t.number(v)
}

// fixed adds a number of so many decimals at most.
func (t *table) fixed(v float64, places int) {
	if finite(v) {
		v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'f', places, 64), 64)
	}
	t.number(v)
}

// decimals of a time that tell it to a thousandth of the least step.
func decimals(time []float64) int {
	step := math.Inf(1)
	for i := 1; i < len(time); i++ {
		if d := time[i] - time[i-1]; d > 0 {
			step = min(step, d)
		}
	}
	if math.IsInf(step, 0) {
		return 9
	}
	return min(max(3-int(math.Floor(math.Log10(step))), 0), 15)
}

// value adds a number, or an empty cell when there is none.
func (t *table) value(v choice.Value) {
	if v.Reason != "" {
		v.SI = math.NaN()
	}
	t.number(v.SI)
}

// text adds a text, in quotation marks where it needs them. One that a spreadsheet would take for a formula gets an apostrophe before it.
func (t *table) text(s string) {
	t.cell()
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		s = "'" + s
	}
	if strings.ContainsAny(s, ",\"\r\n") {
		s = `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	t.row = append(t.row, s...)
}

func (t *table) heads(cols []column) {
	for _, c := range cols {
		t.text(c.head)
	}
	t.end()
}

func (t *table) end() {
	t.row = append(t.row, '\n')
	_, _ = t.w.Write(t.row) // the writer keeps its first error for Flush
	t.row, t.cells = t.row[:0], 0
}

func (t *table) close(what string) error {
	if err := t.w.Flush(); err != nil {
		return fmt.Errorf("export: %s: %w", what, err)
	}
	return nil
}
