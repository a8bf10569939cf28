package device

import (
	"fmt"
	"math"

	"seatwise/network"
	"seatwise/valve"
)

// Throttle is a throttling valve of opening y(t), 0 shut to 1 open:
//
//	q = tau(y) A sqrt(2 g |ha - hb| / K) sign(ha - hb)
//
// with A the bore area, m2, K the loss coefficient when fully open, and tau its capacity over that when open, the effective area. Written without
// singularity at tau = 0, at K = 0 and at q = 0 as
//
//	K q sqrt(q^2 + q0^2) = tau^2 2 g A^2 (ha - hb),   q0 = 1e-6 A m/s
//
// Where a flow coefficient Kv, m3/h, is given, K = (Kv1/Kv)^2 with Kv1 that of K = 1 ([network.UnitKv]), and tau = Kv(y)/Kv(1). Tau follows from the
// inherent characteristic (IEC 60534-2-4 for linear and equal percentage, from memory)
//
//	linear             tau = y
//	quadratic          tau = y^2
//	equal percentage   tau = R^(y-1), R = 50 (common practice); below y = 1/ln R its tangent from y = 0, so that the valve shuts
//
// or from a table of Kv or K over y, with tau = 0 at y = 0: tau is interpolated, as it is the smoother of the two (K goes to infinity), without overshoot,
// so that a table that rises gives a tau that does ([valve.Table]).
//
// Assumed: the valve is in equilibrium with the flow through it, turbulent, alike in both directions, without cavitation.
type Throttle struct {
	quiet
	Area     float64 // m2
	Loss     float64 // K
	G        float64 // m/s2
	Schedule []network.Opening

	capacity func(y float64) float64 // tau
}

// NewThrottle returns the device of a throttling valve that [network.Network.Validate] finds nothing wrong with.
func NewThrottle(t network.Throttle, g float64) *Throttle {
	return &Throttle{Area: math.Pi / 4 * t.Bore * t.Bore, Loss: t.LossWhenOpen(), G: g, Schedule: t.Schedule, capacity: capacity(t)}
}

// leastTau is the capacity below which the valve is shut.
const leastTau = 1e-9

// rangeability is R of equal percentage: the capacity when open over the least that follows the form.
const rangeability = 50

// capacity is tau over the opening.
func capacity(t network.Throttle) func(y float64) float64 {
	switch {
	case len(t.KvTable) > 0:
		open := t.KvTable[len(t.KvTable)-1].Value
		return through(t.KvTable, func(kv float64) float64 { return kv / open })
	case len(t.LossTable) > 0:
		open := t.LossTable[len(t.LossTable)-1].Value
		return through(t.LossTable, func(k float64) float64 { return math.Sqrt(open / k) })
	}
	switch t.Inherent {
	case network.Quadratic:
		return func(y float64) float64 { return y * y }
	case network.EqualPercentage:
		ln := math.Log(rangeability)
		return func(y float64) float64 {
			if y < 1/ln {
				return math.E * ln / rangeability * y
			}
			return math.Pow(rangeability, y-1)
		}
	}
	return func(y float64) float64 { return y }
}

// through interpolates tau over the rows of a table and the shut valve.
func through(rows []network.Capacity, tau func(float64) float64) func(y float64) float64 {
	y, f := []float64{0}, []float64{0}
	for _, r := range rows {
		if r.Opening > 0 {
			y, f = append(y, r.Opening), append(f, tau(r.Value))
		}
	}
	table, err := valve.NewTable(y, f)
	if err != nil {
		panic(fmt.Sprintf("device: a throttling valve that is not valid: %v", err))
	}
	return func(y float64) float64 {
		f, _ := table.At(y)
		return f
	}
}

// Opening is y at time t, s.
func (d *Throttle) Opening(t float64) float64 {
	s := d.Schedule
	if len(s) == 0 {
		return 1
	}
	if t <= s[0].Time {
		return s[0].Fraction
	}
	for i := 1; i < len(s); i++ {
		if t < s[i].Time {
			a, b := s[i-1], s[i]
			return a.Fraction + (b.Fraction-a.Fraction)*(t-a.Time)/(b.Time-a.Time)
		}
	}
	return s[len(s)-1].Fraction
}

// Tau is the relative effective area at time t, s.
func (d *Throttle) Tau(t float64) float64 { return d.capacity(d.Opening(t)) }

func (d *Throttle) at(tau, q, ha, hb float64) Equation {
	if tau < leastTau {
		return Equation{q, 1, 0, 0}
	}
	q0 := 1e-6 * d.Area
	root := math.Sqrt(q*q + q0*q0)
	c := tau * tau * 2 * d.G * d.Area * d.Area
	return Equation{d.Loss*q*root - c*(ha-hb), d.Loss * (root + q*q/root), -c, c}
}

// Steady implements Device.
func (d *Throttle) Steady(q, ha, hb float64) Equation { return d.at(d.Tau(0), q, ha, hb) }

// Start implements Device.
func (d *Throttle) Start(_, _, _ float64) {}

// Try implements Device.
func (d *Throttle) Try(t, h, q, ha, hb float64) Equation { return d.at(d.Tau(t+h), q, ha, hb) }

// Accept implements Device.
func (d *Throttle) Accept(_, _, _, _, _ float64) {}

// Save implements Device.
func (d *Throttle) Save() {}

// Restore implements Device.
func (d *Throttle) Restore() {}
