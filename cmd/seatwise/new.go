package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
	"seatwise/network/quantity"
)

const newHelp = `Write a case to start from: an invented installation that runs as it stands, every
key that may be left out behind a # with what holds without it.

NAME is the name of the file, without an ending .yaml; without it my-line. A file
that is there is never replaced. --service says what the pumps feed:

  pump        a short main; one of the pumps trips
  long-main   a long main; all of them trip
  air-vessel  a main with an air vessel; all of them trip

Compressors and positive-displacement pumps are not modelled yet.`

// notModelled are services that the trade has and the program has not, by parts of their names.
var notModelled = []string{"gas", "compress", "displacement", "piston", "plunger", "diaphragm", "reciprocating"}

// new writes a case to start from.
func (p *program) new() *cobra.Command {
	var service string
	var words []string
	for _, s := range casefile.Services {
		words = append(words, s.Word)
	}
	cmd := &cobra.Command{
		Use:   "new [NAME]",
		Short: "Write a commented case to start from",
		Long:  newHelp,
		Args:  atMost(1),
		Example: lines(
			"seatwise new",
			"seatwise new north-main --service long-main",
		),
		RunE: func(_ *cobra.Command, args []string) error {
			name := "my-line"
			if len(args) > 0 {
				name = strings.TrimSuffix(strings.TrimSuffix(args[0], ".yaml"), ".yml")
			}
			base := filepath.Base(name)
			if strings.TrimSpace(name) == "" || base == "." || base == ".." || base == string(filepath.Separator) {
				return badInput("give the name of a file, e.g. my-line", "%q is no name", name)
			}
			if !utf8.ValidString(name) || strings.ContainsFunc(name, unicode.IsControl) {
				return badInput("write letters, digits, - and _", "%s is no name for a case: it holds what cannot be printed", quantity.Quote(name))
			}
			text, ok := casefile.Starter(service, strings.ReplaceAll(base, "-", " "))
			if !ok {
				for _, word := range notModelled {
					if strings.Contains(strings.ToLower(service), word) {
						return badInput("there are: "+inLine(words), "the service %q is not modelled yet: liquids behind centrifugal pumps alone", service)
					}
				}
				return badInput("there are: "+inLine(words), "there is no service %q", service)
			}
			path := name + ".yaml"
			if err := createOnly(path, text); err != nil {
				return err
			}
			s := p.screen()
			s.line("%s", path)
			s.paragraph("Then: seatwise check " + shellWord(path))
			return nil
		},
	}
	cmd.Flags().StringVar(&service, "service", words[0], "what the pumps feed: `pump|long-main|air-vessel`")
	complete(cmd, "service", words...)
	return cmd
}

// shellWord is a word as a shell takes it, in quotation marks where it needs them.
func shellWord(s string) string {
	plain := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_./+:@,", r)
	}
	if s != "" && !strings.ContainsFunc(s, func(r rune) bool { return !plain(r) }) {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// createOnly writes a file that is not there yet.
func createOnly(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	switch {
	case errors.Is(err, fs.ErrExist):
		return badInput("give another name", "%s is there already, and is not replaced", path)
	case err != nil:
		return badInput("give another name", "cannot write %s: %w", path, reason(err))
	}
	_, err = f.WriteString(text)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(path)
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
	return nil
}
