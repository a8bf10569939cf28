package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/plots/export"
	"seatwise/plots/sheets"
	"seatwise/valve"
	"seatwise/valve/choice"
	"seatwise/valve/offers"
)

const offersHelp = `Run what makers offer through the events of a case, in place of its candidates,
and hold every offer against the limits: it meets, meets narrowly, fails, or
cannot be judged, as a datum that decides is not given and the generic one is
not well enough known. Beside the table stand the gaps of each offer and the
questions to send back. Table, gaps and questions go into offers.xlsx too, with
the comparison behind them.

OFFERS is a file of offers; with it alone the built-in example is the case.
An offer has the keys of a candidate and maker, model, reference, date,
delivery, note, price amount. A datum that is left out is a gap.`

// Files of an evaluation of offers; the second is its manifest.
const (
	offersWorkbook = "offers.xlsx"
	offersFile     = "offers.json"
)

// offers evaluates what makers offer.
func (p *program) offers() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "offers [CASE] OFFERS",
		Short: "Hold makers' offers against the limits of a case",
		Long:  offersHelp,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badInput(cmd.UseLine(), "no file of offers is named")
			}
			return atMost(2)(cmd, args)
		},
		Example: lines(
			"seatwise offers my-line.yaml replies.yaml",
			"seatwise offers my-line.yaml replies.yaml --units us --out tender",
		),
		RunE: func(cmd *cobra.Command, args []string) error { return p.evaluate(cmd, args) },
	}
	p.caseFlags(cmd)
	p.folderFlags(cmd)
	return cmd
}

func (p *program) evaluate(cmd *cobra.Command, args []string) error {
	system, err := p.system()
	if err != nil {
		return err
	}
	in, err := p.readOffers(args, p.stdin)
	if err != nil {
		return err
	}
	date, err := sourceDate(os.Getenv("SOURCE_DATE_EPOCH"))
	if err != nil {
		return err
	}
	to, err := p.target(offersFile, in.Name, in.Name, in.files, []string{offersWorkbook})
	if err != nil {
		return err
	}
	c, stopped := p.solve(cmd, in, system)
	if stopped != nil { // an evaluation of some offers only would be unfair to the others
		return in.placed(stopped)
	}
	replies := in.doc.Offers()
	e := offers.Assess(c, replies.Replies, replies.Currency, system)
	var files []artefact
	if to != nil {
		about, on := reportInput(c, in, system, date), day(in.block.Date, date)
		files = append(files, artefact{offersWorkbook, func(w io.Writer) error { return sheets.Offers(c, e, about, on).Write(w) }})
	}
	var json bytes.Buffer
	if err := export.Offers(&json, c, e, export.About{Program: version(), Files: names(files)}); err != nil {
		return err
	}
	files = append(files, whole(offersFile, json.Bytes()))
	return p.deliver(context.WithoutCancel(cmd.Context()), to, files, json.Bytes(), func(s *screen) {
		v := &evaluation{view{Comparison: c, screen: s, system: system, measures: choice.Measures(c.Service)}, e, replies}
		v.print()
	})
}

// readOffers reads a case, or takes the built-in example, with the offers of the last file in place of its candidates.
func (o *options) readOffers(args []string, stdin io.Reader) (*input, error) {
	last := len(args) - 1
	doc, files, err := o.document(args[:last], stdin)
	if err != nil {
		return nil, err
	}
	f, err := os.Open(args[last])
	if err != nil {
		return nil, cannotRead(args[last], err)
	}
	defer f.Close()
	raw, err := readAll(f, args[last])
	if err != nil {
		return nil, err
	}
	if doc, err = doc.WithOffers(args[last], raw); err != nil {
		return nil, err
	}
	in, err := taken(doc, files, last == 0)
	if err != nil {
		return nil, err
	}
	in.files = append(in.files, args[last])
	return in, nil
}

// evaluation prints offers side by side in the units of the reader.
type evaluation struct {
	view
	*offers.Evaluation
	replies *casefile.Offers
}

func (v *evaluation) print() {
	title(v.screen, v.Case)
	if v.replies.Title != "" {
		v.paragraph(quantity.Printable(v.replies.Title))
	}
	for i := range v.Case.Scenarios {
		v.heading(heading(v.Case, i, v.system))
	}
	v.heading("Offers")
	t := &table{last: "limit"}
	for i := range v.Offers {
		t.head = append(t.head, v.Offers[i].Name)
	}
	v.offered(t)
	v.answers(t)
	v.figures(t)
	t.print(v.screen)
	v.notes.print(v.screen)
	v.section("Advice", v.Advice)
	for i := range v.Offers {
		v.gaps(&v.Offers[i])
	}
	for i := range v.Offers {
		a := &v.Offers[i]
		v.section(fmt.Sprintf("Questions to %s (%s)", quantity.Printable(a.Maker), cmp.Or(quantity.Printable(a.Reference), a.Name)), a.Questions)
	}
	v.section("What the answers mean", offers.Meaning)
	v.section("Warnings", v.Warnings)
	v.section("Cautions", v.Cautions())
}

// said is a row of texts of the offers; a gap is told.
func (v *evaluation) said(t *table, label string, text func(*offers.Assessment) string) {
	cells := make([]cell, len(v.Offers))
	for i := range v.Offers {
		cells[i].text = cmp.Or(quantity.Printable(text(&v.Offers[i])), "not given")
	}
	t.add(label, cells, "")
}

