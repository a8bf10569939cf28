package report

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seatwise/plots"
	"seatwise/valve/choice"
)

// The greatest case that is read has 50 candidates; the tables of errors stand side by side as those of the comparison do.
func TestManyCandidates(t *testing.T) {
	outcomes := []choice.Outcome{{Candidate: "s", Failed: "it cannot stand there"}}
	for k := range 49 {
		outcomes = append(outcomes, choice.Outcome{Candidate: fmt.Sprintf("axial-spring-DN250-%02d-broken-spring", k), Errors: map[string]float64{"peak_pressure_pa": 1e3}})
	}
	b := &builder{&choice.Comparison{Case: &choice.Case{}, Scenarios: []choice.ScenarioOutcomes{{Name: "base", Outcomes: outcomes}}}, Input{Measures: choice.Measures(choice.LiquidPump)}}
	s := b.numerics()
	named := map[string]bool{}
	for _, block := range s.Blocks {
		if table, ok := block.(*Table); ok && strings.HasPrefix(table.Caption, "Estimated") {
			require.LessOrEqual(t, len(table.Head), beside+1)
			for _, name := range table.Head[1:] {
				named[name] = true
			}
		}
	}
	require.Len(t, named, 50)
	require.NoError(t, PDF(&bytes.Buffer{}, &Document{Title: "many", Sections: []Section{s}}, time.Unix(0, 0)))
}

// A column narrower than a letter still ends.
func TestNarrowColumns(t *testing.T) {
	table := &Table{Head: []string{"measure"}}
	row := []string{"highest pressure"}
	for k := range 120 {
		table.Head = append(table.Head, strings.Repeat("w", k%30+1))
		row = append(row, "-")
	}
	table.add(row...)
	require.NoError(t, PDF(&bytes.Buffer{}, &Document{Sections: []Section{{Blocks: []Block{table}}}}, time.Unix(0, 0)))
}

// A figure higher than a page is drawn smaller, caption and all.
func TestHighFigure(t *testing.T) {
	var d plots.Diagram
	for k := range 20 {
		d.Links = append(d.Links, plots.Link{From: "header", To: fmt.Sprintf("town-%d", k), Label: []string{"branch"}})
	}
	f, ok := plots.Sketch(d)
	require.True(t, ok)
	_, height := f.Size()
	require.Greater(t, 1000*float64(height), textBottom-marginTop)
	doc := &Document{Sections: []Section{{Blocks: []Block{Picture{Figure: f, Caption: "a header"}}}}}
	s := newSheet(doc, time.Unix(0, 0))
	require.NoError(t, s.block(doc.Sections[0].Blocks[0]))
	require.LessOrEqual(t, s.GetY(), textBottom+5.0)
}
