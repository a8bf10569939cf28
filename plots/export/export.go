// Package export writes the results of a comparison for other programs: summary.json, a history and an envelope per candidate as CSV, and
// characteristics as CSV and JSON.
//
// Everything is SI, whatever units the user reads, with the unit in the key or in the heading; an angle speed whose key ends in "_rpm" is
// in revolutions per minute, a size that ends in "_mm" in millimetres. Numbers are the shortest that read back to the same bits. A value
// that does not exist is null in JSON, with its reason under the same key of "reasons", and an empty cell in CSV; it is never 0 and never
// NaN. Keys stand in a fixed order: the same comparison gives the same bytes.
package export

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"seatwise/valve/choice"
)

// Format is the version of the files. A key may be added to a format, none is taken away or given another meaning.
const Format = 1

// Errors about what is asked to be written.
var (
	// ErrName is wrapped when a name does not make a file name or two files would have the same one.
	ErrName = errors.New("export: bad name")
	// ErrSeries is wrapped when the columns of a file differ in length.
	ErrSeries = errors.New("export: columns differ in length")
)

// File is one file of a result.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Files are the files of a comparison, summary.json last. Program names the program and its version. The error wraps [ErrName].
func Files(c *choice.Comparison, measures []choice.Measure, program string) ([]File, error) {
	var files []File
	seen := map[string]string{}
	add := func(kind, scenario, candidate string, write func(io.Writer) error) error {
		f := File{fileName(kind, scenario, candidate), write}
		owner := fmt.Sprintf("candidate %q in scenario %q", candidate, scenario)
		if !sound.MatchString(f.Name) {
			return fmt.Errorf("%w: %s (use letters, digits and hyphens)", ErrName, owner)
		}
		key := strings.ToLower(f.Name)
		if other, taken := seen[key]; taken {
			return fmt.Errorf("%w: %s and %s would both be %s (rename one)", ErrName, other, owner, f.Name)
		}
		seen[key] = owner
		files = append(files, f)
		return nil
	}
	for _, s := range c.Scenarios {
		for i := range s.Outcomes {
			o := &s.Outcomes[i]
			if len(o.Time) > 0 {
				if err := add("history", s.Name, o.Candidate, func(w io.Writer) error { return History(w, o) }); err != nil {
					return nil, err
				}
			}
			if len(o.Route) > 0 {
				if err := add("envelope", s.Name, o.Candidate, func(w io.Writer) error { return Envelope(w, o) }); err != nil {
					return nil, err
				}
			}
		}
	}
	return append(files, File{"summary.json", func(w io.Writer) error { return Summary(w, c, measures, program) }}), nil
}

var sound = regexp.MustCompile(`^[a-z]+(-[A-Za-z0-9][A-Za-z0-9-]*)+\.csv$`)

// base is the scenario whose files carry no scenario in their names.
const base = "base"

func fileName(kind, scenario, candidate string) string {
	if scenario == base {
		return kind + "-" + candidate + ".csv"
	}
	return kind + "-" + scenario + "-" + candidate + ".csv"
}
