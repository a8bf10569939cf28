package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seatwise/network/quantity"
)

// program is what all commands share: the streams, and what the user chose.
type program struct {
	stdin     io.Reader
	stdout    io.Writer
	stderr    io.Writer
	outStream any // behind stdout, to ask whether it is a terminal
	errStream any
	now       func() time.Time
	options
}

// options are flags of more than one command.
type options struct {
	set        []string
	units      string
	out        string
	json       bool
	quiet      bool
	strict     bool
	failures   bool
	advise     bool
	force      bool
	noFiles    bool
	full       bool
	candidates []string
}

// run runs a command line and returns the exit code.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	out := bufio.NewWriter(stdout)
	p := &program{stdin: stdin, stdout: out, stderr: stderr, outStream: stdout, errStream: stderr, now: time.Now}
	root := p.root()
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if flushed := out.Flush(); err == nil && flushed != nil {
		err = fmt.Errorf("cannot write the output: %w", reason(flushed))
	}
	code := exitCode(ctx, err)
	if err != nil {
		tell(stderr, code, err)
	}
	return code
}

const rootHelp = `seatwise compares check valves behind a pump. It follows each candidate's disc
through a pump trip, gives the reverse velocity, the slam and the pressures along
the line, holds them against what the line may bear, and recommends one with its
reasons.

A case is one installation in one YAML file. Without a case the commands take a
built-in example. "-" reads the case from standard input.

Exit codes: 0 done, 1 the run failed, 2 bad input, 3 no candidate meets the
limits (with --strict), 130 interrupted.`

// nearCommands are words for what another command does, with that command.
var nearCommands = map[string]string{
	"advise":     "compare --advise",
	"advice":     "compare --advise",
	"run":        "compare",
	"simulate":   "compare",
	"validate":   "check",
	"rerun":      "check --rerun",
	"init":       "new",
	"example":    "examples",
	"candidates": "valves",
}

// root is the command that holds all others.
func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "seatwise",
		Short:         "Choose a check valve and defend the choice",
		Long:          rootHelp,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,
		Example: lines(
			"seatwise compare",
			"seatwise examples lift-station > my-line.yaml",
			"seatwise check my-line.yaml",
			"seatwise compare my-line.yaml",
		),
	}
	root.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) == 0 {
			return cmd.Help()
		}
		hint := "seatwise --help lists the commands"
		near := root.SuggestionsFor(args[0])
		switch instead := nearCommands[strings.ToLower(args[0])]; {
		case instead != "":
			hint = "did you mean seatwise " + instead + "?"
		case len(near) > 0:
			hint = "did you mean " + strings.Join(near, " or ") + "?"
		}
		return badInput(hint, "unknown command %q", args[0])
	}
	root.SetOut(p.stdout)
	root.SetErr(p.stderr)
	root.SetIn(p.stdin)
	root.AddCommand(p.new())
	root.SuggestionsMinimumDistance = 2
	root.SetVersionTemplate("{{.Version}}\n")
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return badInput(cmd.CommandPath()+" --help lists the flags", "%w", err)
	})
	root.AddCommand(p.compare(), p.one(), p.report(), p.offers(), p.requirement(), p.screening(), p.steady(), p.check(), p.characteristic(), p.valves(), p.fit(), p.verify(), p.examples(), p.schema(), versionCommand())
	return root
}

// lines are the example lines of a help text.
func lines(commands ...string) string { return "  " + strings.Join(commands, "\n  ") }

// atMost refuses further arguments.
func atMost(n int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > n {
			return badInput(cmd.UseLine(), "%q is one argument too many", args[n])
		}
		return nil
	}
}

// caseFlags are the flags of a command that reads a case.
func (p *program) caseFlags(cmd *cobra.Command) {
	cmd.Flags().StringArrayVar(&p.set, "set", nil, "set a value of the case: `path=value`, e.g. \"limits.design pressure=10 bar\" (repeatable)")
	p.unitFlags(cmd)
}

// unitFlags are the flags of a command that prints quantities.
func (p *program) unitFlags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.units, "units", "si", "units on screen and in figures, `si|us`: bar, m3/h, m or psi, gpm, ft")
	cmd.Flags().BoolVar(&p.json, "json", false, "print JSON in SI units instead of the table")
	complete(cmd, "units", "si", "us")
}

// folderFlags are the flags of a command that writes files.
func (p *program) folderFlags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&p.out, "out", usualOut, "`folder` of the results")
	cmd.Flags().BoolVar(&p.force, "force", false, "take a folder that holds other files; none of them is replaced or removed")
	cmd.Flags().BoolVar(&p.noFiles, "no-files", false, "write no files")
	cmd.Flags().BoolVar(&p.quiet, "quiet", false, "print errors only, and what --json asks for")
	_ = cmd.MarkFlagDirname("out")
}

// complete offers values of a flag to the shell.
func complete(cmd *cobra.Command, flag string, values ...string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
}

// system is the choice of units.
func (o *options) system() (quantity.System, error) {
	switch o.units {
	case "si", "":
		return quantity.SI, nil
	case "us":
		return quantity.US, nil
	}
	return quantity.SI, badInput("write --units si or --units us", "unknown units %q", o.units)
}

// screen is standard output for people.
func (p *program) screen() *screen { return newScreen(p.stdout, p.outStream) }

// progress is a line on standard error: one that changes on a terminal, one now and then in a log.
func (p *program) progress(what string) *progress {
	out, at := p.stderr, inLog
	if _, ok := terminal(p.errStream); ok {
		at = onTerminal
	}
	if p.quiet {
		out = nil
	}
	return newProgress(out, what, at, p.now)
}
