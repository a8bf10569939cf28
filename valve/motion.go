package valve

import "math"

// Contact tells what holds the disc.
type Contact uint8

const (
	Free    Contact = iota // moving between seat and stop
	Seated                 // resting on the seat
	Stopped                // resting on the stop (backstop)
)

// State is all that a motion carries from one step to the next. It is a plain value: copying it is a checkpoint,
// and a run continued from a copy gives the same bytes.
type State struct {
	Y       float64 // position: an angle, rad, or a lift, m; 0 on the seat
	W       float64 // rate dY/dt, rad/s or m/s
	Force   float64 // net generalised force at the end of the last step with the contact reaction taken off, N·m or N
	Contact Contact
	Flow    Memory // of the flow, in a valve that watches it (Measured), its velocity alone where the liquid moves the disc (Carried); else zero
	Fresh   bool   // true when Force is not known (start, after an impact): the next step is backward Euler instead of trapezoidal

	Second Disc // the other disc of a valve that has two; zero otherwise
}

// Disc is the state of one disc of two, as State is of one.
type Disc struct {
	Y       float64 // rad or m
	W       float64 // rad/s or m/s
	Force   float64 // N·m or N
	Contact Contact
	Fresh   bool
}

// Speed is the greatest rate of the discs, rad/s or m/s, without its sign.
func (s State) Speed() float64 { return math.Max(math.Abs(s.W), math.Abs(s.Second.W)) }

// Step is the trial end of one (sub-)step for an assumed flow and pressure drop at its end.
//
// The valve is closed by one scalar equation between the bore velocity v and the pressure drop dp at the end of the step,
//
//	R(v, dp) = 0,   RV = dR/dv >= 0,   RP = dR/d(dp) <= 0,
//
// so that the flow rises with the pressure drop whatever the disc does: a cluster of devices adds this equation to its own and a
// bench that prescribes v solves it for dp.
type Step struct {
	State State
	R     float64 // closure residual, m2/s2
	RV    float64 // dR/dv, m/s
	RP    float64 // dR/d(dp), m2/s2 per Pa
	// Event is negative when the disc passed the seat or the stop (or an ideal valve its closing velocity) inside the step, by how much
	// as a fraction of the travel. The caller shortens the step until Event is zero within rounding and calls Touch.
	Event float64
}

// Motion is the behaviour of one check valve. Methods are pure functions of their arguments and allocate nothing.
type Motion interface {
	// Advance tries a step of h seconds from s that ends with bore velocity v, m/s, and pressure drop dp, Pa
	// (upstream less downstream, at equal height).
	Advance(s State, h, v, dp float64) Step
	// Touch is called with the state found where Event is zero. dpRest is the pressure drop that the installation would put on
	// the valve if the disc came to rest there at once; the motion decides between rest and rebound.
	Touch(s State, dpRest float64) State
	// Rest is the state found where Event is zero with the disc that is there at rest: the installation answers to it with dpRest.
	Rest(s State) State
	// Steady is the equilibrium at a constant bore velocity v > 0, m/s: the branch reached from closed.
	Steady(v float64) Equilibrium
	// Shut is the state of a disc at rest on its seat under a pressure drop that does not open it, and the least pressure drop, Pa, that does.
	Shut() (State, float64)
	// Opening is the fraction of travel, 0 on the seat, 1 on the stop.
	Opening(s State) float64
	// SubSteps is the number of parts into which a step of h seconds from s is cut so that the end of the travel is resolved; at least 1.
	SubSteps(s State, h float64) int
}

// Equilibrium is a disc at rest in a steady flow.
type Equilibrium struct {
	State State
	DP    float64 // pressure drop, Pa
	Slope float64 // d(DP)/dv, Pa·s/m
	Held  bool    // the disc is on its stop
	Snaps bool    // another equilibrium exists further open: the disc snaps open as the flow grows
}
