package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"

	"github.com/spf13/cobra"

	"seatwise/moc/verify"
	"seatwise/plots"
)

const verifyHelp = `Check the program against published and closed-form values.

FILTER is a layer (formula, disc, solver, system) or the beginning of an id. A
check that is a gate must pass, or the exit code is 1; a comparison, with values
that are themselves uncertain, is only reported, apart from the gates.

With --out the checks go to a folder, with a figure of the greatest heads that
laboratories report and those computed for them.`

// verify runs the checks.
func (p *program) verify() *cobra.Command {
	var out string // not that of the other commands, which write files unless told otherwise
	cmd := &cobra.Command{
		Use:   "verify [FILTER]",
		Short: "Check the program against published and closed-form values",
		Long:  verifyHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise verify formula",
			"seatwise verify --json",
			"seatwise verify E --out verification",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			var to *folder
			if cmd.Flags().Changed("out") {
				var err error
				p.out = out
				if to, err = p.target(verificationFile, verification, verification, nil, []string{"reported-peaks.png", "reported-peaks.svg"}); err != nil {
					return err
				}
			}
			checks, err := verify.Run(cmd.Context(), append(args, "")[0])
			if errors.Is(err, verify.ErrNoCase) {
				return badInput("", "%w", err)
			}
			if len(checks) == 0 && err != nil {
				return err
			}
			unrun := err // cases that could not be run do not hide the others
			if p.json {
				err = printJSON(p.stdout, checks)
			} else {
				printChecks(p.screen(), checks)
			}
			if to != nil && err == nil {
				err = p.publishChecks(cmd.Context(), to, checks)
			}
			if err = errors.Join(unrun, err); err != nil {
				return err
			}
			if n := failures(checks); n > 0 {
				return fmt.Errorf("%s of %d failed", count(n, "check"), len(checks))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&p.json, "json", false, "print a JSON array")
	cmd.Flags().StringVar(&out, "out", "", "`folder` for the checks and the figure of reported heads; without it nothing is written")
	cmd.Flags().BoolVar(&p.force, "force", false, "take a folder that holds other files; none of them is replaced or removed")
	_ = cmd.MarkFlagDirname("out")
	return cmd
}

// verification is the name of the checks among sets of results.
const verification = "verification"

// publishChecks writes the checks and, where a laboratory reports greatest heads, their figure.
func (p *program) publishChecks(ctx context.Context, to *folder, checks []verify.Check) error {
	var peaks []plots.Peak
	for _, c := range checks {
		if c.Peak != "" {
			peaks = append(peaks, plots.Peak{Series: c.Peak, Reported: c.Expected, Computed: c.Got})
		}
	}
	var files []artefact
	f, err := plots.Agreement(peaks, "Reported are values recalled from the publications and not read again. A first plateau is the head Hr + a V/g, calculated for the rig and recalled to have been measured within 1 to 2 %; "+
		"the pulse after a cavity is recalled with low confidence. Behind each source stands the tolerance of the comparison, dotted on the right.",
		"Dots of one letter at one reported head are the forms of friction or of cavities. Sources stand beside the checks: seatwise verify E.")
	switch {
	case errors.Is(err, plots.ErrNoPeak):
	case err != nil:
		return err
	default:
		files = drawn(f)
	}
	var json bytes.Buffer
	if err := printJSON(&json, struct {
		Format  int            `json:"format"`
		Case    string         `json:"case"`
		Program string         `json:"program"`
		Files   []string       `json:"files"`
		Checks  []verify.Check `json:"checks"`
	}{1, verification, version(), names(files), checks}); err != nil {
		return err
	}
	files = append(files, whole(verificationFile, json.Bytes()))
	if err := to.publish(ctx, files); err != nil || p.json {
		return err
	}
	s := p.screen()
	s.heading(fmt.Sprintf("%s in %s", count(len(files), "file"), to.path))
	s.paragraph(inLine(names(files)))
	if peaks == nil {
		s.paragraph("No figure: none of these checks has a head that a laboratory reports.")
	}
	return nil
}

// printChecks prints the gates by layer and source, and then, apart, what is only compared.
func printChecks(s *screen, checks []verify.Check) {
	var gates, compared []verify.Check
	for _, c := range checks {
		if c.Gate {
			gates = append(gates, c)
		} else {
			compared = append(compared, c)
		}
	}
	bySource(s, gates, checkTable)
	if len(compared) > 0 {
		s.heading("Comparisons with laboratories and the literature: reported, they fail nothing")
		bySource(s, compared, comparisonTable)
	}
	outside := 0
	for _, c := range compared {
		if !c.Pass {
			outside++
		}
	}
	s.heading(fmt.Sprintf("%s: %d of %d gates pass; %d compared only, %d of them outside", count(len(checks), "check"), len(gates)-failures(checks), len(gates), len(compared), outside))
}

// bySource prints checks in tables, one for each layer and source.
func bySource(s *screen, checks []verify.Check, of func([]verify.Check) *table) {
	for from := 0; from < len(checks); {
		to := from
		for to < len(checks) && checks[to].Source == checks[from].Source && checks[to].Layer == checks[from].Layer {
			to++
		}
		if from > 0 {
			s.line("")
		}
		s.paragraph("Layer " + string(checks[from].Layer) + ". " + checks[from].Source)
		of(checks[from:to]).print(s)
		from = to
	}
}

func checkTable(checks []verify.Check) *table {
	t := &table{corner: "id, quantity", head: []string{"expected", "got", "deviation", "tolerance", "result"}}
	for _, c := range checks {
		cells := plain(digits(c.Expected), digits(c.Got), deviation(c.Deviation, c.Relative), deviation(c.Tolerance, c.Relative), result(c))
		cells[len(cells)-1].alarm = !c.Pass
		t.add(checkLabel(c), cells, "")
	}
	return t
}

func comparisonTable(checks []verify.Check) *table {
	t := &table{corner: "id, quantity", head: []string{"reported", "computed", "deviation", "within"}}
	for _, c := range checks {
		within := deviation(c.Tolerance, c.Relative)
		if !c.Pass {
			within = "not " + within
		}
		t.add(checkLabel(c), plain(digits(c.Expected), digits(c.Got), deviation(c.Deviation, c.Relative), within), "")
	}
	return t
}

func checkLabel(c verify.Check) string {
	label := c.ID + " " + c.Quantity
	if c.Unit != "" && c.Unit != "1" {
		label += ", " + c.Unit
	}
	return label
}

func result(c verify.Check) string {
	if c.Pass {
		return "passes"
	}
	return "FAILS"
}

func digits(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }

func deviation(v float64, relative bool) string {
	if relative {
		return strconv.FormatFloat(100*v, 'g', 2, 64) + " %"
	}
	return strconv.FormatFloat(v, 'g', 2, 64)
}

func failures(checks []verify.Check) int {
	n := 0
	for _, c := range checks {
		if c.Gate && !c.Pass {
			n++
		}
	}
	return n
}

// printJSON prints a value over several lines.
func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
