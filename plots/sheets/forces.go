package sheets

import (
	"slices"

	"seatwise/network/quantity"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// forces are what pushes every straight run of pipe, either way; no sheet where the case has no bends.
func (b *builder) forces() {
	if !slices.ContainsFunc(b.Scenarios, func(s choice.ScenarioOutcomes) bool {
		return slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return len(o.Runs) > 0 })
	}) {
		return
	}
	length, force, impulse := b.Units.Unit(quantity.Length), b.Units.Unit(quantity.Force), b.Units.Unit(quantity.Impulse)
	s := b.book.Sheet("Anchor forces", 22, 16, 24, 14, 14, 28, 18, 12, 18)
	s.Row(heads("candidate", "scenario", "pipe", "from, "+length.Symbol, "to, "+length.Symbol, "towards", "greatest force, "+force.Symbol, "when, s", "impulse, "+impulse.Symbol)...)
	s.Freeze(1, 1)
	for i := range b.Scenarios {
		for k := range b.Scenarios[i].Outcomes {
			o := &b.Scenarios[i].Outcomes[k]
			if !exists(o.AnchorForce) {
				continue
			}
			for n := range o.Runs {
				r := &o.Runs[n]
				for _, p := range []struct {
					choice.Push
					towards string
				}{{r.Forward, r.Ahead}, {r.Reverse, r.Behind}} {
					row := append(texts(o.Candidate, b.Scenarios[i].Name, r.Pipe), workbook.Number(length.From(r.From), 2), workbook.Number(length.From(r.To), 2), workbook.Text(p.towards), fourDigits(force.From(p.Force)))
					if p.Force == 0 {
						s.Row(append(row, texts("nothing pushes that way")...)...)
						continue
					}
					s.Row(append(row, workbook.Number(p.Time, 3), fourDigits(impulse.From(p.Impulse)))...)
				}
			}
		}
	}
}
