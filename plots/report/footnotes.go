package report

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/valve/choice"
)

// footnotes are the reasons for values of a table that do not exist, each once, in the order in which the table names them.
type footnotes []string

// row is a row of a table, with the mark of its reason in place of a value that does not exist.
func (n *footnotes) row(label string, values []choice.Cell) []Cell {
	row := cells(label)
	for _, c := range values {
		if c.Reason != "" {
			k := slices.Index(*n, c.Reason)
			if k < 0 {
				k, *n = len(*n), append(*n, c.Reason)
			}
			c.Text = fmt.Sprintf("– (%d)", k+1)
		}
		row = append(row, Cell{c.Text, c.Alarm})
	}
	return row
}

// block is the reasons in one paragraph; none without reasons.
func (n footnotes) block() []Block {
	if len(n) == 0 {
		return nil
	}
	var lines []string
	for k, text := range n {
		lines = append(lines, fmt.Sprintf("(%d) %s", k+1, text))
	}
	return []Block{Paragraph(strings.Join(lines, "; ") + ".")}
}
