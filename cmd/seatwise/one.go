package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/valve"
)

const oneHelp = `Run one candidate of a case in every scenario and hold it against the limits.

CANDIDATE may be left out when the case has only one.`

// one runs one candidate.
func (p *program) one() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "run [CASE [CANDIDATE]]",
		Short: "Run one candidate of a case",
		Long:  oneHelp,
		Args:  atMost(2),
		Example: lines(
			"seatwise run my-line.yaml spring-disc",
			"seatwise run --candidate plain-swing --no-files",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			wanted := p.candidates
			if len(args) == 2 {
				wanted = append(wanted, args[1])
			}
			in, err := p.read(args[:min(len(args), 1)], p.stdin)
			if err != nil {
				return err
			}
			if len(wanted) == 0 && len(in.Candidates) == 1 {
				wanted = []string{in.Candidates[0].Name}
			}
			if len(wanted) != 1 {
				return badInput("there are: "+inLine(candidateNames(in.Candidates)), "run takes one candidate, %d are named", len(wanted))
			}
			if in.Candidates, err = pick(in.Candidates, wanted); err != nil {
				return err
			}
			return p.answer(cmd, in, in.Name+"-"+in.Candidates[0].Name, nil)
		},
	}
	p.candidateFlag(cmd)
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	p.answerFlags(cmd)
	return cmd
}

func (p *program) candidateFlag(cmd *cobra.Command) {
	cmd.Flags().StringArrayVar(&p.candidates, "candidate", nil, "`name` of a candidate of the case")
}

// pick is the candidates of those names, ignoring case; all when none is named.
func pick(all []valve.Spec, wanted []string) ([]valve.Spec, error) {
	if len(wanted) == 0 {
		return all, nil
	}
	var out []valve.Spec
	for _, name := range wanted {
		i := slices.IndexFunc(all, func(s valve.Spec) bool { return strings.EqualFold(s.Name, name) })
		if i < 0 {
			return nil, badInput("there are: "+inLine(candidateNames(all)), "the case has no candidate %q", name)
		}
		out = append(out, all[i])
	}
	return out, nil
}

func candidateNames(all []valve.Spec) []string {
	var out []string
	for _, s := range all {
		out = append(out, s.Name)
	}
	return out
}

// inLine is a list in one line.
func inLine(list []string) string { return strings.Join(list, ", ") }
