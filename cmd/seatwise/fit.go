package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/choice"
	"seatwise/valve/fit"
)

const fitHelp = `Make the data of a disc from a data sheet and from tests of the valve.

FILE is a case, or a file with format and candidates alone. Every candidate with
test points is fitted: what its data sheet gives (kv, cracking pressure, full-open
velocity, moving mass, ...) is kept, what follows from it is derived, and what the
points tell of the rest is found, with the spread that the scatter of the points
leaves. What they do not tell stays the catalogue's. The tests are those of a
level pipe. The fitted candidate is printed ready to be put into a case.

A candidate of the type measured needs --type: the disc that is to stand for it.`

// fit fits candidates to their test points.
func (p *program) fit() *cobra.Command {
	var kind string
	var keys []string
	cmd := &cobra.Command{
		Use:   "fit FILE",
		Short: "Fit a disc to a data sheet and test points",
		Long:  fitHelp,
		Args:  atMost(1),
		Example: lines(
			`seatwise fit tested-valve.yaml --type nozzle`,
			`seatwise fit tested-valve.yaml --type nozzle --fit "moving mass"`,
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			system, err := p.system()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				return badInput("write the candidate's data and its test points as in a case; the built-in example has none", "no file is given")
			}
			doc, _, err := p.document(args, p.stdin)
			if err != nil {
				return err
			}
			specs, in, err := doc.Valves()
			if err != nil {
				return err
			}
			if specs, err = pick(specs, p.candidates); err != nil {
				return err
			}
			var results []*fit.Result
			for _, spec := range specs {
				if len(spec.Tests) == 0 && len(p.candidates) == 0 {
					continue
				}
				if spec, err = standIn(spec, kind); err != nil {
					return err
				}
				r, err := fit.Fit(cmd.Context(), spec, in, fit.Settings{Keys: keys})
				if err != nil {
					return fmt.Errorf("%s: %w", spec.Name, err)
				}
				results = append(results, r)
			}
			if len(results) == 0 {
				return badInput("write test points: [[5 m/s2, 0.3 m/s], ...] with the candidate", "no candidate has test points")
			}
			if p.json {
				return printJSON(p.stdout, fitsJSON(results))
			}
			s := p.screen()
			for i, r := range results {
				if i > 0 {
					s.line("")
				}
				printFit(s, r, system)
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&kind, "type", "", "`type` of the disc, where the candidate's is measured: "+inLine(familyNames()))
	cmd.Flags().StringArrayVar(&keys, "fit", nil, "`key` of a datum to fit instead of those usual for the type (repeatable)")
	complete(cmd, "type", familyNames()...)
	p.candidateFlag(cmd)
	p.caseFlags(cmd)
	return cmd
}

// standIn is the disc of a type that is to stand for a valve known by its tests alone, with those of its data that the type has.
func standIn(spec valve.Spec, kind string) (valve.Spec, error) {
	if spec.Type != "measured" {
		if kind != "" && kind != spec.Type {
			return spec, badInput("leave --type out", "%s is of the type %s", spec.Name, spec.Type)
		}
		return spec, nil
	}
	if kind == "" {
		return spec, badInput("e.g. --type nozzle", "%s is of the type measured: which disc is to stand for it?", spec.Name)
	}
	at := slices.IndexFunc(catalogue.Families(), func(f catalogue.Family) bool {
		return f.Name == kind && kind != "measured" && slices.Contains(f.Tables, catalogue.TestPoints)
	})
	if at < 0 {
		return spec, badInput("e.g. --type swing, --type nozzle; seatwise fit --help lists the types", "there is no type of disc %q", kind)
	}
	bore := spec.Size
	if x, ok := spec.Set["bore"]; ok {
		bore = x
	}
	if test, ok := spec.Set["test bore"]; ok && test != bore {
		return spec, badInput("make a candidate of the size that was tested, fit it, and see what changes with the size",
			"%s was tested at another bore, %.0f mm; a disc is fitted at the size of the test", spec.Name, 1000*test)
	}
	set := map[string]float64{}
	for k, x := range spec.Set {
		if slices.ContainsFunc(catalogue.Families()[at].Keys, func(key catalogue.Key) bool { return key.Name == k }) {
			set[k] = x
		}
	}
	if x, ok := spec.Set["test full-open velocity"]; ok {
		set["full-open velocity"] = x
	}
	spec.Type, spec.Set = kind, set
	return spec, nil
}

func printFit(s *screen, r *fit.Result, system quantity.System) {
	v := choice.NewScale(quantity.Velocity, system, 0.1)
	rate := choice.NewScale(quantity.Acceleration, system, 10)
	s.line("%s", s.strong(fmt.Sprintf("%s: %s %s, fitted to %s", r.Spec.Name, r.Spec.Type, size(r.Spec.Size), count(len(r.Residuals), "test point"))))
	s.paragraph(fmt.Sprintf("Its reverse velocities differ from the tests by %s, root mean square; those of the generic disc by %s.", v.With(r.Deviation), v.With(r.Before)))

	s.heading("Fitted")
	t := &table{corner: "datum", head: []string{"value", "95 % interval", "generic"}}
	for _, x := range r.Fitted {
		t.add(x.Key, plain(datum(x.Value, x.Unit, system), interval(x.Spread), datum(x.Generic, x.Unit, system)), "")
	}
	t.print(s)
	s.paragraph("The interval is what the scatter of the tests leaves open. The error of the law and of what is assumed comes on top.")

	s.heading("Reverse velocity, " + v.Name())
	t = &table{corner: rate.Label("deceleration"), head: []string{"test", "fitted", "difference"}}
	for _, x := range r.Residuals {
		model := v.Text(x.Model)
		if x.Model < 0 {
			model = "forward " + v.Text(-x.Model)
		}
		t.add(choice.NewScale(quantity.Acceleration, system, x.Deceleration).Bare().Text(x.Deceleration),
			plain(v.Text(x.ReverseVelocity), model, v.Text(x.Model-x.ReverseVelocity)), "")
	}
	t.print(s)

	items := func(data []valve.Datum) []string {
		var out []string
		for _, x := range data {
			text := named(x, system)
			if x.Origin != valve.Given {
				text += " (" + x.Status + ")"
			}
			out = append(out, text)
		}
		return out
	}
	s.section("Given", items(r.Given))
	s.section("Derived", items(r.Derived))
	s.section("Assumed", items(r.Assumed))
	s.section("Warnings", r.Warnings)
	s.heading("To be put below candidates:")
	s.line("%s", strings.TrimRight(casefile.Candidate(r.Spec, remark(r)), "\n"))
}

// remark is the comment above a fitted candidate.
func remark(r *fit.Result) string {
	var keys []string
	for _, x := range r.Fitted {
		keys = append(keys, x.Key)
	}
	return fmt.Sprintf("%s fitted to %s, %.3f m/s root mean square", inLine(keys), count(len(r.Residuals), "test point"), r.Deviation)
}

// interval is a spread in words.
func interval(spread float64) string {
	switch {
	case math.IsNaN(spread):
		return "unknown: as many data as points"
	case spread > 1:
		return "more than ±100 %"
	case spread < 0.001:
		return "below ±0.1 %"
	}
	return fmt.Sprintf("±%.2g %%", 100*spread)
}

// fitJSON is a fit for other programs.
type fitJSON struct {
	Name       string       `json:"name"`
	Type       string       `json:"type"`
	SizeMM     float64      `json:"size_mm"`
	Deviation  float64      `json:"deviation_m_s"`
	Generic    float64      `json:"generic_deviation_m_s"`
	Fitted     []fittedJSON `json:"fitted"`
	Given      []datumJSON  `json:"given"`
	Derived    []datumJSON  `json:"derived"`
	Assumed    []datumJSON  `json:"assumed"`
	TestPoints []pointJSON  `json:"test_points"`
	Warnings   []string     `json:"warnings"`
	Candidate  string       `json:"candidate"`
}

type datumJSON struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Status string  `json:"status"`
}

