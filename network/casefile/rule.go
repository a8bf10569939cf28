package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// ownRule is how a rule of one's own is written, someAllowances how one that goes by durations is.
const (
	ownRule        = "rule: {name: own, allowance: 15 %, status: company standard}"
	someAllowances = "allowances: [[33 %, 10 h, 100 h], [20 %, 50 h, 500 h]]"
	longestStay    = year
)

// rule reads the rule for the surge allowance: the name of a known one, or one with its name, its allowance or allowances, and status. A rule that goes by
// durations needs the events a year, which are the trips of the section duty, of each of the units that run, where the rule does not say.
func (s *section) rule(l *choice.Limits, trips float64, units int) {
	events, told := s.positive("events a year", quantity.Number)
	if !told {
		events = trips * float64(units)
	}
	p := s.take("rule")
	s.r.survey.form(s.key("rule"), shape{kind: isWord, words: choice.RuleNames(), free: true})
	s.r.survey.form(s.key("rule"), shape{kind: isMapping})
	if p == nil {
		if told {
			s.r.failed(s.key("events a year"), s.node.get("events a year").key.fault("limits: events a year without a rule", "give the rule that goes by them, e.g. rule: ASME B31.3"))
		}
		return
	}
	given, ok := s.known(p)
	if p.value.kind == mapping {
		given, ok = s.r.ruleOf(p, s.key("rule"))
	}
	switch {
	case !ok:
	case !given.Timed() && s.has("events a year"):
		s.r.failed(s.key("events a year"), s.node.get("events a year").key.fault("limits: the rule "+quantity.Quote(given.Name)+" does not go by the events a year", "take them out, or give a rule with "+someAllowances))
		return
	case given.Timed() && events == 0 && !s.has("events a year"):
		s.r.failed(s.key("rule"), p.key.fault("limits: the rule "+quantity.Quote(given.Name)+" needs the events a year", "give events a year: 6 beside it, or duty: {trips: 6}"))
		return
	case given.Timed():
		given.Events = events
		if !told {
			given.Trips, given.Units = trips, units
		}
	}
	if s.has("surge allowance") {
		s.r.survey.clash(s.key("rule"))
		s.r.failed(s.key("rule"), p.key.fault("limits: both surge allowance and rule", "the rule has its own allowance: take one of them out"))
		return
	}
	if !s.has("design pressure") {
		s.r.failed(s.key("rule"), p.key.fault("limits: rule without design pressure", "its allowance is a fraction of the design pressure: give that too"))
		return
	}
	if ok {
		l.Rule, l.SurgeAllowance = &given, &given.Allowance
	}
}

// known looks a rule up by its name.
func (s *section) known(p *pair) (choice.Rule, bool) {
	if p.value.kind == mapping {
		return choice.Rule{}, false
	}
	name, ok := s.text("rule")
	if !ok {
		return choice.Rule{}, false
	}
	if given, found := choice.FindRule(name); found {
		return given, true
	}
	hint := "one of: " + strings.Join(choice.RuleNames(), ", ") + "; or one of your own, " + ownRule
	if near := network.Nearest(name, choice.RuleNames()); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	s.r.failed(s.key("rule"), p.value.fault(fmt.Sprintf("%s: there is no %s", s.key("rule"), quantity.Quote(name)), hint))
	return choice.Rule{}, false
}

// ruleOf reads a rule with its data.
func (r *reader) ruleOf(p *pair, path string) (choice.Rule, bool) {
	s := r.section(p, path)
	var out choice.Rule
	faults := len(r.errs)
	out.Name, _ = s.needText("name", "own")
	out.Status, _ = s.needText("status", "company standard")
	out.Options = s.allowances()
	if !s.has("allowances") {
		out.Allowance, _ = s.needQuantity("allowance", quantity.Fraction, "15 %")
		if a := out.Allowance; !(a >= 0 && a <= 1) {
			r.failed(s.key("allowance"), s.node.get("allowance").value.fault(fmt.Sprintf("%s is %s", s.key("allowance"), s.node.get("allowance").value.text),
				"give 0 % to 100 % of the design pressure"))
		}
	}
	for _, o := range out.Options {
		out.Allowance = max(out.Allowance, o.Allowance)
	}
	s.done()
	return out, len(r.errs) == faults
}

// allowances reads the options of a rule that goes by durations.
func (s *section) allowances() []choice.Option {
	rows, _ := s.table("allowances", []column{{name: "allowance", dim: quantity.Fraction}, {name: "at a time", dim: quantity.Time}, {name: "a year", dim: quantity.Time}})
	var out []choice.Option
	for i, row := range rows {
		if !(row[0] > 0 && row[0] <= 1 && row[1] > 0 && row[2] >= row[1] && row[2] <= longestStay) {
			s.rowFault("allowances", i, "an allowance is not from 0 % to 100 %, or its durations are not above zero with the longest at a time no longer than that a year", "write "+someAllowances)
			return nil
		}
		out = append(out, choice.Option{Allowance: row[0], Longest: row[1], Year: row[2]})
	}
	return out
}
