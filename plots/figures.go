package plots

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// ErrSeries is wrapped when a history or profile cannot be drawn: lengths that differ, time or chainage that goes back, values that are
// not finite.
var ErrSeries = errors.New("plots: bad series")

// Keys of the series that the figures read.
const (
	velocityKey = "velocity"
	openingKey  = "opening"
	pressureKey = "pressure_down"
)

// Names of the figures; those of a scenario other than the first end in "-" and its name.
const (
	PeakSurge       = "peak-surge"
	CostMakeUp      = "cost-make-up"
	PressureHistory = "pressure-history"
	DiscMotion      = "disc-motion"
	Envelope        = "envelope"
	AnchorForce     = "anchor-force"

	CharacteristicName = "characteristic" // of all scenarios
)

// Figures gives the figures of a comparison in the order of a report. A figure without any data is left out. The error wraps [ErrSeries].
func Figures(c *choice.Comparison, units quantity.System) ([]Figure, error) {
	if err := check(c); err != nil {
		return nil, err
	}
	b := newBook(c, units)
	var all []Figure
	add := func(f Figure, ok bool) {
		if ok {
			all = append(all, f)
		}
	}
	add(b.peakSurge())
	add(b.costMakeUp())
	for i := range c.Scenarios {
		add(b.pressureHistory(i))
		add(b.discMotion(i))
		add(b.envelope(i))
		add(b.anchorForce(i))
	}
	add(b.ownCharacteristic())
	return all, nil
}

// book is a comparison with what its figures share.
type book struct {
	*choice.Comparison
	units   quantity.System
	style   map[string]int // place of a candidate's line style
	places  int            // decimals of a pressure
	generic bool           // valve data are not all given
}

func newBook(c *choice.Comparison, units quantity.System) *book {
	b := &book{Comparison: c, units: units, style: map[string]int{}}
	greatest := 0.0
	for _, s := range c.Scenarios {
		for _, o := range s.Outcomes {
			if _, seen := b.style[o.Candidate]; !seen {
				b.style[o.Candidate] = len(b.style)
			}
			b.generic = b.generic || generic(o.Valve.Data)
			if exists(o.PeakPressure) {
				greatest = math.Max(greatest, math.Abs(o.PeakPressure.SI))
			}
		}
	}
	b.places = decimals(units.Unit(quantity.Pressure).From(greatest) / 2)
	return b
}

// unit is the unit in which a figure shows a dimension, and how it is printed.
func (b *book) unit(d quantity.Dimension) (quantity.Unit, string) {
	u := b.units.Unit(d)
	return u, exponents.Replace(u.Symbol)
}

var exponents = strings.NewReplacer("m2", "m²", "m3", "m³", "s2", "s²", "t2", "t²", "t3", "t³")

// title is the case, and the scenario where there are several.
func (b *book) title(scenario int) string {
	t := "Untitled case"
	if b.Case != nil && clean(b.Case.Title) != "" {
		t = b.Case.Title
	}
	if scenario >= 0 && len(b.Scenarios) > 1 {
		t += ", scenario " + b.Scenarios[scenario].Name
	}
	if b.Interrupted {
		t += " (incomplete)"
	}
	return t
}

// name is the figure's name in a scenario.
func (b *book) name(figure string, scenario int) string {
	if scenario == 0 {
		return figure
	}
	return figure + "-" + b.Scenarios[scenario].Name
}

// notes begin with the line that every figure of a case has: the mark of a built-in example, the case, and how well its valves are known.
func (b *book) notes(more ...string) []string {
	var foot []string
	if b.Case != nil && b.Case.Example {
		foot = append(foot, "Example, not your installation.")
	}
	if b.Case != nil && clean(b.Case.Name) != "" {
		foot = append(foot, "Case "+clean(b.Case.Name)+".")
	}
	if b.generic {
		foot = append(foot, "Generic valve data ±40\u00a0%.")
	}
	if len(foot) == 0 {
		return more
	}
	return append([]string{strings.Join(foot, " ")}, more...)
}

// generic tells whether a datum that shapes the motion of a valve was not given but is the catalogue's, or estimated from it.
func generic(data []valve.Datum) bool {
	return slices.ContainsFunc(data, func(d valve.Datum) bool {
		return d.Key != "price" && d.Key != "slope" && (d.Origin == valve.Catalogue || d.Origin == valve.Estimated)
	})
}