type fittedJSON struct {
	datumJSON
	Generic float64  `json:"generic"`
	Spread  *float64 `json:"spread_95"` // null: unknown
}

type pointJSON struct {
	Deceleration float64 `json:"deceleration_m_s2"`
	Tested       float64 `json:"tested_m_s"`
	Fitted       float64 `json:"fitted_m_s"`
}

func fitsJSON(results []*fit.Result) []fitJSON {
	var out []fitJSON
	one := func(d valve.Datum) datumJSON { return datumJSON{d.Key, d.Value, d.Unit, d.Status} }
	all := func(data []valve.Datum) []datumJSON {
		list := []datumJSON{}
		for _, d := range data {
			list = append(list, one(d))
		}
		return list
	}
	for _, r := range results {
		j := fitJSON{Name: r.Spec.Name, Type: r.Spec.Type, SizeMM: 1000 * r.Spec.Size, Deviation: r.Deviation, Generic: r.Before, Given: all(r.Given), Derived: all(r.Derived),
			Assumed: all(r.Assumed), Warnings: append([]string{}, r.Warnings...), Candidate: casefile.Candidate(r.Spec, remark(r))}
		for _, x := range r.Fitted {
			f := fittedJSON{datumJSON: one(x.Datum), Generic: x.Generic}
			if !math.IsNaN(x.Spread) && !math.IsInf(x.Spread, 0) {
				f.Spread = &x.Spread
			}
			j.Fitted = append(j.Fitted, f)
		}
		for _, x := range r.Residuals {
			j.TestPoints = append(j.TestPoints, pointJSON{x.Deceleration, x.ReverseVelocity, x.Model})
		}
		out = append(out, j)
	}
	return out
}
