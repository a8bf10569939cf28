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
	// Leakage in the seat test with liquid, mm3/s per mm of nominal bore (ISO 5208, from memory; in proportion they agree with a published comparison
	// in drops). A is no visible leakage.
	leakageClass:   {{"A", 0}, {"B", 0.01}, {"C", 0.03}, {"D", 0.1}, {"E", 0.3}, {"F", 1}, {"G", 2}},
	decelerationIs: {{"at reversal", atReversal}, {"closing", overClosing}},
	seatKind:       {{seats[soft].name, soft}, {seats[hard].name, hard}},
}

// Words are the names that values of the datum have; most have none.
func (k Key) Words() []Word { return words[k.Name] }

// Word is the word for a value, or "".
func (k Key) Word(value float64) string {
	for _, w := range k.Words() {
		if w.Value == value {
			return w.Text
		}
	}
	return ""
}

// Named tells that a datum has no other values than its words.
func (k Key) Named() bool { return k.Name == seatKind || k.Name == decelerationIs }
