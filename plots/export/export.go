// Package export writes the results of a comparison for other programs: summary.json, a history and an envelope per candidate as CSV, the forces on
// straight runs of pipe where there are any, and characteristics as CSV and JSON.
//
// Everything is SI, whatever units the user reads, with the unit in the key or in the heading; an angle speed whose key ends in "_rpm" is
// in revolutions per minute, a size that ends in "_mm" in millimetres. Numbers are the shortest that read back to the same bits, but those of
// histories, which have seven significant digits and, as a rule, keep of every millisecond the first and last row and those with the extremes of the
// velocity and of the pressure downstream ("history_rows" of the summary). A value
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

// About is what a summary says of the result beside the figures.
type About struct {
	Program string   // and its version
	Files   []string // names of the other files of the result
	Bin     float64  // of the histories, s; see [History]
	Report  TitleBlock
}

// TitleBlock is what the case says for the title block of a report; what is empty is left out.
type TitleBlock struct {
	Project, Document, Revision, Date, Prepared, Checked string
}

// object is nil for a block that is blank.
func (b TitleBlock) object() *object {
	var o *object
	for _, f := range []field{{"project", b.Project}, {"document", b.Document}, {"revision", b.Revision}, {"date", b.Date}, {"prepared", b.Prepared}, {"checked", b.Checked}} {
		if f.value == "" {
			continue
		}
		if o == nil {
			o = &object{}
		}
		o.put(f.key, f.value)
	}
	return o
}

// Files are the tables of a comparison: a history, reduced by bins, s (see [History]), the forces on straight runs and an envelope per candidate and
// scenario, the worst of all scenarios where there are several, and the costs where the case has economics. The error wraps [ErrName].
func Files(c *choice.Comparison, bin float64) ([]File, error) {
	var files []File
	seen := owners{}
	for _, s := range c.Scenarios {
		for i := range s.Outcomes {
			o := &s.Outcomes[i]
			if len(o.Time) > 0 {
				name, err := seen.name("history", s.Name, o.Candidate)
				if err != nil {
					return nil, err
				}
				files = append(files, File{name, func(w io.Writer) error { return History(w, o, bin) }})
			}
			if len(o.Runs) > 0 && len(o.Time) > 0 {
				name, err := seen.name("force", s.Name, o.Candidate)
				if err != nil {
					return nil, err
				}
				files = append(files, File{name, func(w io.Writer) error { return Forces(w, o, bin) }})
			}
			if len(o.Route) > 0 {
				name, err := seen.name("envelope", s.Name, o.Candidate)
				if err != nil {
					return nil, err
				}
				files = append(files, File{name, func(w io.Writer) error { return Envelope(w, o) }})
			}
		}
	}
	if len(c.Scenarios) > 1 {
		files = append(files, File{worstFile, func(w io.Writer) error { return Worst(w, choice.Join(c)) }})
	}
	if len(c.Costs) > 0 {
		files = append(files, File{costFile, func(w io.Writer) error { return Costs(w, c) }})
	}
	return files, nil
}

// JointFiles are the tables of several cases together.
func JointFiles(j *choice.Joint) []File {
	return []File{{worstFile, func(w io.Writer) error { return Worst(w, j) }}}
}

// Names are those that the tables of a case can have, known before it is run. The error wraps [ErrName].
func Names(c *choice.Case) ([]string, error) {
	var all []string
	seen := owners{}
	for _, s := range c.Scenarios {
		for _, v := range c.Candidates {
			kinds := []string{"history", "envelope"}
			if s.Network.Runs() > 0 {
				kinds = append(kinds, "force")
			}
			for _, kind := range kinds {
				name, err := seen.name(kind, s.Name, v.Name)
				if err != nil {
					return nil, err
				}
				all = append(all, name)
			}
		}
	}
	if len(c.Scenarios) > 1 {
		all = append(all, worstFile)
	}
	if c.Economics != nil {
		all = append(all, costFile)
	}
	return all, nil
}

// owners tells what a file name is of, by the name in lower case.
type owners map[string]string

// name makes the name of a file that nothing else has.
func (seen owners) name(kind, scenario, candidate string) (string, error) {
	name := kind + "-" + candidate + ".csv"
	if scenario != base {
		name = kind + "-" + scenario + "-" + candidate + ".csv"
	}
	owner := fmt.Sprintf("candidate %q in scenario %q", candidate, scenario)
	if !sound.MatchString(name) {
		return "", fmt.Errorf("%w: %s (use letters, digits and hyphens)", ErrName, owner)
	}
	key := strings.ToLower(name)
	if other, taken := seen[key]; taken {
		return "", fmt.Errorf("%w: %s and %s would both be %s (rename one)", ErrName, other, owner, name)
	}
	seen[key] = owner
	return name, nil
}

var sound = regexp.MustCompile(`^[a-z]+(-[A-Za-z0-9][A-Za-z0-9-]*)+\.csv$`)

// base is the scenario whose files carry no scenario in their names.
const base = "base"
