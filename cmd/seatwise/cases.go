package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
	"seatwise/plots/export"
	"seatwise/valve/choice"
)

// jointFile is the summary of several cases together.
const jointFile = "summary-all.json"

// mostCases is the number of cases of one comparison.
const mostCases = 50

// compareAll compares the cases one after the other, each as if it were alone, and puts them side by side. All are read, and all folders looked at, before the
// first is run.
func (p *program) compareAll(cmd *cobra.Command, args []string) error {
	if len(args) > mostCases {
		return badInput("compare fewer at a time", "more than %d cases", mostCases)
	}
	inputs, err := p.questions(args)
	if err != nil {
		return err
	}
	all := *p
	if p.json {
		all.json, all.quiet = false, true // the answer is that of all together
	}
	var names, files []string
	var tasks []*task
	for _, in := range inputs {
		names, files = append(names, in.Name), append(files, in.files...)
		own := all
		if p.out != usualOut && strings.TrimSpace(p.out) != "" {
			own.out = filepath.Join(p.out, fileName(in.Name))
		}
		t, err := own.task(in, in.Name, nil)
		if err != nil {
			return err
		}
		tasks = append(tasks, t)
	}
	together := *p
	if p.out != usualOut && strings.TrimSpace(p.out) != "" {
		together.out = filepath.Join(p.out, jointFolder(names))
	}
	name := strings.Join(names, " + ")
	to, err := together.target(jointFile, name, jointFolder(names), files, []string{"worst.csv"})
	if err != nil {
		return err
	}
	var done []*choice.Comparison
	for i, t := range tasks {
		c, err := all.do(cmd, t)
		if err != nil {
			return cutShort(err, names[:i], names[i])
		}
		if !all.quiet {
			s := p.screen()
			s.line("")
		}
		done = append(done, c)
	}
	j := choice.Join(done...)
	if err := together.deliverJoint(cmd.Context(), to, j, name, tasks[0]); err != nil {
		return err
	}
	if p.strict && !slices.ContainsFunc(j.Candidates, func(k choice.JointCandidate) bool { return k.Met }) {
		return fmt.Errorf("all cases together: %w", errStrict)
	}
	return nil
}

// questions reads all cases; the faults of all of them are told together.
func (p *program) questions(args []string) ([]*input, error) {
	var all []*input
	var faults casefile.Errors
	from := map[string]string{}
	for i, arg := range args {
		if arg == "-" && slices.Contains(args[:i], "-") {
			return nil, badInput("give the other as a file", "standard input is one case, and named twice")
		}
		in, err := p.question([]string{arg})
		if wrong := (casefile.Errors)(nil); errors.As(err, &wrong) {
			faults = append(faults, wrong...)
			continue
		}
		if err != nil {
			return nil, err
		}
		key := strings.ToLower(fileName(in.Name))
		if other, taken := from[key]; taken {
			return nil, badInput("rename one", "%s and %s are both the case %s: their results would go to one folder", other, arg, in.Name)
		}
		from[key] = arg
		all = append(all, in)
	}
	if len(faults) > 0 {
		return nil, faults
	}
	return all, nil
}

// cutShort says which cases are done when one is not.
func cutShort(err error, done []string, name string) error {
	switch i := (*interrupted)(nil); {
	case !errors.Is(err, context.Canceled):
		return fmt.Errorf("case %s: %w", name, err)
	case errors.As(err, &i):
		return &interrupted{"of case " + name + " " + i.kept + doneBefore(done), err}
	case len(done) > 0:
		return &interrupted{"of case " + name + " there is nothing" + doneBefore(done), err}
	}
	return err
}

func doneBefore(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "; complete: " + inLine(names) + "; there is no table of all cases"
}

// jointFolder names the folder of what cases say together.
func jointFolder(names []string) string {
	const longest = 80
	name := "all-" + strings.Join(names, "-")
	if len(name) > longest {
		name = fmt.Sprintf("all-%s-and-%d-more", names[0], len(names)-1)
	}
	return fileName(name)
}

// deliverJoint writes and prints what the cases say together.
func (p *program) deliverJoint(ctx context.Context, to *folder, j *choice.Joint, name string, t *task) error {
	var files []artefact
	if to != nil {
		for _, f := range export.JointFiles(j) {
			files = append(files, artefact{f.Name, f.Write})
		}
	}
	var buf bytes.Buffer
	if err := export.JointSummary(&buf, j, name, export.About{Program: version(), Files: names(files)}); err != nil {
		return err
	}
	files = append(files, whole(jointFile, buf.Bytes()))
	return p.deliver(ctx, to, files, buf.Bytes(), func(s *screen) {
		v := &view{Comparison: j.Comparisons[0], system: t.system, screen: s}
		v.line("%s", s.strong("All cases together"))
		for _, c := range j.Comparisons {
			recommended := "no recommendation"
			if c.Recommended != "" {
				recommended = "recommended: " + c.Recommended
			}
			v.hang("  ", c.Case.Name+": "+recommended)
		}
		v.heading("The worst of each candidate, and where it was met (case, scenario)")
		v.joint(j)
		text := "No recommendation for all cases"
		if j.Recommended != "" {
			text = "Recommended for all cases: " + j.Recommended
		}
		v.section(text, j.Reasons)
	})
}
