package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"seatwise/network/quantity"
	"seatwise/plots/export"
	"seatwise/valve/choice"
)

const compareHelp = `Run every candidate in every scenario and put them side by side: table, limits,
recommendation with its reasons. Figures, histories and a summary go to a folder.

CASE is a case file, "-" is standard input; without CASE the built-in example is
run. Of several cases each goes to its own folder; a table of all joins candidates
of the same name, tells the worst of each with its case and scenario, and
recommends the cheapest that meets the limits of every case.

An interrupt (Ctrl-C) ends the runs. Candidates finished in a scenario are shown
and written, marked incomplete; none is recommended. Complete results of an
earlier run stay, and the incomplete ones go to a folder beside theirs, unless
--force is given. A second interrupt ends the program at once.`

// compare runs all candidates.
func (p *program) compare() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "compare [CASE...]",
		Short: "Compare all candidates of a case and recommend one",
		Long:  compareHelp,
		Example: lines(
			"seatwise compare",
			"seatwise compare my-line.yaml other-line.yaml",
			"seatwise compare my-line.yaml --units us --out results",
			`seatwise compare my-line.yaml --set "limits.design pressure=12 bar" --strict`,
			"cat my-line.yaml | seatwise compare - --json --no-files",
		),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return p.compareAll(cmd, args)
			}
			in, err := p.question(args)
			if err != nil {
				return err
			}
			return p.answer(cmd, in, in.Name, nil)
		},
	}
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	p.answerFlags(cmd)
	cmd.Flags().BoolVar(&p.failures, "failures", false, "run each candidate also with a broken spring, a stuck disc and a worn bearing")
	return cmd
}

// question reads a case with the failures that it is to be asked for.
func (p *program) question(args []string) (*input, error) {
	in, err := p.read(args, p.stdin)
	if err != nil {
		return nil, err
	}
	if p.failures {
		if in.Case, err = choice.WithFailures(in.Case); err != nil {
			return nil, badInput("rename it", "--failures: %w", err)
		}
	}
	return in, nil
}

// answerFlags are the flags of a command that runs candidates.
func (p *program) answerFlags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&p.strict, "strict", false, "exit with 3 when no candidate meets the limits")
	cmd.Flags().BoolVar(&p.advise, "advise", false, "try single steps that may help a candidate that misses a limit")
	cmd.Flags().BoolVar(&p.full, "full", false, "write every time step of the histories; without it the first, last and extremes of every millisecond")
}

// bin is that of the histories, s.
func (o *options) bin() float64 {
	if o.full {
		return 0
	}
	return export.Bin
}

// task is a case that is to be compared, and where its results go.
type task struct {
	*input
	system    quantity.System
	to        *folder  // nil: no files
	names     []string // that the results can have
	documents *documents
}

// task looks at all that can be wrong before anything is run. Usual names the folder; documents make further files of the comparison, nil: none.
func (p *program) task(in *input, usual string, documents *documents) (*task, error) {
	system, err := p.system()
	if err != nil {
		return nil, err
	}
	if p.strict && !in.Limits.Any() {
		return nil, badInput("give limits, e.g. limits: {design pressure: 10 bar}", "--strict has nothing to judge by: case %s has no limits", in.Name)
	}
	names, err := resultNames(in.Case)
	if err != nil {
		return nil, err
	}
	names = append(names, documents.names()...)
	to, err := p.target(summaryFile, in.Name, usual, in.files, names)
	if err != nil {
		return nil, err
	}
	return &task{in, system, to, names, documents}, nil
}

// do compares the candidates of a case, writes the files and prints the answer.
func (p *program) do(cmd *cobra.Command, t *task) (*choice.Comparison, error) {
	in, to := t.input, t.to
	c, stopped := p.solve(cmd, in, t.system)
	if c == nil {
		return nil, in.placed(stopped)
	}
	var unadvised error
	if p.advise && stopped == nil {
		c.Advice, unadvised = p.advice(cmd, c, t.system)
	}
	ctx := context.WithoutCancel(cmd.Context()) // what is there is written and shown, though an interrupt may come or have come
	kept := ""
	if stopped != nil {
		to, kept = p.setAside(to, in, t.names)
	}
	var files []artefact
	if to != nil {
		var err error
		if files, err = resultFiles(cmd.Context(), c, in, t.system, p.bin(), t.documents); err != nil {
			return nil, err
		}
	}
	r, err := newResults(c, in.block, p.bin(), files)
	if err != nil {
		return nil, err
	}
	v := &view{Comparison: c, system: t.system, measures: choice.Measures(c.Service), advised: p.advise}
	if err := p.deliver(ctx, to, r.files, r.summary, func(s *screen) {
		v.screen = s
		v.print()
	}); err != nil {
		return nil, err
	}
	switch {
	case stopped != nil:
		return nil, &interrupted{kept, stopped}
	case unadvised != nil:
		return nil, &interrupted{"the comparison is complete, but nothing was tried of what may help", unadvised}
	}
	return c, nil
}

// answer does a task, and is strict where it is to be.
func (p *program) answer(cmd *cobra.Command, in *input, usual string, documents *documents) error {
	t, err := p.task(in, usual, documents)
	if err != nil {
		return err
	}
	c, err := p.do(cmd, t)
	if err != nil {
		return err
	}
	if p.strict && !slices.ContainsFunc(candidateNames(in.Candidates), c.Meets) {
		return fmt.Errorf("case %s: %w", in.Name, errStrict)
	}
	return nil
}

// solve runs the comparison behind a line of progress. What was finished comes with the error of an interrupt.
func (p *program) solve(cmd *cobra.Command, in *input, system quantity.System) (*choice.Comparison, error) {
	line := p.progress("comparing " + count(len(in.Candidates), "candidate"))
	defer line.clear()
	return choice.Run(cmd.Context(), in.Case, choice.Settings{Units: system, Progress: line.set})
}

// advice tries what may help, behind a line of progress of its own.
func (p *program) advice(cmd *cobra.Command, c *choice.Comparison, system quantity.System) (*choice.Advice, error) {
	line := p.progress("trying what may help")
	defer line.clear()
	return choice.Advise(cmd.Context(), c, choice.Settings{Units: system, Progress: line.set})
}
