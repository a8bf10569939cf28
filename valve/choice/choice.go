package choice

import (
	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/service"
)

// Case is the engineer's question: one installation, the check valves under comparison, what happens and what is allowed.
type Case struct {
	Name        string // of the file, without its ending; names the output folder
	Title       string
	Note        string
	Example     bool // a built-in example: marked "example, not your installation" wherever it is shown
	Candidates  []valve.Spec
	Valves      map[string]valve.Spec // check valves named by stations
	Scenarios   []Scenario            // the first is "base"; at least one
	Until       float64               // s; 0: chosen
	Friction    moc.Friction          // how the wall of the pipes resists unsteady flow
	Cavities    moc.Cavities          // how the liquid parts where it boils
	Limits      Limits
	Service     service.Service
	Economics   *Economics // nil: none, candidates are weighed by price ratio
	Duty        *Duty      // nil: none is given
	Assumptions []string   // every default that the reader put in, in words
	Warnings    []string   // worth knowing about the data
	Inputs      []string   // names of the files read, from the folder of the case, the case first
	InputSHA256 string     // over every file read
}

// Scenario is one course of events in one installation.
type Scenario struct {
	Name    string
	Network *network.Network
	Events  []network.Event // empty: a steady comparison
}

// Limits are what the line may bear. nil: no such limit.
type Limits struct {
	DesignPressure   *float64 // Pa gauge
	SurgeAllowance   *float64 // fraction of the design pressure that a surge may add; nil: none
	Rule             *Rule    // where the surge allowance is from, which is that of the rule; nil: given as a figure
	MinimumPressure  *float64 // Pa gauge
	VapourMargin     *float64 // m of head above that of vapour, at the least
	ReverseVelocity  *float64 // m/s
	PumpReverseSpeed *float64 // rad/s, greatest reverse speed
	ReverseVolume    *float64 // m3
	HeadLoss         *float64 // m, over the valve in steady flow
	AnchorForce      *float64 // N, along the axis of any straight run of pipe
	SlamClass        string   // the hardest allowed, one of [SlamClasses] but the last; "": no such limit
	SlamBounds       SlamBounds
	Margin           float64 // fraction of every limit that is to be kept to spare
}

// Value is a measured figure, or the reason why there is none.
type Value struct {
	SI     float64
	Reason string // not empty: the value does not exist
}

// Better tells which way a measure is better.
type Better uint8

const (
	Neither Better = iota
	Lower
	Higher
)

// Measure is one row of the comparison. One table of measures per service makes terminal table, JSON, CSV and key reference.
type Measure struct {
	Key       string // in summary.json, SI unit in the key
	Label     string // on screen and in reports
	Dimension quantity.Dimension
	Better    Better
	Rank      Rank // how prominent
	Get       func(*Outcome) Value
	Meaning   string // definition, to stand behind the label
}

// Rank is how prominent a measure is.
type Rank uint8

const (
	Main   Rank = iota // in the terminal table
	Seldom             // in the terminal table when a candidate has one
	Detail             // in files, and in the terminal table when a limit concerns it
)

// Outcome is one candidate in one scenario. Plots need no solver: series and profiles ride along.
type Outcome struct {
	Candidate string
	Type      string
	Scenario  string
	Valve     valve.Valve

	InitialFlow, InitialVelocity, OpeningFraction, HeadLoss        Value
	SeatImpactEnergy                                               Value // of the disc and the liquid that moves with it
	OpenMargin                                                     Value // velocity before the event over the full-open velocity
	Deceleration, ClosingDeceleration                              Value // of this candidate, see Measures
	MaxReverseVelocity, ReverseVelocityError, LaterReverseVelocity Value
	Reopenings, ReverseVolume                                      Value
	Rebound, LeakFlow                                              Value // greatest opening after the first seating; through the seat at the end
	ClosingStart, Seated, SeatImpactSpeed, SlamPressureRise        Value
	PeakPressure, PeakError, PeakTime                              Value
	MinPressure, CavityMax                                         Value
	AnchorForce, AnchorForceError, AnchorForceTime, AnchorImpulse  Value // of the hardest loaded straight run
	SpeedRatioAtReversal, MaxReverseSpeed                          Value
	RunOutFlow, RunOutPower                                        Value // of a unit left running, at the end of the run
	SteadyPressure                                                 Value // highest in steady flow
	VapourMargin                                                   Value // least head above that of vapour
	TimeAbove, TimeAboveYear                                       Value // above the design pressure at the worst place, in one event and a year
	PeakNode, MinNode                                              string
	AtVapour                                                       bool // a cavity formed where the pressure is lowest
	PriceRatio                                                     Value

	ownLoss float64 // m, head loss of the watched valve; 0: not known

	err    error  // behind Failed
	Failed string // not empty: why this candidate has no results here
	// Unseated is not empty when the run ends before the disc seats that the trip sends there, and says so. What was seen of it until then is no
	// measure of the valve: it has no verdict and cannot be recommended.
	Unseated string
	Errors   map[string]float64 // numerical error estimate by key of the measure, in its SI unit; absent: none
	// GasErrors are the parts of Errors that come from the free gas assumed in cavities; nil: none formed, or it was not looked at.
	GasErrors map[string]float64
	Spots     map[string]Spot    // where and when a measure was taken, by key
	exceeded  map[string]float64 // by key, when the watched valve itself first breaks the limit, s; negative: it does not
	settling  float64            // four wave periods 4 L/a of the longest pipe, s
	gamma     float64            // specific weight of the liquid, N/m3
	slam      SlamBounds
	swing     struct{ rise, fall float64 } // Pa, of the extremes above and below the steady pressure at their places

	Verdicts  []Verdict
	LimitsMet *bool // nil: no limits given

	EventTime float64 // s, first event; negative: none
	Watched   string  // which valve the measures of the closing and the series are of, e.g. "lift, unit 1"
	History   []Series
	Time      []float64     // s
	Route     []Profile     // from the valve that RouteFrom names to the far reservoir, in order
	RouteFrom string        // the first to trip, whatever the candidate; else the first
	Runs      []StraightRun // of all pipes and branches with bends
	Warnings  []string
	Numerics  Numerics
}

