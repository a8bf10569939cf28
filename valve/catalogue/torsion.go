package catalogue

import (
	"fmt"
	"math"

	"seatwise/valve"
)

// The springs of a dual plate are those of a valve with its hinge pin upright in a level pipe, which stands full open at 2.0 m/s in
// water (1.5-2.5 m/s, common practice); half of their moment on the stop is preload. The load on the open plates is 1.2 times the loss, at which
// a shut valve opens at 0.01-0.03 bar (common practice) and the pressure drop that the plates balance grows all the way: plates that bear more
// would open one after the other.
const (
	plateVelocity = 2.0
	plateShare    = 0.5
	plateLoad     = 1.2
)

// loads are the moments that hold two plates off their stops, over those of the first plate's spring:
//
//	p_i T_0 + q_i k Y + w_i,   p_1 = q_1 = 1
type loads struct {
	preload, rate [2]float64 // p, q
	weight        [2]float64 // w, N·m on the stop
}

// on are the moments, N·m, at a preload t0 and a moment ky of the rate over the travel.
func (l loads) on(t0, ky float64) (m [2]float64) {
	for i := range m {
		m[i] = l.preload[i]*t0 + l.rate[i]*ky + l.weight[i]
	}
	return m
}

// fit is the greatest x for which rest_i + share_i x stays within a moment on both plates.
func fit(moment float64, rest, share [2]float64) float64 {
	x := math.Inf(1)
	for i := range rest {
		if share[i] > 0 {
			x = math.Min(x, (moment-rest[i])/share[i])
		}
	}
	return x
}

// torsion finds preload T_0 and rate k of the first plate, or the load C. On their stops the plates bear
//
//	C rho/2 V^2 A L/2 >= p_i T_0 + q_i k Y + w_i + friction
//
// and the full-open velocity V is that at which the one with the greater moment just does. Given V, what is not given of the springs is chosen
// for it, with both of them the load. Without V the springs are those of the catalogue, and V follows from the plates as they are.
func (d *draft) torsion(p *valve.DualPlate) error {
	its := loads{preload: [2]float64{1}, rate: [2]float64{1}}
	its.preload[1] = d.take("second plate preload", 1, valve.Default, "equal plates")
	its.rate[1] = d.take("second plate spring rate", 1, valve.Default, "equal plates")
	for i := range its.weight {
		its.weight[i], _ = p.Weight(i).At(p.Travel)
	}
	load, err := d.plateLoad(p.LossOpen)
	if err != nil {
		return err
	}
	head := p.Density / 2 * math.Pi / 4 * p.Bore * p.Bore * p.Arm() / 2 // C V^2 times this is the moment on a plate
	full := head * load * plateVelocity * plateVelocity * water / p.Density
	t0, k := plateShare*full, (1-plateShare)*full/p.Travel
	spread, preloadStatus, rateStatus := 0.5, derived+", half of the moment on the stop at 2 m/s in water, "+practice, derived+" from the moment on the stop at 2 m/s in water, "+practice
	if d.given("full-open velocity") {
		if t0, k, load, err = d.sprung(its, head, load, p.Travel, p.Friction); err != nil {
			return err
		}
		spread, preloadStatus, rateStatus = 0, fromGiven, fromGiven
	}
	t0 = d.about(spread, "preload", t0, valve.Estimated, preloadStatus)
	k = d.about(spread, "spring rate", k, valve.Estimated, rateStatus)
	p.LoadOpen = load
	for i := range p.Plates {
		p.Plates[i].Preload, p.Plates[i].SpringRate = its.preload[i]*t0, its.rate[i]*k
	}
	return nil
}

// sprung are springs and load of a given full-open velocity; head is the moment on a plate per C V^2.
func (d *draft) sprung(its loads, head, load, travel, friction float64) (t0, k, c float64, err error) {
	v := d.take("full-open velocity", 0, valve.Given, "")
	moment := head*load*v*v - friction
	t0, hasPreload := d.spec.Set["preload"]
	k, hasRate := d.spec.Set["spring rate"]
	switch {
	case hasPreload && hasRate:
		if d.given("load coefficient") || len(d.spec.Tables["load table"].Value) > 0 {
			return 0, 0, 0, fmt.Errorf("%w: preload, spring rate, full-open velocity and load are tied to each other; leave one of them out", ErrValue)
		}
		m := its.on(t0, k*travel)
		load = (math.Max(m[0], m[1]) + friction) / (head * v * v)
		d.amend(0, "load coefficient", load, valve.Estimated, fromGiven)
	case hasPreload:
		k = fit(moment, its.on(t0, 0), its.rate) / travel
	case hasRate:
		t0 = fit(moment, its.on(0, k*travel), its.preload)
	default:
		full := fit(moment, its.weight, loads{preload: its.preload, rate: its.rate}.on(plateShare, 1-plateShare))
		t0, k = plateShare*full, (1-plateShare)*full/travel
	}
	if !(t0 >= 0 && k >= 0) {
		return 0, 0, 0, fmt.Errorf("%w: springs of %.4g N·m on the seat and %.4g N·m/rad do not agree with a full-open velocity of %.3g m/s, at which the flow holds each plate with %.4g N·m",
			ErrValue, t0, k, v, moment)
	}
	return t0, k, load, nil
}

// plateLoad is the load coefficient of the open plates.
func (d *draft) plateLoad(loss float64) (float64, error) {
	table := d.spec.Tables["load table"].Value
	if len(table) == 0 {
		return d.about(generic, "load coefficient", plateLoad*loss, valve.Catalogue, derived+": 1.2 times the loss when open, with which the valve opens at 0.01-0.03 bar, "+practice), nil
	}
	if d.given("load coefficient") {
		return 0, fmt.Errorf("%w: load coefficient and load table say the same; give one of them", ErrValue)
	}
	load := math.Max(1e-3, table[len(table)-1]) // the table's own check refuses less
	d.record("load coefficient", load, valve.Estimated, "last row of the load table")
	return load, nil
}
