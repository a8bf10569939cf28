package main

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

const checkHelp = `Describe what would be run: the installation, each candidate's data and where
they come from, events, limits, grid and assumptions. The steady flow is solved,
so that an impossible one is told before a run; no event is run, nothing written.

With --rerun CASE is a report as HTML: the case and the files in it are run once
more, and every number is compared with that of the report.`

// check describes a case.
func (p *program) check() *cobra.Command {
	var rerun bool
	cmd := &cobra.Command{
		Use:   "check [CASE]",
		Short: "Describe model, grid and assumptions of a case",
		Long:  checkHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise check my-line.yaml",
			`seatwise check my-line.yaml --set "stations.lift.units=2"`,
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			if rerun {
				return p.rerun(cmd, args)
			}
			in, system, err := p.given(args)
			if err != nil {
				return err
			}
			d := &description{Case: in.Case, system: system, files: in.files}
			if err := d.plan(); err != nil {
				return err
			}
			duties, impossible := steadyDuties(cmd.Context(), in.Case, system)
			d.doubts = slices.Clone(d.Warnings)
			for _, k := range duties {
				d.doubts = append(d.doubts, k.warnings...)
			}
			for _, g := range d.grids {
				d.doubts = append(d.doubts, choice.CreepWarnings(g, choice.Settings{Units: system})...)
			}
			slices.Sort(d.doubts[len(d.Warnings):])
			d.doubts = slices.Compact(d.doubts)
			if p.json {
				if err := printJSON(p.stdout, d.json()); err != nil {
					return err
				}
				return in.placed(impossible)
			}
			d.screen = p.screen()
			d.print(impossible)
			return in.placed(impossible)
		},
	}
	p.caseFlags(cmd)
	cmd.Flags().BoolVar(&rerun, "rerun", false, "run the case that is in a report once more and compare the numbers")
	return cmd
}

// description is a case and the grids that it would be run on.
type description struct {
	*screen
	*choice.Case
	system quantity.System
	grids  []*moc.Numerics // per scenario
	valves []valve.Valve   // per candidate
	files  []string        // that the case came from
	doubts []string        // warnings of the case, and on the steady flow
}

// plan completes the valves and lays out the grid of every scenario. The grid does not depend on the candidate.
func (d *description) plan() error {
	for i := range d.Scenarios {
		s := &d.Scenarios[i]
		for k, spec := range d.Candidates {
			at, err := install(d.Case, s, spec)
			if err != nil {
				return err
			}
			if i == 0 {
				d.valves = append(d.valves, at.Valve())
			}
			if k > 0 {
				continue
			}
			g, err := moc.Plan(at.Problem, moc.Settings{})
			if err != nil {
				return fmt.Errorf("scenario %s: %w", s.Name, err)
			}
			d.grids = append(d.grids, g)
		}
	}
	return nil
}

// print tells first that nothing can be run where there is no steady flow.
func (d *description) print(impossible error) {
	title(d.screen, d.Case)
	d.line("")
	if impossible != nil {
		d.paragraph("This case cannot be run: " + impossible.Error() + ".")
		d.line("")
	}
	d.paragraph(fmt.Sprintf("Case %s: %s, %s. One-dimensional flow of an elastic liquid by the method of characteristics; each disc moves by its own equation of motion, "+
		"solved together with the flow.", d.Name, count(len(d.Candidates), "candidate"), count(len(d.Scenarios), "scenario")))
	for i := range d.Scenarios {
		d.scenario(i)
	}
	for i, v := range d.valves {
		d.valve(d.Candidates[i], v)
	}
	d.section("Limits", d.limits())
	if !d.Limits.Any() {
		d.heading("Limits")
		d.item("none: there will be no verdicts and no recommendation")
	}
	if len(d.files) > 1 {
		d.section("Files read", d.files)
	}
	d.section("Assumptions", d.assumptions())
	d.section("Warnings", d.doubts)
}

// assumptions are those that no list above shows: the data of the candidates are listed with them.
func (d *description) assumptions() []string {
	return slices.DeleteFunc(slices.Clone(d.Assumptions), func(text string) bool { return strings.HasPrefix(text, "candidates.") })
}

