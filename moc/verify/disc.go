package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/valve"
)

// The swing disc of the disc cases: DN300 in water of 1000 kg/m3, g 9.81.
const (
	swingDisc    = 0.33 // m
	swingArm     = 0.18 // m
	swingMass    = 17.0 // kg
	swingDensity = 7850.0
	swingTravel  = 65 * math.Pi / 180
	discLiquid   = 1000.0
	discGravity  = 9.81
	discStep     = 1e-4 // s
)

func discs() []Case {
	const derived = "closed form, derived, confirmed by a fourth-order integration: "
	return []Case{
		{"D1", Disc, derived + "free fall of a pendulum, complete elliptic integral", freeFall},
		{"D2", Disc, derived + "fall against a quadratic damper", dampedFall},
		{"D3", Disc, derived + "balance angle of a plate under cos^2 load", balanceAngles},
		{"D4", Disc, derived + "closure by a spring alone", springClosure},
		{"D9", Disc, derived + "series of rebounds under constant acceleration", rebounds},
		{"D14", Disc, "closed form, derived: a shut disc opens at the pressure drop F0/A_seat", cracking},
		{"D17", Disc, "closed form, derived: natural frequency of a disc at rest, of its weight, of its spring, and in a flow under cos^2 load", naturalFrequencies},
		{"D13", Disc, "SciPy, Radau and DOP853, and closed form: testdata/coupled, free_fall", referenceFalls},
	}
}

// cosineSquared is the load of a plate that feels the square of the velocity normal to it.
type cosineSquared float64

func (c cosineSquared) At(y float64) (f, df float64) {
	sin, cos := math.Sincos(y)
	return float64(c) * cos * cos, -2 * float64(c) * sin * cos
}

// swing is the disc with the liquid's added inertia, or without liquid.
func swing(wet bool) *valve.Law {
	inertia := swingMass * (swingArm*swingArm + swingDisc*swingDisc/16)
	buoyancy := 0.0
	if wet {
		inertia += valve.SwingLiquidMass(discLiquid, swingDisc, swingArm) * swingArm * swingArm
		buoyancy = discLiquid / swingDensity
	}
	return &valve.Law{
		Travel: swingTravel, Inertia: inertia, Area: area(swingDisc), Arm: swingArm, Density: discLiquid,
		Conductance: valve.Constant(1), Load: cosineSquared(2), Sweep: valve.Constant(swingArm),
		Weight:  valve.Sine{Amplitude: swingMass * discGravity * (1 - buoyancy) * swingArm},
		Laminar: 1e-6,
	}
}

// spring is a disc on a spring.
func spring() *valve.Law {
	return &valve.Law{
		Travel: 0.06, Inertia: 17, Area: 0.0706858, Arm: 1, Density: discLiquid,
		Conductance: valve.Constant(1), Load: valve.Constant(2), Sweep: valve.Constant(1), Weight: valve.Constant(0),
		Preload: 92, SpringRate: 2283, Laminar: 1e-6,
	}
}

// drop gives the pressure drop at the end of a trial step.
type drop func(s valve.State, h float64) float64

// none is a disc that feels no flow.
func none(valve.State, float64) float64 { return 0 }

// settle moves a disc from a state until it rests on its seat, or for 1 s, and reports the state before the first touch and the
// times of that touch and of rest.
func settle(l *valve.Law, s valve.State, step float64, dp drop, seen func(t float64, s valve.State)) (first valve.State, touched, rest float64) {
	touched = math.NaN()
	for t := 0.0; t < 1; {
		h := step
		trial := l.Advance(s, h, 0, dp(s, h))
		if trial.Event < 0 {
			lo := 0.0
			for range 80 {
				mid := lo + (h-lo)/2
				if at := l.Advance(s, mid, 0, dp(s, mid)); at.Event < 0 {
					h, trial = mid, at
				} else {
					lo = mid
				}
			}
			if math.IsNaN(touched) {
				first, touched = trial.State, t+h
			}
			trial.State = l.Touch(trial.State, 0)
		}
		t, s = t+h, trial.State
		if seen != nil {
			seen(t, s)
		}
		if s.Contact == valve.Seated {
			return first, touched, t
		}
	}
	return first, touched, math.NaN()
}

// released is a disc let go on its stop, with the force that it feels.
func released(l *valve.Law) valve.State {
	w, _ := l.Weight.At(l.Travel)
	return valve.State{Y: l.Travel, Force: -w - l.Preload - l.SpringRate*l.Travel}
}

func freeFall(context.Context) ([]Check, error) {
	wet, dry := swing(true), swing(false)
	s, t, _ := settle(wet, released(wet), discStep, none, nil)
	_, inAir, _ := settle(dry, released(dry), discStep, none, nil)
	_, stiffness := wet.Weight.At(0)
	return []Check{
		within("time from 65 degrees to the seat", "s", 0.3496, t, 6e-5),
		within("rate at the seat", "rad/s", 5.248, -s.W, 6e-4),
		within("edge speed at the seat", "m/s", 1.811, -s.W*(swingArm+swingDisc/2), 6e-4),
		within("rate of small swings", "rad/s", 4.884, math.Sqrt(stiffness/wet.Inertia), 6e-4),
		within("time in air", "s", 0.2544, inAir, 6e-5),
	}, nil
}

