package report

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/plots"
)

// sketch is the figure of an installation, or a word on why there is none.
func (b *builder) sketch(title string, n *network.Network) []Block {
	d := plots.Diagram{Title: title}
	for _, s := range n.Stations {
		valve := s.CheckValve
		if valve == "" {
			valve = "candidate"
		}
		d.Links = append(d.Links, plots.Link{From: s.From, To: s.To, Part: plots.PumpPart, Label: []string{s.Name, fmt.Sprintf("units: %d", s.Units), "valve: " + valve}})
	}
	for _, v := range n.CheckValves {
		d.Links = append(d.Links, plots.Link{From: v.From, To: v.To, Part: plots.CheckValvePart, Label: []string{v.Name}})
	}
	for _, v := range n.Throttles {
		d.Links = append(d.Links, plots.Link{From: v.From, To: v.To, Part: plots.ThrottlePart, Label: []string{v.Name, b.part(v.Bore)}})
	}
	for i := range n.Pipes {
		p := &n.Pipes[i]
		d.Links = append(d.Links, plots.Link{From: p.From, To: p.To, Part: plots.PipePart, Label: []string{p.Name, b.write(p.Length(), quantity.Length), b.part(p.Bore)}})
	}
	for i := range n.Reservoirs {
		r := &n.Reservoirs[i]
		d.At = append(d.At, plots.Fitting{Node: r.Name, Part: plots.ReservoirPart, Label: []string{b.write(r.Head(0), quantity.Length)}})
	}
	for _, x := range n.Demands {
		d.At = append(d.At, plots.Fitting{Node: x.Node, Part: plots.OtherPart, Label: []string{"demand", b.write(x.Flow, quantity.Flow)}})
	}
	for _, x := range n.Devices {
		_, name := x.Label()
		if from, to := x.Ends(); to != "" {
			d.Links = append(d.Links, plots.Link{From: from, To: to, Part: plots.ThrottlePart, Label: []string{name}})
		} else {
			d.At = append(d.At, plots.Fitting{Node: from, Part: plots.OtherPart, Label: []string{name}})
		}
	}
	f, ok := plots.Sketch(d)
	if !ok {
		return []Block{Paragraph("Too many nodes and meshes for a sketch: the tables say what leads where.")}
	}
	return []Block{Picture{f, f.Caption}}
}
