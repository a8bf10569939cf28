package valve

// Origin tells where a datum comes from.
type Origin string

const (
	Given     Origin = "given"     // by the user
	Default   Origin = "default"   // of the program, the same for every size
	Catalogue Origin = "catalogue" // generic data of the family and size
	Estimated Origin = "estimated" // calculated from other data
)

// Spec is what the user said about a valve.
type Spec struct {
	Name   string
	Type   string             // family of the catalogue
	Size   float64            // nominal bore, m
	Set    map[string]float64 // data in place of the catalogue's, by key, SI
	Tables map[string]Points  // tables by key
	Source string             // where the data stand, in words, when they are another valve's; "": with its name
	Tests  []TestPoint        // results of tests of this valve, or of a similar one

	Spring float64 // factor on preload and rate of its springs; 0: they are as the data say

	Failure Failure // the part that has failed; Sound: none
	Of      string  // name of the sound candidate that this is a failure of
}

// Points are the rows of a table: opening, a fraction of the travel, and the value there.
type Points struct {
	Opening []float64
	Value   []float64
}

// Datum is one number behind a valve, for the record.
type Datum struct {
	Key    string
	Label  string
	Value  float64
	Unit   string // SI
	Word   string // in place of the value, where only words have a meaning; else ""
	Origin Origin
	Status string  // how well it is known, or its source
	Spread float64 // fraction by which it may differ either way; 0 unknown, or known as given
}

// Valve is a check valve ready to run, with the record of its data.
type Valve struct {
	Name             string
	Type             string
	Bore             float64 // m
	Density          float64 // of the fluid, kg/m3
	Motion           Motion
	Travel           float64 // rad or m; 1 for a valve without a disc
	Reach            float64 // speed of the fastest point of the disc per unit rate: m for a hinged disc, 1 for a lift, 0 without a disc
	LossOpen         float64 // zeta on the stop
	FullOpenVelocity float64 // steady velocity at which the disc reaches its stop as the flow rises, m/s
	SeatLeak         float64 // conductance of the shut seat by its leakage, given or guessed; negative: not known
	PriceRatio       float64 // to a plain swing valve of the same size
	Data             []Datum
	Warnings         []string
}