// whole is a damper over more than the travel, so that it grips everywhere in full.
func whole(c float64) valve.Damper { return valve.Damper{Coefficient: c, Span: 10} }

func dampedFall(context.Context) ([]Check, error) {
	l := swing(true)
	l.Damper = whole(0.49881)
	s, t, _ := settle(l, released(l), discStep, none, nil)
	return []Check{
		within("rate at the seat", "rad/s", 3.810, -s.W, 6e-4),
		within("time to the seat", "s", 0.3882, t, 6e-5),
	}, nil
}

func balanceAngles(context.Context) ([]Check, error) {
	l := swing(true)
	l.Travel = math.Pi / 2
	var checks []Check
	for _, c := range []struct{ v, angle, tolerance float64 }{{0.5, 8.273, 6e-4}, {1, 27.53, 6e-3}, {1.5, 43.71, 6e-3}, {2, 54.07, 6e-3}, {3, 65.50, 6e-3}} {
		checks = append(checks, within(fmt.Sprintf("balance angle at %g m/s", c.v), "degrees", c.angle, l.Steady(c.v).State.Y*180/math.Pi, c.tolerance))
	}
	l.Travel = swingTravel
	return append(checks, within("velocity that holds 65 degrees", "m/s", 2.938, l.FullOpenVelocity(), 6e-4)), nil
}

func springClosure(context.Context) ([]Check, error) {
	l := spring()
	s, t, _ := settle(l, released(l), discStep, none, nil)
	return []Check{
		within("time to the seat", "s", 0.09987, t, 6e-6),
		within("speed at the seat", "m/s", 1.064, -s.W, 6e-4),
		within("energy at the seat", "J", 9.629, l.Inertia/2*s.W*s.W, 6e-4),
	}, nil
}

func rebounds(context.Context) ([]Check, error) {
	l := spring()
	l.SpringRate, l.Restitution, l.RestHeight = 0, 0.3, 1e-10
	start := l.Touch(valve.State{W: -1}, 0)
	_, first, rest := settle(l, start, 2e-6, none, nil)
	return []Check{
		within("first flight", "s", 2*0.3/(92.0/17), first, 1e-6),
		within("time from the first impact to rest", "s", 0.1584, rest, 6e-5),
	}, nil
}

// cracking finds the pressure drop at which a seated disc leaves its seat within a step.
func cracking(context.Context) ([]Check, error) {
	l := spring()
	l.Preload, l.Area = 142, area(0.25)
	lo, hi := 0.0, 1e5
	for range 60 {
		mid := lo + (hi-lo)/2
		if l.Advance(valve.State{Contact: valve.Seated}, 1e-3, 0, mid).State.Contact == valve.Seated {
			lo = mid
		} else {
			hi = mid
		}
	}
	_, said := l.Shut()
	return []Check{
		ratio("pressure drop at which the disc leaves its seat", "Pa", 142/area(0.25), hi, exact),
		ratio("pressure drop that the law gives for it", "Pa", 142/area(0.25), said, exact),
	}, nil
}

// referenceFalls let the reference's swing disc fall with a damper only, and in liquid that does not flow.
func referenceFalls(context.Context) ([]Check, error) {
	ref, err := readReference()
	if err != nil {
		return nil, err
	}
	const digits = 1e-6
	l, err := ref.Laws["swing"].law(ref.Constants.Density, ref.Constants.Gravity, ref.Constants.Laminar)
	if err != nil {
		return nil, err
	}
	damped := *l
	damped.Damper = whole(ref.Falls.Damper.Coefficient)
	s, t, _ := settle(&damped, released(&damped), discStep, none, nil)
	checks := []Check{
		ratio("time to the seat against a damper", "s", ref.Falls.Damper.Seated, t, digits),
		ratio("rate at the seat against a damper", "rad/s", ref.Falls.Damper.Speed, s.W, digits),
	}
	before, at := released(l), 0.0
	marks := ref.Falls.Still
	settle(l, before, discStep, still(l), func(t float64, s valve.State) {
		for len(marks) > 0 && s.Y <= marks[0].Opening*l.Travel {
			f := (before.Y - marks[0].Opening*l.Travel) / (before.Y - s.Y)
			say := fmt.Sprintf("at %g of the travel, in still liquid", marks[0].Opening)
			checks = append(checks,
				ratio("time "+say, "s", marks[0].Time, at+f*(t-at), 1e-4),
				ratio("rate "+say, "rad/s", marks[0].Rate, before.W+f*(s.W-before.W), 1e-4))
			marks = marks[1:]
		}
		before, at = s, t
	})
	if len(marks) > 0 {
		return nil, fmt.Errorf("the disc did not pass %g of its travel", marks[0].Opening)
	}
	return checks, nil
}

// still is the pressure drop at which no liquid passes the bore: the disc displaces what passes its gap.
func still(l *valve.Law) drop {
	last := 0.0
	return func(s valve.State, h float64) float64 {
		lo, hi := last-1e6, last+1e6 // the residual falls with the pressure drop
		for range 200 {
			step := l.Advance(s, h, 0, last)
			if step.R > 0 {
				lo = last
			} else {
				hi = last
			}
			next := last - step.R/step.RP
			if !(next > lo && next < hi) {
				next = lo + (hi-lo)/2
			}
			if math.Abs(next-last) <= 1e-12*(1+math.Abs(next)) {
				return next
			}
			last = next
		}
		return last
	}
}
