package report

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"strings"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// write is a value with its unit, four digits.
func (b *builder) write(si float64, d quantity.Dimension) string {
	return strings.TrimSpace(quantity.Format(si, d, b.Units))
}

// part is a length of a valve or a bore, in mm or inches.
func (b *builder) part(si float64) string { return quantity.FormatIn(si, b.small(quantity.Length)) }

// small is the unit in which a part of a valve is measured.
func (b *builder) small(d quantity.Dimension) quantity.Unit { return Part(d, b.Units) }

// Part is the unit in which a part of a valve is measured.
func Part(d quantity.Dimension, system quantity.System) quantity.Unit {
	symbol := ""
	switch us := system == quantity.US; {
	case d == quantity.Length && us:
		symbol = "in"
	case d == quantity.Length:
		symbol = "mm"
	case d == quantity.Force && !us:
		symbol = "N"
	}
	if u, err := quantity.ParseUnit(symbol, d); symbol != "" && err == nil {
		return u
	}
	return system.Unit(d)
}

// installation is the data that the scenarios share, and where they differ those of each.
func (b *builder) installation() Section {
	s := Section{Heading: "Installation", NewPage: true}
	for i := range b.Case.Scenarios {
		sc := &b.Case.Scenarios[i]
		if len(b.Case.Scenarios) > 1 {
			s.Blocks = append(s.Blocks, Subheading("Scenario "+sc.Name))
		}
		if i > 0 && reflect.DeepEqual(sc.Network, b.Case.Scenarios[0].Network) {
			s.Blocks = append(s.Blocks, Paragraph("The installation is that of scenario "+b.Case.Scenarios[0].Name+"."))
			continue
		}
		s.Blocks = append(s.Blocks, b.network(sc.Network)...)
	}
	return s
}

func (b *builder) network(n *network.Network) []Block {
	f := n.Fluid
	blocks := []Block{Paragraph(fmt.Sprintf("%s: density %s, bulk modulus %s, viscosity %s, vapour pressure %s; atmosphere %s.", f.Name, b.write(f.Density, quantity.Density), b.write(f.BulkModulus, quantity.Modulus),
		b.write(f.Viscosity, quantity.DynamicViscosity), b.write(f.VapourPressure, quantity.AbsolutePressure), b.write(n.Atmosphere, quantity.AbsolutePressure)))}
	blocks = append(b.sketch(quantity.Printable(b.Case.Title), n), blocks...)
	t := &Table{Caption: "Nodes that hold a level or take a flow.", Head: []string{"node", "kind", "value"}, Words: true}
	for i := range n.Reservoirs {
		r := &n.Reservoirs[i]
		t.add(r.Name, "reservoir", "level "+b.write(r.Head(0), quantity.Length)+" at the start")
	}
	for _, d := range n.Demands {
		t.add(d.Node, "demand", b.write(d.Flow, quantity.Flow))
	}
	blocks = append(blocks, t)
	t = &Table{Caption: "Stations: identical units, each a pump with its check valve.", Head: []string{"station", "from", "to", "units", "rated point", "rotor inertia", "valve level"}}
	for _, x := range n.Stations {
		inertia := b.write(x.Pump.Inertia, quantity.Inertia)
		if p, err := pump.New(x.Pump, f.Density, n.G()); err == nil && p.InertiaEstimated {
			inertia = b.write(p.Inertia, quantity.Inertia) + ", estimated"
		}
		t.add(x.Name, x.From, x.To, fmt.Sprint(x.Units), b.write(x.Pump.Flow, quantity.Flow)+", "+b.write(x.Pump.Head, quantity.Length)+", "+b.write(x.Pump.Speed, quantity.Rotation)+", "+b.write(x.Pump.Efficiency, quantity.Fraction),
			inertia, b.write(x.Elevation, quantity.Length))
	}
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	t = &Table{Caption: "Pipes, and the branch of each unit.", Head: []string{"pipe", "from", "to", "length", "bore", "wave speed", "return time 2 L/a"}}
	for i := range n.Pipes {
		p := &n.Pipes[i]
		t.add(p.Name, p.From, p.To, b.write(p.Length(), quantity.Length), b.part(p.Bore), b.write(p.WaveSpeed, quantity.Velocity), b.write(2*p.Length()/p.WaveSpeed, quantity.Time))
	}
	for _, x := range n.Stations {
		if r := x.Branch; r != nil {
			t.add("branch of "+x.Name, "valve", x.To, b.write(r.Length, quantity.Length), b.part(r.Bore), b.write(r.WaveSpeed, quantity.Velocity), b.write(2*r.Length/r.WaveSpeed, quantity.Time))
		}
	}
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	var more List
	for _, v := range n.CheckValves {
		what := v.CheckValve
		if what == "" {
			what = "the candidate"
		}
		more = append(more, fmt.Sprintf("Check valve %s, %s to %s: %s.", v.Name, v.From, v.To, what))
	}
	for _, v := range n.Throttles {
		more = append(more, fmt.Sprintf("Throttling valve %s, %s to %s: bore %s, loss coefficient %.3g when open.", v.Name, v.From, v.To, b.part(v.Bore), v.LossWhenOpen()))
	}
	for _, d := range n.Devices {
		section, name := d.Label()
		more = append(more, section+", "+name+": data in the case file at the end.")
	}
	if len(more) > 0 {
		blocks = append(blocks, more)
	}
	return blocks
}

