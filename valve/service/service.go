// Package service tells which types of check valves a service rules out whatever their dynamics.
//
// The rules are common practice, from the quick guides of the trade:
//
//	dirty liquid    swing discs, the flap and the ball, which leave the bore free; springs, guides and plates in the stream foul
//	pigs            full-bore swing discs alone, that lift out of the bore: the travel has to clear it, about 85 to 90 degrees, which that of the generic disc does not
//	pulsation       guided lifts and pistons, and discs on a dashpot; others beat on seat or stop with every stroke
package service

import (
	"math"
	"strings"
)

// Service is what an engineer knows of a service that decides on types of valves. The zero value asks for nothing.
type Service struct {
	Dirty      bool // sewage, slurry, fibres
	Piggable   bool // pigs pass the valve
	Pulsation  bool // of a positive-displacement pump
	NoRotation bool // the pump must not turn backwards
	Harmless   bool // backflow until the disc is seated does no harm
}

// Valve is what the rules ask of a valve.
type Valve struct {
	Type   string // of the catalogue
	Damped bool   // it has a damper
}

// Against are the reasons that rule a valve out; none: it may serve. Valves without a disc, known by their tests or for bounds, are of no type that a
// rule speaks of.
func (s Service) Against(v Valve) []string {
	if v.Type == "ideal" || v.Type == "measured" {
		return nil
	}
	swing := v.Type == "swing" || strings.HasPrefix(v.Type, "swing ")
	var out []string
	if s.Dirty && !swing && v.Type != "flap" && v.Type != "ball" {
		out = append(out, "the liquid is dirty: springs, guides and plates in the stream foul; a swing disc, a flap or a ball leaves the bore free")
	}
	if s.Piggable && (!swing || v.Type == "swing heavy") {
		out = append(out, "pigs pass: only a swing disc in a full-bore body lifts out of their way")
	}
	if s.Pulsation && !v.Damped && v.Type != "lift" && v.Type != "swing dashpot" {
		out = append(out, "the flow pulsates: an undamped disc beats on its stop or seat with every stroke; a guided lift or a disc with a damper does not")
	}
	return out
}

// clears is the travel from which a swing disc leaves the bore free, rad (85 degrees, common practice).
const clears = 85 * math.Pi / 180

// Asks is what a type that may serve must be asked for; "" for nothing. The travel is that of the disc, rad, 0 where only the generic one is known.
func (s Service) Asks(v Valve, travel float64) string {
	if !s.Piggable || v.Type != "swing" && !strings.HasPrefix(v.Type, "swing ") || len(s.Against(v)) > 0 || travel >= clears {
		return ""
	}
	return "pigs pass: the travel must clear the bore, about 85 to 90 degrees, and that of the generic disc, 65 degrees, does not: ask the maker and give travel"
}
