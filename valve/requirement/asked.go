package requirement

import (
	"strings"

	"seatwise/network/quantity"
)

// Evidence is what a maker is asked to show by tests. Methods and leakage classes are those of the standards named (EN 1267 and IEC 60534-2-3 for the flow capacity,
// EN 12266-1, API 598 and ISO 5208 for the seat, from memory); for the dynamic response there is none, and the trade asks for the curve.
func (r *Requirement) Evidence() []string {
	var places []string
	seen := map[string]bool{}
	for _, p := range r.Places {
		if o := orientation(p.Slope); !seen[o] {
			seen[o], places = true, append(places, o)
		}
	}
	return []string{
		"Reverse velocity against deceleration of the flow, as measured points over a range that has the design deceleration within it; with nominal size, liquid, orientation (here: " +
			strings.Join(places, "; ") + ") and date of the test, and the definitions of deceleration and reverse velocity. Where another size was tested: the rule by which it was scaled.",
		"The full-open velocity, as measured, and the pressure drop at it.",
		"The flow capacity (Kv or Cv) or loss coefficient of the open valve, by EN 1267, IEC 60534-2-3 or an equal method.",
		"The tests of shell and seat with their acceptance rate, by EN 12266-1, API 598 or ISO 5208.",
	}
}

// Question is a blank that the maker fills in.
type Question struct {
	Label string
	Unit  string // that the answer is wanted in; "" for words
	Note  string
}

// Questions are the least that a data sheet of a check valve has to tell (common practice), in the units of the reader.
func Questions(units quantity.System) []Question {
	in := func(si, us string) string {
		if units == quantity.US {
			return us
		}
		return si
	}
	return []Question{
		{"tag number", "", ""},
		{"type of valve, type of seat", "", ""},
		{"nominal size and bore", in("mm", "in"), "where it differs from the pipe: that of the seat too"},
		{"body: pressure class, ends, face to face, standards", "", ""},
		{"materials of body, disc, seat, spring, pin", "", ""},
		{"leakage class and standard", "", ""},
		{"flow capacity and loss coefficient when open", in("Kv; 1", "Cv; 1"), "state the bore of the coefficient"},
		{"full-open velocity", in("m/s", "ft/s"), "in the liquid and orientation of this sheet"},
		{"cracking pressure", in("bar", "psi"), ""},
		{"moving mass; moment of inertia of a hinged disc", in("kg; kg·m2", "lb; lb·ft2"), "without liquid"},
		{"travel from seat to stop", in("mm or degrees", "in or degrees"), ""},
		{"spring: preload on the seat, and rate", in("N; N/m", "lbf; lbf/in"), in("of a hinged disc N·m; N·m/rad", "of a hinged disc lbf·ft; lbf·ft/rad")},
		{"hinge: arm from pin to centre of the disc, counterweight", in("mm; kg·m", "in; lb·ft"), "of a hinged disc"},
		{"damper: kind and part of the travel", "", ""},
		{"reverse velocity at the design deceleration", in("m/s", "ft/s"), "and whether measured or scaled"},
		{"straight run needed upstream and downstream", "pipe diameters", ""},
		{"allowed closings a year, inspection interval", "", ""},
		{"mass of the valve", in("kg", "lb"), ""},
		{"price, delivery", "", ""},
		{"deviations from this sheet", "", ""},
	}
}

// TestPoints is how many blank rows the sheet has for a curve.
const TestPoints = 6

// Cautions are those of the sheet itself, beside those of every report.
func (r *Requirement) Cautions() []string {
	return []string{
		"The allowed reverse velocity is that of a valve without a disc, which shuts at once when the reverse velocity is reached and, opened again by a wave, shuts at less in proportion to the root of the velocity reached. " +
			"A disc may do more at its later closings: compare the valve offered with its own data before it is ordered.",
		"A test curve is of a constant deceleration; a trip is not. Compare numbers of one definition only.",
	}
}
