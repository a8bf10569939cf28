package choice

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network/quantity"
)

// Rule is what a code or a standard of one's own lets a surge add to the design pressure:
//
//	p_max <= (1 + A) p_design
//
// with p_max the highest pressure and p_design the design pressure, Pa gauge, and A the allowance. The steady pressure keeps to p_design itself.
// Where the code speaks of stress (AWWA M11), the hoop stress is taken as proportional to the pressure, as in a thin wall, and the design pressure as
// that at the working stress. The conditions of a code other than this figure are not judged.
//
// Some codes allow the more the shorter and the rarer it is (ASME B31.3 and B31.1). Such a rule has options: A holds where the pressure is above p_design for
// no longer than t at a time and T a year,
//
//	t_e <= t,   n t_e <= T
//
// with t_e, s, the time above p_design in one event at the worst place of the line, and n the events a year. Of the options that the durations
// leave, that of the greatest A is taken; none leaves A = 0.
type Rule struct {
	Name       string
	Allowance  float64 // A, fraction of the design pressure; where there are options the greatest of them
	Status     string  // where the figure is from
	Options    []Option
	Events     float64 // n, of a rule with options, of the whole line
	Trips      float64 // of one unit a year, by which n is reckoned; 0: n is given
	Units      int     // that many units
	Variations float64 // most of them in the life of the line; 0: no such bound
	Besides    string  // what else the code asks that is not judged here; may be empty
}

// Option is one of several allowances of a rule.
type Option struct {
	Allowance float64 // A
	Longest   float64 // t, s
	Year      float64 // T, s a year
}

// edition is the status of a figure that was recalled, not read.
const edition = "from memory; check the edition in force"

// rules are those that need no more than the design pressure and the highest pressure. Of plastic pipes the design pressure is the pressure class.
var rules = []Rule{
	{Name: "ASME B31.4", Allowance: 0.1, Status: edition},
	{Name: "AWWA C900 recurring", Allowance: 0, Status: edition},
	{Name: "AWWA C900 occasional", Allowance: 0.6, Status: edition},
	{Name: "AWWA M11", Allowance: 0.5, Status: edition},
	{Name: "PE recurring", Allowance: 0.5, Status: edition},
	{Name: "PE occasional", Allowance: 1, Status: edition},
	{Name: "ASME B31.3", Allowance: 0.33, Status: "302.2.4 of 2002-2004 as quoted elsewhere; check the edition in force", Options: []Option{{0.33, 10 * hour, 100 * hour}, {0.20, 50 * hour, 500 * hour}},
		Besides: "the owner's approval, no cast iron or other non-ductile pressure parts, the pressure stress below yield, the longitudinal stress within its own bound, and never more than the test pressure", Variations: 1000},
	{Name: "ASME B31.1", Allowance: 0.20, Status: "102.2.4 as quoted elsewhere; check the edition in force", Options: []Option{{0.20, 1 * hour, 80 * hour}, {0.15, 8 * hour, 800 * hour}},
		Besides: "that the stress is judged, here taken as proportional to the pressure"},
}

const hour = 3600.0 // s

// RuleNames are the names of the rules that [FindRule] knows.
func RuleNames() []string {
	var names []string
	for _, r := range rules {
		names = append(names, r.Name)
	}
	return names
}

// FindRule looks a rule up by its name, in upper or lower case.
func FindRule(name string) (Rule, bool) {
	for _, r := range rules {
		if strings.EqualFold(r.Name, name) {
			return r, true
		}
	}
	return Rule{}, false
}

// Timed tells whether the rule goes by how long and how often the pressure is above the design pressure.
func (r *Rule) Timed() bool { return r != nil && len(r.Options) > 0 }

// lets is the allowance that a time above the design pressure in one event leaves; a time that is not known leaves none.
func (r *Rule) lets(t Value) float64 {
	most := 0.0
	for _, o := range r.Options {
		if exists(t) && t.SI <= o.Longest && r.Events*t.SI <= o.Year {
			most = math.Max(most, o.Allowance)
		}
	}
	return most
}

// words name the rule beside a limit.
func (r *Rule) words() string { return " by " + r.Name + " (" + r.Status + ")" }

// Words are the sentence on a rule with options.
func (r *Rule) Words() string {
	var options []string
	for _, o := range r.Options {
		options = append(options, fmt.Sprintf("%s for at most %s at a time and %s a year", quantity.Format(o.Allowance, quantity.Fraction, quantity.SI), lasting(o.Longest), lasting(o.Year)))
	}
	from := ""
	if r.Trips > 0 && r.Units > 1 {
		from = fmt.Sprintf(" (%s of each of %d units, counted apart)", quantity.Format(r.Trips, quantity.Number, quantity.SI)+" trips", r.Units)
	}
	text := fmt.Sprintf("%s (%s) lets the pressure be above the design pressure by %s; %s a year are reckoned with%s, each counted as one variation.", r.Name, r.Status, strings.Join(options, ", or by "), events(r.Events), from)
	if r.Variations > 0 {
		text += fmt.Sprintf(" It allows %.0f of them in the life of the line, which are reached after %.3g years.", r.Variations, r.Variations/r.Events)
	}
	if r.Besides != "" {
		text += " It asks besides, which is not judged here: " + r.Besides + "."
	}
	return text
}

func events(n float64) string {
	text := quantity.Format(n, quantity.Number, quantity.SI)
	if n == 1 {
		return text + " event"
	}
	return text + " events"
}

// lasting writes a duration in hours from one hour on, else in seconds.
func lasting(t float64) string {
	if t >= hour {
		return quantity.Format(t/hour, quantity.Number, quantity.SI) + " h"
	}
	return quantity.Format(t, quantity.Time, quantity.SI)
}
