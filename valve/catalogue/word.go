package catalogue

import "math"

// Word is a name for a value of a datum, for the case file.
type Word struct {
	Text  string
	Value float64 // SI
}

// words are those of all data that have some.
var words = map[string][]Word{
	"hinge pin": {{"vertical", 0}, {"horizontal", math.Pi / 2}},
}

// Words are the names that values of the datum have; most have none.
func (k Key) Words() []Word { return words[k.Name] }
