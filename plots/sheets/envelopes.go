package sheets

import (
	"slices"

	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/plots/export"
	"seatwise/plots/workbook"
	"seatwise/valve/choice"
)

// profile is the envelopes of a scenario as they stand on their sheet.
type profile struct {
	*builder
	scenario      int
	pipe, extreme []workbook.Line
	from          string
	x, y          []float64 // least and greatest of all that is drawn, in the reader's unit
}

// mostNodes is how many nodes of a route an envelope has before it is reduced.
const mostNodes = 600

// envelopes puts the route's profile and the extreme heads of every candidate beside each other.
func (b *builder) envelopes(scenario int) *profile {
	sc := &b.Scenarios[scenario]
	s := b.book.Sheet(b.of("Envelopes", scenario))
	p := &profile{builder: b, scenario: scenario}
	column := 0
	length, volume := b.Units.Unit(quantity.Length), b.Units.Unit(quantity.Volume)
	for k := range sc.Outcomes {
		o := &sc.Outcomes[k]
		if len(o.Route) == 0 {
			continue
		}
		r := route(o)
		p.from = o.RouteFrom
		first := column
		s.Put(0, first, workbook.Text(o.Candidate).In(workbook.Heading))
		s.Put(1, column, workbook.Text("pipe").In(workbook.Head))
		s.Width(column, 20)
		for i, name := range r.pipes {
			s.Put(2+i, column, workbook.Text(name))
		}
		var x workbook.Range
		colour := plots.Colour(k)
		for _, c := range []struct {
			name, label string
			unit        quantity.Unit
			values      []float64
		}{
			{"", "chainage", length, r.chainage}, {"pipe", "elevation", length, r.elevation}, {"steady", "steady head", length, r.steady},
			{o.Candidate + ", lowest", "lowest head", length, r.lowest}, {o.Candidate + ", highest", "highest head", length, r.highest}, {"", "largest cavity", volume, r.cavity},
		} {
			column++
			var name workbook.Range
			if c.name != "" {
				name = s.Put(0, column, workbook.Text(c.name).In(workbook.Faint))
			}
			s.Put(1, column, workbook.Text(c.label+", "+c.unit.Symbol).In(workbook.Head))
			s.Width(column, 13)
			places := 2
			if c.label == "largest cavity" {
				places = 5
			}
			for i := range c.values {
				c.values[i] = c.unit.From(c.values[i])
			}
			switch c.label {
			case "chainage":
				p.x = widened(p.x, c.values)
			case "elevation", "lowest head", "highest head":
				p.y = widened(p.y, c.values)
			}
			y := s.Column(2, column, places, c.values)
			switch l := (workbook.Line{Name: name, X: x, Y: y}); c.label {
			case "chainage":
				x = y
			case "elevation", "steady head":
				if len(p.pipe) < 2 {
					l.Colour, l.Thin = map[string]string{"elevation": "6B5B45", "steady head": "666666"}[c.label], c.label == "steady head"
					p.pipe = append(p.pipe, l)
				}
			case "lowest head", "highest head":
				l.Colour, l.Dash = colour, k
				p.extreme = append(p.extreme, l)
			}
		}
		column += 2
	}
	s.Freeze(2, 0)
	return p
}

// draw adds the chart of the profile and the extreme heads.
func (p *profile) draw(s *workbook.Sheet) {
	if len(p.extreme) == 0 {
		return
	}
	symbol := p.Units.Unit(quantity.Length).Symbol
	title := "Highest and lowest heads along the route"
	if p.from != "" {
		title += " from " + p.from
	}
	x0, _ := nice(p.x[0], p.x[1])
	y0, y1 := nice(p.y[0], p.y[1])
	s.Chart(s.Next(), 0, workbook.Chart{Title: p.of(title, p.scenario), X: workbook.Axis{Label: "Chainage (" + symbol + ")", From: &x0, To: &p.x[1]},
		Y: workbook.Axis{Label: "Elevation, head (" + symbol + ")", From: &y0, To: &y1}, Lines: slices.Concat(p.pipe, p.extreme)})
}

// widened is the least and the greatest of some values and of those before.
func widened(old, values []float64) []float64 {
	all := append(slices.Clone(old), values...)
	return []float64{slices.Min(all), slices.Max(all)}
}

// way is a route put end to end, SI.
type way struct {
	pipes                                                []string
	chainage, elevation, steady, lowest, highest, cavity []float64
}

// route puts an outcome's profiles end to end; of many nodes those of the extremes remain.
func route(o *choice.Outcome) way {
	var w way
	for _, p := range o.Route {
		cavity := p.Cavity
		if cavity == nil {
			cavity = make([]float64, len(p.Chainage))
		}
		for range p.Chainage {
			w.pipes = append(w.pipes, p.Pipe)
		}
		w.chainage, w.elevation, w.steady = append(w.chainage, p.Chainage...), append(w.elevation, p.Elevation...), append(w.steady, p.Steady...)
		w.lowest, w.highest, w.cavity = append(w.lowest, p.Lowest...), append(w.highest, p.Highest...), append(w.cavity, cavity...)
	}
	n := len(w.chainage)
	if n <= mostNodes {
		return w
	}
	rows := export.Kept(w.chainage, (w.chainage[n-1]-w.chainage[0])/(mostNodes/4), [][]float64{w.elevation, w.lowest, w.highest, w.cavity})
	for _, x := range []*[]float64{&w.chainage, &w.elevation, &w.steady, &w.lowest, &w.highest, &w.cavity} {
		*x = pick(*x, rows)
	}
	names := make([]string, len(rows))
	for i, r := range rows {
		names[i] = w.pipes[r]
	}
	w.pipes = names
	return w
}
