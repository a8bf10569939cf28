package casefile

import (
	"math"
	"slices"

	"seatwise/network/quantity"
	"seatwise/valve/catalogue"
)

// survey notes what the readers ask for while they read: every key, the ways in which its value may be written, whether it was missed. What a case
// file may hold is known from it and from nothing else. A nil survey notes nothing.
type survey struct {
	asked    map[string][]string // keys of a mapping by its path, in the order of asking
	forms    map[string][]shape  // of a value, by its path
	missed   map[string]string   // keys that must be there and are not, by their paths, and what might be written
	clashes  map[string]bool     // keys that cannot stand beside another that is there, by their paths
	closed   map[string]bool     // mappings in which any other key is unknown, by their paths
	defaults map[string]string   // by path
	helps    map[string]string   // by path
}

func newSurvey() *survey {
	return &survey{asked: map[string][]string{}, forms: map[string][]shape{}, missed: map[string]string{}, clashes: map[string]bool{}, closed: map[string]bool{}, defaults: map[string]string{}, helps: map[string]string{}}
}

// formKind is how a value is written.
type formKind uint8

const (
	isText    formKind = iota
	isWord             // one of some words, in the case of letters as they stand
	isCount            // a whole number, without a unit
	isFigure           // a number with its unit
	isDatum            // a number with an SI unit that has no dimension of its own
	isTable            // rows of figures, in one of three forms
	isList             // items, whose own forms are those of path[1]
	isMapping          // keys
	isNamed            // things by their names
	isSize             // a nominal size
)

// shape is one way in which a value may be written.
type shape struct {
	kind    formKind
	dim     quantity.Dimension // of a figure
	unit    string             // SI, of a datum of a check valve
	low     float64            // least value of a figure, SI, and whether it is itself too low
	above   bool
	high    float64
	words   []string
	free    bool // any other text does as well as the words
	columns []column
	most    int // named things, at most; 0: no bound
	help    string
}

func figureOf(d quantity.Dimension) shape {
	return shape{kind: isFigure, dim: d, low: math.Inf(-1), high: math.Inf(1)}
}

func (v *survey) key(mapping, key string) {
	if v != nil && !slices.Contains(v.asked[mapping], key) {
		v.asked[mapping] = append(v.asked[mapping], key)
	}
}

// form notes a way in which a value may be written. A later bound on a figure narrows an earlier one.
func (v *survey) form(path string, f shape) {
	if v == nil {
		return
	}
	for i := range v.forms[path] {
		g := &v.forms[path][i]
		if g.kind == isFigure && g.dim == quantity.Fraction && f.kind == isFigure && f.dim == quantity.Number { // a ratio, written as a number
			return
		}
		if g.kind != f.kind || g.dim != f.dim || f.kind == isDatum && g.unit != f.unit {
			continue
		}
		if f.low > g.low || f.low == g.low && f.above {
			g.low, g.above = f.low, f.above
		}
		g.high = min(g.high, f.high)
		if g.help == "" {
			g.help = f.help
		}
		return
	}
	v.forms[path] = append(v.forms[path], f)
}

// text notes that a value is a text, unless something better is known of it.
func (v *survey) text(path string) {
	if v != nil && len(v.forms[path]) == 0 {
		v.form(path, shape{kind: isText})
	}
}

// help notes what a value is.
func (v *survey) help(path, text string) {
	if v != nil {
		v.helps[path] = text
	}
}

// datum notes the forms of a datum of a check valve.
func (v *survey) datum(path string, k catalogue.Key) {
	if v == nil {
		return
	}
	v.help(path, k.Help)
	var words []string
	for _, w := range k.Words() {
		words = append(words, w.Text)
	}
	if len(words) > 0 {
		v.form(path, shape{kind: isWord, words: words})
	}
	f := shape{kind: isFigure, dim: quantity.Fraction, unit: k.Unit, low: k.Min, high: k.Max}
	if d, ok := quantity.Measured(k.Unit); ok {
		f.dim = d
	} else if k.Unit != "1" {
		f.kind, f.dim = isDatum, quantity.Number
	}
	v.form(path, f)
}

func (v *survey) miss(path, example string) {
	if v != nil {
		v.missed[path] = example
	}
}

func (v *survey) clash(path string) {
	if v != nil {
		v.clashes[path] = true
	}
}

func (v *survey) close(mapping string) {
	if v != nil {
		v.closed[mapping] = true
	}
}

// usual notes what holds where the file does not say.
func (v *survey) usual(path, text string) {
	if v != nil && v.defaults[path] == "" {
		v.defaults[path] = text
	}
}
