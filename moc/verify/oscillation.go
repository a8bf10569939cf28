package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/valve"
)

// naturalFrequencies of discs at their places of rest: sqrt(W L/I)/(2 pi) of one that hangs in still water, sqrt(k/M)/(2 pi) of one on its spring, and in a flow that
// carries a hanging disc by a load rho V^2 A C L cos^2 y/2 against W L sin y, where
//
//	k = W L cos y (1 + 2 tan^2 y)
func naturalFrequencies(context.Context) ([]Check, error) {
	l := swing(true)
	still, ok := l.Oscillation(0, 0)
	if !ok {
		return nil, fmt.Errorf("the hanging disc does not rest")
	}
	spring, ok := (&valve.Law{Travel: 0.06, Inertia: 17, Area: 0.0706858, Arm: 1, Density: 1000, Conductance: valve.Constant(1), Load: valve.Constant(2), Sweep: valve.Constant(1),
		Weight: valve.Constant(0), Preload: 92, SpringRate: 2283}).Oscillation(0.03, 0)
	if !ok {
		return nil, fmt.Errorf("the disc on its spring does not rest")
	}
	checks := []Check{
		within("hanging in still water, small angle", "Hz", 0.777, still.Frequency, 6e-4),
		within("on a spring of 2283 N/m, moving mass 17 kg", "Hz", 1.844, spring.Frequency, 6e-4),
	}
	weight, _ := l.Weight.At(math.Pi / 2) // W L
	for _, v := range []float64{1, 2, 2.5} {
		o, ok := valve.Valve{Motion: l}.Oscillation(v)
		if !ok {
			return nil, fmt.Errorf("the disc does not float at %g m/s", v)
		}
		kappa := discLiquid * v * v * area(swingDisc) * swingArm / weight
		sin := (math.Sqrt(1+4*kappa*kappa) - 1) / (2 * kappa)
		tan2 := sin * sin / (1 - sin*sin)
		k := weight * math.Sqrt(1-sin*sin) * (1 + 2*tan2)
		checks = append(checks, ratio(fmt.Sprintf("floating at %g m/s", v), "Hz", math.Sqrt(k/l.Inertia)/(2*math.Pi), o.Frequency, 1e-6))
	}
	return checks, nil
}
