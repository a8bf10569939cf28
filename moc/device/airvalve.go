package device

import (
	"math"

	"seatwise/network"
	"seatwise/network/quantity"
)

// Properties of air (dry, ideal gas).
const (
	thinnest    = 1e-3   // least pressure of a pocket, of the atmosphere's: less than the vapour pressure of cold water
	airGas      = 287.05 // specific gas constant R, J/(kg K)
	airExponent = 1.4    // isentropic exponent k
)

// AirMassFlux is the mass flux, kg/(m2 s), of air that flows without loss from absolute pressure p, Pa, at temperature T, K, to the pressure back,
// 0 <= back <= p. With s = back/p,
//
//	G = p sqrt( 2 k/((k-1) R T) (s^(2/k) - s^((k+1)/k)) )          s above the critical ratio s* = (2/(k+1))^(k/(k-1)) = 0.528
//	G = p sqrt(k/(R T)) (2/(k+1))^((k+1)/(2(k-1)))                 s below it: choked
//
// from the energy equation and p/rho^k of the isentropic nozzle; the two meet at s* with equal slope in s (dG/ds = 0).
// Source: any text on gas dynamics; for air valves Wylie, Streeter & Suo, Fluid Transients in Systems, 1993, ch. 6 (from memory).
func AirMassFlux(p, back, temperature float64) float64 {
	square, _ := airSquare(back / p)
	return p * math.Sqrt(square/(airGas*temperature))
}

// airSquare is (G/p)^2 R T at the pressure ratio s, and its slope.
func airSquare(s float64) (square, slope float64) {
	const k = airExponent
	critical := math.Pow(2/(k+1), k/(k-1))
	if s <= critical {
		return k * math.Pow(2/(k+1), (k+1)/(k-1)), 0
	}
	c := 2 * k / (k - 1)
	a, b := math.Pow(s, 2/k), math.Pow(s, (k+1)/k)
	return c * (a - b), c * (2/k*a - (k+1)/k*b) / s
}

// AirValve is an air valve on a node, with the pocket of air that it has let in. With q the liquid's flow towards the valve, m3/s, V the pocket, m3, p its
// absolute pressure, Pa, m its mass, kg, T its temperature, K, and z the elevation of the valve,
//
//	p = patm + rho g (ha - z)                                        the pocket stays at the valve; its height is left out
//	dV/dt = -q                                                       trapezoidal
//	V dp + n p dV = n R T dm                                         n = 1: p V = m R T exactly; dm = 0: p V^n = constant
//	dm/dt = Ci Ai G(patm, p)     while p < patm                      G of AirMassFlux; at the end of the step
//	dm/dt = -Co Ao G(p, patm)    while p > patm and V > 0
//
// Over a step of h seconds, with mean values in the third equation and index 0 at the start,
//
//	q - qe(p) = -4 n R T m'(p)/D,   qe = 4 V0 (p - p0)/(h D) - q0,   D = p - p0 + n (p + p0)
//
// which is squared with its sign near the solution, because m' has an infinite slope at p = patm and its square has not. When the last air leaves (V = 0) the valve
// shuts at that instant and stops the liquid, whose flow falls from q to 0; likewise the area of the second stage takes over at the instant at which
// the pocket has shrunk to its volume, until air enters again. No liquid leaves.
type AirValve struct {
	Data        network.AirValve
	Gamma       float64 // rho g, Pa/m
	Atmosphere  float64 // Pa
	squared     square  // of a flow of air, k = 1
	event       float64
	now, before pocket
	next        pocket
}

// pocket is the air in the line and what it did.
type pocket struct {
	v, p, q float64
	second  bool    // the second stage's area is in the way of air going out
	t       float64 // s
	most    float64 // largest so far, m3
	mostAt  float64 // s
	drawn   float64 // time of the first air, s; NaN: none
	shuts   int     // times that the last air left
	slam    float64 // greatest flow of liquid stopped, m3/s
	slamAt  float64 // s
}

// NewAirValve returns the device of an air valve; gamma is rho g, Pa/m.
func NewAirValve(d *network.AirValve, gamma, atmosphere float64) *AirValve {
	return &AirValve{Data: *d, Gamma: gamma, Atmosphere: atmosphere, squared: square{k: 1, q0: 1e-3 * math.Max(d.In, d.Out)}}
}

// pressure is the absolute pressure at the valve, Pa.
func (d *AirValve) pressure(ha float64) float64 { return d.Atmosphere + d.Gamma*(ha-d.Data.Elevation) }

// Steady implements Device: nothing flows.
func (d *AirValve) Steady(q, _, _ float64) Equation { return Equation{q, 1, 0, 0} }

// Settled finds a valve above the gradient line.
func (d *AirValve) Settled(ha, _ float64) error {
	if ha < d.Data.Elevation-1e-6 {
		return object("elevation", "put it below the gradient line of the steady flow", "the head in steady flow, %v, is below the valve at %v: it lets air in all the time", quantity.Level(ha), quantity.Level(d.Data.Elevation))
	}
	return nil
}

// Start implements Device.
func (d *AirValve) Start(_, ha, _ float64) {
	d.now = pocket{p: math.Max(d.pressure(ha), thinnest*d.Atmosphere), second: true, drawn: math.NaN()}
	d.next, d.event = d.now, 1
}

