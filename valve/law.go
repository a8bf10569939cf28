package valve

import (
	"errors"
	"fmt"
	"math"
)

// ErrLaw is the class of errors in a law of motion: a datum out of range, or a combination that cannot work.
var ErrLaw = errors.New("valve: impossible disc")

// Law is the law of motion of a disc, as data. Its pointer is a Motion. Units: N·m and rad for a hinged disc, N and m for a lift.
type Law struct {
	Travel  float64 // y on the stop, rad or m
	Inertia float64 // M with added mass, kg·m2 or kg
	Area    float64 // seat area A, m2
	Arm     float64 // L, m; 1 for a lift
	Density float64 // of the fluid, kg/m3

	Conductance Func // g(y); g(0) = 0
	Load        Func // kappa(y); kappa(0) = 1
	Sweep       Func // sweep(y), m or 1
	Weight      Func // closing moment or force of gravity, lever weights included

	Preload    float64 // of the spring on the seat, N·m or N
	SpringRate float64 // N·m/rad or N/m
	Damper     Damper
	Drag       float64 // of the disc's own rotation or lift in the liquid, against either direction, N·m·s2/rad2 or N·s2/m2
	Friction   float64 // dry friction, N·m or N

	Leak        float64 // conductance of the seat; 0 is tight
	Restitution float64 // rebound over impact rate at seat and stop, 0 to 1
	RestHeight  float64 // rebound, fraction of the travel, at and below which the disc stays; 0 means 0.001
	Laminar     float64 // v_lam, m/s; 0 means 0.001
}

// Damper is a dashpot that resists closing over the last part of the travel with Coefficient times the square of the rate; it lets the
// disc open freely. Its grip grows smoothly over the first fifth of its span.
type Damper struct {
	Coefficient float64 // N·m·s2/rad2 or N·s2/m2; 0 is none
	Span        float64 // from the seat, fraction of the travel
}

// resist is the closing force at rest and its slope.
func (l *Law) resist(y float64) (f, df float64) {
	f, df = l.Weight.At(y)
	return f + l.Preload + l.SpringRate*y, df + l.SpringRate
}

// dashpot is the opening force of the damper with its derivatives in y and w.
func (l *Law) dashpot(y, w float64) (f, fy, fw float64) {
	reach := l.Damper.Span * l.Travel
	if l.Damper.Coefficient == 0 || w >= 0 || y >= reach {
		return 0, 0, 0
	}
	grip, slope := 1.0, 0.0
	if u := (reach - y) / (0.2 * reach); u < 1 {
		grip = u * u * (3 - 2*u)
		slope = -6 * u * (1 - u) / (0.2 * reach)
	}
	c := l.Damper.Coefficient
	return c * grip * w * w, c * slope * w * w, 2 * c * grip * w
}

// net is the force on a moving disc without dry friction.
type net struct {
	f, y, w, p float64 // force and its derivatives in position, rate and pressure drop
	scale      float64 // magnitude of its parts, for rounding
}

func (l *Law) net(y, w, dp float64) net {
	kappa, dkappa := l.Load.At(y)
	r, dr := l.resist(y)
	d, dy, dw := l.dashpot(y, w)
	drag := l.Drag * math.Abs(w)
	area := l.Area * l.Arm
	return net{
		f:     kappa*area*dp - r + d - drag*w,
		y:     dkappa*area*dp - dr + dy,
		w:     dw - 2*drag,
		p:     kappa * area,
		scale: math.Abs(kappa*area*dp) + math.Abs(r) + d + math.Abs(drag*w),
	}
}

// seatForce is the net force on a disc at rest on its seat, positive opening, whatever the load table says there.
func (l *Law) seatForce(dp float64) float64 {
	r, _ := l.resist(0)
	return dp*l.Area*l.Arm - r
}

// stopForce is the net force on a disc at rest on its stop, positive opening.
func (l *Law) stopForce(dp float64) float64 { return l.net(l.Travel, 0, dp).f }

// conductance is that of gap and seat leak, whose flows add as squares, and its slope.
func (l *Law) conductance(y float64) (g, dg float64) {
	g, dg = l.Conductance.At(y)
	if l.Leak == 0 {
		return g, dg
	}
	both := math.Hypot(g, l.Leak)
	return both, g * dg / both
}

// conductance2 is the square of the conductance and its slope.
func (l *Law) conductance2(y float64) (g2, dg2 float64) {
	g, dg := l.Conductance.At(y)
	return g*g + l.Leak*l.Leak, 2 * g * dg
}

