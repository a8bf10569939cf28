package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"

	"github.com/spf13/cobra"

	"seatwise/moc/verify"
)

const verifyHelp = `Check the program against published and closed-form values.

FILTER is a layer (formula, disc, solver, system) or the beginning of an id. A
check that is a gate must pass, or the exit code is 1; a comparison is only
reported.`

// verify runs the checks.
func (p *program) verify() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "verify [FILTER]",
		Short: "Check the program against published and closed-form values",
		Long:  verifyHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise verify formula",
			"seatwise verify --json",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
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
	return cmd
}

// printChecks prints the checks by layer and source.
func printChecks(s *screen, checks []verify.Check) {
	for from := 0; from < len(checks); {
		to := from
		for to < len(checks) && checks[to].Source == checks[from].Source && checks[to].Layer == checks[from].Layer {
			to++
		}
		if from > 0 {
			s.line("")
		}
		s.paragraph("Layer " + string(checks[from].Layer) + ". " + checks[from].Source)
		checkTable(checks[from:to]).print(s)
		from = to
	}
	gates, failed := 0, failures(checks)
	for _, c := range checks {
		if c.Gate {
			gates++
		}
	}
	s.heading(fmt.Sprintf("%s: %d of %d gates pass, %d compared only", count(len(checks), "check"), gates-failed, gates, len(checks)-gates))
}

func checkTable(checks []verify.Check) *table {
	t := &table{corner: "id, quantity", head: []string{"expected", "got", "deviation", "tolerance", "result"}}
	for _, c := range checks {
		label := c.ID + " " + c.Quantity
		if c.Unit != "" && c.Unit != "1" {
			label += ", " + c.Unit
		}
		cells := plain(digits(c.Expected), digits(c.Got), deviation(c.Deviation, c.Relative), deviation(c.Tolerance, c.Relative), result(c))
		cells[len(cells)-1].alarm = c.Gate && !c.Pass
		t.add(label, cells, "")
	}
	return t
}

func result(c verify.Check) string {
	switch {
	case !c.Gate:
		return "compared"
	case c.Pass:
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