// candidates are the data of each valve and where each comes from.
func (b *builder) candidates() Section {
	s := Section{Heading: "Data of the candidates"}
	for i, spec := range b.Case.Candidates {
		if len(b.Scenarios) == 0 {
			break
		}
		v := b.Scenarios[0].Outcomes[i].Valve
		t := &Table{Caption: fmt.Sprintf("Candidate %s: %s, bore %s.", spec.Name, spec.Type, b.part(v.Bore)), Head: []string{"datum", "value", "from", "status"}, Words: true}
		for _, x := range v.Data {
			label, value := x.Label, cmp.Or(x.Word, b.datum(x.Value, x.Unit))
			if x.Key == "kv" && b.Units == quantity.US {
				label, value = "flow of water at 1 psi when open (Cv)", b.write(x.Value*math.Sqrt(b.Units.Unit(quantity.PressureDifference).To(1)/1e5), quantity.Flow)
			}
			t.add(label, value, string(x.Origin), x.Status)
		}
		s.Blocks = append(s.Blocks, t)
		if len(v.Warnings) > 0 {
			s.Blocks = append(s.Blocks, List(v.Warnings))
		}
	}
	return s
}

// datum is a value of a valve with its unit.
func (b *builder) datum(si float64, unit string) string {
	if d, ok := quantity.Measured(unit); ok {
		return strings.TrimSpace(quantity.FormatIn(si, b.small(d)))
	}
	text := fmt.Sprintf("%.4g", si)
	if unit != "" && unit != "1" {
		text += " " + unit
	}
	return text
}

func (b *builder) assumptions() Section {
	s := Section{Heading: "Assumptions", Blocks: []Block{Paragraph("What the case does not say and the program took for granted, with how well it is known.")}}
	if len(b.Assumptions) == 0 {
		s.Blocks = append(s.Blocks, Paragraph("None."))
		return s
	}
	s.Blocks = append(s.Blocks, List(b.Assumptions))
	return s
}

// numerics is how each outcome was reached and how far it is from the exact solution of the equations.
func (b *builder) numerics() Section {
	s := Section{Heading: "Numerical errors and audits", Blocks: []Block{Paragraph("Every run is repeated at half the time step or less; the error is estimated from the difference. It is that of the arithmetic alone, not of the data. The volume that the line stores is " +
		"held against what flowed in and out at every run; a run that fails this audit is an error and has no results.")}}
	for i := range b.Scenarios {
		sc := &b.Scenarios[i]
		t := &Table{Caption: "Grid and audit, scenario " + sc.Name + ".", Head: []string{"candidate", "time step", "steps", "nodes", "grids compared", "volume residual", "greatest change of a length", "form"}}
		for k := range sc.Outcomes {
			o := &sc.Outcomes[k]
			n := o.Numerics
			t.add(o.Candidate, quantity.FormatIn(n.TimeStep, millisecond), fmt.Sprint(n.Steps), fmt.Sprint(n.Nodes), fmt.Sprint(n.Grids), fmt.Sprintf("%.1e", n.VolumeResidual), fmt.Sprintf("%.2g %%", 100*n.LengthChangeMax), n.Kernel)
		}
		s.Blocks = append(s.Blocks, t)
		for from := 0; from < len(sc.Outcomes); from += beside {
			if e := b.errors(sc, from, min(from+beside, len(sc.Outcomes))); len(e.Rows) > 0 {
				s.Blocks = append(s.Blocks, e)
			}
		}
	}
	return s
}

// errors are the estimated errors of some candidates in a scenario; a measure for which none has one is left out.
func (b *builder) errors(sc *choice.ScenarioOutcomes, from, to int) *Table {
	e := &Table{Caption: "Estimated numerical error, scenario " + sc.Name + ".", Head: []string{"measure"}}
	some := sc.Outcomes[from:to]
	for k := range some {
		e.Head = append(e.Head, some[k].Candidate)
	}
	for _, m := range b.Measures {
		if strings.Contains(m.Key, "_error_") {
			continue
		}
		row, greatest := []string{m.Label}, 0.0
		for k := range some {
			text := "-"
			if x, ok := some[k].Errors[m.Key]; ok {
				text, greatest = b.difference(x, m.Dimension), math.Max(greatest, math.Abs(x))
			}
			row = append(row, text)
		}
		if greatest > 0 {
			e.add(row...)
		}
	}
	return e
}

// difference is an error, which has two digits at most.
func (b *builder) difference(si float64, d quantity.Dimension) string {
	u := choice.NewScale(d, b.Units, si).Unit
	return strings.TrimSpace(fmt.Sprintf("%.2g %s", u.From(si)-u.From(0), u.Symbol))
}

var millisecond = func() quantity.Unit {
	u, err := quantity.ParseUnit("ms", quantity.Time)
	if err != nil {
		panic("report: the millisecond is not in the table of units")
	}
	return u
}()