// scenario prints the installation of the first scenario, and of another one only if it differs.
func (d *description) scenario(i int) {
	s := &d.Scenarios[i]
	d.heading(heading(d.Case, i, d.system))
	if i > 0 && reflect.DeepEqual(s.Network, d.Scenarios[0].Network) {
		d.paragraph("The installation is that of scenario " + d.Scenarios[0].Name + ".")
		return
	}
	n := s.Network
	if f := n.Fluid; f.Name != "" {
		d.paragraph(fmt.Sprintf("%s: density %s, bulk modulus %s, viscosity %s, vapour pressure %s.", f.Name, d.write(f.Density, quantity.Density),
			d.write(f.BulkModulus, quantity.Modulus), d.write(f.Viscosity, quantity.DynamicViscosity), d.write(f.VapourPressure, quantity.AbsolutePressure)))
	}
	for _, r := range n.Reservoirs {
		d.paragraph(fmt.Sprintf("Reservoir %s: level %s.", r.Name, d.write(r.Head(0), quantity.Length)))
	}
	for _, t := range n.Stations {
		d.paragraph(d.station(n, t))
	}
	for _, v := range n.CheckValves {
		d.paragraph(fmt.Sprintf("Check valve %s, %s to %s%s: %s.", v.Name, v.From, v.To, bypassed(n, v), cmp.Or(v.CheckValve, "the candidate")))
	}
	for _, t := range n.Throttles {
		d.paragraph(d.throttle(t))
	}
	g := d.grids[i]
	d.line("")
	d.pipes(n, g).print(d.screen, d.system)
	d.straightRuns(n, g)
	for _, text := range d.creeping(n) {
		d.paragraph(text)
	}
	change := "lengths as given"
	if g.LengthChangeMax > 1e-6 {
		change = fmt.Sprintf("lengths change by at most %.2g %% (%s)", 100*g.LengthChangeMax, g.LengthChangePipe)
	}
	d.paragraph(fmt.Sprintf("Grid: time step %s (%s), %s, %s.", d.write(g.Step, quantity.Time), g.StepFrom, count(g.Nodes, "node"), change))
	for _, name := range g.Short {
		d.paragraph("The pipe " + choice.SingleReach(name) + ".")
	}
}

func (d *description) station(n *network.Network, t network.Station) string {
	p := t.Pump
	inertia := "inertia estimated"
	if p.Inertia > 0 {
		inertia = "inertia " + d.write(p.Inertia, quantity.Inertia)
	}
	text := fmt.Sprintf("Station %s, %s to %s: %s, rated %s at %s and %s, %s.", t.Name, t.From, t.To, count(t.Units, "unit"),
		d.write(p.Flow, quantity.Flow), d.write(p.Head, quantity.Length), d.write(p.Speed, quantity.Rotation), inertia)
	from := "The whole pump is"
	if len(p.Curve) > 0 {
		var points []string
		for _, x := range p.Curve {
			points = append(points, d.write(x.Flow, quantity.Flow)+" "+d.write(x.Head, quantity.Length))
		}
		text += " Curve: " + inLine(points) + "."
		from = "Beyond the curve it is"
	}
	if built, err := pump.New(p, n.Fluid.Density, n.G()); err == nil {
		text += fmt.Sprintf(" %s the four-quadrant data %s, chosen by specific speed %.3g.", from, built.Set.Name, built.SpecificSpeed)
	}
	return text
}

// bypassed tells of the station past which a check valve that stands alone leads.
func bypassed(n *network.Network, v network.CheckValve) string {
	for _, s := range n.Stations {
		if s.From == v.From && s.To == v.To {
			return ", a bypass of station " + s.Name
		}
	}
	return ""
}

// throttle is a throttling valve with its schedule.
func (d *description) throttle(t network.Throttle) string {
	text := fmt.Sprintf("Throttling valve %s, %s to %s: bore %s, loss coefficient %.3g when open", t.Name, t.From, t.To, quantity.FormatIn(t.Bore, partUnit(quantity.Length, d.system)), t.LossWhenOpen())
	if t.Kv > 0 {
		text += fmt.Sprintf(" (Kv %.4g m3/h)", t.Kv)
	}
	switch {
	case len(t.KvTable) > 0:
		text += fmt.Sprintf(", Kv by a table of the opening up to %.4g m3/h", t.KvTable[len(t.KvTable)-1].Value)
	case len(t.LossTable) > 0:
		text += ", loss by a table of the opening"
	default:
		text += ", " + t.Inherent.String() + " characteristic"
	}
	if len(t.Schedule) == 0 {
		return text + "; fully open at the start."
	}
	var steps []string
	for _, x := range t.Schedule {
		steps = append(steps, d.write(x.Fraction, quantity.Fraction)+" at "+d.write(x.Time, quantity.Time))
	}
	return text + "; opening: " + inLine(steps) + "."
}

func (d *description) pipes(n *network.Network, g *moc.Numerics) *sheet {
	h := &sheet{corner: "pipe"}
	h.column("length", quantity.Length)
	h.column("bore", quantity.Length)
	h.column("wave speed", quantity.Velocity)
	h.column("return time", quantity.Time)
	h.column("reaches", quantity.Number)
	add := func(name string, length, bore, a float64) {
		h.row(name, length, bore, a, 2*length/a, float64(g.Reaches[name]))
	}
	for i := range n.Pipes {
		p := &n.Pipes[i]
		add(p.Name, p.Length(), p.Bore, p.WaveSpeed)
	}
	listed := func(name string) bool {
		return slices.ContainsFunc(n.Pipes, func(p network.Pipe) bool { return p.Name == name })
	}
	for _, t := range n.Stations {
		for name := range g.Reaches {
			if t.Branch != nil && !listed(name) && name == moc.Part(t.Name, 1, "branch") {
				add(name, t.Branch.Length, t.Branch.Bore, t.Branch.WaveSpeed)
			}
		}
	}
	return h
}

