package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"math"
	"os"
	"regexp"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
	"seatwise/valve/choice"
)

// figureOf is one number of a report, in SI.
type figureOf struct {
	Scenario  string  `json:"scenario"`
	Candidate string  `json:"candidate"`
	Measure   string  `json:"measure"`
	Value     float64 `json:"value"`
}

func (f figureOf) place() string { return f.Candidate + ", scenario " + f.Scenario + ", " + f.Measure }

// figuresOf are the numbers of a comparison.
func figuresOf(c *choice.Comparison) []figureOf {
	out := []figureOf{}
	for i := range c.Scenarios {
		s := &c.Scenarios[i]
		for k := range s.Outcomes {
			for _, m := range choice.Measures(c.Service) {
				if v := m.Get(&s.Outcomes[k]); v.Reason == "" {
					out = append(out, figureOf{s.Name, s.Outcomes[k].Candidate, m.Key, v.SI})
				}
			}
		}
	}
	return out
}

// recorded is what a report holds for a program that runs its case again.
type recorded struct {
	Program     string     `json:"program"`
	InputSHA256 string     `json:"input_sha256"`
	Figures     []figureOf `json:"figures"`
}

// record is the record of a comparison as JSON.
func record(c *choice.Comparison) string {
	raw, err := json.Marshal(recorded{version(), c.Case.InputSHA256, figuresOf(c)})
	if err != nil {
		return "" // a number that is not finite; the report can do without
	}
	return string(raw)
}

var (
	listing    = regexp.MustCompile(`(?s)<pre data-file="([^"]*)">(.*?)</pre>`)
	recordInIt = regexp.MustCompile(`(?s)<pre hidden data-record="1">(.*?)</pre>`)
)

// reportedCase is the case in a report, and the record beside it.
func reportedCase(page string) (*casefile.Document, *recorded, error) {
	texts, raw := listing.FindAllStringSubmatch(page, -1), recordInIt.FindStringSubmatch(page)
	var was recorded
	if len(texts) == 0 || raw == nil || json.Unmarshal([]byte(html.UnescapeString(raw[1])), &was) != nil {
		return nil, nil, badInput("give the report.html that seatwise report has written", "there is no case with its numbers in the file")
	}
	beside, set := map[string][]byte{}, []string{}
	for _, t := range texts[1:] {
		name, text := html.UnescapeString(t[1]), html.UnescapeString(t[2])
		if name == "set" {
			set = append(set, text)
			continue
		}
		beside[name] = []byte(text)
	}
	doc, err := casefile.Read(html.UnescapeString(texts[0][1]), []byte(html.UnescapeString(texts[0][2])), func(name string) ([]byte, error) {
		if text, ok := beside[name]; ok {
			return text, nil
		}
		return nil, fs.ErrNotExist
	})
	for _, s := range set {
		if err != nil {
			break
		}
		path, value, _ := strings.Cut(s, "=")
		doc, err = doc.With(path, value)
	}
	return doc, &was, err
}

// errDiffers is that of a report whose numbers do not come out again.
var errDiffers = errors.New("the numbers of the report do not come out again")

// alike is how far numbers may differ, over the greatest of their measure in the report: another processor may round the
// last digits differently, and a number that is small beside its like (a leak, a rest of flow) is made of such digits.
const alike = 1e-9

// rerun runs the case in a report once more and compares every number.
func (p *program) rerun(cmd *cobra.Command, args []string) error {
	if len(args) == 0 || args[0] == "-" || len(p.set) > 0 || p.json {
		return badInput("seatwise check results/report.html --rerun", "--rerun takes the file of a report, and neither --set nor --json")
	}
	if is, err := os.Stat(args[0]); err == nil && !is.Mode().IsRegular() { // a pipe or a device may never end
		return badInput("seatwise check results/report.html --rerun", "%s is no plain file", args[0])
	}
	page, err := os.ReadFile(args[0])
	if err != nil {
		return cannotRead(args[0], err)
	}
	doc, was, err := reportedCase(string(page))
	if err != nil {
		return err
	}
	own, err := doc.Case()
	if err != nil {
		return err
	}
	system, err := p.system()
	if err != nil {
		return err
	}
	in := &input{Case: own, doc: doc}
	again, err := p.solve(cmd, in, system)
	if err != nil {
		return in.placed(err)
	}
	faults := differences(was.Figures, figuresOf(again))
	if own.InputSHA256 != was.InputSHA256 {
		faults = append([]string{"the case in the report is not the one that its numbers are of"}, faults...)
	}
	s := p.screen()
	if was.Program != version() {
		s.paragraph("The report is of " + was.Program + ", this is " + version() + ".")
	}
	if len(faults) > 0 {
		s.section("What differs", faults)
		return errDiffers
	}
	s.paragraph(fmt.Sprintf("The report is confirmed: the case in it was run once more, and all %s came out again.", count(len(was.Figures), "number")))
	return nil
}

// differences says which numbers are not there or not alike.
func differences(was, is []figureOf) []string {
	var out []string
	now := map[string]float64{}
	for _, f := range is {
		now[f.place()] = f.Value
	}
	scale := map[string]float64{}
	for _, f := range was {
		scale[f.Measure] = math.Max(scale[f.Measure], math.Abs(f.Value))
	}
	for _, f := range was {
		v, ok := now[f.place()]
		delete(now, f.place())
		switch {
		case !ok:
			out = append(out, fmt.Sprintf("%s: %.6g in the report, no value now", f.place(), f.Value))
		case math.Abs(v-f.Value) > alike*math.Max(math.Abs(v), scale[f.Measure]):
			out = append(out, fmt.Sprintf("%s: %.6g in the report, %.6g now", f.place(), f.Value, v))
		}
	}
	for _, f := range is {
		if _, left := now[f.place()]; left {
			out = append(out, fmt.Sprintf("%s: not in the report, %.6g now", f.place(), f.Value))
		}
	}
	return out
}
