package sizing

// Fitting is what stands in the pipe upstream of a check valve and stirs the flow that meets the disc.
type Fitting struct {
	Name string
	Run  float64 // straight run wanted behind it, bores
}

// fittings with the straight run wanted: five bores in general (common practice), ten behind a pump, a control valve and two bends out of plane (US nuclear
// application guideline EPRI NP-5479, from memory) and behind an orifice plate, which makes a jet as well (common practice).
var fittings = []Fitting{
	{"bend", 5}, {"tee", 5}, {"reducer", 5}, {"expander", 5}, {"isolating valve", 5},
	{"two bends out of plane", 10}, {"pump", 10}, {"control valve", 10}, {"orifice plate", 10},
}

// Fittings are those that are known.
func Fittings() []Fitting { return append([]Fitting(nil), fittings...) }

// FittingOf is the fitting of a name. False: it is not known.
func FittingOf(name string) (Fitting, bool) {
	for _, f := range fittings {
		if f.Name == name {
			return f, true
		}
	}
	return Fitting{}, false
}

// Bounds of the margin that a disc needs behind a fitting too near (common practice: the least velocity is raised by 1.2 to 1.5).
const (
	mostNeeded  = 1.5 // right at the valve
	leastNeeded = 1.2 // just short of the straight run wanted
)

// Needed is the full-open margin that a disc needs at x bores behind the fitting to stay on its stop: 1 from the straight run x_w upwards, below it
//
//	n = 1.5 - 0.3 x/x_w
//
// The trade gives the range of 1.2 to 1.5 alone. That the greater end is at the valve and that it falls evenly to the lesser one is this program's choice.
func (f Fitting) Needed(x float64) float64 {
	if x >= f.Run {
		return Held
	}
	return mostNeeded - (mostNeeded-leastNeeded)*x/f.Run
}
