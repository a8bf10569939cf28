// Package characteristic computes the reverse velocity at which a check valve seats against the deceleration of the flow.
//
// The bench prescribes the bore velocity
//
//	v(t) = v0 - a t
//
// v0 m/s above the full-open velocity with the disc at rest, a m/s2 constant, and solves the closure of the valve for the pressure
// drop at every step. Disc, step and closure are those of a run in an installation (valve.Motion). With a constant deceleration all
// definitions of it agree. The disc is undamped by the installation: a real column yields to the seating disc.
//
// Errors: the default step keeps reverse velocities within 0.5 % or 1 mm/s of a refined step (tested over the catalogue);
// the error of the model is that of its steady coefficients, which under-predict.
package characteristic

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// Outcome names the end of a bench run.
type Outcome uint8

const (
	Seats       Outcome = iota // reached the seat
	NeverSeats                 // flow fell to Floor with the disc still open
	NotSolvable                // no pressure drop gives the velocity: the motion breaks the promise of its closure
)

func (o Outcome) String() string {
	return [...]string{"seats", "never seats", "not solvable"}[o]
}

// Settings of the bench; the zero value is the default.
type Settings struct {
	InitialVelocity float64 // v0, m/s; below 1.05 times the full-open velocity it is raised to that
	Step            float64 // s; 0 chooses it by the deceleration
	Floor           float64 // reverse velocity, m/s, at which the run gives up; 0 means 20 m/s
}

// Point is one deceleration.
type Point struct {
	Deceleration    float64 // a, m/s2
	Outcome         Outcome
	ReverseVelocity float64 // at first touch of the seat, positive backward, m/s; 0 when it seats in forward flow
	ForwardVelocity float64 // the same, positive forward, m/s
	InitialVelocity float64 // v0, m/s
	Time            float64 // from the start of the deceleration, s
	SeatRate        float64 // |w| at the seat, rad/s or m/s
	SeatSpeed       float64 // of the fastest point of the disc, m/s
}

// Decelerations are 21 round values from 0.5 to 50 m/s2, of the R10 series of ISO 3 (Preferred numbers, 1973).
func Decelerations() []float64 {
	return []float64{0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 31.5, 40, 50}
}

// Between are the values of the R10 series of ISO 3 (Preferred numbers, 1973) from one deceleration to another, and these two themselves, m/s2. The
// error says what is wrong with them.
func Between(from, to float64) ([]float64, error) {
	if !(from >= 1e-3) || !(to <= 1e4) || !(from < to) {
		return nil, fmt.Errorf("characteristic: decelerations from %g to %g m/s2 must rise and lie within 0.001 and 10000", from, to)
	}
	const same = 1 + 1e-9
	out := []float64{from}
	for decade := 1e-3; decade < 1e5; decade *= 10 {
		for _, r := range []float64{1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8} {
			if a := r * decade; a > from*same && a*same < to {
				out = append(out, math.Round(a*1e6)/1e6)
			}
		}
	}
	return append(out, to), nil
}

// Curve runs the bench at every deceleration, or at those of Decelerations when none are given.
func Curve(v valve.Valve, decelerations []float64, s Settings) ([]Point, error) {
	if len(decelerations) == 0 {
		decelerations = Decelerations()
	}
	points := make([]Point, len(decelerations))
	for i, a := range decelerations {
		if !(a > 0) || math.IsInf(a, 0) {
			return nil, fmt.Errorf("characteristic: deceleration %g m/s2 must be above zero", a)
		}
		points[i] = At(v, a, s)
	}
	return points, nil
}

// At runs the bench at one deceleration a > 0, m/s2.
func At(v valve.Valve, a float64, s Settings) Point {
	v0 := math.Max(1.05*v.FullOpenVelocity, s.InitialVelocity)
	if v0 == 0 {
		v0 = 1 // a valve without a disc
	}
	start := v.Motion.Steady(v0)
	b := bench{m: v.Motion, v0: v0, a: a, step: s.Step, floor: s.Floor}
	if b.step == 0 {
		b.step = math.Min(2e-3, v0/a/100)
	}
	if b.floor == 0 {
		b.floor = 20
	}
	p := b.run(start.State, start.DP)
	p.SeatSpeed = p.SeatRate * v.Reach
	return p
}
