package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/network"
	"seatwise/network/pump"
)

const pumpSource = "B. Donsky, Complete pump characteristics and the effects of specific speeds on hydraulic transients, J. Basic Eng. 83, 1961, as tabulated by Wylie, Streeter & Suo 1993 and Chaudhry 2014 (from memory)"

// pumpPoint is reduced head and torque of a four-quadrant set at reduced flow v and speed alpha.
type pumpPoint struct{ v, alpha, head, torque float64 }

// pumpSet is a set with the points known of it.
type pumpSet struct {
	specificSpeed float64
	points        []pumpPoint
}

func pumpData() []Case {
	node := func(k, steps float64) float64 { return math.Tan(2 * math.Pi * k / steps) } // v on node k after zero flow
	var cases []Case
	for _, s := range []pumpSet{
		{25, []pumpPoint{{0, 1, 1.35, 0.44}, {-1, 0, 0.71, 0.88}, {0, -1, 0.66, -0.68}, {1, 0, -0.55, -0.43},
			{node(6, 72), 1, 1.213, 0.813}, {node(8, 72), 1, 1.091, 0.937}, {node(10, 72), 1, 0.896, 1.017}, {node(11, 72), 1, 0.669, 1.033}}},
		{35, []pumpPoint{{0, 1, 1.288, 0.450}, {-1, 0, 0.692, 0.865}, {0, -1, 0.634, -0.684}, {1, 0, -0.556, -0.372},
			{node(7, 88), 1, 1.223, 0.801}, {node(9, 88), 1, 1.144, 0.908}, {node(12, 88), 1, 0.858, 1.007}, {node(13, 88), 1, 0.668, 1.002}}},
		{147, []pumpPoint{{0, 1, 1.970, 1.490}}},
		{261, []pumpPoint{{0, 1, 2.750, 1.950}}},
	} {
		cases = append(cases, Case{fmt.Sprintf("P%g", s.specificSpeed), Formula, pumpSource, s.checks})
	}
	return cases
}

// dataPump is a pump without a curve, so that the data of the set stand alone.
func dataPump(specificSpeed float64) (*pump.Pump, error) {
	return pump.New(pump.Spec{Flow: 0.2, Head: 40, Speed: 1480 * math.Pi / 30, Efficiency: 0.8, SpecificSpeed: specificSpeed, Inertia: 8}, 998.2, network.Gravity)
}

func (s pumpSet) checks(context.Context) ([]Check, error) {
	p, err := dataPump(s.specificSpeed)
	if err != nil {
		return nil, err
	}
	reduced := func(v, alpha float64) (h, beta float64) {
		head, _, _, torque, _, _ := p.At(v*p.Spec.Flow, alpha*p.Spec.Speed)
		return head / p.Spec.Head, torque / p.RatedTorque
	}
	var checks []Check
	h, beta := reduced(1, 1)
	checks = append(checks, within("reduced head at the rated point", "1", 1, h, 1e-12), within("reduced torque at the rated point", "1", 1, beta, 1e-12))
	scaling, wrap := 0.0, 0.0
	for i := range 360 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 180)
		h, beta := reduced(sin, cos)
		for _, k := range []float64{0.5, 1.7} {
			hk, bk := reduced(k*sin, k*cos)
			scaling = math.Max(scaling, math.Max(math.Abs(hk/(k*k)-h), math.Abs(bk/(k*k)-beta)))
		}
	}
	up, upBeta := reduced(1e-13, -1)
	down, downBeta := reduced(-1e-13, -1)
	wrap = math.Max(math.Abs(up-down), math.Abs(upBeta-downBeta))
	checks = append(checks,
		within("homologous scaling h(k v, k alpha) = k^2 h at 360 angles, greatest deviation", "1", 0, scaling, 1e-12),
		within("jump of head and torque where the angle begins anew", "1", 0, wrap, 1e-11))
	for _, x := range s.points {
		h, beta := reduced(x.v, x.alpha)
		at := fmt.Sprintf("at v = %.4g, alpha = %g", x.v, x.alpha)
		// The points are nodes of the tables: what differs is the rounding of the printed digits.
		checks = append(checks, compared(within("reduced head "+at, "1", x.head, h, 1e-3)), compared(within("reduced torque "+at, "1", x.torque, beta, 1e-3)))
	}
	return checks, nil
}

func inertias() []Case {
	return []Case{{"P5", Formula, "A. R. D. Thorley, Fluid Transients in Pipeline Systems, 2nd ed. 2004, inertia estimates (from memory; recalculated)", inertiaChecks}}
}

func inertiaChecks(context.Context) ([]Check, error) {
	var checks []Check
	for _, c := range []struct{ kW, rpm, pump, motor, total float64 }{
		{100, 1480, 0.9972, 2.1872, 3.1844},
		{11, 2900, 0.01759, 0.03082, 0.0484},
		{1000, 990, 28.510, 119.77, 148.28},
	} {
		p, m := pump.EstimateInertia(1e3*c.kW, c.rpm*math.Pi/30)
		at := fmt.Sprintf("at %g kW and %g rpm", c.kW, c.rpm)
		checks = append(checks,
			ratio("inertia of the pump "+at, "kg m2", c.pump, p, 1e-3),
			ratio("inertia of the motor "+at, "kg m2", c.motor, m, 1e-3),
			ratio("inertia of the set "+at, "kg m2", c.total, p+m, 1e-3))
	}
	return checks, nil
}
