package main

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/moc"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

const steadyHelp = `Print the steady flow before the event: duty of the pumps, opening and loss of
the check valves, flows in the pipes, heads and pressures at the nodes.`

// steady prints the steady flow with each candidate.
func (p *program) steady() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "steady [CASE]",
		Short: "Print the steady flow with each candidate",
		Long:  steadyHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise steady my-line.yaml",
			"seatwise steady my-line.yaml --candidate plain-swing --units us",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			in, system, err := p.given(args)
			if err != nil {
				return err
			}
			if in.Candidates, err = pick(in.Candidates, p.candidates); err != nil {
				return err
			}
			duties, err := steadyDuties(cmd.Context(), in.Case, system)
			if err != nil {
				return in.placed(err)
			}
			if p.json {
				return printJSON(p.stdout, dutiesJSON(duties))
			}
			s := p.screen()
			title(s, in.Case)
			for _, d := range duties {
				d.print(s, in.Case, system)
			}
			return nil
		},
	}
	p.candidateFlag(cmd)
	p.caseFlags(cmd)
	return cmd
}

// duty is the steady flow with one candidate in one scenario.
type duty struct {
	scenario  *choice.Scenario
	candidate string
	warnings  []string
	*moc.Steady
}

// steadyDuties solves every scenario with every candidate.
func steadyDuties(ctx context.Context, c *choice.Case, system quantity.System) ([]duty, error) {
	var all []duty
	for i := range c.Scenarios {
		for _, spec := range c.Candidates {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			s := &c.Scenarios[i]
			at, err := install(c, s, spec)
			if err != nil {
				return nil, err
			}
			st, err := moc.SteadyState(at.Problem)
			if err != nil {
				return nil, fmt.Errorf("%s in scenario %s: %w", spec.Name, s.Name, choice.Settings{Units: system}.Said(err))
			}
			all = append(all, duty{s, spec.Name, choice.SteadyWarnings(at.Problem, st, choice.Settings{Units: system}), st})
		}
	}
	return all, nil
}

func (d *duty) print(s *screen, c *choice.Case, system quantity.System) {
	text := "Steady flow with " + d.candidate
	if len(c.Scenarios) > 1 {
		text += ", scenario " + d.scenario.Name
	}
	s.heading(text)
	d.units().print(s, system)
	if len(d.Units) > len(d.shown()) {
		s.paragraph("(Units of a station that run alike are shown once, as unit 1.)")
	}
	s.line("")
	d.pipes().print(s, system)
	s.line("")
	d.nodes().print(s, system)
	s.section("Warnings", d.warnings)
}

// sheet is a table of quantities: things as rows, one dimension per column, one scale per column.
type sheet struct {
	corner string
	heads  []string
	dims   []quantity.Dimension
	names  []string
	values [][]float64 // per name
}

// levelPlaces are the decimals of levels and heads, whose differences count.
const levelPlaces = 2

func (h *sheet) column(head string, d quantity.Dimension) {
	h.heads, h.dims = append(h.heads, head), append(h.dims, d)
}

func (h *sheet) row(name string, values ...float64) {
	h.names, h.values = append(h.names, name), append(h.values, values)
}

func (h *sheet) print(s *screen, system quantity.System) {
	if len(h.names) == 0 {
		return
	}
	t := &table{corner: h.corner}
	scales := make([]choice.Scale, len(h.heads))
	for k := range h.heads {
		var column []float64
		for _, v := range h.values {
			column = append(column, v[k])
		}
		scales[k] = choice.NewScale(h.dims[k], system, column...)
		switch {
		case h.dims[k] == quantity.Length:
			scales[k].Places = max(scales[k].Places, levelPlaces)
		case h.dims[k] == quantity.Number && !slices.ContainsFunc(column, func(x float64) bool { return x != math.Trunc(x) }):
			scales[k].Places = 0 // counts
		}
		t.head = append(t.head, scales[k].Label(h.heads[k]))
	}
	for i, name := range h.names {
		cells := make([]cell, len(h.heads))
		for k := range cells {
			cells[k].text = scales[k].Text(h.values[i][k])
		}
		t.add(name, cells, "")
	}
	t.print(s)
}

func (d *duty) units() *sheet {
	h := &sheet{corner: "unit"}
	h.column("flow", quantity.Flow)
	h.column("valve velocity", quantity.Velocity)
	h.column("opening", quantity.Fraction)
	h.column("valve loss", quantity.Length)
	h.column("pump head", quantity.Length)
	h.column("shaft power", quantity.Power)
	h.column("efficiency", quantity.Fraction)
	for _, u := range d.shown() {
		h.row(fmt.Sprintf("%s, unit %d", u.Station, u.Unit), u.Flow, u.Velocity, u.Opening, u.ValveLoss, u.PumpHead, u.Power, u.Efficiency)
	}
	return h
}