// Spot is a place and a time.
type Spot struct {
	Place string
	Time  float64 // s; negative: none
}

// Series is a history at Outcome.Time. Keys: "velocity" (m/s on the valve's bore), "opening" (fraction), "pressure_down", "pressure_up"
// (Pa gauge at the valve's faces), "drop" (Pa), "speed" (rad/s of the pump), "flow" (m3/s).
type Series struct {
	Key, Label string
	Dimension  quantity.Dimension
	Values     []float64
}

// Profile is a stretch of the route with its gradient lines. Chainage goes on from one profile to the next.
type Profile struct {
	Pipe                                         string
	Chainage, Elevation, Steady, Lowest, Highest []float64 // m
	Cavity                                       []float64 // largest cavity, m3; nil: none
}

// Verdict holds one measure of one candidate against one limit.
type Verdict struct {
	Measure  string // key of the measure
	Limit    string // words of the case file, e.g. "design pressure with 10 % surge allowance"
	Scenario string
	Value    float64
	Bound    float64
	Met      bool
	Margin   float64 // distance to the bound, positive on the good side, in the measure's unit
	Asked    float64 // margin that is asked for, in the same unit; Met is to have that much
	Unsure   bool    // the margin is within the numerical error estimate
	Narrow   bool    // met, but not if the share that the valve's data decide were 40 % greater
	Late     float64 // s from the first seating until the limit is first broken, when that takes more than four wave periods; 0: it is not late
	AtVapour bool    // the least pressure, and a cavity formed there
	Place    string
	Time     float64 // s; negative: none
}

// Numerics is how the outcome was reached.
type Numerics struct {
	TimeStep        float64        // s
	Reaches         map[string]int // per pipe
	StepFrom        string         // what decided the step
	LengthChangeMax float64        // relative
	VolumeResidual  float64        // relative to the volume passed
	Kernel          string
	Grids           int     // how many steps the error estimate used
	Order           float64 // observed order of convergence; 0: not observed
	Nodes, Steps    int
	HistoryBin      float64 // s of which a history holds a part of the steps, the first, the last and those with extremes, away from events, reversals and seatings; 0: every step
}

// Governing names the worst scenario per candidate and measure.
type Governing struct {
	Candidate, Measure, Scenario string
	Value                        float64
}

// ScenarioOutcomes are the candidates side by side in one scenario.
type ScenarioOutcomes struct {
	Name     string
	Outcomes []Outcome // in the order of Case.Candidates
	Own      Value     // the installation's own deceleration, m/s2, with the valve held open; see [Own]
	OwnBore  float64   // m, on which its velocity is taken; 0: none
}

// Comparison is the answer to a case.
type Comparison struct {
	Case        *Case
	Service     string
	Scenarios   []ScenarioOutcomes
	Governing   []Governing
	Interrupted bool          // before all was finished
	Missing     []Missing     // of what an interrupted comparison has no results; scenarios at the end of which nothing was finished are left out of Scenarios
	Costs       []Costing     // of the sound candidates in the order of the case; nil: without economics
	CostRemarks []string      // what the order of the costs hangs on; nil: without economics
	Staying     []StayingOpen // of the sound candidates in the order of the case; nil: every disc stays open well, and nothing more was asked
	Recommended string        // name of the candidate; "": none, Reasons say why
	Reasons     []string
	Advice      *Advice  // what single steps would do; nil: that was not asked
	Failures    []string // what becomes of the candidates with a part failed; nil: that was not asked
	Warnings    []string
	Assumptions []string
}