// massFlow is m'|m'|, kg2/s2, positive inwards, at pressure p, and its slope.
func (d *AirValve) massFlow(p float64) (square, slope float64) {
	rt := airGas * d.Data.Temperature
	a := d.Atmosphere
	if p < a {
		c := d.Data.CoefficientIn * d.Data.In * a
		f, fs := airSquare(p / a)
		return c * c / rt * f, c * c / rt * fs / a
	}
	if d.now.v == 0 {
		return 0, 0
	}
	area := d.Data.Out
	if d.Data.Stage > 0 && d.now.second {
		area = d.Data.StageOut
	}
	c := d.Data.CoefficientOut * area
	f, fs := airSquare(a / p)
	c *= c / rt
	return -c * p * p * f, -c * (2*p*f - a*fs)
}

// Try implements Device.
func (d *AirValve) Try(t, h, q, ha, _ float64) Equation {
	s := d.now
	if s.v == 0 {
		s.p = d.Atmosphere // that of the first air, not of the liquid before it: p dV = R T dm
	}
	p := d.pressure(ha)
	at := math.Max(p, thinnest*d.Atmosphere) // below, the curve goes on along its tangent
	d.next = s
	d.next.v, d.next.p, d.next.q, d.next.t = s.v-h/2*(s.q+q), at, q, t+h
	d.event = d.passed()
	n := d.Data.Polytropic
	den := at - s.p + n*(at+s.p)
	elastic, slope := 4*s.v*(at-s.p)/(h*den)-s.q, 8*n*s.v*s.p/(h*den*den)
	m, mp := d.massFlow(at)
	c := 4 * n * airGas * d.Data.Temperature / den
	c *= c
	x, xp := c*m, c*(mp-2*(1+n)*m/den)
	elastic += slope * (p - at)
	x += xp * (p - at)
	y := q - elastic
	if f := d.squared.flow(-x); far(y, f) {
		_, fy := d.squared.at(f)
		return Equation{y - f, 1, d.Gamma * (xp/fy - slope), 0}
	}
	y2, yy := d.squared.at(y)
	return Equation{y2 + x, yy, d.Gamma * (xp - yy*slope), 0}
}

// passed is how far the trial is from the next event, as a part of the largest pocket.
func (d *AirValve) passed() float64 {
	switch {
	case d.now.v == 0:
		return 1
	case d.Data.Stage > 0 && !d.now.second:
		return (d.next.v - d.Data.Stage) / d.now.most
	}
	return d.next.v / d.now.most
}

// Event implements Device.
func (d *AirValve) Event() float64 { return d.event }

// Accept implements Device.
func (d *AirValve) Accept(_, _, _, _, _ float64) {
	n := d.next
	if d.now.v == 0 && n.v <= 0 { // still shut
		n.v, n.q = 0, 0
	}
	if n.v > 0 && math.IsNaN(n.drawn) {
		n.drawn = n.t
	}
	if n.v > n.most {
		n.most, n.mostAt = n.v, n.t
	}
	if n.p < d.Atmosphere && n.v > d.Data.Stage {
		n.second = false
	}
	d.now = n
}

// Rest implements Device: the last air has left, or the second stage begins.
func (d *AirValve) Rest() {
	n := &d.now
	if d.Data.Stage > 0 && !n.second {
		n.second = true
		return
	}
	if n.shuts++; n.q > n.slam {
		n.slam, n.slamAt = n.q, n.t
	}
	n.v, n.q, n.second = 0, 0, true
}

// Touch implements Device.
func (d *AirValve) Touch(q, ha, _ float64) {
	d.now.p = math.Max(d.pressure(ha), thinnest*d.Atmosphere)
	if d.now.v > 0 {
		d.now.q = q
	}
}

// SubSteps implements Device.
func (d *AirValve) SubSteps(_ float64) int { return 1 }

// Save implements Device.
func (d *AirValve) Save() { d.before = d.now }

// Restore implements Device.
func (d *AirValve) Restore() { d.now, d.next = d.before, d.before }

// Volume is the present volume of air, m3.
func (d *AirValve) Volume() float64 { return d.now.v }

// Stored implements Store: air takes the place of liquid.
func (d *AirValve) Stored() float64 { return -d.now.v }

// Pressure is the present absolute pressure at the valve, Pa.
func (d *AirValve) Pressure() float64 { return d.now.p }

// Slam is the greatest flow of liquid, m3/s, that the valve stopped when the last air had left, and when, s.
func (d *AirValve) Slam() (flow, at float64) { return d.now.slam, d.now.slamAt }

// Notes tells how much air came in and how it left.
func (d *AirValve) Notes() []quantity.Sentence {
	n := d.now
	if math.IsNaN(n.drawn) {
		return nil
	}
	notes := []quantity.Sentence{quantity.Say("lets air in from %v on, at most %v at %v", quantity.Of(n.drawn, quantity.Time), quantity.Of(n.most, quantity.Volume), quantity.Of(n.mostAt, quantity.Time))}
	if n.shuts > 0 {
		notes = append(notes, quantity.Say("shuts %d times when the last air has left; at most %v of liquid are stopped, at %v", n.shuts, quantity.Of(n.slam, quantity.Flow), quantity.Of(n.slamAt, quantity.Time)))
	}
	if n.v > 0 {
		notes = append(notes, quantity.Say("%v of air are in the line at the end of the run", quantity.Of(n.v, quantity.Volume)))
	}
	return notes
}

// Resume implements Store.
func (d *AirValve) Resume(q float64) { d.now.q = q }
