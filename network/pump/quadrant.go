package pump

import (
	"embed"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Set identifies a four-quadrant data set.
type Set struct {
	Name          string  // for example "SI 25"
	SpecificSpeed float64 // rpm, m3/s, m
	Provenance    string  // where the values come from
}

// Sets returns the built-in four-quadrant sets in order of specific speed.
func Sets() []Set {
	out := make([]Set, len(tables))
	for i, t := range tables {
		out[i] = t.Set
	}
	return out
}

// table holds WH and WB on equal steps of x over one turn, each cell with its
// start and its rise over the cell.
type table struct {
	Set
	perStep float64 // cells per radian
	cells   []cell
}

type cell struct{ wh, rh, wb, rb float64 }

// at returns the coefficients at x in 0..2 pi.
func (t *table) at(x float64) coefficients {
	u := x * t.perStep
	i := min(max(int(u), 0), len(t.cells)-1)
	f := u - float64(i)
	c := &t.cells[i]
	return coefficients{c.wh + f*c.rh, c.rh * t.perStep, c.wb + f*c.rb, c.rb * t.perStep}
}

// reduced is a head and a torque over the rated ones.
type reduced struct{ head, torque float64 }

// onSpeed returns reduced head and torque of the data at reduced flow v and
// rated speed.
func (t *table) onSpeed(v float64) reduced {
	c := t.at(math.Pi + math.Atan2(v, 1))
	return reduced{(1 + v*v) * c.wh, (1 + v*v) * c.wb}
}

// nearest returns the set whose specific speed differs least from n.
func nearest(n float64) *table {
	best := tables[0]
	for _, t := range tables[1:] {
		if math.Abs(t.SpecificSpeed-n) < math.Abs(best.SpecificSpeed-n) {
			best = t
		}
	}
	return best
}

//go:embed data/*.csv
var files embed.FS

// tables are the embedded sets in order of specific speed.
var tables = []*table{
	byFlowAngle(25, "data/pump-25.csv"),
	bySuterAngle(35, "data/pump-35.csv"),
	bySuterAngle(147, "data/pump-147.csv"),
	bySuterAngle(261, "data/pump-261.csv"),
}

// bySuterAngle reads a table against x = pi + atan2(v, alpha).
func bySuterAngle(specificSpeed float64, file string) *table {
	rows, provenance := read(file)
	return newTable(specificSpeed, provenance, rows)
}

// byFlowAngle reads a table against theta = atan2(alpha, v) = 3 pi/2 - x: the
// nodes run backwards from 270 degrees.
func byFlowAngle(specificSpeed float64, file string) *table {
	rows, provenance := read(file)
	n := len(rows) - 1
	turned := make([][2]float64, n+1)
	for k := range turned {
		turned[k] = rows[((3*n/4-k)%n+n)%n]
	}
	return newTable(specificSpeed, provenance, turned)
}

// newTable returns the table of WH, WB rows on equal steps, last equal to first.
func newTable(specificSpeed float64, provenance string, rows [][2]float64) *table {
	n := len(rows) - 1
	t := &table{
		Set:     Set{fmt.Sprintf("SI %g", specificSpeed), specificSpeed, provenance},
		perStep: float64(n) / (2 * math.Pi),
		cells:   make([]cell, n),
	}
	for i := range t.cells {
		a, b := rows[i], rows[i+1]
		t.cells[i] = cell{a[0], b[0] - a[0], a[1], b[1] - a[1]}
	}
	return t
}

// read returns the head and torque columns of an embedded file and the comment
// line that says where they come from.
func read(file string) (rows [][2]float64, provenance string) {
	text, err := files.ReadFile(file)
	if err != nil {
		panic("pump: embedded table is missing")
	}
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if comment, ok := strings.CutPrefix(line, "# values "); ok {
			provenance = comment
		}
		columns := strings.Split(line, ",")
		if strings.HasPrefix(line, "#") || len(columns) != 3 {
			continue
		}
		h, errH := strconv.ParseFloat(columns[1], 64)
		b, errB := strconv.ParseFloat(columns[2], 64)
		if errH != nil || errB != nil {
			if len(rows) == 0 {
				continue // column names
			}
			panic("pump: embedded table is not numeric")
		}
		rows = append(rows, [2]float64{h, b})
	}
	return rows, provenance
}
