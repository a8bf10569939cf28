package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pipe"
	"seatwise/network/quantity"
	"seatwise/plots"
	"seatwise/plots/export"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

const characteristicHelp = `Print the reverse velocity at which a check valve seats against the deceleration
of the flow, for the candidates of a case or for types of the catalogue. Tables
and a figure go to a folder.

With a case, the installation's own deceleration in the first scenario is marked;
it is taken with an ideal valve held open. By default it is the slope of the
velocity as it passes zero (tangent); --definition mean takes the mean slope from
the velocity before the trip to zero, and --definition closing, of each candidate
by itself, the mean slope from where its disc begins to close to its seat. A curve
is of a constant deceleration, where these agree; a trip is not.

--spread varies one datum after the other by the spread of its kind, for example
±40 % of a generic mass, and shades what the reverse velocity does.`

// characteristic draws the curves of a case's candidates or of catalogue valves.
func (p *program) characteristic() *cobra.Command {
	var types []string
	var nominal string
	var w wanted
	cmd := &cobra.Command{
		Use:   "characteristic [CASE]",
		Short: "Draw reverse velocity against deceleration",
		Long:  characteristicHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise characteristic my-line.yaml",
			`seatwise characteristic --type "swing, nozzle" --size DN250 --out valves`,
			"seatwise characteristic my-line.yaml --from 2 --to 20 --spread --dimensionless",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			system, err := p.system()
			if err != nil {
				return err
			}
			if err := w.complete(); err != nil {
				return err
			}
			var all []string
			for _, t := range types {
				for one := range strings.SplitSeq(t, ",") {
					all = append(all, strings.TrimSpace(one))
				}
			}
			types = all
			if len(types) == 0 && nominal == "" {
				return p.caseCurves(cmd, args, &w, system)
			}
			if len(args) > 0 || len(p.set) > 0 {
				return badInput("leave one out", "--type and --size do not go with a case")
			}
			return p.typeCurves(cmd, types, nominal, &w, system)
		},
	}
	cmd.Flags().StringArrayVar(&types, "type", nil, "`type` of the catalogue: "+inLine(familyNames())+" (repeatable, or with commas between)")
	cmd.Flags().StringVar(&nominal, "size", "", "`size` of the valves of --type, e.g. DN250")
	cmd.Flags().StringVar(&w.from, "from", "0.5", "lowest `deceleration`, m/s2 or with a unit")
	cmd.Flags().StringVar(&w.to, "to", "50", "highest `deceleration`, m/s2 or with a unit")
	cmd.Flags().BoolVar(&w.spread, "spread", false, "vary the generic data by their spread, one after the other")
	cmd.Flags().BoolVar(&w.plain, "dimensionless", false, "draw a figure without dimensions too: V_r/V_o against a D/V_o2")
	cmd.Flags().StringVar(&w.definition, "definition", tangent, "`definition` of the installation's own deceleration: "+strings.Join(definitions, ", "))
	complete(cmd, "type", familyNames()...)
	complete(cmd, "definition", definitions...)
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	return cmd
}

// curves is a set of characteristics.
type curves struct {
	export.CurveSet
	c      *choice.Case // nil: valves of the catalogue
	about  []string
	w      *wanted
	varied []string // what --spread did, by valve
	// ownBore is that of the velocity in CurveSet.Own, m.
	ownBore float64
}

// curveNames are those that the files can have.
func curveNames(valves []string) []string {
	all := []string{"characteristic.png", "characteristic.svg", "characteristic-dimensionless.png", "characteristic-dimensionless.svg"}
	for _, v := range valves {
		all = append(all, curveFile(v))
	}
	return all
}

func curveFile(valve string) string { return "characteristic-" + fileName(valve) + ".csv" }

// caseCurves are those of a case's candidates in its first scenario.
func (p *program) caseCurves(cmd *cobra.Command, args []string, w *wanted, system quantity.System) error {
	in, err := p.read(args, p.stdin)
	if err != nil {
		return err
	}
	to, err := p.target(characteristicFile, in.Name, in.Name, in.files, curveNames(candidateNames(in.Candidates)))
	if err != nil {
		return err
	}
	set := &curves{c: in.Case, w: w, CurveSet: export.CurveSet{Case: in.Name, Example: in.Example, Meaning: w.meaning()}}
	for _, spec := range in.Candidates {
		at, err := install(in.Case, &in.Scenarios[0], spec)
		if err != nil {
			return err
		}
		remake := func(key string, value float64) (valve.Valve, error) {
			at, err := install(in.Case, &in.Scenarios[0], with(spec, key, value))
			if err != nil {
				return valve.Valve{}, err
			}
			return at.Valve(), nil
		}
		if err := set.add(at.Valve(), remake); err != nil {
			return err
		}
	}
	if err := set.installed(cmd.Context(), in.Case, system); err != nil {
		return err
	}
	return p.deliverCurves(cmd, to, set, system)
}

