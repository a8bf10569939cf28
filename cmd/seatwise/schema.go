package main

import (
	"encoding/json"
	"slices"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
)

const schemaHelp = `Print a JSON Schema (draft 2020-12) of a case file, made of what the program
reads. An editor that knows it completes keys, shows what they mean with unit,
range and default, and marks what is misspelt or missing.

A file names its schema in its first line:

  # yaml-language-server: $schema=case.schema.json

FILE is case, valves (a file of valves that cases name) or candidates (valves
alone, for characteristic and fit); without it case.`

// schema prints the schema of a kind of file.
func (p *program) schema() *cobra.Command {
	return &cobra.Command{
		Use:       "schema [FILE]",
		Short:     "Print a JSON Schema of the case file, for editors",
		Long:      schemaHelp,
		Args:      atMost(1),
		ValidArgs: casefile.FileKinds(),
		Example: lines(
			"seatwise schema > case.schema.json",
			"seatwise schema valves > valves.schema.json",
		),
		RunE: func(_ *cobra.Command, args []string) error {
			kind := casefile.CaseFile
			if len(args) > 0 {
				i := slices.Index(casefile.FileKinds(), args[0])
				if i < 0 {
					return badInput("there are: "+inLine(casefile.FileKinds()), "there is no schema of a file %q", args[0])
				}
				kind = casefile.FileKind(i)
			}
			out := json.NewEncoder(p.stdout)
			out.SetEscapeHTML(false)
			out.SetIndent("", "  ")
			return out.Encode(casefile.Schema(kind))
		},
	}
}
