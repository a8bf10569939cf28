package moc

import (
	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// Problem is the question: an installation, its check valves and what happens to it.
type Problem struct {
	Network *network.Network
	Valves  []valve.Valve // one per station, then one per check valve that stands alone, in the order of the Network
	Events  []network.Event
	Until   float64 // end of the run, s; 0: until the discs are seated and the waves have had their say
}

// Settings says how the question is solved. The zero value is the default of every field.
type Settings struct {
	Step             float64  // time step wanted, s; 0: chosen from the reaches wanted
	Halvings         int      // times the step is halved, doubling the reaches of every pipe
	ReachesAtValve   int      // least reaches of a pipe that touches a check valve; 0: 4
	ReachesInLongest int      // least reaches of the longest pipe; 0: 100
	Friction         Friction // how the wall resists unsteady flow
	Liquid           bool     // never form cavities: for checks against closed forms that go below vapour head
	Cavities         Cavities // what the cavities hold that form near vapour head
	GasFraction      float64  // free gas at atmospheric pressure in gas cavities; 0: 1e-7
	Samples          int      // most steps kept in the histories, some thousands at the least; 0: 200 000, or fewer so that all histories hold 5e7 values
	AlwaysOpen       bool     // hold every disc of the tripped units at its steady opening: the installation's own deceleration
	Progress         func(done float64)
	Observer         Observer // sees every step; nil: none
}

// Result is the answer.
type Result struct {
	Steady *Steady
	// Time is that of the histories, s from 0: every step, or of a run of more steps than [Settings].Samples a part of them, which
	// holds the extremes of every series and every step around the events and the first reversals and seatings.
	Time     []float64
	Bin      float64 // s of which the histories hold a part of the steps, see Time; 0: they hold every step
	Units    []UnitTrace
	Pipes    []PipeTrace // without the columns that stand for the liquid in pump and suction
	Nodes    []NodeTrace
	Forces   []ForceTrace  // on the straight runs of the pipes with bends
	Columns  []ColumnTrace // on the pump side of check valves, where cavities formed
	Numerics Numerics
	Warnings []quantity.Sentence
}

// UnitTrace is the story of one unit: its pump and its check valve.
type UnitTrace struct {
	Station string
	Unit    int     // from 1
	Tripped float64 // time of its trip, s; negative: it runs on
	Bore    float64 // of the valve, m
	// Series at Result.Time.
	Flow          []float64 // through the valve, m3/s
	Opening       []float64 // fraction of travel
	Drop          []float64 // pressure drop over the valve, Pa
	HeadUp        []float64 // piezometric head at the upstream face, m
	HeadDown      []float64 // at the downstream face, m
	Speed         []float64 // of the pump, rad/s
	Power         []float64 // at the shaft, W; Speed and Power are empty for a check valve that stands alone
	Seatings      []Seating // the first 1024
	PipeBore      float64   // bore of the pipe on the downstream face that a closing valve stops, m; 0: no single pipe
	PipeWaveSpeed float64   // m/s
}

// Seating is one arrival of the disc on its seat.
type Seating struct {
	Time     float64 // s
	Velocity float64 // bore velocity just before, m/s; negative is reverse
	Speed    float64 // rate of the disc just before, |dY/dt|, rad/s or m/s
	Opening  float64 // largest opening since the seating before, fraction of travel
	Rise     float64 // jump of the piezometric head at the downstream face over the seating, m
	Taken    float64 // deceleration by which a measured valve chose the velocity, m/s2; 0 for a disc
}

// PipeTrace is a pipe's profile and envelope. Branches are named by [Part].
type PipeTrace struct {
	Name                  string
	From, To              string    // nodes
	Bore, WaveSpeed, Step float64   // m, m/s, and reach length m
	Chainage              []float64 // of the nodes, on the given length, m; of the summit or sag between two nodes that one stands for
	Elevation             []float64 // there, m
	Top, Bottom           []float64 // highest and lowest points that the nodes stand for, m: those of the least and of the greatest pressure
	Steady                []float64 // head, m
	Max, Min              []float64 // head, m
	MaxTime               []float64 // s
	MinTime               []float64
	MaxCavity             []float64 // largest cavity volume at each node, m3; nil when the liquid kernel sufficed
	MaxCavityTime         []float64 // s
}

// NodeTrace is the history of a named node.
type NodeTrace struct {
	Name      string
	Elevation float64
	Head      []float64 // m, at Result.Time
}

// ForceTrace is the unbalanced axial force of the liquid on a straight run of pipe, the change from steady flow: what its anchors and guides must hold. It is
// positive towards the pipe's To end. The impulse is that of the pulse that holds the peak: until the force
// has changed its sign or fallen below a tenth of the peak. Branches are named by [Part].
type ForceTrace struct {
	Pipe                   string
	FromNode, ToNode       string    // the nodes at the ends of the pipe
	From, To               float64   // chainage of the ends of the run as given, m; on the grid they are at [EndNodes]
	Area                   float64   // of the bore, m2
	Force                  []float64 // N, at Result.Time
	Max, Min               float64   // N
	MaxTime, MinTime       float64   // s
	MaxImpulse, MinImpulse float64   // N s
}

// ColumnTrace is the liquid in pump and suction of a unit. It is modelled as one column, so its cavities and pressures are an order of magnitude.
type ColumnTrace struct {
	Station string
	Unit    int
	Cavity  float64 // largest cavity at a node, m3
	Highest float64 // highest pressure head above the valve, m
}

// Numerics is how the answer was reached.
type Numerics struct {
	Step             float64 // s
	StepFrom         string  // what decided it
	Steps            int
	Nodes            int
	Reaches          map[string]int
	LengthChangeMax  float64 // greatest relative change of a pipe's length
	LengthChangePipe string
	FastCreep        []FastCreep
	Short            []string // pipes of a single reach at the whole step: waves inside them are not resolved
	VolumeResidual   float64  // of the volume passed
	CavityFrom       float64  // s from which the first pipe could part in cavities; negative: none did
	Kernel           string   // "liquid (AVX2)" or "liquid (AVX2); from 1.23 s gas cavities in 2 of 7 pipes"; results of different kernels differ by rounding
	Iterations       int      // Newton iterations in all clusters
}
