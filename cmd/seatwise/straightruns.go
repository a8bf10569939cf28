package main

import (
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// straightRun is a straight run of pipe and what the grid makes of it.
type straightRun struct {
	pipe            string
	from, to        float64 // chainage, m
	reaches         int     // 0: the grid cannot tell its ends apart
	bore, waveSpeed float64 // m, m/s
}

// straightRuns are those of the pipes, and of the branch of the first unit of each station.
func straightRuns(n *network.Network, g *moc.Numerics) []straightRun {
	var out []straightRun
	add := func(name string, length, bore, a float64, bends []float64) {
		for _, ends := range network.Runs(length, bends) {
			from, to := moc.EndNodes(ends, length, g.Reaches[name])
			out = append(out, straightRun{name, ends[0], ends[1], to - from, bore, a})
		}
	}
	for i := range n.Pipes {
		p := &n.Pipes[i]
		add(p.Name, p.Length(), p.Bore, p.WaveSpeed, p.Bends)
	}
	for _, t := range n.Stations {
		if b := t.Branch; b != nil {
			add(moc.Part(t.Name, 1, "branch"), b.Length, b.Bore, b.WaveSpeed, b.Bends)
		}
	}
	return out
}

// straightRuns prints the straight runs with what a hand calculation wants to know of them: a front of velocity change dV pushes with rho a A dV, N, for
// l/a, s, while it is within.
func (d *description) straightRuns(n *network.Network, g *moc.Numerics) {
	runs := straightRuns(n, g)
	if len(runs) == 0 {
		return
	}
	u := d.system.Unit(quantity.Velocity)
	h := &sheet{corner: "straight run"}
	h.column("length", quantity.Length)
	h.column("wave time", quantity.Time)
	h.column("reaches", quantity.Number)
	h.column("force of a stop by 1 "+u.Symbol, quantity.Force)
	short := false
	for _, r := range runs {
		name := (&choice.StraightRun{Pipe: r.pipe, From: r.from, To: r.to}).Name(d.system)
		h.row(name, r.to-r.from, (r.to-r.from)/r.waveSpeed, float64(r.reaches), n.Fluid.Density*r.waveSpeed*math.Pi/4*r.bore*r.bore*u.To(1))
		short = short || r.reaches == 0
	}
	d.line("")
	h.print(d.screen, d.system)
	text := "Anchor forces are taken on these straight runs between bends and ends of the pipe. A wave that changes the velocity by 1 " + u.Symbol +
		" at once pushes with the force in the last column while it is within the run."
	if short {
		text += " A run of 0 reaches is too short for the grid: its force is not known."
	}
	d.paragraph(text)
}

// runJSON is a straight run for other programs.
type runJSON struct {
	Pipe    string  `json:"pipe"`
	From    float64 `json:"from_m"`
	To      float64 `json:"to_m"`
	Reaches int     `json:"reaches"`
}

func runsJSON(n *network.Network, g *moc.Numerics) []runJSON {
	var out []runJSON
	for _, r := range straightRuns(n, g) {
		out = append(out, runJSON{r.pipe, r.from, r.to, r.reaches})
	}
	return out
}
