package report

import "seatwise/plots"

// Document is a report without its layout.
type Document struct {
	Title    string
	Subtitle string   // under the title; may be empty
	Marks    []string // on every page, e.g. that the case is an example
	Boxes    []Box    // the title block
	Foot     string   // on every page: program and inputs
	Sections []Section
	Record   string // of the numbers, for a program that runs the case again; not shown
}

// Box is a field of the title block. An empty value is a box to be filled in by hand.
type Box struct{ Label, Value string }

// Section is a part of the report with a heading.
type Section struct {
	Heading string
	NewPage bool // begins a page in print
	Blocks  []Block
}

// Block is one of [Subheading], [Paragraph], [Notice], [List], [Table], [Picture] and [Listing].
type Block interface{ block() }

// Subheading is a heading within a section.
type Subheading string

// Paragraph is running text.
type Paragraph string

// Notice is a text that is not to be overlooked.
type Notice string

// List is texts with a mark before each.
type List []string

// Table is rows under a heading. Columns but the first are aligned right unless it is a table of words.
type Table struct {
	Caption string
	Head    []string
	Rows    []Row
	Words   bool      // the cells are sentences
	Shares  []float64 // of the width, of each column; nil: by what the cells need
}

// Row is one line of a table.
type Row struct {
	Cells  []Cell
	Detail bool // belongs to the row above it
}

// Cell is a text, and whether it tells of a limit that is not met.
type Cell struct {
	Text  string
	Alarm bool
}

// Picture is a figure with its caption.
type Picture struct {
	Figure  plots.Figure
	Caption string
}

// Listing is a file as it stands.
type Listing struct{ Name, Text string }

func (Subheading) block() {}
func (Paragraph) block()  {}
func (Notice) block()     {}
func (List) block()       {}
func (*Table) block()     {}
func (Picture) block()    {}
func (Listing) block()    {}

// cells are texts in a row.
func cells(texts ...string) []Cell {
	out := make([]Cell, len(texts))
	for i, t := range texts {
		out[i].Text = t
	}
	return out
}

// add puts a row of texts at the end.
func (t *Table) add(texts ...string) { t.Rows = append(t.Rows, Row{Cells: cells(texts...)}) }