// offered is what the makers say.
func (v *evaluation) offered(t *table) {
	v.said(t, "maker", func(a *offers.Assessment) string { return a.Maker })
	v.said(t, "model", func(a *offers.Assessment) string { return a.Model })
	v.said(t, "valve", func(a *offers.Assessment) string { return a.Spec.Type + " " + size(a.Spec.Size) })
	v.said(t, "price", func(a *offers.Assessment) string {
		if a.Price == nil {
			return ""
		}
		return v.Money(*a.Price)
	})
	if v.Case.Economics != nil {
		v.said(t, "present value", func(a *offers.Assessment) string {
			if a.Present.Reason != "" {
				return v.notes.mark(a.Present.Reason)
			}
			return v.Money(a.Present.SI)
		})
	}
	v.said(t, "delivery", func(a *offers.Assessment) string { return a.Delivery })
}

// answers are those to every limit.
func (v *evaluation) answers(t *table) {
	type line struct{ limit, measure string }
	var order []line
	seen := map[line]*offers.Compliance{}
	values := map[line][]float64{}
	for i := range v.Offers {
		for k := range v.Offers[i].Limits {
			l := &v.Offers[i].Limits[k]
			x := line{l.Limit, l.Measure.Key}
			if seen[x] == nil {
				seen[x] = l
				order = append(order, x)
			}
			if l.Verdict != nil {
				values[x] = append(values[x], l.Verdict.Value, l.Verdict.Bound)
			}
		}
	}
	for _, x := range order {
		m := seen[x].Measure
		sc := choice.NewScale(m.Dimension, v.system, values[x]...)
		for i := 0; i+1 < len(values[x]); i += 2 {
			sc = sc.Apart(values[x][i], values[x][i+1])
		}
		label, bound, several := seen[x].Label(), "", false
		for i := 3; i < len(values[x]); i += 2 {
			several = several || values[x][i] != values[x][1]
		}
		cells := make([]cell, len(v.Offers))
		for i := range v.Offers {
			cells[i].text = "-"
			for k := range v.Offers[i].Limits {
				l := &v.Offers[i].Limits[k]
				if l.Limit != x.limit || l.Measure.Key != x.measure {
					continue
				}
				cells[i] = cell{l.Word.String(), l.Word == offers.Fails}
				if l.Verdict != nil {
					cells[i].text += ", " + sc.Text(l.Verdict.Value)
					if several {
						cells[i].text += " of " + sc.Text(l.Verdict.Bound)
					} else {
						bound = sc.Text(l.Verdict.Bound)
					}
				}
			}
		}
		t.add(sc.Label(label), cells, bound)
	}
	cells := make([]cell, len(v.Offers))
	for i := range v.Offers {
		w := v.Offers[i].Word()
		cells[i] = cell{w.String(), w == offers.Fails}
	}
	if len(order) > 0 {
		t.add("taken together", cells, "")
	}
}

// told are the measures that an evaluation shows without a limit too, in the first scenario.
var told = []string{"full_open_margin", "head_loss_m", "max_reverse_velocity_m_s", "peak_pressure_pa"}

func (v *evaluation) figures(t *table) {
	s := &v.Scenarios[0]
	for _, m := range v.measures {
		judged := slices.ContainsFunc(s.Outcomes, func(o choice.Outcome) bool { return o.Judged(m.Key) })
		if !slices.Contains(told, m.Key) || judged {
			continue
		}
		row := s.Rows(m, v.system)[0]
		cells := make([]cell, len(row.Cells))
		for k, c := range row.Cells {
			cells[k].text = c.Text
			if c.Reason != "" {
				cells[k].text = v.notes.mark(c.Reason)
			}
		}
		t.add(row.Label, cells, "")
	}
}

// gaps tells what an offer does not say, with the generic value that was taken, and why a limit has the answer that it has.
func (v *evaluation) gaps(a *offers.Assessment) {
	type reason struct {
		word    offers.Word
		because string
	}
	var order []reason
	same := map[reason][]string{}
	for _, l := range a.Limits {
		if l.Because == "" {
			continue
		}
		r := reason{l.Word, l.Because}
		if same[r] == nil {
			order = append(order, r)
		}
		same[r] = append(same[r], l.Label())
	}
	var items []string
	for _, r := range order {
		items = append(items, fmt.Sprintf("%s - %s: %s.", strings.Join(same[r], ", "), r.word, r.because))
	}
	var missing []string
	for _, g := range a.Gaps {
		text := g.Label
		if g.Used != nil {
			text += " (generic " + v.generic(*g.Used) + ")"
		}
		missing = append(missing, text)
	}
	switch {
	case len(missing) > 0:
		items = append(items, "Not given: "+strings.Join(missing, "; ")+".")
	default:
		items = append(items, "Nothing that was asked for is missing.")
	}
	v.section(fmt.Sprintf("%s, by %s", a.Name, quantity.Printable(a.Maker)), items)
}

// generic is a value from the catalogue, three digits.
func (v *evaluation) generic(d valve.Datum) string {
	if d.Key == "kv" {
		drop := quantity.FormatIn(1e5, v.system.Unit(quantity.PressureDifference))
		flow := d.Value
		if v.system == quantity.US {
			psi := v.system.Unit(quantity.PressureDifference)
			drop, flow = "1 psi", d.Value*math.Sqrt(psi.To(1)/1e5)
		}
		return quantity.Format(flow, quantity.Flow, v.system) + " at " + drop
	}
	if dim, ok := quantity.Measured(d.Unit); ok {
		u := partUnit(dim, v.system)
		return strings.TrimSpace(fmt.Sprintf("%.3g %s", u.From(d.Value), u.Symbol))
	}
	return fmt.Sprintf("%.3g", d.Value)
}