func (d *description) valve(spec valve.Spec, v valve.Valve) {
	d.heading(fmt.Sprintf("Candidate %s: %s %s", spec.Name, spec.Type, size(spec.Size)))
	if spec.Source != "" {
		d.paragraph("It is the " + spec.Source + ".")
	}
	if slices.ContainsFunc(v.Data, func(x valve.Datum) bool { return known(x) != x.Status }) {
		d.paragraph("The data are common practice, those of the catalogue ±40 %, unless marked otherwise.")
	}
	for _, x := range v.Data {
		from := string(x.Origin)
		if status := known(x); status != "" {
			from += ", " + status
		}
		d.item(fmt.Sprintf("%s (%s)", named(x, d.system), from))
	}
	d.section("Warnings", v.Warnings)
}

// named is a datum as a case file gives it, and what it is.
func named(x valve.Datum, system quantity.System) string {
	text := x.Key + ": " + cmp.Or(x.Word, datum(x.Value, x.Unit, system))
	if x.Label != "" && x.Label != x.Key {
		text += ", " + x.Label
	}
	return text
}

// datum is a value of a valve with its unit. A Kv stays in m3/h: in gpm it would be taken for a Cv, which is at another pressure drop.
func datum(si float64, unit string, system quantity.System) string {
	if unit == "m3/s" {
		system = quantity.SI
	}
	if dim, ok := quantity.Measured(unit); ok {
		return strings.TrimSpace(quantity.FormatIn(si, partUnit(dim, system)))
	}
	text := fmt.Sprintf("%.4g", si)
	if unit != "" && unit != "1" {
		text += " " + unit
	}
	return text
}

// known is how well a datum is known, without what is said of all of them.
func known(x valve.Datum) string {
	status, more := strings.CutPrefix(x.Status, "common practice, ")
	if more && status == "±40 %" && x.Origin == valve.Catalogue {
		return ""
	}
	return status
}

// limits are the limits in words.
func (d *description) limits() []string {
	var out []string
	add := func(words string, v *float64, dim quantity.Dimension) {
		if v != nil {
			out = append(out, words+" "+d.write(*v, dim))
		}
	}
	l := d.Limits
	add("design pressure", l.DesignPressure, quantity.Pressure)
	add("surge allowance", l.SurgeAllowance, quantity.Fraction)
	switch {
	case l.Rule.Timed():
		out[len(out)-1] += " at the most, by the time above the design pressure"
		fallthrough
	case l.Rule != nil:
		out[len(out)-1] += " by " + l.Rule.Name + " (" + l.Rule.Status + ")"
	}
	add("minimum pressure", l.MinimumPressure, quantity.Pressure)
	add("vapour margin", l.VapourMargin, quantity.Length)
	add("reverse velocity", l.ReverseVelocity, quantity.Velocity)
	add("pump reverse speed", l.PumpReverseSpeed, quantity.Rotation)
	add("reverse volume", l.ReverseVolume, quantity.Volume)
	add("head loss", l.HeadLoss, quantity.Length)
	add("anchor force", l.AnchorForce, quantity.Force)
	if l.SlamClass != "" {
		out = append(out, "slam class "+l.SlamClass)
	}
	if l.Margin > 0 {
		out = append(out, "each with a margin of "+d.write(l.Margin, quantity.Fraction))
	}
	return out
}

func (d *description) write(si float64, dim quantity.Dimension) string {
	return strings.TrimSpace(quantity.Format(si, dim, d.system))
}

// descriptionJSON is a description for other programs.
type descriptionJSON struct {
	Case        string         `json:"case"`
	Candidates  []string       `json:"candidates"`
	Scenarios   []scenarioJSON `json:"scenarios"`
	Assumptions []string       `json:"assumptions"`
	Warnings    []string       `json:"warnings"`
	Files       []string       `json:"files_read"`
	InputSHA256 string         `json:"input_sha256"`
}

type scenarioJSON struct {
	Name         string         `json:"name"`
	TimeStep     float64        `json:"time_step_s"`
	StepFrom     string         `json:"step_from"`
	Nodes        int            `json:"nodes"`
	Reaches      map[string]int `json:"reaches"`
	LengthChange float64        `json:"reach_length_change_max"`
	StraightRuns []runJSON      `json:"straight_runs,omitempty"`
}

func (d *description) json() descriptionJSON {
	j := descriptionJSON{Case: d.Name, Candidates: candidateNames(d.Candidates), Assumptions: append([]string{}, d.Assumptions...),
		Warnings: append([]string{}, d.doubts...), Files: append([]string{}, d.files...), InputSHA256: d.InputSHA256}
	for i, g := range d.grids {
		j.Scenarios = append(j.Scenarios, scenarioJSON{d.Scenarios[i].Name, g.Step, g.StepFrom, g.Nodes, g.Reaches, g.LengthChangeMax, runsJSON(d.Scenarios[i].Network, g)})
	}
	return j
}
