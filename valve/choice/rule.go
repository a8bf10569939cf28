package choice

import "strings"

// Rule is what a code or a standard of one's own lets a surge add to the design pressure:
//
//	p_max <= (1 + A) p_design
//
// with p_max the highest pressure and p_design the design pressure, Pa gauge, and A the allowance. The steady pressure keeps to p_design itself.
// Where the code speaks of stress (AWWA M11), the hoop stress is taken as proportional to the pressure, as in a thin wall, and the design pressure as
// that at the working stress. The conditions of a code other than this figure are not judged.
type Rule struct {
	Name      string
	Allowance float64 // A, fraction of the design pressure
	Status    string  // where the figure is from
}

// edition is the status of a figure that was recalled, not read.
const edition = "from memory; check the edition in force"

// rules are those that need no more than the design pressure and the highest pressure. Of plastic pipes the design pressure is the pressure class.
var rules = []Rule{
	{"ASME B31.4", 0.1, edition},
	{"AWWA C900 recurring", 0, edition},
	{"AWWA C900 occasional", 0.6, edition},
	{"AWWA M11", 0.5, edition},
	{"PE recurring", 0.5, edition},
	{"PE occasional", 1, edition},
}

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

// TimedRule tells whether a code of that name allows more the shorter and the rarer the overpressure is, so that one figure is not enough.
func TimedRule(name string) bool {
	return strings.EqualFold(name, "ASME B31.3") || strings.EqualFold(name, "ASME B31.1")
}

// words name the rule beside a limit.
func (r Rule) words() string { return " by " + r.Name + " (" + r.Status + ")" }
