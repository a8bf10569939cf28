// Package network describes an installation as the engineer sees it: reservoirs, pipes, pump stations with their check valves,
// throttling valves, demands, and the events that disturb them. Everything is SI: m, m3/s, Pa, rad/s, kg·m2, s.
//
// The installation is a graph. A node exists by being named at the end of a pipe, station or throttling valve; a reservoir fixes the
// head of its node. Heads are piezometric, measured from the same datum as elevations, so that the gauge pressure at a
// point of elevation z is
//
//	p = rho g (H - z)
//
// with rho the density, kg/m3, and g gravity, m/s2. The package holds data and checks it; it solves nothing.
package network

import (
	"seatwise/network/fluid"
	"seatwise/network/pump"
)

// Gravity is the standard acceleration of free fall, m/s2 (exact by definition, ISO 80000-3).
const Gravity = 9.80665

// Network is one installation.
type Network struct {
	Fluid       fluid.Fluid
	Atmosphere  float64 // absolute pressure of the surroundings, Pa
	Gravity     float64 // m/s2; 0 means [Gravity]
	Reservoirs  []Reservoir
	Demands     []Demand
	DeadEnds    []string // nodes that end blind on purpose
	Pipes       []Pipe
	Stations    []Station
	CheckValves []CheckValve
	Devices     []Device
	Throttles   []Throttle
}

// G returns the gravity in force, m/s2.
func (n *Network) G() float64 {
	if n.Gravity == 0 {
		return Gravity
	}
	return n.Gravity
}

// Reservoir holds the head of its node.
type Reservoir struct {
	Name  string  // name of the node
	Level float64 // head, m
	// Levels is the head against time where it changes, in place of Level: linear between points, constant outside, a jump where two points
	// have the same time.
	Levels []Level
}

// Level is a point of a reservoir's head against time.
type Level struct {
	Time float64 // s from the start of the run
	Head float64 // m
}

// Head is the head at a time, m; at the time of a jump the value before it.
func (r *Reservoir) Head(t float64) float64 {
	s := r.Levels
	if len(s) == 0 {
		return r.Level
	}
	if t <= s[0].Time {
		return s[0].Head
	}
	for i := 1; i < len(s); i++ {
		if t <= s[i].Time {
			a, b := s[i-1], s[i]
			return a.Head + (b.Head-a.Head)*(t-a.Time)/(b.Time-a.Time)
		}
	}
	return s[len(s)-1].Head
}

// CheckValve is a check valve that stands alone, not in a station.
type CheckValve struct {
	Name, From, To string
	Elevation      float64 // of its centre line, m
	Slope          float64 // upward slope of the pipe at the valve, rad
	CheckValve     string  // name of a valve of the case; "" is the candidate under comparison
	Upstream       Upstream
}

// Upstream is a fitting in the pipe upstream of a check valve. It stirs the flow at the disc; its loss is none of ours.
type Upstream struct {
	Fitting  string  // one that package sizing knows; "": none is known
	Distance float64 // of straight pipe between fitting and valve, m
}

// Demand takes a constant flow out of a node.
type Demand struct {
	Node string
	Flow float64 // m3/s, positive out of the network
}

// Point is a point of a pipe's profile.
type Point struct {
	Chainage  float64 // distance along the pipe from its From end, m
	Elevation float64 // of the centre line, m
}

// Pipe is a pipe of one bore and wall, elastic but for its creep.
type Pipe struct {
	Name, From, To string
	Bore           float64   // inside diameter, m
	WaveSpeed      float64   // m/s
	Creep          Creep     // of a plastic wall; none: elastic
	Roughness      float64   // equivalent sand roughness, m
	FrictionFactor float64   // Darcy; 0: from the roughness and the steady Reynolds number
	MinorLoss      float64   // sum of loss coefficients on the bore's velocity head, spread along the pipe with the friction
	Profile        []Point   // at least two, chainage increasing from 0
	Bends          []float64 // chainages, m; see [Runs]
}

// Length is the chainage of the last point, m.
func (p *Pipe) Length() float64 { return p.Profile[len(p.Profile)-1].Chainage }

// Branch is the pipe between a unit and the node that its station delivers to, one per unit.
type Branch struct {
	Length, Bore, WaveSpeed, Roughness, FrictionFactor, MinorLoss float64   // as in Pipe
	Bends                                                         []float64 // as in Pipe
	Creep                                                         Creep
}

// Suction is the elastic column of liquid between a unit's pump and its check valve. It stands for the inertia of the liquid in pump
// and suction: a rigid column that a disc can stop within a step would give a pressure that depends on the step.
type Suction struct {
	Length    float64 // m; 0: none
	Bore      float64 // m
	WaveSpeed float64 // m/s
}

// Station is a number of identical units (pump with its own check valve, and branch) between two nodes.
type Station struct {
	Name, From, To string
	Units          int
	Stopped        int     // units that stand still at the start of the run, the last ones
	Elevation      float64 // of the valves' centre line, m
	Pump           pump.Spec
	Column         Suction // `water length`
	Branch         *Branch // nil: the valve sits at the node To
	CheckValve     string  // name of a valve of the case; "" is the candidate under comparison
	Slope          float64 // upward slope of the pipe at the valve, rad
	Upstream       Upstream
}

// Finding is one thing wrong, or worth knowing, in the data of an installation.
type Finding struct {
	Path    string // in the words of a case file, e.g. "pipes.rising-main.bore"
	Text    string // what is wrong
	Hint    string // what to do; may be empty
	Warning bool   // worth knowing but no error
}
