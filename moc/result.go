package moc

import (
	"seatwise/network"
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
	Step             float64 // time step wanted, s; 0: chosen from the reaches wanted
	Halvings         int     // times the step is halved, doubling the reaches of every pipe
	ReachesAtValve   int     // least reaches of a pipe that touches a check valve; 0: 4
	ReachesInLongest int     // least reaches of the longest pipe; 0: 100
	Liquid           bool    // never form gas cavities: for checks against closed forms that go below vapour head
	GasFraction      float64 // free gas at atmospheric pressure in the gas-cavity kernel; 0: 1e-7
	AlwaysOpen       bool    // hold every disc of the tripped units at its steady opening: the installation's own deceleration
	Progress         func(done float64)
}

// Result is the answer.
type Result struct {
	Steady   *Steady
	Time     []float64 // s, every step from 0
	Units    []UnitTrace
	Pipes    []PipeTrace // without the columns that stand for the liquid in pump and suction
	Nodes    []NodeTrace
	Numerics Numerics
	Warnings []string
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
	Seatings      []Seating
	PipeBore      float64 // bore of the pipe on the downstream face that a closing valve stops, m; 0: no single pipe
	PipeWaveSpeed float64 // m/s
}

// Seating is one arrival of the disc on its seat.
type Seating struct {
	Time     float64 // s
	Velocity float64 // bore velocity just before, m/s; negative is reverse
	Speed    float64 // rate of the disc just before, |dY/dt|, rad/s or m/s
	Opening  float64 // largest opening since the seating before, fraction of travel
	Rise     float64 // jump of the piezometric head at the downstream face over the seating, m
}

// PipeTrace is a pipe's profile and envelope. Branches are named station-unit-branch.
type PipeTrace struct {
	Name                  string
	From, To              string    // nodes
	Bore, WaveSpeed, Step float64   // m, m/s, and reach length m
	Chainage              []float64 // of the nodes, on the given length, m
	Elevation             []float64
	Steady                []float64 // head, m
	Max, Min              []float64 // head, m
	MaxTime               []float64 // s
	MinTime               []float64
	MaxCavity             []float64 // largest cavity volume at each node, m3; nil when the liquid kernel sufficed
}

// NodeTrace is the history of a named node.
type NodeTrace struct {
	Name      string
	Elevation float64
	Head      []float64 // m, at Result.Time
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
	VolumeResidual   float64 // of the volume passed
	Kernel           string  // "liquid" or "liquid, gas cavities from 1.23 s"
	Iterations       int     // Newton iterations in all clusters
}
