package report

import (
	"seatwise/plots"
	"seatwise/valve/choice"
)

// costs is the life-cycle cost: how it is reckoned, the make-up of every candidate, and what the order hangs on. It has no blocks without economics.
func (b *builder) costs() Section {
	s := Section{Heading: "Life-cycle cost", NewPage: true}
	e := b.Case.Economics
	if e == nil {
		return s
	}
	s.Blocks = append(s.Blocks, Paragraph(b.CostHeading()+"."),
		Paragraph("PV = P + a (E + U + S), with the annuity factor a = (1 − 1/(1 + i)^n)/i over n years at the discount rate i: "+
			"P purchase; E = Σ ρ g Q h t c/(1000 η) energy of the head loss h at the flow Q, m3/s, over t hours a year, at the price c per kWh and the efficiency η of pump and motor; "+
			"U upkeep, a share of the price a year; S damage of slam, trips a year times the damage of one slam at the greatest reverse velocity of all scenarios. "+
			"Every year's amount falls due at the end of the year; prices do not rise; the pump runs at the same duty point whichever valve is taken. Source: uniform series present worth of engineering economics."))
	rows := b.CostRows(b.Units)
	for from := 0; from < len(b.Costs); from += beside {
		s.Blocks = append(s.Blocks, b.costTable(rows, from, min(from+beside, len(b.Costs)))...)
	}
	for _, f := range b.Figures {
		if f.Name == plots.CostMakeUp {
			s.Blocks = append(s.Blocks, Picture{f, f.Caption})
		}
	}
	if len(b.CostRemarks) > 0 {
		s.Blocks = append(s.Blocks, Subheading("What the order hangs on"), List(b.CostRemarks))
	}
	return s
}

// costTable is the cost of some candidates side by side and the reasons for costs that are not known.
func (b *builder) costTable(rows []choice.Row, from, to int) []Block {
	t := &Table{Caption: "Life-cycle cost of one valve: present value of each part, under it what it is a year.", Head: []string{""}}
	for _, k := range b.Costs[from:to] {
		t.Head = append(t.Head, k.Candidate)
	}
	var notes footnotes
	for _, r := range rows {
		t.Rows = append(t.Rows, Row{Cells: notes.row(r.Label, r.Cells[from:to]), Detail: r.Detail})
	}
	return append([]Block{t}, notes.block()...)
}
