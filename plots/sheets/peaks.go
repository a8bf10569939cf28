package sheets

import (
	"slices"

	"seatwise/plots"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

const peakKey = "peak_pressure_pa"

// limit is a bound with its words.
type limit struct {
	words string
	bound float64            // the greatest
	by    map[string]float64 // by candidate, the least of all scenarios: a rule may go by how long a pressure lasts
}

// pressureLimits are the bounds on the highest pressure, as the verdicts have them.
func (b *builder) pressureLimits() []limit {
	var all []limit
	for _, s := range b.Scenarios {
		for _, o := range s.Outcomes {
			for _, v := range o.Verdicts {
				if v.Measure != peakKey {
					continue
				}
				i := slices.IndexFunc(all, func(l limit) bool { return l.words == v.Limit })
				if i < 0 {
					i, all = len(all), append(all, limit{v.Limit, v.Bound, map[string]float64{}})
				}
				all[i].bound = max(all[i].bound, v.Bound)
				if old, seen := all[i].by[o.Candidate]; !seen || v.Bound < old {
					all[i].by[o.Candidate] = v.Bound
				}
			}
		}
	}
	return all
}

// peaks are the greatest pressures of all scenarios beside their limits, as a table below the verdicts and as bars.
func (b *builder) peaks(charts, s *workbook.Sheet) {
	m, ok := b.measure(peakKey)
	if !ok {
		return
	}
	worst := map[string]float64{}
	var all []float64
	for _, sc := range b.Scenarios {
		for k := range sc.Outcomes {
			o := &sc.Outcomes[k]
			if v := m.Get(o); exists(v) {
				if old, seen := worst[o.Candidate]; !seen || v.SI > old {
					worst[o.Candidate] = v.SI
				}
				all = append(all, v.SI)
			}
		}
	}
	if len(all) == 0 {
		return
	}
	scale := choice.NewScale(m.Dimension, b.Units, all...)
	limits := b.pressureLimits()
	title := "Highest pressure of each candidate"
	if len(b.Scenarios) > 1 {
		title += ", worst of all scenarios"
	}
	s.Gap()
	s.Row(workbook.Text(title).In(workbook.Heading))
	row := s.Next()
	s.Put(row, 0, workbook.Text("candidate").In(workbook.Head))
	value := s.Put(row, 1, workbook.Text(scale.Label("highest pressure")).In(workbook.Head))
	bounds := make([]workbook.Line, len(limits))
	for i, l := range limits {
		bounds[i] = workbook.Line{Name: s.Put(row, 2+i, workbook.Text(scale.Label(l.words)).In(workbook.Head)), Colour: "333333", Dash: workbook.Dotted}
	}
	var first, last workbook.Range
	for _, spec := range b.Case.Candidates {
		v, ok := worst[spec.Name]
		if !ok {
			continue
		}
		row++
		last = s.Put(row, 0, workbook.Text(spec.Name))
		if first == (workbook.Range{}) {
			first = last
		}
		s.Put(row, 1, number(scale, v))
		for i, l := range limits {
			if x, ok := l.by[spec.Name]; ok {
				s.Put(row, 2+i, number(scale, x))
			}
		}
	}
	names := first.To(last)
	bar := workbook.Line{Name: value, X: names, Y: names.Beside(1), Colour: plots.Colour(0)}
	for i := range bounds {
		bounds[i].X, bounds[i].Y = names, names.Beside(2+i)
	}
	charts.Bars(charts.Next(), 0, workbook.Chart{Title: title, Y: workbook.Axis{Label: "Gauge pressure (" + scale.Name() + ")"}, Lines: []workbook.Line{bar}, Places: scale.Places}, bounds...)
}