// OpenLoss is zeta on the stop, of the gap without the seat leak.
func (l *Law) OpenLoss() float64 {
	g, _ := l.Conductance.At(l.Travel)
	return 1 / (g * g)
}

func (l *Law) laminar() float64 {
	if l.Laminar > 0 {
		return l.Laminar
	}
	return laminar
}

// FullOpenVelocity is the steady velocity, m/s, at which the disc reaches its stop as the flow rises: load = closing force F + friction f.
// Once there it stays down to a lower one, at which load = F - f: sqrt((F - f)/(F + f)) times it.
func (l *Law) FullOpenVelocity() float64 {
	kappa, _ := l.Load.At(l.Travel)
	g2, _ := l.conductance2(l.Travel)
	r, _ := l.resist(l.Travel)
	v, _ := phiInverse(math.Max(0, r+l.Friction)*g2*2/(l.Density*kappa*l.Area*l.Arm), l.laminar())
	return v
}

// Check reports data out of range and a disc that does not close by itself.
func (l *Law) Check() error {
	if err := l.inRange(); err != nil {
		return err
	}
	if opening, r := l.weakest(); r < 0 || (r == 0 && opening > 0) {
		return fmt.Errorf("%w: the disc does not close by itself: at %.0f %% opening weight and spring push it open by %.3g", ErrLaw, 100*opening, -r)
	}
	return nil
}

// checked is the number of openings at which a law is checked.
const checked = 200

// weakest is the first opening, a fraction of the travel, at which nothing closes the disc, and the closing force there; the force is above
// zero when there is none.
func (l *Law) weakest() (opening, r float64) {
	for i := 0; i <= checked; i++ {
		opening = float64(i) / checked
		if r, _ = l.resist(opening * l.Travel); r < 0 || (r == 0 && i > 0) {
			return opening, r
		}
	}
	return 0, math.Inf(1)
}

// inRange reports data out of range.
func (l *Law) inRange() error {
	for _, d := range []struct {
		name  string
		value float64
		ok    bool
	}{
		{"travel", l.Travel, l.Travel > 0},
		{"inertia", l.Inertia, l.Inertia > 0},
		{"seat area", l.Area, l.Area > 0},
		{"arm", l.Arm, l.Arm > 0},
		{"density", l.Density, l.Density > 0},
		{"spring rate", l.SpringRate, l.SpringRate >= 0},
		{"preload", l.Preload, true},
		{"damper coefficient", l.Damper.Coefficient, l.Damper.Coefficient >= 0},
		{"damper span", l.Damper.Span, l.Damper.Span >= 0 && l.Damper.Span <= 1 && (l.Damper.Span > 0 || l.Damper.Coefficient == 0)},
		{"drag", l.Drag, l.Drag >= 0},
		{"friction", l.Friction, l.Friction >= 0},
		{"leak", l.Leak, l.Leak >= 0 && l.Leak < 1},
		{"restitution", l.Restitution, l.Restitution >= 0 && l.Restitution < 1},
	} {
		if !d.ok || math.IsInf(d.value, 0) || math.IsNaN(d.value) {
			return fmt.Errorf("%w: %s = %g is out of range", ErrLaw, d.name, d.value)
		}
	}
	for i := 0; i <= checked; i++ {
		opening := float64(i) / checked
		if kappa, _ := l.Load.At(opening * l.Travel); !(kappa > 0) {
			return fmt.Errorf("%w: the load on the disc vanishes at %.0f %% opening", ErrLaw, 100*opening)
		}
	}
	return nil
}

// Opening is the fraction of the travel.
func (l *Law) Opening(s State) float64 { return s.Y / l.Travel }

// Shut is the disc on its seat and the pressure drop above which it opens.
func (l *Law) Shut() (State, float64) {
	r, _ := l.resist(0)
	return State{Contact: Seated}, (r + l.Friction) / (l.Area * l.Arm)
}

// SubSteps keeps the motion in one part below a tenth of the distance to the seat, where the conductance is proportional to it, until
// a thousandth of the travel remains.
func (l *Law) SubSteps(s State, h float64) int {
	const most = 32
	path := math.Abs(s.W) * h
	if s.Contact != Free || path < 1e-9*l.Travel {
		return 1
	}
	parts := math.Ceil(path / (0.1*math.Abs(s.Y) + 1e-3*l.Travel))
	return int(math.Min(most, math.Max(2, parts)))
}
