package quantity

import (
	"fmt"
	"slices"
	"strings"
)

// Unit is one unit of one dimension.
type Unit struct {
	Symbol   string    // as written in output; empty for plain numbers
	Dim      Dimension // what it measures
	Absolute bool      // an absolute pressure: "bar abs"

	num, den float64 // size in SI
	offset   float64 // in the unit, added before scaling
	gauge    bool    // a pressure that says it is gauge: "barg"
}

// To converts a value in the unit to SI. A zero loses its sign.
func (u Unit) To(value float64) float64 { return (value + u.offset) * u.num / u.den }

// From converts an SI value to the unit.
func (u Unit) From(si float64) float64 { return si*u.den/u.num - u.offset }

// name is the symbol, or a word when there is none.
func (u Unit) name() string {
	if u.Symbol == "" {
		return "none (a plain number)"
	}
	return u.Symbol
}

// Units returns the units of dimension d, each once, in the order of the table.
func Units(d Dimension) []Unit {
	var all []Unit
	for _, s := range index[dimensionTable[d].units].spellings {
		listed := s.text == s.unit.Symbol && (!s.unit.Absolute || d == Pressure)
		if u, problem := as(s.unit, d); listed && problem == "" {
			all = append(all, u)
		}
	}
	return all
}

// measured are the dimensions of SI units in which data are stated. A pressure in Pa is a difference.
var measured = map[string]Dimension{
	"m": Length, "m2": Area, "m3": Volume, "s": Time, "m/s": Velocity, "m/s2": Acceleration, "m3/s": Flow, "kg": Mass, "kg/m3": Density, "rad": Angle, "Pa": PressureDifference,
	"N": Force, "N·m": Torque, "N/m": SpringRate, "N·m/rad": TorsionRate, "kg·m2": Inertia, "N·s/m": Damping, "N·m·s/rad": TorsionalDamping,
}

// Measured is the dimension of a datum stated in an SI unit, where the unit tells it.
func Measured(unit string) (Dimension, bool) {
	d, ok := measured[unit]
	return d, ok
}

// ParseUnit reads a unit alone, as in the header of a column. An error is
// always an *Error.
func ParseUnit(text string, want Dimension) (Unit, error) {
	if at := gd2At(text); at >= 0 {
		return Unit{}, gd2Error(text, at)
	}
	if len(text) > longestText {
		return Unit{}, &Error{Text: text, Msg: "the text is too long for a unit", Hint: "e.g. " + want.Example()}
	}
	u, err := unitAt(text, len(text)-len(skipSpace(text)), want)
	if err != nil {
		return Unit{}, err
	}
	return u, nil
}

// unitAt reads the unit that begins at byte offset at and ends the text.
func unitAt(text string, at int, want Dimension) (Unit, error) {
	spelling := normalise(text[at:])
	if u, ok := index[dimensionTable[want].units].find(spelling); ok {
		u, problem := as(u, want)
		if problem != "" {
			return Unit{}, &Error{Text: text, Offset: at, Msg: Quote(text) + " " + problem, Hint: "e.g. " + want.Example()}
		}
		return u, nil
	}
	if spelling == "" {
		return Unit{}, &Error{Text: text, Offset: len(text),
			Msg:  fmt.Sprintf("%s has no unit, %s is wanted", Quote(text), want.article()),
			Hint: "write " + strings.TrimSpace(Printable(strings.TrimFunc(text, isSpace))+want.exampleUnit())}
	}
	for d := range dimensions {
		if u, ok := index[d].find(spelling); ok {
			if u.Absolute {
				d = AbsolutePressure
			}
			return Unit{}, &Error{Text: text, Offset: at,
				Msg:  fmt.Sprintf("%s is %s, %s is wanted", Quote(text), d.article(), want.article()),
				Hint: "e.g. " + want.Example()}
		}
	}
	if r, ok := refused[strings.ToLower(strings.ReplaceAll(spelling, " ", "·"))]; ok {
		return Unit{}, &Error{Text: text, Offset: at, Msg: r.msg, Hint: r.hint}
	}
	return Unit{}, &Error{Text: text, Offset: at,
		Msg:  "unknown unit " + Quote(text[at:]),
		Hint: index[dimensionTable[want].units].nearest(spelling, want)}
}

// as gives unit u the meaning it has where dimension d is wanted, or says why
// it has none.
func as(u Unit, d Dimension) (Unit, string) {
	u.Dim = d
	switch d {
	case AbsolutePressure:
		if u.gauge {
			return u, "is a gauge pressure, an absolute pressure is wanted"
		}
		if !u.Absolute {
			u.Absolute, u.Symbol = true, u.Symbol+" abs"
		}
	case PressureDifference, Modulus:
		if u.gauge || u.Absolute {
			return u, "is a pressure level, " + d.article() + " is wanted"
		}
	case TemperatureDifference:
		u.offset = 0
	}
	return u, ""
}

// spelling is one way to write a unit, normalised.
type spelling struct {
	text string
	unit Unit
}

// lexicon holds the spellings of one dimension's units.
type lexicon struct {
	spellings []spelling // in the order of the table, symbol first
	byText    map[string]Unit
}

func (l lexicon) find(text string) (Unit, bool) {
	u, ok := l.byText[text]
	if !ok { // "kg m2": a space stands for the product
		u, ok = l.byText[strings.ReplaceAll(text, " ", "·")]
	}
	return u, ok
}

var index = buildIndex(unitTable)

// buildIndex expands the table. Pressures get their gauge and absolute forms.
func buildIndex(table []entry) (index [dimensions]lexicon) {
	for d := range index {
		index[d].byText = map[string]Unit{}
	}
	for _, e := range table {
		l := &index[e.dim]
		u := Unit{Symbol: e.symbol, Dim: e.dim, num: e.num, den: e.den, offset: e.offset}
		texts := slices.Concat([]string{e.symbol}, e.also)
		l.add(u, texts...)
		if e.dim != Pressure {
			continue
		}
		absolute, gauge := u, u
		absolute.Absolute, absolute.Symbol = true, e.symbol+" abs"
		gauge.gauge = true
		for _, t := range texts {
			l.add(absolute, t+" abs", t+" absolute", t+"(abs)", t+" a", t+"a", t+"(a)")
			l.add(gauge, t+" gauge", t+"(gauge)", t+" g", t+"g", t+"(g)")
		}
	}
	return index
}

func (l *lexicon) add(u Unit, texts ...string) {
	for _, t := range texts {
		l.spellings = append(l.spellings, spelling{t, u})
		l.byText[t] = u
	}
}