// limits of the case; the zero value when there is none.
func (b *book) limits() choice.Limits {
	if b.Case == nil {
		return choice.Limits{}
	}
	return b.Case.Limits
}

// watched is the valve that the histories are of, or where they are of several, that of each candidate.
func watched(outs []choice.Outcome) string {
	var each []string
	places := map[string]bool{}
	for _, o := range outs {
		if o.Watched != "" {
			places[o.Watched] = true
			each = append(each, o.Candidate+": "+o.Watched)
		}
	}
	switch len(places) {
	case 0:
		return ""
	case 1:
		_, place, _ := strings.Cut(each[0], ": ")
		return " (" + place + ")"
	}
	return " (" + strings.Join(each, "; ") + ")"
}

// series returns the values of a history; nil when there is none.
func series(o *choice.Outcome, key string) []float64 {
	for _, s := range o.History {
		if s.Key == key && len(o.Time) > 0 {
			return s.Values
		}
	}
	return nil
}

// drawn are the outcomes that have the history, and a note about the others.
func drawn(outs []choice.Outcome, key, what string) (have []*choice.Outcome, notes []string) {
	for i := range outs {
		if o := &outs[i]; series(o, key) != nil {
			have = append(have, o)
		} else {
			notes = append(notes, absent(o, what))
		}
	}
	return have, notes
}

// absent says that a candidate is not in a figure.
func absent(o *choice.Outcome, what string) string {
	if o.Failed != "" {
		return "Not shown: " + o.Candidate + " (" + o.Failed + ")."
	}
	return "Not shown: " + o.Candidate + ", no " + what + "."
}

// entries are the key of the candidates.
func (b *book) entries(outs []*choice.Outcome) []entry {
	var e []entry
	for _, o := range outs {
		e = append(e, entry{text: clean(o.Candidate), sty: candidateLine(b.style[o.Candidate])})
	}
	return e
}

// bands shares the outcomes out evenly over as few panels as hold no more than most each.
func bands(outs []*choice.Outcome, most int) [][]*choice.Outcome {
	n := (len(outs) + most - 1) / most
	var out [][]*choice.Outcome
	for i := range n {
		out = append(out, outs[i*len(outs)/n:(i+1)*len(outs)/n])
	}
	return out
}

// check refuses what no figure can show.
func check(c *choice.Comparison) error {
	for _, s := range c.Scenarios {
		for i := range s.Outcomes {
			o := &s.Outcomes[i]
			where := fmt.Sprintf("candidate %s, scenario %s", o.Candidate, s.Name)
			if err := increasing(o.Time); err != nil {
				return fmt.Errorf("%w: %s: time %w", ErrSeries, where, err)
			}
			for _, h := range o.History {
				if err := fits(h.Values, len(o.Time)); err != nil {
					return fmt.Errorf("%w: %s: history %q %w", ErrSeries, where, h.Key, err)
				}
			}
			for _, r := range o.Runs {
				if err := errors.Join(fits([]float64{r.From, r.To}, 2), fits(r.Force, len(o.Time))); err != nil {
					return fmt.Errorf("%w: %s: force on %s %w", ErrSeries, where, r.Name(quantity.SI), err)
				}
			}
			for _, p := range o.Route {
				if err := increasing(p.Chainage); err != nil {
					return fmt.Errorf("%w: %s: chainage of %s %w", ErrSeries, where, p.Pipe, err)
				}
				for _, v := range [][]float64{p.Elevation, p.Steady, p.Lowest, p.Highest} {
					if err := fits(v, len(p.Chainage)); err != nil {
						return fmt.Errorf("%w: %s: profile of %s %w", ErrSeries, where, p.Pipe, err)
					}
				}
				if p.Cavity == nil {
					continue
				}
				if err := fits(p.Cavity, len(p.Chainage)); err != nil {
					return fmt.Errorf("%w: %s: cavities of %s %w", ErrSeries, where, p.Pipe, err)
				}
			}
		}
	}
	return nil
}

func increasing(x []float64) error {
	if !sort.Float64sAreSorted(x) {
		return errors.New("goes back")
	}
	return fits(x, len(x))
}

func fits(v []float64, n int) error {
	if len(v) != n {
		return fmt.Errorf("has %d values where %d are wanted", len(v), n)
	}
	for i, x := range v {
		if !finite(x) {
			return fmt.Errorf("is not finite at %d", i)
		}
	}
	return nil
}
