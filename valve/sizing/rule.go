package sizing

import "strings"

// rules are the constants C of the types of valves that the rule of the least velocity, valve.MinimumVelocity, has one for: 60 of a swing disc under a bolted cap from texts on piping design as quoted in
// the trade, the others those of fittings in an equivalent-length handbook, from memory. That handbook has 35 for the swing body of high loss (100 f_T): the 60 of
// swing heavy is on the safe side.
var rules = map[string]float64{
	"swing": 60, "swing heavy": 60, "swing dashpot": 60,
	"tilting disc": 80, "tilting disc steep": 30,
	"lift": 40,
}

// RuleOf is the constant C of a type of valve. False where the rule has none: for springs and outside weights it does not hold.
func RuleOf(family string) (c float64, ok bool) {
	c, ok = rules[family]
	return c, ok
}

// GenericByRule tells whether the catalogue makes the full-open velocity of the generic discs of a type by the rule of [LeastVelocity]: the two then agree and do
// not confirm each other.
func GenericByRule(family string) bool {
	return strings.HasPrefix(family, "swing") || strings.HasPrefix(family, "tilting disc")
}

// Range is a greatest velocity, m/s, up to which a type of valve is used, as the texts have it.
type Range struct {
	From, To float64 // the texts differ between the two; equal: one text
	Source   string
}

var highest = map[string]Range{
	"dual plate": {4.9, 4.9, "AWWA C518, from the notice of its revision"},
	"swing":      {2.5, 3, "water specifications, common practice"}, "swing heavy": {2.5, 3, "water specifications, common practice"},
	"swing lever": {2.5, 3, "water specifications, common practice"}, "swing spring": {2.5, 3, "water specifications, common practice"},
	"swing dashpot": {2.5, 3, "water specifications, common practice"},
}

// HighestVelocity is the greatest velocity of a type of valve in water. False where no text gives one.
func HighestVelocity(family string) (Range, bool) {
	r, ok := highest[family]
	return r, ok
}