// typeCurves are those of catalogue valves in level water at 15 °C.
func (p *program) typeCurves(cmd *cobra.Command, types []string, nominal string, w *wanted, system quantity.System) error {
	if len(types) == 0 || nominal == "" {
		return badInput(`e.g. seatwise characteristic --type swing --size DN250`, "--type and --size go together")
	}
	bore, err := nominalBore(nominal)
	if err != nil {
		return err
	}
	water, err := fluid.Water(288.15, 101325)
	if err != nil {
		return err
	}
	name := fileName("characteristic " + strings.Join(types, " ") + " " + nominal)
	to, err := p.target(characteristicFile, name, name, nil, curveNames(types))
	if err != nil {
		return err
	}
	set := &curves{w: w, CurveSet: export.CurveSet{Case: name, Own: choice.Value{Reason: "no installation is given"}}, about: []string{"Check valves " + size(bore) + " in a level pipe, water at 15 °C."}}
	for _, t := range types {
		spec, setting := valve.Spec{Name: t, Type: t, Size: bore}, catalogue.Setting{Density: water.Density, Gravity: network.Gravity}
		v, err := catalogue.Complete(spec, setting)
		if err != nil {
			return err
		}
		remake := func(key string, value float64) (valve.Valve, error) {
			return catalogue.Complete(with(spec, key, value), setting)
		}
		if err := set.add(v, remake); err != nil {
			return err
		}
	}
	return p.deliverCurves(cmd, to, set, system)
}

// installed finds the deceleration of the installation in the first scenario: one for all valves, or that which each of them sees while it closes.
func (c *curves) installed(ctx context.Context, in *choice.Case, system quantity.System) (err error) {
	sc, how := &in.Scenarios[0], choice.Settings{Units: system}
	if c.w.definition != closing {
		c.Own, c.ownBore, err = c.w.own()(ctx, in, sc, how)
		return err
	}
	c.Own.Reason = "each valve sees its own"
	for i, spec := range in.Candidates {
		v, _, err := choice.OwnClosing(ctx, in, sc, spec, how)
		if err != nil {
			return err
		}
		c.Curves[i].Own = &v
	}
	return nil
}

// add runs the bench for a valve; remake is the valve with one datum set.
func (c *curves) add(v valve.Valve, remake func(string, float64) (valve.Valve, error)) error {
	points, err := characteristic.Curve(v, c.w.decelerations, characteristic.Settings{})
	if err != nil {
		return fmt.Errorf("%s: %w", v.Name, err)
	}
	curve := export.Curve{Valve: v, Points: points}
	if c.w.spread {
		var tried, left int
		curve.Band, tried, left = characteristic.Band(v, points, characteristic.Settings{}, remake)
		c.varied = append(c.varied, variedWords(v.Name, tried, left))
	}
	c.Curves = append(c.Curves, curve)
	return nil
}

// deliverCurves writes the files and prints the table.
func (p *program) deliverCurves(cmd *cobra.Command, to *folder, set *curves, system quantity.System) error {
	var files []artefact
	var drawing []plots.Curve
	for _, c := range set.Curves {
		files = append(files, artefact{curveFile(c.Valve.Name), func(w io.Writer) error { return export.CharacteristicCSV(w, set.CurveSet, c) }})
		drawing = append(drawing, plots.Curve{Valve: c.Valve.Name, Points: c.Points, Band: c.Band, Of: c.Valve, Data: c.Valve.Data, Own: c.Own})
	}
	mark := plots.Own{Value: set.Own, Means: set.Meaning}
	f, err := plots.Characteristic(set.c, drawing, mark, system)
	switch {
	case errors.Is(err, plots.ErrNoCurve):
		set.about = append(set.about, "No figure: no valve seats in reverse flow at these decelerations.")
	case err != nil:
		return err
	default:
		files = append(files, drawn(f)...)
	}
	if set.w.plain {
		switch f, err := plots.Collapsed(set.c, drawing, mark, system); {
		case errors.Is(err, plots.ErrNoCurve):
			set.about = append(set.about, "No figure without dimensions: no valve with a full-open velocity seats in reverse flow.")
		case err != nil:
			return err
		default:
			files = append(files, drawn(f)...)
		}
	}
	if to == nil {
		files = nil
	}
	var json bytes.Buffer
	if err := export.CharacteristicJSON(&json, set.CurveSet, export.About{Program: version(), Files: names(files)}); err != nil {
		return err
	}
	files = append(files, whole(characteristicFile, json.Bytes()))
	return p.deliver(cmd.Context(), to, files, json.Bytes(), func(s *screen) { set.print(s, system) })
}