// shown are the units without those that run like the first of their station.
func (d *duty) shown() []moc.SteadyUnit {
	var out []moc.SteadyUnit
	for _, u := range d.Units {
		if !d.alike(u) {
			out = append(out, u)
		}
	}
	return out
}

// alike tells whether a unit runs like the first of its station.
func (d *duty) alike(u moc.SteadyUnit) bool {
	for _, first := range d.Units {
		if first.Station == u.Station && first.Unit == 1 {
			return u.Unit > 1 && math.Abs(first.Flow-u.Flow) <= 1e-6*math.Abs(first.Flow)
		}
	}
	return false
}

// twin tells whether a pipe or node lies within a unit that runs like the first of its station: its name begins with station and unit.
func (d *duty) twin(name string) bool {
	for _, u := range d.Units {
		if strings.HasPrefix(name, moc.Part(u.Station, u.Unit, "")) && d.alike(u) {
			return true
		}
	}
	return false
}

func (d *duty) pipes() *sheet {
	h := &sheet{corner: "pipe"}
	h.column("flow", quantity.Flow)
	h.column("velocity", quantity.Velocity)
	h.column("head loss", quantity.Length)
	h.column("Darcy factor", quantity.Number)
	for _, f := range d.Pipes {
		if d.twin(f.Name) {
			continue
		}
		h.row(f.Name, f.Flow, f.Velocity, f.HeadLoss, f.Friction)
	}
	return h
}

func (d *duty) nodes() *sheet {
	n := d.scenario.Network
	h := &sheet{corner: "node"}
	h.column("head", quantity.Length)
	h.column("elevation", quantity.Length)
	h.column("pressure", quantity.Pressure)
	for _, k := range d.Nodes {
		if d.twin(k.Name) {
			continue
		}
		h.row(k.Name, k.Head, k.Elevation, n.Fluid.Density*n.G()*(k.Head-k.Elevation))
	}
	return h
}

// dutyJSON is a duty for other programs: SI, the unit in the key.
type dutyJSON struct {
	Scenario  string     `json:"scenario"`
	Candidate string     `json:"candidate"`
	Units     []unitJSON `json:"units"`
	Pipes     []pipeJSON `json:"pipes"`
	Nodes     []nodeJSON `json:"nodes"`
	Warnings  []string   `json:"warnings"`
}

type unitJSON struct {
	Station    string  `json:"station"`
	Unit       int     `json:"unit"`
	Flow       float64 `json:"flow_m3_s"`
	Velocity   float64 `json:"velocity_m_s"`
	Opening    float64 `json:"opening_fraction"`
	Loss       float64 `json:"head_loss_m"`
	PumpHead   float64 `json:"pump_head_m"`
	Power      float64 `json:"shaft_power_w"`
	Efficiency float64 `json:"efficiency_fraction"`
}

type pipeJSON struct {
	Name     string  `json:"name"`
	Flow     float64 `json:"flow_m3_s"`
	Velocity float64 `json:"velocity_m_s"`
	HeadLoss float64 `json:"head_loss_m"`
	Friction float64 `json:"darcy_factor"`
}

type nodeJSON struct {
	Name      string  `json:"name"`
	Head      float64 `json:"head_m"`
	Elevation float64 `json:"elevation_m"`
	Pressure  float64 `json:"pressure_pa"`
}

func dutiesJSON(duties []duty) []dutyJSON {
	out := []dutyJSON{}
	for _, d := range duties {
		n := d.scenario.Network
		j := dutyJSON{Scenario: d.scenario.Name, Candidate: d.candidate, Warnings: append([]string{}, d.warnings...), Units: []unitJSON{}, Pipes: []pipeJSON{}, Nodes: []nodeJSON{}}
		for _, u := range d.Units {
			j.Units = append(j.Units, unitJSON{u.Station, u.Unit, u.Flow, u.Velocity, u.Opening, u.ValveLoss, u.PumpHead, u.Power, u.Efficiency})
		}
		for _, f := range d.Pipes {
			j.Pipes = append(j.Pipes, pipeJSON{f.Name, f.Flow, f.Velocity, f.HeadLoss, f.Friction})
		}
		for _, k := range d.Nodes {
			j.Nodes = append(j.Nodes, nodeJSON{k.Name, k.Head, k.Elevation, n.Fluid.Density * n.G() * (k.Head - k.Elevation)})
		}
		out = append(out, j)
	}
	return out
}
