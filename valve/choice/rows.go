package choice

import (
	"slices"
	"strings"

	"seatwise/network/quantity"
)

// Row is one line of the candidates side by side, in words, for a screen or a report.
type Row struct {
	Label  string
	Detail bool   // it belongs to the measure above it
	Cells  []Cell // one for each outcome, in order
	Bound  string // of a limit
}

// Cell is what a row says of one outcome.
type Cell struct {
	Text   string
	Reason string // not empty: there is no value, and why
	Alarm  bool   // a limit is broken
}

// Rows are the lines of a measure in a scenario: its value, where it was met, what else is to be said of it, and every limit that it is held against.
// One scale holds for all of them. A line that says nothing of any outcome is left out, but for the value.
func (s *ScenarioOutcomes) Rows(m Measure, system quantity.System) []Row {
	sc := s.Scale(m, system)
	rows := []Row{{Label: sc.Label(m.Label), Cells: s.cells(func(o *Outcome) Cell {
		switch x := m.Get(o); {
		case x.Reason == "":
			return Cell{Text: sc.Text(x.SI)}
		case o.Failed != "":
			return Cell{Reason: o.Failed}
		default:
			return Cell{Reason: x.Reason}
		}
	})}}
	detail := func(label string, text func(*Outcome) string) {
		row := Row{Label: label, Detail: true, Cells: s.cells(func(o *Outcome) Cell { return Cell{Text: text(o)} })}
		if slices.ContainsFunc(row.Cells, func(c Cell) bool { return c.Text != "" }) {
			rows = append(rows, row)
		}
	}
	detail("where", func(o *Outcome) string { return o.place(m.Key) })
	switch m.Key {
	case keyOpenMargin:
		detail("hold of the disc", (*Outcome).Staying)
	case keyMin, keyVapour:
		detail("reached", (*Outcome).atVapour)
	case keyReverse:
		detail("slam class", func(o *Outcome) string { return o.slamWords(sc) })
	}
	for _, words := range s.limits(m.Key) {
		row := Row{Label: limitLabel(m, words), Detail: true, Cells: make([]Cell, len(s.Outcomes))}
		for k := range s.Outcomes {
			for _, v := range s.Outcomes[k].Verdicts {
				if v.Measure == m.Key && v.Limit == words {
					row.Cells[k] = Cell{Text: v.Words(sc), Alarm: !v.Met}
					row.Bound = sc.Text(v.Bound)
				}
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// limitLabel is what the row of a limit is called below its measure.
func limitLabel(m Measure, words string) string {
	what, later := strings.CutPrefix(words, "later: ")
	own := strings.Contains(m.Label, what) // the limit is on the measure itself
	switch {
	case later && own:
		return "limit of later closings"
	case later:
		return what + ", later closings"
	case own:
		return words + " limit"
	}
	return words
}

func (s *ScenarioOutcomes) cells(of func(*Outcome) Cell) []Cell {
	out := make([]Cell, len(s.Outcomes))
	for k := range s.Outcomes {
		out[k] = of(&s.Outcomes[k])
	}
	return out
}

// limits are those that a measure is held against in a scenario, in words, in order of appearance.
func (s *ScenarioOutcomes) limits(key string) []string {
	var out []string
	for k := range s.Outcomes {
		for _, v := range s.Outcomes[k].Verdicts {
			if v.Measure == key && !slices.Contains(out, v.Limit) {
				out = append(out, v.Limit)
			}
		}
	}
	return out
}

// Judged tells whether a measure of the outcome is held against a limit.
func (o *Outcome) Judged(key string) bool {
	return slices.ContainsFunc(o.Verdicts, func(v Verdict) bool { return v.Measure == key })
}

// place is where an extreme was met.
func (o *Outcome) place(key string) string {
	switch key {
	case keyPeak:
		return o.PeakNode
	case keyMin:
		return o.MinNode
	case keyCavity, keyAnchor, keyAbove, keyVapour:
		return o.Spots[key].Place
	}
	return ""
}

// atVapour tells that a cavity formed where the pressure is lowest.
func (o *Outcome) atVapour() string {
	if o.AtVapour {
		return "vapour pressure"
	}
	return ""
}