func (c *curves) print(s *screen, system quantity.System) {
	if c.c != nil {
		title(s, c.c)
	}
	for _, a := range c.about {
		s.paragraph(a)
	}
	speed := choice.NewScale(quantity.Velocity, system, 0.1)
	rate := choice.NewScale(quantity.Acceleration, system, 10)
	s.heading("Reverse velocity at seating, " + speed.Name() + ", against deceleration")
	t := &table{corner: rate.Label("deceleration")}
	var n notes
	for _, k := range c.Curves {
		t.head = append(t.head, k.Valve.Name)
	}
	for i, q := range c.Curves[0].Points {
		cells := make([]cell, len(c.Curves))
		for k := range c.Curves {
			cells[k].text = seated(c.Curves[k].Points[i], speed, &n)
			if b := c.Curves[k].Band; b != nil {
				cells[k].text += reaches(b[i], speed, &n)
			}
		}
		t.add(choice.NewScale(quantity.Acceleration, system, q.Deceleration).Bare().Text(q.Deceleration), cells, "")
	}
	t.print(s)
	n.print(s)
	s.paragraph(c.starts(system))
	for _, line := range c.varied {
		s.paragraph(line)
	}
	switch {
	case c.w.definition == closing && c.c != nil:
		s.paragraph("The deceleration that each valve sees in the installation: " + c.seen(system) + ": " + c.w.meaning() + ".")
	case c.Own.Reason == "":
		s.paragraph("The installation's own deceleration: " + own(c.Own.SI, c.ownBore, system) + ": " + c.w.meaning() + ".")
	case c.c != nil:
		s.paragraph("The installation's own deceleration: none, " + c.Own.Reason + ".")
	}
}

// seen lists the decelerations of the installation valve by valve.
func (c *curves) seen(system quantity.System) string {
	var of []string
	bore := func(k export.Curve) string { return " on a bore of " + quantity.FormatIn(k.Valve.Bore, millimetre) }
	one := !slices.ContainsFunc(c.Curves, func(k export.Curve) bool { return k.Valve.Bore != c.Curves[0].Valve.Bore })
	for _, k := range c.Curves {
		text := "none, " + k.Own.Reason
		if k.Own.Reason == "" {
			text = written(k.Own.SI, quantity.Acceleration, system)
			if !one {
				text += bore(k)
			}
		}
		of = append(of, k.Valve.Name+" "+text)
	}
	if one {
		return inLine(of) + "," + bore(c.Curves[0])
	}
	return inLine(of)
}

// starts says from which velocity the flow falls.
func (c *curves) starts(system quantity.System) string {
	var of []string
	for _, k := range c.Curves {
		of = append(of, k.Valve.Name+" "+written(k.Points[0].InitialVelocity, quantity.Velocity, system))
	}
	return "The flow falls at a constant rate from a velocity that holds the disc on its stop: " + inLine(of) + "."
}

func seated(q characteristic.Point, sc choice.Scale, n *notes) string {
	switch {
	case q.Outcome != characteristic.Seats:
		return n.mark("the disc " + q.Outcome.String())
	case q.ForwardVelocity > 0:
		return n.mark("seats in forward flow")
	}
	return sc.Text(q.ReverseVelocity)
}

// nominalBore reads a size: DN and whole millimetres, NPS, or a length.
func nominalBore(text string) (float64, error) {
	if digits, ok := strings.CutPrefix(strings.ToUpper(strings.TrimSpace(text)), "DN"); ok {
		text = strings.TrimSpace(digits) + " mm"
	}
	if dn, err := pipe.Nominal(text); err == nil && strings.HasPrefix(strings.ToUpper(text), "NPS") {
		return float64(dn) / 1000, nil
	}
	q, err := quantity.Parse(text, quantity.Length)
	if err != nil {
		if dn, whole := strconv.Atoi(strings.TrimSpace(text)); whole == nil && dn > 0 {
			return 0, badInput(fmt.Sprintf("write DN%d", dn), "bad --size: %q has no unit", text)
		}
		return 0, badInput("write it like DN250 or NPS 10", "bad --size: %w", err)
	}
	return q.SI, nil
}

func familyNames() []string {
	var out []string
	for _, f := range catalogue.Families() {
		out = append(out, f.Name)
	}
	return out
}
