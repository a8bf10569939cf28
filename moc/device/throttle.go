package device

import (
	"math"

	"seatwise/network"
)

// Throttle is a throttling valve of relative effective area tau(t):
//
//	q = tau A sqrt(2 g |ha - hb| / K) sign(ha - hb)
//
// with A the bore area, m2, and K the loss coefficient when fully open. Written without singularity at tau = 0, at K = 0 and at q = 0 as
//
//	K q sqrt(q^2 + q0^2) = tau^2 2 g A^2 (ha - hb),   q0 = 1e-6 A m/s
type Throttle struct {
	quiet
	Area     float64 // m2
	Loss     float64 // K
	G        float64 // m/s2
	Schedule []network.Opening
}

// NewThrottle returns the device of a throttling valve.
func NewThrottle(t network.Throttle, g float64) *Throttle {
	return &Throttle{Area: math.Pi / 4 * t.Bore * t.Bore, Loss: t.Loss, G: g, Schedule: t.Schedule}
}

// Tau is the relative effective area at time t, s.
func (d *Throttle) Tau(t float64) float64 {
	s := d.Schedule
	if len(s) == 0 {
		return 1
	}
	if t <= s[0].Time {
		return s[0].Area
	}
	for i := 1; i < len(s); i++ {
		if t < s[i].Time {
			a, b := s[i-1], s[i]
			return a.Area + (b.Area-a.Area)*(t-a.Time)/(b.Time-a.Time)
		}
	}
	return s[len(s)-1].Area
}

func (d *Throttle) at(tau, q, ha, hb float64) Equation {
	if tau == 0 {
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
