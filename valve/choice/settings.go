package choice

import (
	"errors"
	"runtime"
	"seatwise/moc"

	"seatwise/network/quantity"
)

// ErrCase is the class of errors in a case that cannot be compared.
var ErrCase = errors.New("choice: the case cannot be compared")

// Settings says how a case is compared. The zero value is the default of every field.
type Settings struct {
	Workers     int             // runs at the same time; 0: one per processor. Results do not depend on it
	GridsAtMost int             // time steps tried per candidate and scenario, 1 to 3; 0: 3. With 1 there is no error estimate
	Units       quantity.System // of the numbers in reasons, warnings and places
	Progress    func(done float64)
}

func (s Settings) workers() int {
	if s.Workers > 0 {
		return s.Workers
	}
	return runtime.GOMAXPROCS(0)
}

func (s Settings) grids() int {
	if s.GridsAtMost == 0 {
		return 3
	}
	return min(max(s.GridsAtMost, 1), 3)
}

// write is a quantity in the reader's units, with three significant digits as in the tables and no zeros behind them.
func (s Settings) write(si float64, d quantity.Dimension) string {
	return NewScale(d, s.Units, si).Bare().With(si)
}

// say writes sentences in the reader's units.
func (s Settings) say(all []quantity.Sentence) []string {
	var out []string
	for _, one := range all {
		out = append(out, one.In(s.Units))
	}
	return out
}

// Frictions are the forms of unsteady friction that a case may ask for.
func Frictions() []moc.Friction { return moc.Frictions() }

// CavityForms are the forms of cavities that a case may ask for.
func CavityForms() []moc.Cavities { return moc.CavityForms() }
