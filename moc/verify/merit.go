package verify

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

func merits() []Case {
	return []Case{
		{"R1", Disc, "orders of magnitude of reverse velocities, DN200 to DN300, water, level pipe; recalled from the literature, from memory, ±50 %", meritChecks},
		{"R2", Disc, "rank order of the types of check valves, fast to slow, common practice", rankChecks},
		{"R3", Disc, "the bands of R1, against discs of metal that the acceleration of the liquid moves besides, by potential flow (valve.Carried); the program leaves that out", carriedChecks},
	}
}

// bands are recalled reverse velocities, m/s, at the decelerations of merit.
var bands = []struct {
	kind  string
	bands [len(merit)][2]float64
}{
	{"swing", [...][2]float64{{0.3, 0.5}, {0.8, 1.2}, {1.5, 2.2}, {2.5, 4}}},
	{"ball", [...][2]float64{{0.2, 0.4}, {0.5, 0.9}, {1.0, 1.6}, {2, 3}}},
	{"flap", [...][2]float64{{0.1, 0.3}, {0.3, 0.6}, {0.7, 1.2}, {1.3, 2.2}}},
	{"tilting disc", [...][2]float64{{0.1, 0.2}, {0.3, 0.5}, {0.6, 1.0}, {1.2, 1.8}}},
	{"dual plate", [...][2]float64{{0.05, 0.15}, {0.15, 0.35}, {0.4, 0.7}, {0.8, 1.4}}},
	{"nozzle", [...][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
	{"axial spring", [...][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
	{"spring disc", [...][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
}

var merit = [...]float64{2, 5, 10, 20} // m/s2

const meritDensity = 998.2

// generic is the catalogue's valve of DN300 in a level pipe.
func generic(kind string) (valve.Valve, error) {
	return catalogue.Complete(valve.Spec{Name: kind, Type: kind, Size: 0.3}, catalogue.Setting{Density: meritDensity, Gravity: 9.80665})
}

// closes is the reverse velocity of a valve at a deceleration, from a flow of 3.3 m/s that holds all of them open.
func closes(v valve.Valve, a float64) float64 {
	return characteristic.At(v, a, characteristic.Settings{InitialVelocity: 3.3}).ReverseVelocity
}

// meritChecks hold the generic valves against the middle of a band, half of which is the tolerance. They are comparisons: no measured point could be
// read, and nothing is fitted to them.
func meritChecks(context.Context) ([]Check, error) {
	var checks []Check
	for _, b := range bands {
		v, err := generic(b.kind)
		if err != nil {
			return nil, err
		}
		checks = append(checks, banded(v, b.bands, "")...)
	}
	return checks, nil
}

func banded(v valve.Valve, bands [len(merit)][2]float64, how string) []Check {
	var checks []Check
	for i, a := range merit {
		low, high := bands[i][0], bands[i][1]
		checks = append(checks, compared(within(fmt.Sprintf("reverse velocity, %s DN300%s at %g m/s2, band %g-%g", v.Name, how, a, low, high), "m/s", (low+high)/2, closes(v, a), (high-low)/2)))
	}
	return checks
}

// rankChecks hold each group of types against the one before it in the order: by how much its quickest valve comes before the slowest of that group.
func rankChecks(context.Context) ([]Check, error) {
	order := [][]string{{"axial spring", "spring disc", "nozzle"}, {"dual plate"}, {"tilting disc", "flap"}, {"ball"}, {"swing"}, {"swing lever"}}
	var checks []Check
	for _, a := range merit {
		var before []float64
		for i, group := range order {
			var reverse []float64
			for _, kind := range group {
				v, err := generic(kind)
				if err != nil {
					return nil, err
				}
				reverse = append(reverse, closes(v, a))
			}
			if i > 0 {
				say := fmt.Sprintf("lead of %s on %s at %g m/s2", strings.Join(group, " or "), strings.Join(order[i-1], " or "), a)
				checks = append(checks, compared(within(say, "m/s", 0, math.Max(0, slices.Max(before)-slices.Min(reverse)), 0)))
			}
			before = reverse
		}
	}
	return checks, nil
}

// carriedChecks add to the law of a disc of metal what the acceleration of the liquid does. The added mass on the record of a lifting disc is that
// broadside; of a hinged one it is that of a thin disc of the radius R in a body, 1.25 times 8/3 rho R^3.
func carriedChecks(context.Context) ([]Check, error) {
	var checks []Check
	for _, b := range bands {
		v, err := generic(b.kind)
		if err != nil {
			return nil, err
		}
		l, ok := v.Motion.(*valve.Law)
		if !ok { // a ball has it, and two plates that close together drive the liquid between them out
			continue
		}
		datum := func(key string) float64 {
			for _, d := range v.Data {
				if d.Key == key {
					return d.Value
				}
			}
			return 0
		}
		solid := meritDensity * datum("moving mass") / datum("disc density")
		moment := func(r, arm float64) cosine {
			return cosine{(1.25*meritDensity*8/3*r*r*r + solid) * arm, datum("seat angle")}
		}
		liquid := valve.Func(valve.Constant(solid + datum("added mass")))
		switch b.kind {
		case "swing":
			liquid = moment(datum("disc diameter")/2, datum("arm"))
		case "flap":
			liquid = moment(math.Sqrt(l.Area/math.Pi), datum("arm"))
		case "tilting disc":
			liquid = moment(datum("disc diameter")/2, datum("eccentricity"))
		}
		v.Motion = &valve.Carried{Law: l, Liquid: liquid}
		checks = append(checks, banded(v, b.bands, " moved by the acceleration too")...)
	}
	return checks, nil
}

// cosine is amplitude cos(y + lean).
type cosine struct{ amplitude, lean float64 }

func (c cosine) At(y float64) (float64, float64) {
	sin, cos := math.Sincos(y + c.lean)
	return c.amplitude * cos, -c.amplitude * sin
}
