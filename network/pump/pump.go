package pump

import (
	"fmt"
	"math"
)

// Point is one row of a pump curve at rated speed.
type Point struct {
	Flow       float64 // m3/s
	Head       float64 // m
	Efficiency float64 // fraction; 0 when not given
}

// Spec is what is known of a pump: the rated point and, where given, its curve.
type Spec struct {
	Flow       float64 // rated, m3/s
	Head       float64 // rated, m
	Speed      float64 // rated, rad/s
	Efficiency float64 // rated, fraction
	Curve      []Point // at rated speed, flow increasing; empty: the four-quadrant data stand alone

	SpecificSpeed float64 // rpm, m3/s, m; 0: from the rated point
	Inertia       float64 // of pump, motor and entrained water, kg m2; 0: estimated
	Ratchet       bool    // the rotor cannot turn backwards
}

// Pump is a pump in all four quadrants. It is immutable and safe for
// concurrent use.
type Pump struct {
	Spec             Spec     // as given
	Set              Set      // four-quadrant data in use
	SpecificSpeed    float64  // by which Set was chosen; rpm, m3/s, m
	Inertia          float64  // kg m2
	InertiaEstimated bool     // Inertia comes from EstimateInertia
	RatedPower       float64  // shaft power at the rated point, W
	RatedTorque      float64  // shaft torque at the rated point, N m
	Warnings         []string // doubts that belong in a report

	weight            float64 // rho g, N/m3
	perFlow, perSpeed float64 // 1/Q_R and 1/w_R
	table             *table
	end               float64 // v_E; -1 without a curve, so that no point lies on it
	head              cubic   // H_C/H_R against v
	ratio             cubic   // r against v
	back, beyond      joint   // corrections at v < 0 and v > v_E alpha
}

// New returns the pump of s for a liquid of the given density, kg/m3, under
// gravity, m/s2. The error joins every fault found, each wrapping ErrSpec;
// whatever is merely doubtful is in Warnings.
func New(s Spec, density, gravity float64) (*Pump, error) {
	if err := validate(s, density, gravity); err != nil {
		return nil, err
	}
	p := &Pump{
		Spec:          s,
		SpecificSpeed: s.SpecificSpeed,
		Inertia:       s.Inertia,
		weight:        density * gravity,
		perFlow:       1 / s.Flow,
		perSpeed:      1 / s.Speed,
		end:           -1,
	}
	p.RatedPower = p.weight * s.Flow * s.Head / s.Efficiency
	p.RatedTorque = p.RatedPower / s.Speed
	if p.SpecificSpeed == 0 {
		p.SpecificSpeed = SpecificSpeed(s.Flow, s.Head, s.Speed)
	}
	p.table = nearest(p.SpecificSpeed)
	p.Set = p.table.Set
	if p.Inertia == 0 {
		pump, motor := EstimateInertia(p.RatedPower, s.Speed)
		p.Inertia, p.InertiaEstimated = pump+motor, true
	}
	p.back, p.beyond = plain, plain
	if len(s.Curve) > 0 {
		p.join()
	}
	p.doubt()
	return p, nil
}

// SpecificSpeed returns N sqrt(Q)/H^(3/4) in rpm, m3/s, m from flow m3/s, head m
// and speed rad/s.
func SpecificSpeed(flow, head, speed float64) float64 {
	return speed * 30 / math.Pi * math.Sqrt(flow) / math.Pow(head, 0.75)
}

// ShutOffHead returns the head at zero flow and rated speed, m.
func (p *Pump) ShutOffHead() float64 {
	h, _, _ := p.Head(0, p.Spec.Speed)
	return h
}

// Efficiency returns hydraulic over shaft power at flow q, m3/s, and rated speed
// as the head and torque used here imply it; 0 where the machine does not pump.
func (p *Pump) Efficiency(q float64) float64 {
	h, _, _, t, _, _ := p.At(q, p.Spec.Speed)
	if !(q > 0 && h > 0 && t > 0) {
		return 0
	}
	return p.weight * q * h / (t * p.Spec.Speed)
}

// String names the pump by its rated point.
func (p *Pump) String() string {
	return fmt.Sprintf("%.4g m3/s at %.4g m and %.4g rpm, set %s",
		p.Spec.Flow, p.Spec.Head, p.Spec.Speed*30/math.Pi, p.Set.Name)
}
