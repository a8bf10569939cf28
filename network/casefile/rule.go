package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// ownRule is how a rule of one's own is written.
const ownRule = "rule: {name: own, allowance: 15 %, status: company standard}"

// rule reads the rule for the surge allowance: the name of a known one, or one with its name, allowance and status.
func (s *section) rule(l *choice.Limits) {
	p := s.take("rule")
	s.r.survey.form(s.key("rule"), shape{kind: isWord, words: choice.RuleNames(), free: true})
	s.r.survey.form(s.key("rule"), shape{kind: isMapping})
	if p == nil {
		return
	}
	given, ok := s.known(p)
	if p.value.kind == mapping {
		given, ok = s.r.ownRule(p, s.key("rule"))
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
	msg := fmt.Sprintf("%s: there is no %s", s.key("rule"), quantity.Quote(name))
	if choice.TimedRule(name) {
		msg = s.key("rule") + ": " + quantity.Quote(name) + " depends on how long and how often the pressure is exceeded, which is not measured"
		hint = "settle the allowance for your case and give it: " + ownRule
	}
	s.r.failed(s.key("rule"), p.value.fault(msg, hint))
	return choice.Rule{}, false
}

// ownRule reads a rule with its data.
func (r *reader) ownRule(p *pair, path string) (choice.Rule, bool) {
	s := r.section(p, path)
	name, named := s.needText("name", "own")
	status, told := s.needText("status", "company standard")
	allowance, ok := s.needQuantity("allowance", quantity.Fraction, "15 %")
	s.done()
	if ok && (allowance < 0 || allowance > 1) {
		r.failed(s.key("allowance"), s.node.get("allowance").value.fault(fmt.Sprintf("%s is %s", s.key("allowance"), s.node.get("allowance").value.text),
			"give 0 % to 100 % of the design pressure"))
		return choice.Rule{}, false
	}
	return choice.Rule{Name: name, Allowance: allowance, Status: status}, named && told && ok
}
