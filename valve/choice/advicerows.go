package choice

import (
	"strings"

	"seatwise/network/quantity"
)

// Head is what the columns of [Advice.Rows] hold.
func (a *Advice) Head(system quantity.System) []string {
	m := measure(LiquidPump, a.Governing.Measure)
	return []string{a.scale(system).Label(m.Label), "effect", measure(LiquidPump, keyOpenMargin).Label, "limits"}
}

// scale is that of the value that governs and its bound.
func (a *Advice) scale(system quantity.System) Scale {
	sc := NewScale(measure(LiquidPump, a.Governing.Measure).Dimension, system, a.Governing.Value, a.Governing.Bound)
	return sc.Apart(a.Governing.Value, a.Governing.Bound)
}

// Rows are the steps in words: what was changed, and how the value that governs went from before to after, with what effect, and the limits that are broken
// then. The first is the case as it is.
func (a *Advice) Rows(system quantity.System) []Row {
	sc := a.scale(system)
	rows := []Row{{Label: a.Candidate + ", as it is", Cells: []Cell{{Text: sc.Text(a.Governing.Value)}, {}, marginCell(a.Margin), {Text: "not met: " + strings.Join(broken(a.Broken), ", "), Alarm: true}}}}
	for _, t := range a.Tried {
		row := Row{Label: t.Name, Cells: make([]Cell, 4)}
		if t.Change != "" {
			row.Label += ": " + t.Change
		}
		switch {
		case t.Reason != "":
			row.Cells[0] = Cell{Reason: t.Reason}
		default:
			row.Cells[0].Text = sc.Text(a.Governing.Value) + " → " + sc.Text(t.After.Value)
			row.Cells[1].Text = string(t.Effect)
			if t.Alike != t.After.Value {
				row.Cells[1].Text += ": as " + sc.Text(t.Alike) + " on the bore now"
			}
			row.Cells[2] = marginCell(t.Margin)
			row.Cells[3] = Cell{Text: "meets every limit"}
			if !t.Meets {
				row.Cells[3] = Cell{Text: "not met: " + strings.Join(broken(t.Breaks), ", "), Alarm: true}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// marginCell is a full-open margin, an alarm where the disc floats; "none" of a valve that needs no flow.
func marginCell(m Value) Cell {
	if !exists(m) {
		return Cell{Text: "none"}
	}
	return Cell{Text: NewScale(quantity.Number, quantity.SI, m.SI).Text(m.SI), Alarm: floats(m)}
}
