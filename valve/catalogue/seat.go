package catalogue

import (
	"fmt"

	"seatwise/valve"
)

// seat is the pair of faces that meet when the disc shuts.
type seat struct {
	name        string
	restitution float64 // rebound over impact speed in liquid
	spread      float64 // of it, a fraction
	bounds      string  // of it, in words
	rate        float64 // leakage in the seat test, mm3/s per mm of nominal bore, guessed
	class       string  // of ISO 5208, that of the rate
}

// A hard seat is metal on metal, a soft one has rubber or plastic on one of the faces. New soft seats are delivered without visible leakage; of
// metal check valves the tests allow up to class G, 3 cm3/min per inch of bore (API 598, from memory).
var seats = [...]seat{
	soft: {name: "soft", restitution: 0.1, spread: 1, bounds: "0-0.2", rate: 0, class: "A"},
	hard: {name: "hard", restitution: 0.25, spread: 0.6, bounds: "0.1-0.4", rate: 2, class: "G"},
}

const (
	soft = iota
	hard
)

// The key of a seat and the one that says the same in numbers.
const (
	seatKind    = "seat"
	restitution = "restitution"
)

// rebound is the restitution of the seat.
func (d *draft) rebound() float64 {
	s, origin := seats[d.faces], valve.Default
	if d.given(seatKind) {
		origin = valve.Estimated
	}
	return d.about(s.spread, restitution, s.restitution, origin, fmt.Sprintf("%s seat, %s, %s", s.name, s.bounds, practice))
}

// seatLeak is the conductance with which the shut seat leaks: that of the law when it was given, else that of the class guessed for its kind of
// seat, which a run leaves out: it is too small to matter there.
func (d *draft) seatLeak(law float64) float64 {
	if d.given("leak") || d.given(leakageClass) {
		return law
	}
	return valve.SeatConductance(seats[d.faces].rate, d.spec.Size, d.nominalPressure())
}

// nominalPressure is the pressure class, PN, of the body.
func (d *draft) nominalPressure() float64 {
	if pn, ok := d.spec.Set["pressure class"]; ok {
		return pn
	}
	return 16
}
