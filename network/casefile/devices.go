package casefile

import (
	"fmt"
	"math"
	"strconv"

	"seatwise/network"
	"seatwise/network/quantity"
)

// devices reads the sections of all kinds of devices, kind by kind, those of a kind in the order of the file.
func (r *reader) devices(root *section, n *network.Network) {
	for _, kind := range network.Kinds {
		root.named(kind.Section, func(name string, s *section) {
			d := kind.New(name)
			s.device(d)
			n.Devices = append(n.Devices, d)
		})
	}
}

// deviceSections are the sections that list devices.
func deviceSections() []string {
	var sections []string
	for _, kind := range network.Kinds {
		sections = append(sections, kind.Section)
	}
	return sections
}

// device reads the fields of a device by their tags.
func (s *section) device(d network.Device) {
	for _, f := range network.Fields(d) {
		s.r.survey.help(s.key(f.Key), f.Help)
		switch f.Form {
		case network.NodeName:
			node, ok := s.needText(f.Key, "node")
			if !ok {
				s.r.holes = true
			}
			f.SetText(node)
		case network.Word:
			f.SetText(s.word(f, f.Words))
		case network.YesNo:
			f.SetYes(s.word(f, []string{"yes", "no"}) == "yes")
		case network.Figure:
			f.SetNumber(s.figure(f))
		case network.Table:
			f.SetRows(s.rows(f))
		}
	}
}

// word reads a field that is one of some words.
func (s *section) word(f network.Field, words []string) string {
	if f.Must() {
		s.need(f.Key, words[0])
	}
	if word, ok := s.choose(f.Key, words); ok || s.has(f.Key) {
		return word
	}
	if f.Must() {
		return "" // said to be missing
	}
	s.assumed(f, f.Default)
	return f.Default
}

// figure reads a field with a dimension, SI. What cannot be read is not a number; it never reaches a case.
func (s *section) figure(f network.Field) float64 {
	dim := dimension(f)
	s.r.survey.form(s.key(f.Key), bounded(f))
	if f.Must() {
		s.need(f.Key, sample(f, quantity.SI.Unit(dim)))
	}
	if x, ok := s.quantity(f.Key, dim); ok {
		s.within(f, s.key(f.Key), s.node.get(f.Key).value, x)
		return x
	}
	if f.Must() || s.has(f.Key) {
		return math.NaN()
	}
	x := number(f.Default)
	s.assumed(f, quantity.Format(x, dim, quantity.SI))
	return x
}

// bounded is the form of a figure with its bounds.
func bounded(f network.Field) shape {
	g := figureOf(dimension(f))
	if f.Min > -math.MaxFloat64 {
		g.low, g.above = f.Min, f.Min > 0 && f.Min < 1e-4 && f.Max == math.MaxFloat64
	}
	if f.Max < math.MaxFloat64 {
		g.high = f.Max
	}
	return g
}

// number is the default of a figure, SI.
func number(def string) float64 {
	x, err := strconv.ParseFloat(def, 64)
	if err != nil {
		panic("casefile: the default in a tag of a device is no number")
	}
	return x
}

// assumed records a default, with what its help says; none where the datum is given in another way.
func (s *section) assumed(f network.Field, text string) {
	if f.Instead != "" && s.has(f.Instead) {
		return
	}
	s.r.assume(s.key(f.Key), text, Default, "", "%s: %s %s, default; %s", s.path, f.Key, text, f.Help)
}

// rows reads a field that is a table.
func (s *section) rows(f network.Field) [][]float64 {
	var columns []column
	for _, c := range f.Columns {
		columns = append(columns, column{name: c.Key, dim: dimension(c)})
	}
	rows, _ := s.table(f.Key, columns)
	for i, row := range rows {
		for j, x := range row {
			path := fmt.Sprintf("%s[%d][%d]", s.key(f.Key), i+1, j+1)
			at := s.node.place(path[len(s.path)+1:])
			if c, _, ok := s.r.cell(path); ok {
				at = c.node
			}
			s.within(f.Columns[j], path, at, x)
		}
	}
	return rows
}

// within checks a figure against its bounds. [network.Network.Validate] does so too, without units.
func (s *section) within(f network.Field, path string, at *node, x float64) {
	if !f.Holds(x) {
		s.r.failed(path, at.fault(fmt.Sprintf("%s is %s", path, at.text), f.Help+": give "+bounds(f)))
	}
}

// bounds are the bounds of a figure in words.
func bounds(f network.Field) string {
	unit := quantity.SI.Unit(dimension(f))
	low, high := quantity.FormatIn(f.Min, unit), quantity.FormatIn(f.Max, unit)
	if least := unit.From(f.Min); least > 0 && least < 1e-4 && f.Max == math.MaxFloat64 { // there to keep out zero
		return "more than " + quantity.FormatIn(unit.To(0), unit)
	}
	switch {
	case f.Max == math.MaxFloat64:
		return low + " or more"
	case f.Min == -math.MaxFloat64:
		return high + " or less"
	}
	return low + " to " + high
}

// dimension is the dimension of a figure.
func dimension(f network.Field) quantity.Dimension {
	d, ok := quantity.DimensionNamed(f.Dim)
	if !ok {
		panic("casefile: a tag of a device names no dimension")
	}
	return d
}

// sample is a value of a figure that is within its bounds, in a unit: 1 where that can be.
func sample(f network.Field, u quantity.Unit) string {
	x := max(u.To(1), f.Min)
	if x > f.Max {
		x = f.Max
	}
	return quantity.FormatIn(x, u)
}

// sampleOf is a value of a dimension within bounds, SI: the usual example where it lies within them.
func sampleOf(d quantity.Dimension, low, high float64) string {
	if q, err := quantity.Parse(d.Example(), d); err == nil && q.SI >= low && q.SI <= high {
		return d.Example()
	}
	return quantity.Format(min(max(1, low), high), d, quantity.SI)
}
