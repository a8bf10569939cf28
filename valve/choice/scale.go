package choice

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"seatwise/network/quantity"
)

// Scale writes the values of one row, in tables and in sentences: one unit, one number of decimals.
type Scale struct {
	Unit   quantity.Unit
	Places int
	bare   bool // no zeros at the end of decimals
}

const mostPlaces = 6

// NewScale chooses the unit by the system and the decimals so that the greatest of the values has three significant digits. Volumes,
// which differ by powers of ten, show two of the least as well, down to 1e-4 of the greatest.
func NewScale(d quantity.Dimension, system quantity.System, values ...float64) Scale {
	greatest := 0.0
	for _, v := range values {
		greatest = math.Max(greatest, math.Abs(v))
	}
	s := Scale{Unit: system.Unit(d)}
	if d == quantity.Volume && system == quantity.SI && greatest < 0.1 {
		s.Unit = litre
	}
	if top := math.Abs(s.Unit.From(greatest)); top > 0 {
		s.Places = min(max(2-exponent(top), 0), mostPlaces)
	}
	for _, v := range values {
		if v = math.Abs(v); d == quantity.Volume && v > 0 && v >= 1e-4*greatest {
			s.Places = min(max(1-exponent(s.Unit.From(v)), s.Places), mostPlaces)
		}
	}
	return s
}

// exponent is the power of ten of a number rounded to three digits.
func exponent(v float64) int {
	_, e, _ := strings.Cut(strconv.FormatFloat(v, 'e', 2, 64), "e")
	n, err := strconv.Atoi(e)
	if err != nil {
		return 0 // not finite
	}
	return n
}

var litre = func() quantity.Unit {
	u, err := quantity.ParseUnit("l", quantity.Volume)
	if err != nil {
		panic("choice: the litre is not in the table of units")
	}
	return u
}()

// Apart adds decimals until two values that differ do not look alike: rounding is not to hide a verdict.
func (s Scale) Apart(a, b float64) Scale {
	for a != b && s.Places < mostPlaces && (s.Text(a) == s.Text(b) || zero(s.Difference(a, b))) {
		s.Places++
	}
	return s
}

// Coarser has one significant digit less.
func (s Scale) Coarser() Scale {
	s.Places = max(s.Places-1, 0)
	return s
}

// Difference is the distance of two values, for units with an offset too.
func (s Scale) Difference(a, b float64) string {
	return strconv.FormatFloat(math.Abs(s.Unit.From(a)-s.Unit.From(b)), 'f', s.Places, 64)
}

func zero(text string) bool {
	v, err := strconv.ParseFloat(text, 64)
	return err == nil && v == 0
}

// Text is a value without its unit. A rounded negative zero is a zero.
func (s Scale) Text(si float64) string {
	text := strconv.FormatFloat(s.Unit.From(si), 'f', s.Places, 64)
	if s.bare && strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text[0] == '-' && zero(text) {
		return text[1:]
	}
	return text
}

// Bare leaves out the zeros at the end of decimals.
func (s Scale) Bare() Scale {
	s.bare = true
	return s
}

// Name is the unit's symbol as it stands behind a number or in a label; "" for plain numbers.
func (s Scale) Name() string { return s.Unit.Symbol }

// With is a value with its unit.
func (s Scale) With(si float64) string {
	if s.Name() == "" {
		return s.Text(si)
	}
	return s.Text(si) + " " + s.Name()
}

// Label is a label with the unit.
func (s Scale) Label(text string) string {
	if s.Name() == "" {
		return text
	}
	return text + ", " + s.Name()
}

// Within has no more decimals than an error leaves: the last one is of its size or above a tenth of it. One digit of the value is always left.
func (s Scale) Within(err, value float64) Scale {
	e, v := math.Abs(s.Unit.From(err)-s.Unit.From(0)), math.Abs(s.Unit.From(value))
	if !(e > 0) || math.IsInf(e, 0) || !(v > 0) {
		return s
	}
	places := max(int(math.Ceil(-math.Log10(e))), -exponent(v))
	s.Places = min(s.Places, max(places, 0))
	return s
}

// Scale fits all values and bounds of a measure in a scenario, and tells each value from its bound. A cavity, whose errors are often of its own size, has no more
// decimals than the least of them leaves.
func (sc *ScenarioOutcomes) Scale(m Measure, system quantity.System) Scale {
	var values []float64
	var verdicts []Verdict
	for k := range sc.Outcomes {
		o := &sc.Outcomes[k]
		if x := m.Get(o); exists(x) {
			values = append(values, x.SI)
		}
		for _, v := range o.Verdicts {
			if v.Measure == m.Key {
				values, verdicts = append(values, v.Bound), append(verdicts, v)
			}
		}
	}
	s := NewScale(m.Dimension, system, values...)
	if m.Dimension == quantity.Number && !slices.ContainsFunc(values, func(x float64) bool { return x != math.Trunc(x) }) {
		s.Places = 0 // a count
	}
	if m.Key == keyCavity {
		s = sc.asSure(s)
	}
	for _, v := range verdicts {
		s = s.Apart(v.Value, v.Bound)
	}
	return s
}

// asSure is the scale of the cavities with the decimals that the surest of them deserves.
func (sc *ScenarioOutcomes) asSure(s Scale) Scale {
	out, found := s, false
	for k := range sc.Outcomes {
		o := &sc.Outcomes[k]
		if !exists(o.CavityMax) {
			continue
		}
		w := s.Within(o.Errors[keyCavity], o.CavityMax.SI)
		if !found || w.Places > out.Places {
			out, found = w, true
		}
	}
	return out
}
